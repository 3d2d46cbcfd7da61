"""Firefox and WebKit, driven by what they bring along themselves: no driver is fetched for them."""

from __future__ import annotations

import json
import os
import shutil
import socket
import subprocess
import time
from abc import ABC, abstractmethod
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from subprocess import DEVNULL
from typing import IO
from urllib.error import HTTPError
from urllib.request import Request, urlopen

MOST_SECONDS = 60.0
ELEMENT = "element-6066-11e4-a52e-4f735466cecf"  # how the W3C's WebDriver calls one
# Nothing leaves the machine, as for the other browser tests.
FIREFOX_PREFERENCES = (
    'user_pref("marionette.port", 0);\n'
    'user_pref("network.proxy.type", 1);\n'
    'user_pref("network.proxy.http", "127.0.0.1");\n'
    'user_pref("network.proxy.http_port", 9);\n'
    'user_pref("network.proxy.ssl", "127.0.0.1");\n'
    'user_pref("network.proxy.ssl_port", 9);\n'
)
# What the console holds of pages, not of the browser's own windows.
CONSOLE = """
const told = Services.console.getMessageArray()
  .filter(each => each instanceof Ci.nsIScriptError && each.sourceName.startsWith("file:"))
  .map(each => each.errorMessage);
Services.console.reset();
return told;
"""
Answer = dict[str, object]


class NotHere(Exception):
    """A browser, or something that it needs, is not installed."""


class Driven(ABC):
    """A browser with one page."""

    @abstractmethod
    def open(self, address: str) -> None:
        """Go to a page, and wait until it is there."""

    @abstractmethod
    def run(self, script: str) -> object:
        """Give what a script returns."""

    @abstractmethod
    def _found(self, selector: str) -> str: ...

    @abstractmethod
    def _do(self, element: str, what: str, body: Answer) -> None: ...

    def click(self, selector: str) -> None:
        """Click the first element that fits."""
        self._do(self._found(selector), "click", {})

    def type(self, selector: str, words: str) -> None:
        """Type into a field, key by key."""
        self.run(f"document.querySelector({json.dumps(selector)}).focus()")
        self._do(self._found(selector), "type", {"text": words})

    def wait_for(self, script: str) -> object:
        """Give what a script returns, as soon as it returns something."""
        ends = time.monotonic() + MOST_SECONDS
        while time.monotonic() < ends:
            if found := self.run(script):
                return found
            time.sleep(0.1)
        raise AssertionError(f"waited in vain: {script}")


class Firefox(Driven):
    """Firefox by Marionette: JSON with its length before it, over a socket."""

    def __init__(self, port: int) -> None:
        self._socket = socket.create_connection(("127.0.0.1", port), timeout=MOST_SECONDS)
        self._sent = 0
        self._answer()
        self._ask("WebDriver:NewSession", {})

    def open(self, address: str) -> None:
        self._ask("WebDriver:Navigate", {"url": address})

    def run(self, script: str) -> object:
        return self._ask("WebDriver:ExecuteScript", {"script": script, "args": []})["value"]

    def complaints(self) -> list[str]:
        """Give what its console was told of faults in pages since it was asked last."""
        self._ask("Marionette:SetContext", {"value": "chrome"})
        told = self.run(CONSOLE)
        self._ask("Marionette:SetContext", {"value": "content"})
        assert isinstance(told, list)
        return told

    def close(self) -> None:
        """End the browser."""
        self._ask("Marionette:Quit", {"flags": ["eForceQuit"]})
        self._socket.close()

    def _found(self, selector: str) -> str:
        found = self._ask("WebDriver:FindElement", {"using": "css selector", "value": selector})
        assert isinstance(found["value"], dict)
        return str(found["value"][ELEMENT])

    def _do(self, element: str, what: str, body: Answer) -> None:
        name = {"click": "WebDriver:ElementClick", "type": "WebDriver:ElementSendKeys"}[what]
        self._ask(name, {"id": element, **body})

    def _ask(self, name: str, body: Answer) -> Answer:
        self._sent += 1
        told = json.dumps([0, self._sent, name, body])
        self._socket.sendall(f"{len(told)}:{told}".encode())
        answer = self._answer()
        assert isinstance(answer, list)
        _, _, wrong, value = answer
        assert not wrong, wrong
        return value if isinstance(value, dict) else {"value": value}

    def _answer(self) -> object:
        length = b""
        while (one := self._socket.recv(1)) != b":":
            assert one, "the browser went away"
            length += one
        told = b""
        while len(told) < int(length):
            told += self._socket.recv(int(length) - len(told))
        return json.loads(told)


