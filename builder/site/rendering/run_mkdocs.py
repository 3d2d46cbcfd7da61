"""The one module that knows the site generator: Markdown folder in, HTML folder out."""

from __future__ import annotations

import logging
import os
from collections.abc import Callable, Collection, Iterator, Sequence
from contextlib import contextmanager
from functools import cache
from html import escape
from pathlib import Path
from typing import Any, TypeAlias

# The theme prints a banner about MkDocs 2 when it is imported; the pins in pyproject.toml
# settle that, so whoever builds a kit need not read it.
os.environ["NO_MKDOCS_2_WARNING"] = "1"

import jinja2
from markupsafe import Markup
from mkdocs.commands.build import build
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import MkDocsException
from mkdocs.localization import install_translations
from mkdocs.theme import Theme
from mkdocs.utils.templates import script_tag_filter, url_filter

from builder.pages.ink import kept_templates
from builder.site.errors import SiteError
from builder.site.finishing.offline import is_needed
from builder.site.rendering.navigation import NavItem
from builder.site.rendering.page_markdown import PageMarkdown
from builder.site.search.search_plugin import SearchSections
from builder.speech import Speech, later, speech_of

NavConfig: TypeAlias = "dict[str, str | list[NavConfig]]"

# What the switch of colours says, in the order of the palette in the base configuration.
_COLOURS = (
    later("Colours: as the system. Switch to light"),
    later("Colours: light. Switch to dark"),
    later("Colours: dark. Switch to dim red for the night"),
    later("Colours: dim red. Switch to the system's"),
)


def render(
    *,
    docs: Path,
    into: Path,
    trip_id: str,
    title: str,
    language: str,
    nav: Sequence[NavItem],
    epoch: int,
    dates: Sequence[str],
    theme: Path,
    base_config: Path,
) -> None:
    """Render a folder of Markdown; any warning of the generator stops the kit."""
    with _collected_warnings() as warnings, _source_date(epoch):
        try:
            config = _configure(
                docs,
                into,
                trip_id=trip_id,
                title=title,
                language=language,
                nav=nav,
                dates=dates,
                theme=theme,
                base_config=base_config,
            )
            config.plugins.on_startup(command="build", dirty=False)
            build(config)
            config.plugins.on_shutdown()
        except MkDocsException as error:
            raise SiteError(f"the pages could not be built: {error}", warnings) from error
    if warnings:
        raise SiteError(f"the pages have {len(warnings)} dead links or other faults", warnings)


def _configure(
    docs: Path,
    into: Path,
    *,
    trip_id: str,
    title: str,
    language: str,
    nav: Sequence[NavItem],
    dates: Sequence[str],
    theme: Path,
    base_config: Path,
) -> MkDocsConfig:
    """Give the base configuration with what differs by trip."""
    config = MkDocsConfig(config_file_path=str(base_config))
    with base_config.open("rb") as file:
        config.load_file(file)
    say = speech_of(language)
    chosen = {
        **config["theme"],
        "custom_dir": str(theme),
        "language": language,
        "palette": _palette(say, config["theme"]["palette"]),
    }
    config.load_dict(
        {
            # Theme templates write titles as they come; Markup keeps `| e` from escaping twice.
            "site_name": Markup(escape(title)),
            "docs_dir": str(docs),
            "site_dir": str(into),
            "nav": _nav_config(nav),
            "theme": chosen,
            "copyright": escape(
                say(
                    "Local rules and licensed or official advice come first. All numbers are "
                    "estimates."
                ),
                quote=False,
            ),
            # Tick-offs and timers of two kits on one host are told apart by this.
            "extra": {
                **config["extra"],
                "kit": trip_id,
                "dates": list(dates),
                "said": _said_by_theme(say),
            },
            # Warnings are counted here, so that every one of them is told.
            "strict": False,
        }
    )
    config["markdown_extensions"] = [*config["markdown_extensions"], PageMarkdown.__module__]
    faults, doubts = config.validate()
    if faults or doubts:
        raise SiteError(
            f"{base_config} does not fit the generator",
            [f"{key}: {fault}" for key, fault in [*faults, *doubts]],
        )
    config.plugins[SearchSections.name] = SearchSections()
    config.theme = _KitTheme(config.theme)
    return config


