"""Measures speed and size as ratios in one run, against plain builds of the same pages."""

from __future__ import annotations

import os
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from builder.cli.planner import planned_kits
from builder.clock import build_epoch
from builder.model.kit import Kit
from builder.pages.pictures import pictures_of
from builder.pages.trip.book import write_book
from builder.reading.folder import Folder, Layer, read_folder
from builder.reading.pictures.small_copies import copies_of
from builder.site.build import Order, Pictures, build_kit
from tests.benchmarks.saving import seconds_until_told

if TYPE_CHECKING:
    from playwright.sync_api import Browser

ROOT = Path(__file__).resolve().parents[2]

PLAIN = """site_name: plain
theme: {name: material, font: false}
use_directory_urls: false
plugins: [search]
markdown_extensions: [attr_list, md_in_html, tables]
"""
TRIPS = ("graupel-ridge", "lake-emmerin", "rindle-fen", "tarrow-tops")


def timed(work: Callable[[], object]) -> float:
    """Give the seconds that something takes."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def command(*arguments: str, cwd: Path | None = None) -> None:
    """Run a command in a process of its own, quietly."""
    environment = {**os.environ, "NO_MKDOCS_2_WARNING": "1", "PYTHONPATH": str(ROOT)}
    subprocess.run(
        [sys.executable, "-m", *arguments],
        cwd=cwd,
        env=environment,
        check=True,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )


def best(work: Callable[[], object], times: int, before: Callable[[], object]) -> float:
    """Give the shortest of several measurements, which other work on the machine disturbs least."""
    shortest = float("inf")
    for _ in range(times):
        before()
        shortest = min(shortest, timed(work))
    return shortest


def demo_folder() -> Folder:
    """Read the demo."""
    return read_folder([Layer(ROOT / "content", "content")])


def demo_kits(folder: Folder) -> list[Kit]:
    """Plan the demo trips, as a build does."""
    kits, _ = planned_kits(folder, lambda known, _: sorted(known))
    return kits


def plain_sites(scratch: Path) -> list[Path]:
    """Write the Markdown of the demo kits as plain projects."""
    projects = []
    for kit in demo_kits(demo_folder()):
        book = write_book(kit, ROOT / "site_templates")
        project = scratch / "plain" / kit.id
        for path, text in book.markdown.items():
            target = project / "docs" / path
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_text(text, "utf-8")
        (project / "mkdocs.yml").write_text(PLAIN)
        projects.append(project)
    return projects


def shelf(folder: Path, count: int) -> Path:
    """Write a content folder of many trips: the demo's, each under many names."""
    content = folder / f"shelf-{count}"
    for room in ("recipes", "batches"):
        shutil.copytree(ROOT / "content" / room, content / room)
    for log in sorted((content / "batches").glob("*.yaml")):
        text = log.read_text("utf-8")
        log.write_text(text.replace("packs: {count: ", "packs: {count: 9"), "utf-8")
    (content / "trips").mkdir()
    for number in range(count):
        source = ROOT / "content/trips" / f"{TRIPS[number % len(TRIPS)]}.yaml"
        text = source.read_text("utf-8").replace("title: ", f"title: Number {number} ", 1)
        text = differing(text, number)
        # A batch cannot feed a hundred trips: its food is taken as dried and unnamed.
        text = re.sub(r"(\{eat: [^{}]*?), from: [a-z0-9-]+", r"\1, dried_by: dehydrator", text)
        text = re.sub(r", from: (?:\{[^}]*\}|[a-z0-9-]+)", "", text)
        (content / "trips" / f"trip-{number:03d}.yaml").write_text(text, "utf-8")
    return content


def differing(trip: str, number: int) -> str:
    """Give a trip with other bodies, heights and amounts: of trips alike much is known already."""

    def more(by: float) -> Callable[[re.Match[str]], str]:
        return lambda found: f"{found[1]}{float(found[2]) + by:g}{found[3]}"

    trip = re.sub(r"(, mass: )(\d+)( kg, height)", more(number % 13 * 0.5), trip)
    trip = re.sub(r"(\bheight: )(\d+)( m\b)", more(number % 17 * 5), trip)
    return re.sub(r"(\beach: )(\d+)( g\b)", more(number % 7), trip)


# A phone on a slow network: 1.6 Mbit/s, 150 ms there and back, a processor a quarter as fast.
SLOW_NETWORK = {
    "offline": False,
    "latency": 150,
    "downloadThroughput": 200_000,
    "uploadThroughput": 90_000,
}
SLOWER_PROCESSOR = 4
FIRST_PAINT = """() => new Promise(done => new PerformanceObserver((list, self) => {
  const found = list.getEntries().at(-1);
  if (found) { self.disconnect(); done(found.startTime); }
}).observe({type: 'largest-contentful-paint', buffered: true}))"""
FIRST_PAGES = ("index.html", "day-2.html")


def paint_share(kits: Path, projects: list[Path]) -> float | None:
    """Give the time to the first meaningful paint over that of the same pages in the plain theme.

    The most meaningful paint is that of the largest thing on the screen. Page by page, in turns,
    each in a browser that has kept nothing; None where there is no browser to ask.
    """
    try:
        from playwright.sync_api import sync_playwright

        from tests.browser.conftest import QUIET, find_browser
        from tests.browser.hosting import Host, Packing
    except ImportError:
        return None
    path = find_browser()
    if path is None:
        return None
    ours: list[float] = []
    theirs: list[float] = []
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=list(QUIET))
        for _ in range(3):
            for project in projects:
                for name in FIRST_PAGES:
                    for folder, times in ((kits / project.name, ours), (project / "site", theirs)):
                        host = Host(folder, Packing)
                        try:
                            times.append(paint_ms(browser, f"{host.address}/{name}"))
                        finally:
                            host.stop()
        browser.close()
    return float(statistics.median(ours) / statistics.median(theirs))


