"""`tripkit build TRIP --sealed`: what it asks, what it leaves, what it refuses."""

from __future__ import annotations

import os
import pty
import re
import subprocess
import sys
import tempfile
import time
from base64 import b64decode
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builder.cli import main
from tests.conftest import files_of, tripkit
from tests.site.test_sealed_page import DATA

ROOT = Path(__file__).resolve().parent.parent
WORDS = "four words of ours"
MARKERS = ("Zwetschgenkummer", "Quillonfjell", "Brambergine")
LONG_WORD = re.compile(r"[^\W\d_]{8,}")  # shorter ones chance may write into what is sealed


@pytest.fixture
def mine(in_empty_folder: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Give a content folder of one trip, with room for temporary files beside it."""
    assert tripkit("new", "folder", "mine").exit_code == 0
    scratch = in_empty_folder / "scratch"
    scratch.mkdir()
    monkeypatch.setenv("TMPDIR", str(scratch))
    monkeypatch.setattr(tempfile, "tempdir", None)
    trip = in_empty_folder / "mine/content/trips/first-trip.yaml"
    text = re.sub(r"(?m)^title:.*$", f"title: {MARKERS[0]} {MARKERS[1]}", trip.read_text("utf-8"))
    trip.write_text(f"{text}\nnotes: {MARKERS[2]}\n", "utf-8")
    return in_empty_folder


def left_in(scratch: Path) -> list[str]:
    """Give what lies there; not Jinja's folder of templates, which hold nothing of a trip."""
    return [each.name for each in scratch.iterdir() if not each.name.startswith("_jinja2-cache")]


def sealed(typed: str | bytes, *more: str) -> Result:
    arguments = ["build", "first-trip", "--sealed", "--content", "mine/content", *more]
    return CliRunner().invoke(main, arguments, input=typed)


def test_one_file_is_written_and_nothing_of_the_trip_beside_it(mine: Path) -> None:
    said = sealed(f"{WORDS}\n")
    assert said.exit_code == 0, said.output
    assert "Sealed kits/first-trip-sealed.html" in said.output
    assert "Without it nobody opens it" in said.output
    names = {name for name in files_of(Path("kits")) if not name.startswith(".built/")}
    assert names == {"first-trip-sealed.html"}
    assert left_in(mine / "scratch") == []
    inside = {name for name in files_of(Path("kits/.built"))}
    assert inside == {"_sealed-first-trip.json", "first-trip.lock", "trip-kits.txt"}


def test_no_word_of_the_kit_can_be_read_in_the_file_or_beside_it(mine: Path) -> None:
    assert tripkit("build", "--content", "mine/content", "--out", "plain").exit_code == 0
    plain = " ".join(
        held.decode()
        for name, held in files_of(Path("plain/first-trip")).items()
        if name in ("pocket.html", "kit.json")
    )
    assert all(marker in plain for marker in MARKERS)
    assert sealed(f"{WORDS}\n").exit_code == 0
    page = Path("kits/first-trip-sealed.html").read_text("utf-8")
    # The script and the style say the same for all trips: what another page has of them is no
    # word of this one.
    scripts = re.findall(r"(?s)<(?:script|style)>.*?</(?:script|style)>", page)
    door = page.split("<main>")[1].split("</main>")[0]
    common = set(LONG_WORD.findall(" ".join([*scripts, door, page.split("<body>")[0]])))
    assert not common & set(MARKERS)
    words = set(LONG_WORD.findall(plain)) - common
    assert len(words) > 200
    data = DATA.search(page)
    assert data
    packed = b64decode(data["data"].split('"content": "')[1].split('"')[0])
    held = {"data": data["data"], "packed": packed.decode("latin-1")}
    for name, content in files_of(Path("kits")).items():
        if not name.endswith("-sealed.html"):
            held[name] = f"{name} {content.decode('latin-1')}"
    told = {name: sorted(word for word in words if word in text) for name, text in held.items()}
    assert {name: found for name, found in told.items() if found} == {}
    assert not any(marker in page for marker in MARKERS)


def test_the_list_of_kits_does_not_name_it_and_stays(mine: Path) -> None:
    assert tripkit("new", "trip", "other", "--content", "mine/content").exit_code in (0, 1)
    Path("kits").mkdir()
    assert sealed(f"{WORDS}\n").exit_code == 0
    assert not Path("kits/index.html").exists()
    assert tripkit("build", "first-trip", "--content", "mine/content").exit_code == 0
    before = Path("kits/index.html").read_bytes()
    said = sealed(f"{WORDS}\n")
    assert Path("kits/index.html").read_bytes() == before
    assert b"sealed" not in before
    # What a build before left there for all to read is told.
    assert "Not sealed: kits/first-trip and kits/first-trip.zip" in said.output


def test_a_folder_whose_name_turns_the_line_round_is_said_so_that_it_does_not(mine: Path) -> None:
    turned = "a\u202eb"
    assert (
        tripkit("build", "first-trip", "--content", "mine/content", "--out", turned).exit_code == 0
    )
    said = sealed(f"{WORDS}\n", "--out", turned)
    assert said.exit_code == 0, said.output
    assert "Sealed a\ufffdb/first-trip-sealed.html" in said.output
    assert "Not sealed: a\ufffdb/first-trip and" in said.output and turned not in said.output


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("", "nothing on the standard input"),
        ("\n", "an empty passphrase"),
        ("   \n", "an empty passphrase"),
        ("one line\nand another\n", "2 lines on the standard input"),
        ("a\tb\n", "cannot be seen"),
        (b"\xff\xfe\n", "no text in UTF-8"),
    ],
)
def test_a_script_gives_just_one_line(typed: str | bytes, says: str, mine: Path) -> None:
    said = sealed(typed)
    assert said.exit_code == 1
    assert says in said.output
    assert "Traceback" not in said.output
    assert not list(Path("kits").glob("*.html"))
    assert left_in(mine / "scratch") == []