def _palette(say: Speech, palette: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """Give the palette with what its switch says."""
    return [
        {**each, "toggle": {**each["toggle"], "name": escape(say(name))}}
        for each, name in zip(palette, _COLOURS, strict=True)
    ]


def _said_by_theme(say: Speech) -> dict[str, str]:
    """Give the words that the theme lacks in one of our languages, or has none for our readers."""
    said = {
        "header": say("Header"),
        "footer": say("Footer"),
        "toc": say("On this page"),
        "search.result.initializer": say("Type what you look for"),
    }
    return {key: escape(words) for key, words in said.items()}


def _nav_config(nav: Sequence[NavItem]) -> list[NavConfig]:
    """Give the navigation as the generator reads it, titles made harmless."""
    return [
        {Markup(escape(title)): target if isinstance(target, str) else _nav_config(target)}
        for title, target in nav
    ]


class _KitTheme(Theme):
    """The theme with one template environment per process and no page of the theme's own."""

    def __init__(self, plain: Theme) -> None:
        """Take over a theme that was read and checked."""
        self.__dict__.update(plain.__dict__)
        self.static_templates = set()

    def get_env(self) -> jinja2.Environment:
        """Give the shared environment for these template folders."""
        return _environment(tuple(self.dirs), str(self["language"]), self.locale)


class _KitEnvironment(jinja2.Environment):
    """An environment that looks through the theme's 14 000 files once, and only for needed ones."""

    listed: list[str] | None = None

    def list_templates(
        self,
        extensions: Collection[str] | None = None,
        filter_func: Callable[[str], bool] | None = None,
    ) -> list[str]:
        """Give the theme files a kit needs."""
        if self.listed is None:
            found = super().list_templates(extensions, filter_func)
            self.listed = [name for name in found if is_needed(name)]
        return self.listed


@cache
def _environment(dirs: tuple[str, ...], language: str, locale: Any) -> jinja2.Environment:
    """Give the environment for some template folders; compiled templates stay between kits."""
    environment = _KitEnvironment(
        loader=jinja2.FileSystemLoader(dirs), auto_reload=False, bytecode_cache=kept_templates()
    )
    environment.filters["url"] = url_filter
    environment.filters["script_tag"] = script_tag_filter
    install_translations(environment, locale, dirs)
    return environment


@contextmanager
def _collected_warnings() -> Iterator[list[str]]:
    """Collect what the generator warns of, without repeating it on the terminal."""
    told: list[str] = []

    class Collector(logging.Handler):
        """Keeps the text of each warning."""

        def emit(self, record: logging.LogRecord) -> None:
            """Keep one warning."""
            told.append(record.getMessage())

    logger = logging.getLogger("mkdocs")
    collector = Collector(level=logging.WARNING)
    before = (logger.level, logger.propagate)
    logger.addHandler(collector)
    logger.setLevel(logging.WARNING)
    logger.propagate = False
    try:
        yield told
    finally:
        logger.removeHandler(collector)
        logger.setLevel(before[0])
        logger.propagate = before[1]


@contextmanager
def _source_date(epoch: int) -> Iterator[None]:
    """Let the generator take its dates from the kit, not from the clock."""
    before = os.environ.get("SOURCE_DATE_EPOCH")
    os.environ["SOURCE_DATE_EPOCH"] = str(epoch)
    try:
        yield
    finally:
        if before is None:
            del os.environ["SOURCE_DATE_EPOCH"]
        else:
            os.environ["SOURCE_DATE_EPOCH"] = before