class WebKit(Driven):
    """WebKitGTK's small browser by its own WebDriver."""

    def __init__(self, port: int, binary: str) -> None:
        self._root = f"http://127.0.0.1:{port}/session"
        options = {"binary": binary, "args": ["--automation"]}
        wanted = {"alwaysMatch": {"webkitgtk:browserOptions": options}}
        session = self._ask("", {"capabilities": wanted})
        assert isinstance(session, dict)
        self._root += f"/{session['sessionId']}"

    def open(self, address: str) -> None:
        self._ask("/url", {"url": address})

    def run(self, script: str) -> object:
        return self._ask("/execute/sync", {"script": script, "args": []})

    def close(self) -> None:
        """End the browser."""
        self._ask("", None)

    def _found(self, selector: str) -> str:
        found = self._ask("/element", {"using": "css selector", "value": selector})
        assert isinstance(found, dict)
        return str(found[ELEMENT])

    def _do(self, element: str, what: str, body: Answer) -> None:
        self._ask(f"/element/{element}/{'value' if what == 'type' else what}", body)

    def _ask(self, path: str, body: Answer | None) -> object:
        """Send a body, or without one ask for the end."""
        data = None if body is None else json.dumps(body).encode()
        request = Request(self._root + path, data, method="DELETE" if data is None else "POST")
        try:
            with urlopen(request, timeout=MOST_SECONDS) as answer:
                return json.loads(answer.read())["value"]
        except HTTPError as wrong:
            raise AssertionError(wrong.read().decode()) from wrong


@contextmanager
def firefox(home: Path) -> Iterator[Firefox]:
    """Start Firefox without a window, with a profile of its own."""
    binary = _installed("firefox-esr", "firefox")
    (home / "user.js").write_text(FIREFOX_PREFERENCES, encoding="utf-8")
    told = home / "MarionetteActivePort"
    ways = ("--marionette", "--remote-allow-system-access", "--headless", "--no-remote")
    command = [binary, *ways, "--profile", str(home)]
    with _running(command, {"HOME": str(home)}) as process:
        _wait(lambda: told.exists() and bool(told.read_text()), process)
        driven = Firefox(int(told.read_text()))
        yield driven
        driven.close()
        process.wait(timeout=MOST_SECONDS)


@contextmanager
def webkit(home: Path) -> Iterator[Driven]:
    """Start WebKitGTK's small browser on a screen that nobody sees."""
    driver, binary = _installed("WebKitWebDriver"), _small_browser()
    port = _free_port()
    with (
        _screen(home) as more,
        _running([driver, f"--port={port}"], more) as process,
    ):
        _wait(lambda: _answers(port), process)
        driven = WebKit(port, binary)
        yield driven
        driven.close()


def webkit_complaints(home: Path, pages: list[str], ends: list[str]) -> str:
    """Open pages, each in a tab, and give what the console was told, with all that must be in it.

    Where a driver drives it, this browser tells nothing.
    """
    told = home / "told"
    command = [_small_browser(), "--enable-write-console-messages-to-stdout=true", *pages]
    with (
        _screen(home) as more,
        told.open("wb") as console,
        _running(command, more, console=console) as process,
    ):
        _wait(lambda: all(each in told.read_text("utf-8") for each in ends), process)
    return told.read_text("utf-8")


def _small_browser() -> str:
    found = next(iter(Path("/usr/lib").glob("*/webkit2gtk-4.*/MiniBrowser")), None)
    if found is None:
        raise NotHere("MiniBrowser of webkit2gtk is not installed")
    return str(found)


@contextmanager
def _screen(home: Path) -> Iterator[dict[str, str]]:
    """Start a screen that nobody sees; give what WebKitGTK has to know."""
    reads, writes = os.pipe()
    shown = [_installed("Xvfb"), "-displayfd", str(writes), "-nolisten", "tcp"]
    with _running(shown, {}, writes):
        os.close(writes)
        with os.fdopen(reads) as told:
            display = told.readline().strip()
        yield {
            **{"HOME": str(home), "XDG_RUNTIME_DIR": str(home), "DISPLAY": f":{display}"},
            # Containers allow no sandbox within; the only pages shown are the kit's own.
            "WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS": "1",
        }


def _installed(*names: str) -> str:
    found = next((path for name in names if (path := shutil.which(name))), None)
    if found is None:
        raise NotHere(f"{names[0]} is not installed")
    return found


@contextmanager
def _running(
    command: list[str], more: dict[str, str], *passed: int, console: int | IO[bytes] = DEVNULL
) -> Iterator[subprocess.Popen[bytes]]:
    with subprocess.Popen(
        command,
        env={**os.environ, **more},
        pass_fds=passed,
        stdout=console,
        stderr=console,
    ) as process:
        try:
            yield process
        finally:
            process.terminate()


def _wait(is_there: Callable[[], bool], process: subprocess.Popen[bytes]) -> None:
    ends = time.monotonic() + MOST_SECONDS
    while not is_there():
        assert process.poll() is None, "the browser ended at once"
        assert time.monotonic() < ends, "the browser did not start"
        time.sleep(0.1)


def _answers(port: int) -> bool:
    with socket.socket() as probe:
        return probe.connect_ex(("127.0.0.1", port)) == 0


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])
