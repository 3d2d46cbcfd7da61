"""Records that are made when they are first asked for."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping
from functools import cached_property
from typing import TypeVar

from builder.model.figure import with_origins

Key = TypeVar("Key", bound=Hashable)
Item = TypeVar("Item")


class OnAsking(Mapping[Key, Item]):
    """A mapping of which some items are made one by one, each when it is first asked for.

    The shipped food list is far longer than what one folder eats of it: its ids are known at
    once, and what stands behind an id is read where somebody names it.
    """

    def __init__(
        self, made: Mapping[Key, Item], makers: Mapping[Key, Callable[[Key], Item]]
    ) -> None:
        """Take what is made already, which wins, and how the rest is made."""
        self._made = dict(made)
        self._makers = {key: make for key, make in makers.items() if key not in made}
        self._keys = tuple({**makers, **made})

    def __getitem__(self, key: Key) -> Item:
        """Give an item, made now where it was not asked for before."""
        if key not in self._made and key in self._makers:
            with with_origins():
                self._made[key] = self._makers[key](key)
        return self._made[key]

    def waits(self, key: Key) -> bool:
        """Tell whether an item is still to be made."""
        return key in self._makers and key not in self._made

    def __contains__(self, key: object) -> bool:
        """Tell whether there is such an item, without making it."""
        return key in self._made or key in self._makers

    def __iter__(self) -> Iterator[Key]:
        """Give the keys, those still to be made first."""
        return iter(self._keys)

    def __len__(self) -> int:
        """Count the items."""
        return len(self._keys)

    def changed(self, change: Callable[[Item], Item]) -> OnAsking[Key, Item]:
        """Give each item changed: those that are made now, the others when they are asked for."""

        def make(key: Key) -> Item:
            return change(self[key])

        made = {key: change(item) for key, item in self._made.items()}
        return OnAsking(made, dict.fromkeys(self._keys, make))


class AllOnAsking(Mapping[Key, Item]):
    """A mapping that is made as a whole when something of it is first asked for."""

    def __init__(self, make: Callable[[], Mapping[Key, Item]]) -> None:
        """Take how it is made."""
        self._make = make

    @cached_property
    def _made(self) -> Mapping[Key, Item]:
        with with_origins():
            return self._make()

    def __getitem__(self, key: Key) -> Item:
        """Give an item."""
        return self._made[key]

    def __iter__(self) -> Iterator[Key]:
        """Give the keys."""
        return iter(self._made)

    def __len__(self) -> int:
        """Count the items."""
        return len(self._made)


def each_changed(records: Mapping[Key, Item], change: Callable[[Item], Item]) -> Mapping[Key, Item]:
    """Give records with each of them changed, and none made before it is asked for."""
    if isinstance(records, OnAsking):
        return records.changed(change)
    return {key: change(item) for key, item in records.items()}


def with_instead(records: Mapping[Key, Item], instead: Mapping[Key, Item]) -> OnAsking[Key, Item]:
    """Give records with others in the place of some, and none made before it is asked for."""
    return OnAsking(instead, dict.fromkeys(records, records.__getitem__))
