"""All finishing touches on the rendered pages of a kit: on each frame once, on each article."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from builder.record import dataclass, replace
from builder.site.finishing.access import with_named_links
from builder.site.finishing.directions import isolated
from builder.site.finishing.finish import finish_article, finish_frame, without_idle_space
from builder.site.finishing.joints import with_joints
from builder.site.finishing.marks import with_marks
from builder.site.finishing.scripts import Script, scripts_wanted, tags_of, with_place_for_more
from builder.site.finishing.security import secured
from builder.site.rendering.framing import Frame, FramedPage, is_seen
from builder.speech import Speech

NUMBERS = "numbers"  # how the pages begin that tell how figures came about


def texts_of(pages: Mapping[str, FramedPage]) -> Iterator[str]:
    """Give all that pages hold, what they share once."""
    frames = {id(page.frame): page.frame for page in pages.values()}
    for frame in frames.values():
        yield from frame.texts()
    for page in pages.values():
        yield page.article
        yield from page.told.values()


def finished(
    pages: Mapping[str, FramedPage],
    marks: Mapping[str, str],
    scripts: Sequence[Script],
    say: Speech,
) -> dict[str, FramedPage]:
    """Give pages with classes for styles, table regions, the scripts they need and their policy."""
    frames: dict[int, _Finished] = {}
    done = {}
    for name, page in pages.items():
        known = id(page.frame)
        if known not in frames:
            frames[known] = _finished_frame(page.frame, marks, scripts)
        around = frames[known]
        article = finish_article(with_marks(page.article, marks))
        # Among the numbers every line tells what its figures are.
        if not name.startswith(NUMBERS):
            article = with_named_links(article, say)
        article = with_joints(article, say.language)
        told = {each: _finished_words(each, words) for each, words in page.told.items()}
        wanted = around.wanted | scripts_wanted(page.article, scripts)
        told[_SCRIPTS] = tags_of([each for each in scripts if each.name in wanted], around.assets)
        done[name] = replace(page, frame=around.frame, article=article, told=told)
    return done


_SCRIPTS = "scripts"


@dataclass(frozen=True, slots=True)
class _Finished:
    """A finished frame, the scripts that it needs itself, and where they lie."""

    frame: Frame
    wanted: frozenset[str]
    assets: str


def _finished_frame(frame: Frame, marks: Mapping[str, str], scripts: Sequence[Script]) -> _Finished:
    own = "\n".join(frame.texts())
    before, after, own_item, *items = (
        finish_frame(with_marks(text, marks))
        for text in (frame.before, frame.after, frame.own_item, *frame.items)
    )
    after, assets = with_place_for_more(after, _SCRIPTS)
    ready = Frame(secured(before, after), after, tuple(items), own_item)
    return _Finished(ready, scripts_wanted(own, scripts), assets)


def _finished_words(name: str, words: str) -> str:
    words = without_idle_space(words)
    return isolated(words) if is_seen(name) else words
