"""The words that a record was read from."""

from __future__ import annotations

from builder.reading.text.yaml_door import Node, read_yaml
from builder.record import dataclass


@dataclass(frozen=True, slots=True)
class RecordText:
    """A record's own words, so that a kit can hand them on with their comments."""

    path: str  # inside a content folder, such as "foods/fruit.yaml"
    text: str  # of the whole file
    kept_node: Node | None  # None where the words are read again when somebody asks
    section: str = ""  # of a gear file, such as "stoves"
    whole_file: bool = False
    shown: str = ""  # the file as people are told it, where it is read again

    @property
    def node(self) -> Node:
        """Where it stands in its file."""
        node = self.kept_node or read_yaml(self.text, self.shown)[0]
        assert node is not None, "what was read once can be read again"
        return node
