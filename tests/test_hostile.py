"""Hostile texts in everything that leaves the tool: pages of trips and of the home, labels,
calendars, lists for spreadsheets, data, file names, the sheet for afterwards, what is said."""

from __future__ import annotations

import csv
import io
import json
import re
import socket
import threading
import zipfile
from functools import partial
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import quote

import pytest
from click.testing import Result
from PIL import Image

from builder.cli.places import layers_of, place_of
from builder.preview import Rebuilt, Shown
from builder.preview.server import server_for
from builder.reading.declared.values import on_one_line
from builder.reading.folder import read_folder
from tests.conftest import files_of, tripkit
from tests.hostile import TEXTS, write
from tests.pages import test_run_calendar

DAY = "1936137600"  # 2031-05-10
# What would turn the line around it, or break it where no line may be broken.
TURNS = re.compile("[\u202a-\u202e\u2066-\u2069]")
UNWANTED = re.compile("[\u202a-\u202e\u2066-\u2069\u2028\u2029]")
_RUNS = ("=", "+", "-", "@", "\t", "\r")
TRACK = """<gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1"><trk>
<name><![CDATA[</script><script>alert(1)</script>]]></name><trkseg>
<trkpt lat="57.0" lon="2.5"><ele>100</ele></trkpt>
<trkpt lat="57.01" lon="2.5"><ele>200</ele></trkpt>
</trkseg></trk></gpx>"""
_AT_HOME = "kits/at-home/"


