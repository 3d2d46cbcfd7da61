"""What the preview shows now: which build, and what was said of what was saved last."""

from __future__ import annotations

import json
import secrets
import threading
from collections.abc import Sequence

from builder.record import dataclass


@dataclass(frozen=True, slots=True)
class Rebuilt:
    """What became of a rebuild."""

    stopped: bool  # the kit is as it was
    said: Sequence[str] = ()  # to the person, line by line

    @property
    def title(self) -> str:
        """Say it in a line, above the rest."""
        if self.stopped:
            return "Not rebuilt: you see the kit as it was before. Mend this and save again."
        return "Rebuilt, with something to look at."


class Shown:
    """The build that is shown, told to whoever waits for the next one."""

    def __init__(self) -> None:
        """Begin with a build that no page knows, not even one of a preview before this."""
        self._run = secrets.token_hex(8)
        self._builds = 0
        self._last = Rebuilt(stopped=False)
        self._over = False
        self._changed = threading.Condition()

    @property
    def build(self) -> str:
        """Name the build that is shown."""
        return f"{self._run}-{self._builds}"

    @property
    def told(self) -> str:
        """Give what pages are told, as one line of data."""
        last = self._last
        return json.dumps(
            {
                "build": self.build,
                "stopped": last.stopped,
                "title": last.title,
                "said": list(last.said),
            }
        )

    def tell(self, rebuilt: Rebuilt) -> None:
        """Take in what became of a rebuild, and wake whoever waits."""
        with self._changed:
            self._last = rebuilt
            if not rebuilt.stopped:
                self._builds += 1
            self._changed.notify_all()

    def end(self) -> None:
        """Let nobody wait any longer."""
        with self._changed:
            self._over = True
            self._changed.notify_all()

    @property
    def is_over(self) -> bool:
        """Tell whether nothing more will be shown."""
        return self._over

    def wait(self, known: str, longest_s: float) -> str:
        """Give what is told, as soon as it is not what is known, or after a while."""
        with self._changed:
            self._changed.wait_for(lambda: self._over or self.told != known, longest_s)
            return self.told
