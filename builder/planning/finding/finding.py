"""Finds records by any words of theirs: all words of a search narrow it, the best come first."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from builder.meant import folded, meant_by
from builder.planning.finding.known_as import Known
from builder.problems import near_words
from builder.record import dataclass

# How well a searched word fits a word of a mark.
_WHOLE, _START, _MORE, _WITHIN, _NEAR = 1.0, 0.9, 0.85, 0.7, 0.5
# By which a searched word is longer than one of ours, where it means more than one: `carrots`.
_OF_MORE = frozenset({"s", "es", "e", "n", "en", "er"})
_SHORTEST_MORE = 3  # letters
_SHORTEST_WITHIN = 3  # `te` is no part of `potatoes`
_SHORTEST_NEAR = 4
_ALL_OF_THE_NAME = 60.0  # more, where the search is the whole name
_ALL_OF_ANOTHER_NAME = 30.0
_START_OF_THE_NAME = 20.0

_PARTS = re.compile(r"[a-z0-9]+")


@dataclass(frozen=True, slots=True)
class Found:
    """A record that fits a search, and by what."""

    what: str
    id: str
    name: str
    because: tuple[str, ...]
    score: float

    def data(self) -> dict[str, object]:
        """Give it for a script."""
        return {"kind": self.what, "id": self.id, "name": self.name, "because": list(self.because)}


@dataclass(frozen=True, slots=True)
class Search:
    """What a search found, the best first, and what would do where that is nothing."""

    found: list[Found]
    near: dict[str, tuple[str, ...]]  # words that no record has → those that were taken for them
    alone: dict[str, int]  # how many records each word finds by itself


def find(records: Iterable[Known], searched: str) -> Search:
    """Give the records that fit every word of a search."""
    marked = [_Marked.of(each) for each in records]
    parts = list(dict.fromkeys(_PARTS.findall(folded(searched))))
    fits: dict[str, dict[int, _Fit]] = {}
    near: dict[str, tuple[str, ...]] = {}
    for part in parts:
        fits[part] = _all_that_fit(marked, part)
        if not fits[part] and len(part) >= _SHORTEST_NEAR:
            every = {word for each in marked for mark in each.words for word in mark}
            near[part] = tuple(near_words(part, every))
            for word in reversed(near[part]):  # the nearest last, so that it wins
                like = _all_that_fit(marked, word)
                fits[part] |= {n: fit.like(word) for n, fit in like.items()}
    both = set.intersection(*(set(each) for each in fits.values())) if fits else set()
    whole = _plain(searched)
    found = [marked[n].found([fits[part][n] for part in parts], whole) for n in both]
    found.sort(key=lambda each: (-each.score, len(each.name), each.what, each.id))
    return Search(found, near, {part: len(each) for part, each in fits.items()})


@dataclass(frozen=True, slots=True)
class _Fit:
    """How well a searched word fits a record, and by which mark."""

    score: float
    because: str

    def like(self, word: str) -> _Fit:
        return _Fit(self.score * _NEAR, f"near {word}: {self.because}")


@dataclass(frozen=True, slots=True)
class _Marked:
    """A record with the words of its marks in small plain letters."""

    record: Known
    words: tuple[tuple[str, ...], ...]

    @classmethod
    def of(cls, record: Known) -> _Marked:
        words = (tuple(_PARTS.findall(folded(mark.words))) for mark in record.marks)
        return cls(record, tuple(words))

    def fit(self, part: str, meant: frozenset[str]) -> _Fit | None:
        """Give how well a searched word fits, by itself or by what people mean with it."""
        best: _Fit | None = None
        for mark, words in zip(self.record.marks, self.words, strict=True):
            fits = _fits(part, words, mark.is_name)
            if not mark.is_name and not meant.isdisjoint(words):
                fits = max(fits, _START)  # names are told in every language as they are
            if fits and (best is None or fits * mark.weight > best.score):
                best = _Fit(fits * mark.weight, mark.says)
        return best

    def found(self, fits: Sequence[_Fit], whole: str) -> Found:
        record, score = self.record, sum(each.score for each in fits) / len(fits)
        score += max(_of_whole_name(each, whole) for each in (record.name, record.id))
        marks = zip(record.marks, self.words, strict=True)
        if any(mark.is_other_name and " ".join(words) == whole for mark, words in marks):
            score += _ALL_OF_ANOTHER_NAME
        because = tuple(dict.fromkeys(each.because for each in fits))
        return Found(record.what, record.id, record.name, because, score)


def _plain(words: str) -> str:
    return " ".join(_PARTS.findall(folded(words)))


def _of_whole_name(name: str, searched: str) -> float:
    text = _plain(name)
    if text == searched or (text and searched.removeprefix(text) in _OF_MORE):
        return _ALL_OF_THE_NAME
    return _START_OF_THE_NAME if f"{text} ".startswith(f"{searched} ") else 0.0


def _all_that_fit(marked: Sequence[_Marked], part: str) -> dict[int, _Fit]:
    """Give every record that a word fits, by what it is called or by what people mean with it."""
    meant = frozenset(word for ours in meant_by(part) for word in _PARTS.findall(folded(ours)))
    return {n: fit for n, each in enumerate(marked) if (fit := each.fit(part, meant)) is not None}


def _fits(part: str, words: Iterable[str], within: bool) -> float:
    """Give how well a searched word fits the best of some words, of names a part too."""
    best = 0.0
    for word in words:
        if word == part:
            return _WHOLE
        if word.startswith(part):
            best = max(best, _START)
        elif len(word) >= _SHORTEST_MORE and part.removeprefix(word) in _OF_MORE:
            best = max(best, _MORE)
        elif within and len(part) >= _SHORTEST_WITHIN and part in word:
            best = max(best, _WITHIN)
    return best