def paint_ms(browser: Browser, address: str) -> float:
    """Give when the largest thing on a phone's screen was painted."""
    context = browser.new_context(viewport={"width": 360, "height": 740}, service_workers="block")
    page = context.new_page()
    session = context.new_cdp_session(page)
    session.send("Network.enable")
    session.send("Network.emulateNetworkConditions", SLOW_NETWORK)
    session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER_PROCESSOR})
    page.goto(address, wait_until="load")
    page.wait_for_timeout(200)
    painted: float = page.evaluate(FIRST_PAINT)
    context.close()
    return painted


def pictures_shown(kit: Kit) -> Pictures:
    """Give the pictures of a kit's pages."""
    shown = [each for each in pictures_of(kit) if each is not None]
    return Pictures(copies_of(shown), tuple(each.path for each in shown), {})


def computing_share() -> float:
    """Give the share of a warm build that is computing: all but imports, pages and site."""
    folder = demo_folder()
    computing = site = 0.0
    for _ in range(2):  # the second is warm
        start = time.perf_counter()
        kits = demo_kits(folder)
        computing = time.perf_counter() - start
        with tempfile.TemporaryDirectory() as out:
            start = time.perf_counter()
            for kit in kits:
                build_kit(
                    Order(
                        kit,
                        {"trips/x.yaml": b"title: x"},
                        build_epoch(kit.start),
                        Path(out),
                        ROOT / "site_templates",
                        ROOT / "mkdocs.yml",
                        pictures=pictures_shown(kit),
                    )
                )
            site = time.perf_counter() - start
    return computing / (computing + site)


def main(quick: bool) -> int:
    """Measure, print a table, and fail where a bound is broken."""
    rows: list[tuple[str, float, float]] = []
    # As it is where somebody installs it, and as the libraries beside it are: a checkout may be
    # one into which nothing compiled is written by itself.
    command("compileall", "-q", str(ROOT / "builder"))
    with tempfile.TemporaryDirectory() as name:
        scratch = Path(name)
        projects = plain_sites(scratch)
        out = scratch / "out"

        def fresh() -> None:
            shutil.rmtree(out, ignore_errors=True)

        def plain(*some: Path) -> None:
            for project in some:
                command("mkdocs", "build", cwd=project)

        times = 2 if quick else 3
        one = best(lambda: plain(projects[TRIPS.index("tarrow-tops")]), times, lambda: None)
        every = best(lambda: plain(*projects), times, lambda: None)
        build = ("builder", "build", "--out", str(out))
        rows.append(
            (
                "demo kits / as many plain builds",
                best(lambda: command(*build), times, fresh) / every,
                0.6,
            )
        )
        rows.append(
            (
                "one trip / one plain build",
                best(lambda: command(*build, "tarrow-tops"), times, fresh) / one,
                0.9,
            )
        )
        command(*build)
        rows.append(
            (
                "nothing changed / one plain build",
                best(lambda: command(*build), times, lambda: None) / one,
                0.25,
            )
        )
        rows.append(("computing / warm build", computing_share(), 0.15))
        saved = min(seconds_until_told(scratch))
        rows.append(("saved until the page is told / one plain build", saved / one, 0.8))
        zips = max((out / f"{trip}.zip").stat().st_size for trip in TRIPS)
        pockets = max((out / trip / "pocket.html").stat().st_size for trip in TRIPS)
        rows.append(("largest zip / 500 KB", zips / 500_000, 1.0))
        rows.append(("largest pocket page / 150 KB", pockets / 150_000, 1.0))
        paint = paint_share(out, projects)
        if paint is None:
            print("no browser: first paints were not measured")
        else:
            rows.append(("first meaningful paint / in the plain theme", paint, 1.0))
        if not quick:
            costs: dict[int, float] = {}
            for count in (10, 100):
                content = shelf(scratch, count)
                arguments = (
                    "builder",
                    "build",
                    "--content",
                    str(content),
                    "--out",
                    str(out),
                    "--jobs",
                    "2",
                )
                costs[count] = best(partial(command, *arguments), 1, fresh)
            rows.append(
                (
                    "100 trips / 100 plain builds one by one",
                    costs[100] / (100 * every / len(projects)),
                    0.15,
                )
            )
            again = partial(command, *arguments)
            unchanged = best(again, 3, lambda: None)
            rows.append(("nothing changed of 100 / one plain build", unchanged / one, 0.25))
            trip = content / "trips" / "trip-007.yaml"
            trip.write_text(trip.read_text("utf-8").replace("title: ", "title: Our ", 1), "utf-8")
            changed = best(again, 1, lambda: None)
            rows.append(("one trip of 100 changed / one plain build", changed / one, 1.5))
            rows.append(
                ("a trip among 100 / a trip among 10", costs[100] / 100 / (costs[10] / 10), 1.1)
            )
    broken = 0
    for what, ratio, bound in rows:
        good = ratio <= bound
        broken += not good
        print(f"{'ok  ' if good else 'OVER'} {ratio:6.2f} of {bound:4.2f}  {what}")
    return 1 if broken else 0
