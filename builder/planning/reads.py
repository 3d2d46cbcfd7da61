"""Notes what planning a trip reads of a folder, so that it is planned anew only where that changed.

What a trip hangs on is not listed by hand, where something would be forgotten one day: whatever is
asked for while it is planned is noted, also what was asked for and is not there.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, TypeVar

from builder.model.content import Content, Gear
from builder.planning.stock import Stock
from builder.record import names_of, replace

Item = TypeVar("Item")
Read = tuple[str, str]  # the kind of a record, as cuttings name it, and its id
# In the place of an id: which records of a kind there are.
EVERY = "*"
# Behind a kind: whether there is such a record, whatever it tells.
WHETHER = "?"
OF_CONTENT = {
    "foods": "food",
    "batches": "batch",
    "recipes": "recipe",
    "trips": "trip",
    "cautions": "caution",
    "sources": "source",
}
OF_GEAR = names_of(Gear)
OF_STOCK = names_of(Stock)


class _Watched(Mapping[str, Item]):
    """A mapping that notes what is asked of it."""

    def __init__(self, kind: str, records: Mapping[str, Item], reads: set[Read]) -> None:
        """Stand for some records."""
        self._kind, self._records, self._reads = kind, records, reads

    def __getitem__(self, key: str) -> Item:
        """Give a record."""
        if isinstance(key, str):  # some ask by the id of what may be none
            self._reads.add((self._kind, key))
        return self._records[key]

    def __contains__(self, key: object) -> bool:
        """Tell whether there is such a record."""
        if isinstance(key, str):
            self._reads.add((self._kind + WHETHER, key))
        return key in self._records

    def __iter__(self) -> Iterator[str]:
        """Give the ids."""
        self._reads.add((self._kind, EVERY))
        return iter(self._records)

    def __len__(self) -> int:
        """Count the records."""
        self._reads.add((self._kind, EVERY))
        return len(self._records)


def watched(content: Content, stock: Stock, reads: set[Read]) -> tuple[Content, Stock]:
    """Give content and stock that note in `reads` what is asked of them.

    The home and the names of the folders are no records by id: a trip may hang on them unseen.
    """

    def of(kind: str, records: Mapping[str, Any]) -> Mapping[str, Any]:
        return _Watched(kind, records, reads)

    told: dict[str, Any] = {
        name: of(kind, getattr(content, name)) for name, kind in OF_CONTENT.items()
    }
    told["gear"] = Gear(**{name: of(name, getattr(content.gear, name)) for name in OF_GEAR})
    of_stock: dict[str, Any] = {name: of(name, getattr(stock, name)) for name in OF_STOCK}
    return replace(content, **told), replace(stock, **of_stock)