class Elements(HTMLParser):
    """The elements of a page with the names of their attributes, and what stands in scripts."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.found: set[tuple[str, tuple[str, ...]]] = set()
        self.data: list[str] = []  # of scripts that hold data
        self.links: set[str] = set()
        self._holds_data = False
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = dict(attrs)
        self.found.add((tag, tuple(sorted(told))))
        self.links |= {str(told[name]) for name in ("href", "src", "action") if name in told}
        self._holds_data = tag == "script" and "json" in (told.get("type") or "")

    def handle_data(self, data: str) -> None:
        if self._holds_data:
            self.data.append(data)

    def handle_endtag(self, tag: str) -> None:
        self._holds_data = False


class Made:
    """What a folder with one hostile text in each of its fields was made into."""

    def __init__(self, name: str, folder: Path) -> None:
        write(folder / "content", TEXTS[name])
        self.said: dict[str, Result] = {
            "check": tripkit("check"),
            "build": tripkit("build"),
            "labels": tripkit("labels"),
            "runs": tripkit("runs", "--ics", "runs.ics"),
            "stock": tripkit("stock"),
            "explain": tripkit("explain", "hand", "fuel.likely_g", "--deep"),
        }
        self.files = {
            path: raw for path, raw in files_of(folder).items() if not path.startswith("content/")
        }
        self.pages = {
            path: Elements(raw.decode("utf-8"))
            for path, raw in self.files.items()
            if path.endswith((".html", ".svg"))
        }

    @property
    def elements(self) -> set[tuple[str, tuple[str, ...]]]:
        return {each for page in self.pages.values() for each in page.found}


@pytest.fixture(scope="module")
def made_of(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Made]:
    made = {}
    for name in TEXTS:
        with pytest.MonkeyPatch.context() as patch:
            folder = tmp_path_factory.mktemp("hostile")
            patch.chdir(folder)
            patch.setenv("SOURCE_DATE_EPOCH", DAY)
            made[name] = Made(name, folder)
    return made


@pytest.fixture(params=sorted(TEXTS))
def made(request: pytest.FixtureRequest, made_of: dict[str, Made]) -> Made:
    return made_of[request.param]


def test_every_command_takes_it(made: Made) -> None:
    for command, result in made.said.items():
        assert result.exit_code == 0, f"{command}: {result.output}"
        assert not UNWANTED.search(result.output), command


def test_no_page_has_an_element_or_attribute_that_plain_words_do_not_make(
    made: Made, made_of: dict[str, Made]
) -> None:
    assert made.elements - made_of["plain"].elements == set()
    assert len(made.pages) == len(made_of["plain"].pages)


def test_no_page_leads_anywhere_else(made: Made) -> None:
    for path, page in made.pages.items():
        led = [link for link in page.links if re.match(r"\s*(javascript:|//|https?:.*evil)", link)]
        assert led == [], path


def test_what_scripts_read_is_data(made: Made) -> None:
    """A text that ended the script would leave half of the data, which nothing reads."""
    told = 0
    for page in made.pages.values():
        for data in page.data:
            json.loads(data)
            told += 1
    assert told > 3
    for path, raw in made.files.items():
        if path.endswith(".json"):
            json.loads(raw)


def test_words_are_shown_on_pages_of_the_trip_of_the_home_and_on_labels(made: Made) -> None:
    def marks(*starts: str) -> int:
        told = b"".join(raw for path, raw in made.files.items() if path.startswith(starts))
        return len(set(re.findall(rb"zq\d+", told)))

    assert marks("kits/hand/") >= 15
    assert marks(_AT_HOME) >= 5
    assert marks("labels.html") >= 1 and marks("kits/index.html") >= 1


def test_nothing_turns_a_line_round_or_is_filled_in(made: Made) -> None:
    for path, raw in made.files.items():
        if path.endswith((".html", ".svg", ".csv", ".ics", ".json")):
            text = raw.decode("utf-8")
            # To JSON the signs that part lines are letters like any other.
            assert not (TURNS if path.endswith(".json") else UNWANTED).search(text), path
            assert not re.search(r"zq\d+ 49|49 zq\d+", text), path


def test_no_cell_of_a_list_is_run_by_a_spreadsheet(made: Made) -> None:
    lists = [raw for path, raw in made.files.items() if path.endswith(".csv")]
    assert len(lists) == 2
    for raw in lists:
        heads, *rows = csv.reader(io.StringIO(raw.decode("utf-8"), newline=""))
        assert rows and all(len(row) == len(heads) for row in rows)
        assert [cell for row in rows for cell in row if cell.startswith(_RUNS)] == []


def test_calendars_hold_the_events_that_plain_words_make(
    made: Made, made_of: dict[str, Made]
) -> None:
    for path in (_AT_HOME + "runs.ics", "runs.ics"):
        own, plain = (test_run_calendar.read(each.files[path]) for each in (made, made_of["plain"]))
        shapes = [
            [
                (name, sorted(properties), [sorted(each) for each in alarms])
                for name, properties, alarms in events
            ]
            for events in (own, plain)
        ]
        assert shapes[0] == shapes[1]
        assert any("zq" in properties.get("SUMMARY", "") for _, properties, _ in own)
        assert all("\n" not in properties.get("SUMMARY", "") for _, properties, _ in own)


def test_every_file_has_a_name_that_any_machine_can_have(made: Made) -> None:
    names = {path for path in made.files if path != "kits/.nojekyll" and "/." not in path}
    for path in (path for path in made.files if path.endswith(".zip")):
        with zipfile.ZipFile(io.BytesIO(made.files[path])) as held:
            names |= set(held.namelist())
    assert [name for name in names if not re.fullmatch(r"[A-Za-z0-9_./-]+", name)] == []
    assert [name for name in names if ".." in name or len(name.rsplit("/", 1)[-1]) > 120] == []


@pytest.mark.parametrize("name", sorted(TEXTS))
def test_the_sheet_for_afterwards_is_read_again_as_it_was_meant(
    name: str, in_empty_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", DAY)
    write(Path("content"), TEXTS[name])
    # A trip in flow style has no room for a sheet on lines of its own.
    trip = Path("content/trips/hand.yaml")
    told = json.loads(trip.read_text("utf-8"))
    lines = [f"{key}: {json.dumps(told[key], ensure_ascii=False)}\n" for key in told]
    trip.write_text("".join(lines), "utf-8")
    before = trip.read_bytes()
    result = tripkit("review", "hand")
    assert result.exit_code == 0, result.output
    assert trip.read_bytes().startswith(before) and b"review:" in trip.read_bytes()
    checked = tripkit("check")
    assert checked.exit_code == 0 and " 0 warnings" not in checked.output, checked.output


@pytest.mark.parametrize("name", sorted(TEXTS))
def test_trips_made_of_others_say_what_those_say(
    name: str, in_empty_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", DAY)
    content = in_empty_folder / "content"
    write(content, TEXTS[name])
    trip = json.loads((content / "trips/hand.yaml").read_text("utf-8"))
    # A second one, told otherwise in each thing that joining tells both places of.
    for key in ("title", "notes"):
        trip[key] += " too"
    trip.update(start="2031-07-01", mug="250 ml", shelter="hut")
    trip["party"].append({"name": f"{TEXTS[name][:100]} zq999", "mass": "70 kg"})
    (content / "trips/other.yaml").write_text(json.dumps(trip, ensure_ascii=False), "utf-8")
    assert tripkit("build", "hand").exit_code == 0
    for command in (
        ("join", "both", "hand", "other"),
        ("new", "trip", "again", "--from", "hand", "--start", "2032-06-01"),
        ("new", "trip", "anew", "--from", "kits/hand.zip", "--start", "2032-07-01"),
        ("check",),
        ("build", "both", "again", "anew"),
    ):
        result = tripkit(*command)
        assert result.exit_code == 0, f"{command}: {result.output}"
        assert not UNWANTED.search(result.output) and "\nEND:" not in result.output, command
    found = read_folder(layers_of(place_of(content))).content.trips
    hand, other, again, anew = (found[each] for each in ("hand", "other", "again", "anew"))
    assert [each.name for each in found["both"].party] == [
        *(each.name for each in hand.party), other.party[-1].name
    ]  # fmt: skip
    assert [each.title for each in found["both"].days] == [
        each.title for trip in (hand, other) for each in trip.days
    ]
    for made in (again, anew):
        assert [each.name for each in made.party] == [each.name for each in hand.party]
        assert [each.title for each in made.days] == [each.title for each in hand.days]
        assert made.gear_shared == hand.gear_shared
    names = [path.name for path in content.glob("[a-z]*/*")]
    assert [each for each in names if not re.fullmatch(r"[a-z0-9-]+\.yaml", each)] == []


STEMS = (
    "<img src=x onerror=alert(1)>",
    "=cmd",
    "a\u202eb",
    "a\u200bb",
    "a\nb",
    "x'\"",
    "-rf",
    "ü b",
)


@pytest.mark.parametrize("stem", STEMS)
def test_names_of_files_lead_nowhere_and_are_said_plainly(
    stem: str, in_empty_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", DAY)
    content = in_empty_folder / "content"
    write(content, TEXTS["plain"])
    for room in ("foods", "recipes", "batches"):
        for path in list((content / room).iterdir()):
            path.rename(path.with_name(f"{stem}.yaml"))
    trip = json.loads((content / "trips/hand.yaml").read_text("utf-8"))
    trip["picture"] = {"file": f"{stem}.png", "shows": "A tent"}
    trip["track"] = f"{stem}.gpx"
    (content / "trips/hand.yaml").write_text(json.dumps(trip), "utf-8")
    Image.new("RGB", (90, 90), (9, 80, 9)).save(content / "trips" / f"{stem}.png")
    (content / "trips" / f"{stem}.gpx").write_text(TRACK, "utf-8")
    for command in (
        ("build", "--out", stem),
        ("labels", "--out", f"{stem}.html"),
        ("runs", "--ics", f"{stem}.ics"),
        ("stock", "--json"),
        ("check", "--json"),
    ):
        # A name that begins like an option is told as one tells any of them.
        told = [f"./{word}" if word.startswith("-r") else word for word in command]
        result = tripkit(*told)
        assert result.exit_code == 0, result.output
        assert not UNWANTED.search(result.output) and "a\nb" not in result.output
    kits = files_of(in_empty_folder / stem)
    assert [name for name in kits if stem in name] == []
    assert any(name.endswith(".webp") for name in kits) == (on_one_line(stem) == stem)
    for name, raw in kits.items():
        if name.endswith((".html", ".svg")):
            page = Elements(raw.decode("utf-8"))
            assert not {("img", ("onerror", "src"))} & page.found, name
            assert b"alert(1)</" not in raw and not TURNS.search(raw.decode("utf-8")), name


@pytest.mark.parametrize("text", sorted(TEXTS.values()))
def test_what_a_preview_answers_in_error_repeats_nothing(text: str, tmp_path: Path) -> None:
    server = server_for(tmp_path, 0, Shown())
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()

    def asked(request: bytes) -> bytes:
        with socket.create_connection(("127.0.0.1", server.server_port), timeout=10) as line:
            line.sendall(request)
            line.shutdown(socket.SHUT_WR)
            return b"".join(iter(partial(line.recv, 65536), b""))

    raw = text[:200].encode("utf-8")
    path = quote(text[:200]).encode("ascii")
    host = f"Host: 127.0.0.1:{server.server_address[1]}\r\n\r\n".encode()
    try:
        for request in (
            b"GET /" + path + b" HTTP/1.1\r\n" + host,
            b"GET /" + raw.replace(b" ", b"") + b" HTTP/1.1\r\n" + host,
            b"GET /" + raw + b" HTTP/1.1\r\n" + host,
            b"GET /" + raw.replace(b" ", b"") + b" " + path + b"\r\n" + host,
            path + b" / HTTP/1.1\r\n" + host,
            b"GET / HTTP/1.1\r\nHost: " + raw.replace(b"\n", b"") + b"\r\n\r\n",
            b"GET /?" + raw.replace(b" ", b"") + b" HTTP/1.1\r\nHost: evil.example\r\n\r\n",
        ):
            heads, _, body = asked(request).partition(b"\r\n\r\n")
            # To a line that is no request at all the page alone is the answer.
            told = heads if heads.startswith(b"HTTP/") else b"HTTP/1.0 400 " + heads
            assert re.match(rb"HTTP/1\.[01] (?:400|403|404|414|501) ", told), (request, heads)
            for bad in (raw[:40], path[:40], b"alert", b"evil", b"END:"):
                assert bad == b"words" or not bad or bad not in heads + body, (request, heads, body)
        # Nobody is sent to another machine.
        away = asked(b"GET //evil.example/%2f.. HTTP/1.1\r\n" + host)
        assert re.findall(rb"\r\nLocation: (.*)", away) in ([], [b"/evil.example/%2f../\r"])
    finally:
        server.shutdown()
        server.server_close()
        thread.join(timeout=5)


def test_what_a_preview_tells_pages_stays_one_line_of_data() -> None:
    """A line break would begin another event of the stream that pages listen to."""
    said = [f"{text}\n\ndata: {{}}\r\n" for text in TEXTS.values()]
    shown = Shown()
    shown.tell(Rebuilt(stopped=True, said=said))
    assert len(shown.told.splitlines()) == 1 and shown.told.isascii()
    assert json.loads(shown.told)["said"] == said
