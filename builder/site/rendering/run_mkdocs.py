"""The one module that knows MkDocs: Markdown in, HTML out."""

from __future__ import annotations

import logging
import os
from collections.abc import Callable, Collection, Iterator, Mapping
from contextlib import contextmanager
from functools import cache
from html import escape
from typing import Any

# The theme prints a banner about MkDocs 2 when it is imported; the pins in pyproject.toml
# settle that, so whoever builds a kit need not read it.
os.environ["NO_MKDOCS_2_WARNING"] = "1"

import jinja2
from markupsafe import Markup
from mkdocs.commands.build import get_context
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import MkDocsException
from mkdocs.localization import install_translations
from mkdocs.structure.files import File, Files, file_sort_key, set_exclusions
from mkdocs.structure.nav import get_navigation
from mkdocs.structure.pages import Page
from mkdocs.theme import Theme
from mkdocs.utils.templates import TemplateContext, script_tag_filter, url_filter

from builder.model.place import Place
from builder.pages.ink import kept_templates
from builder.problems import Problem
from builder.site.errors import SiteError
from builder.site.finishing.offline import is_needed
from builder.site.rendering.chrome import NotLearned, ThemeOf, framed_by_theme, framed_pages
from builder.site.rendering.page_markdown import ReadyHtml, read_page
from builder.site.rendering.renderer import Rendered, Rendering, own_settings, refuse_faults
from builder.site.search.found import found_on


def render(asked: Rendering) -> Rendered:
    """Render pages of Markdown; any warning of the generator stops the kit."""
    with _collected_warnings() as warnings, _source_date(asked.site.epoch):
        try:
            config = _configure(asked)
            rendered = _rendered(config, asked.files)
        except MkDocsException as error:
            raise SiteError(f"the pages could not be built: {error}", warnings) from error
    refuse_faults(warnings)
    return rendered


def _rendered(config: MkDocsConfig, given: Mapping[str, bytes]) -> Rendered:
    """Do what the generator does in a build, but for pages that need not go through all of it."""
    config.plugins.on_startup(command="build", dirty=False)
    config = config.plugins.on_config(config)
    env = config.theme.get_env()
    # None of them lies on the disk: to write a small file takes longer than to render a page.
    made = [File.generated(config, path, content=content) for path, content in given.items()]
    files = Files(sorted(made, key=file_sort_key))
    files.add_files_from_theme(env, config)
    set_exclusions(files, config)
    nav = get_navigation(files, config)
    docs = files.documentation_pages()
    pages = [file.page or Page(None, file, config) for file in docs]
    for page in pages:
        read_page(page, config, files)
    files.copy_static_files()
    parts = found_on(pages, config, nav)
    theme = _theme(env, lambda page: get_context(nav, docs, config, page))
    doubts: tuple[Problem, ...] = ()
    try:
        framed = framed_pages(pages, nav, theme)
    except NotLearned as why:
        framed = {page.file.dest_uri: framed_by_theme(page, theme) for page in pages}
        doubts = (_slow(str(why)),)
    for page in pages:
        page.validate_anchor_links(files=files, log_level=config.validation.links.anchors)
    config.plugins.on_shutdown()
    return Rendered(framed, parts, doubts)


def _theme(env: jinja2.Environment, context: Callable[[Page], TemplateContext]) -> ThemeOf:
    """Give what the theme makes of a page, and of a line of its contents."""

    def by_theme(page: Page) -> str:
        page.active = True
        try:
            return env.get_template("main.html").render(context(page))
        finally:
            page.active = False

    line = env.get_template("partials/toc-item.html")
    return ThemeOf(by_theme, lambda link: line.render(toc_item=link))


def _slow(why: str) -> Problem:
    """Say that pages take longer than they need to."""
    return Problem(
        Place("theme", 1, 1),
        "theme-unknown",
        f"every page goes through the theme by itself, which takes longer: {why}",
        "install the versions of the libraries that this tool names",
        "warning",
    )


def _configure(asked: Rendering) -> MkDocsConfig:
    """Give the base configuration with what differs by trip."""
    config = MkDocsConfig(config_file_path=str(asked.base_config))
    with asked.base_config.open("rb") as file:
        config.load_file(file)
    # Theme templates write titles as they come; Markup keeps `| e` from escaping twice.
    config.load_dict(own_settings(asked, config, as_title=lambda title: Markup(escape(title))))
    config["docs_dir"] = str(asked.theme)  # some folder has to be told; no page is read from it
    # Warnings are counted here, so that every one of them is told.
    config["strict"] = False
    config["markdown_extensions"] = [*config["markdown_extensions"], ReadyHtml.__module__]
    faults, doubts = config.validate()
    if faults or doubts:
        raise SiteError(
            f"{asked.base_config} does not fit the generator",
            [f"{key}: {fault}" for key, fault in [*faults, *doubts]],
        )
    config.theme = _KitTheme(config.theme)
    return config


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
    """An environment that looks through the theme's files once, and only for needed ones."""

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


class _ThemeFolders(jinja2.FileSystemLoader):
    """The theme's folders without its many thousands of icons: no file of those is ever listed."""

    def list_templates(self) -> list[str]:
        """List the files of the theme but for hidden folders, which the generator leaves out."""
        found: set[str] = set()
        for top in self.searchpath:
            for folder, inner, names in os.walk(top):
                inner[:] = [name for name in inner if not name.startswith(".")]
                below = os.path.relpath(folder, top).replace(os.sep, "/")
                found |= {name if below == "." else f"{below}/{name}" for name in names}
        return sorted(found)


@cache
def _environment(dirs: tuple[str, ...], language: str, locale: Any) -> jinja2.Environment:
    """Give the environment for some template folders; compiled templates stay between kits."""
    environment = _KitEnvironment(
        loader=_ThemeFolders(dirs), auto_reload=False, bytecode_cache=kept_templates()
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
