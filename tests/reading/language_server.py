"""An editor's language server for YAML, where one is installed: what it underlines in a file."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO, Any

COMMAND = os.environ.get("YAML_LANGUAGE_SERVER") or shutil.which("yaml-language-server")
_SETTINGS = {"validate": True, "completion": True, "schemaStore": {"enable": False}}

Range = tuple[tuple[int, int], tuple[int, int]]  # lines and columns, counted from 1


class LanguageServer:
    """Speaks to a server over its standard input and output."""

    def __init__(self, into: IO[bytes], out: IO[bytes], root: Path) -> None:
        """Greet it."""
        self._into, self._out, self._asked = into, out, 0
        self._underlined: dict[str, list[dict[str, Any]]] = {}
        capabilities = {"workspace": {"configuration": True}}
        self._ask(
            "initialize",
            {"processId": None, "rootUri": root.as_uri(), "capabilities": capabilities},
        )
        self._send("initialized", {})

    def underlined(self, path: Path, text: str) -> list[tuple[Range, str]]:
        """Open a file and give what is underlined, each with what is said of it."""
        address = path.as_uri()
        document = {"uri": address, "languageId": "yaml", "version": 1, "text": text}
        self._send("textDocument/didOpen", {"textDocument": document})
        while address not in self._underlined:
            self._take(self._read())
        return [
            ((_point(each["range"]["start"]), _point(each["range"]["end"])), each["message"])
            for each in self._underlined[address]
        ]

    def completed(self, path: Path, line: int, column: int) -> list[str]:
        """Give what may stand at a point of a file that is open."""
        where = {"line": line - 1, "character": column - 1}
        told = {"textDocument": {"uri": path.as_uri()}, "position": where}
        return [each["label"] for each in self._ask("textDocument/completion", told)["items"]]

    def _ask(self, method: str, told: dict[str, Any]) -> Any:
        self._asked += 1
        self._send(method, told, self._asked)
        while True:
            message = self._read()
            if message.get("id") == self._asked and "method" not in message:
                return message["result"]
            self._take(message)

    def _take(self, message: dict[str, Any]) -> None:
        """Keep what is underlined, and answer what the server asks."""
        method = message.get("method")
        if method == "textDocument/publishDiagnostics":
            self._underlined[message["params"]["uri"]] = message["params"]["diagnostics"]
        elif "id" in message:
            asked = message.get("params") or {}
            items = [each.get("section") for each in asked.get("items", [])]
            found = [_SETTINGS if each == "yaml" else {} for each in items]
            self._write({"id": message["id"], "result": found or None})

    def _send(self, method: str, told: dict[str, Any], number: int | None = None) -> None:
        self._write(
            {"method": method, "params": told, **({} if number is None else {"id": number})}
        )

    def _write(self, message: dict[str, Any]) -> None:
        raw = json.dumps({"jsonrpc": "2.0", **message}).encode()
        self._into.write(b"Content-Length: %d\r\n\r\n%b" % (len(raw), raw))
        self._into.flush()

    def _read(self) -> Any:
        length = 0
        while (line := self._out.readline()).strip():
            name, _, value = line.partition(b":")
            if name.lower() == b"content-length":
                length = int(value)
        assert length, "the language server fell silent"
        return json.loads(self._out.read(length))


def _point(told: dict[str, int]) -> tuple[int, int]:
    return told["line"] + 1, told["character"] + 1


@contextmanager
def language_server(root: Path) -> Iterator[LanguageServer]:
    """Start the server for as long as it is needed."""
    assert COMMAND is not None
    with subprocess.Popen(
        [COMMAND, "--stdio"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
    ) as process:
        assert process.stdin is not None and process.stdout is not None
        try:
            yield LanguageServer(process.stdin, process.stdout, root)
        finally:
            process.kill()