@pytest.mark.parametrize(("typed", "warned"), [("lake\n", True), (f"{WORDS}\r\n", False)])
def test_a_short_passphrase_is_warned_of(typed: str, warned: bool, mine: Path) -> None:
    said = sealed(typed)
    assert said.exit_code == 0
    assert ("at least 12 characters or 4 words" in said.output) == warned
    assert typed.strip() not in said.output


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["first-trip", "--public"], "--sealed and --public"),
        (["first-trip", "--part", "1/2"], "--sealed and --part"),
        (["first-trip", "--address", "https://example.org/"], "--sealed and --address"),
        ([], "no trip named"),
        (["first-trip", "second"], "2 trips named"),
        (["frist-trip"], "first-trip"),
    ],
)
def test_what_does_not_go_with_it_is_told(arguments: list[str], says: str, mine: Path) -> None:
    command = ["build", *arguments, "--sealed", "--content", "mine/content"]
    said = CliRunner().invoke(main, command, input=f"{WORDS}\n")
    assert said.exit_code == 1
    assert says in said.output
    assert not list(Path("kits").glob("*.html"))


def test_a_file_of_somebody_elses_stops_it(mine: Path) -> None:
    Path("kits").mkdir()
    Path("kits/first-trip-sealed.html").write_text("mine")
    said = sealed(f"{WORDS}\n")
    assert said.exit_code == 1
    assert "was not made by tripkit" in said.output
    assert Path("kits/first-trip-sealed.html").read_text() == "mine"


# -- on a terminal --------------------------------------------------------------------------------


class Typed:
    """The tool on a terminal, and what it said there."""

    def __init__(self, folder: Path) -> None:
        self.terminal, inner = pty.openpty()
        command = [sys.executable, "-m", "builder", "build", "first-trip", "--sealed"]
        self.process = subprocess.Popen(
            [*command, "--content", "mine/content"],
            stdin=inner,
            stdout=inner,
            stderr=inner,
            cwd=folder,
            start_new_session=True,
            env={**os.environ, "PYTHONPATH": str(ROOT), "TERM": "dumb"},
        )
        os.close(inner)
        self.said = ""

    def answer(self, question: str, line: str) -> None:
        """Wait for a question, then type a line."""
        seen = self.said.count(question)
        while self.said.count(question) == seen:
            self._read()
        time.sleep(0.2)  # until the terminal shows nothing of what is typed
        os.write(self.terminal, f"{line}\n".encode())

    def ended(self) -> int:
        """Read to the end, and give how it ended."""
        while self._read():
            pass
        return self.process.wait(timeout=60)

    def _read(self) -> bool:
        try:
            more = os.read(self.terminal, 4096)
        except OSError:  # Linux says so that the other side is closed
            return False
        self.said += more.decode("utf-8", "replace")
        return bool(more)


@pytest.fixture
def typed(mine: Path) -> Iterator[Typed]:
    started = Typed(mine)
    yield started
    if started.process.poll() is None:
        started.process.kill()
        started.process.wait()
    os.close(started.terminal)


@pytest.mark.parametrize(
    ("lines", "code", "says"),
    [
        ([WORDS, WORDS], 0, "Sealed kits/first-trip-sealed.html"),
        ([WORDS, "another", WORDS, WORDS], 0, "The two are not the same"),
        (["", WORDS, WORDS], 0, "an empty passphrase"),
        ([WORDS, "a", WORDS, "b", WORDS, "c"], 1, "no passphrase was typed the same twice"),
    ],
    ids=["same", "other, then same", "empty, then same", "never the same"],
)
def test_a_terminal_is_asked_twice_and_shows_nothing(
    lines: Sequence[str], code: int, says: str, typed: Typed
) -> None:
    questions = {True: "The same again: ", False: "Passphrase: "}
    again = False
    for line in lines:
        typed.answer(questions[again], line)
        again = not again and bool(line)
    assert typed.ended() == code, typed.said
    assert says in typed.said
    assert WORDS not in typed.said
    assert Path("kits/first-trip-sealed.html").exists() == (code == 0)


def test_a_program_that_is_told_to_end_leaves_no_plain_kit(mine: Path, typed: Typed) -> None:
    typed.answer("Passphrase: ", WORDS)
    typed.answer("The same again: ", WORDS)
    ends = time.monotonic() + 60
    while not list((mine / "scratch").rglob("kit.json")):
        assert time.monotonic() < ends and typed.process.poll() is None
        time.sleep(0.01)
    typed.process.terminate()
    assert typed.ended() == 128 + 15
    assert left_in(mine / "scratch") == []
    assert not Path("kits/first-trip-sealed.html").exists()
