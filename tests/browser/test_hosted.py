"""A hosted kit is fetched whole once, under any path, and then needs no network."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from .hosting import Host
from .looking import Seen, search_for, site_pages_of, wait_until

KEPT = """async () => {
  await navigator.serviceWorker.ready;
  const names = (await caches.keys()).filter(name => name.includes(location.pathname
    .split('/').slice(0, -1).join('/')));
  return Promise.all(names.map(async name => (await (await caches.open(name)).keys()).length));
}"""
REPLACED = "caches.keys().then(names => names.length === 1 && names[0].includes(' new-'))"


@pytest.fixture
def host(kits: Path) -> Iterator[Host]:
    # Two folders up, so that every kit lies under a path of its own.
    started = Host(kits.parents[1])
    yield started
    started.stop()


def kit_address(host: Host, kits: Path) -> tuple[Path, str]:
    kit = sorted(path.parent for path in kits.glob("*/kit.json"))[0]
    return kit, f"{host.address}/{kit.relative_to(kits.parents[1]).as_posix()}"


def open_and_keep(page: Page, address: str) -> list[int]:
    page.goto(f"{address}/index.html")
    wait_until(page, "navigator.serviceWorker.controller !== null")
    counts: list[int] = page.evaluate(KEPT)
    return counts


def test_after_one_visit_every_page_opens_with_the_host_gone(
    context: BrowserContext, host: Host, kits: Path
) -> None:
    kit, address = kit_address(host, kits)
    page = context.new_page()
    seen = Seen()
    seen.watch(page)
    files = [file for file in kit.rglob("*") if file.is_file() and file.name != "sw.js"]
    assert open_and_keep(page, address) == [len(files)]
    host.stop()
    for file in [*site_pages_of(kit), kit / "pocket.html"]:
        page.goto(f"{address}/{file.relative_to(kit).as_posix()}")
        expect(page.locator("h1")).to_be_visible()
    page.goto(f"{address}/")
    expect(page.locator("h1")).to_be_visible()
    page.goto(f"{address}/index.html?from=home")
    search_for(page, "carbon")
    expect(page.locator(".md-search-result__item a").first).to_be_visible()
    assert [url for url in seen.requests if not url.startswith((address, "data:"))] == []
    assert seen.complaints == []


def test_a_rebuilt_kit_replaces_the_kept_one(
    context: BrowserContext, kits: Path, tmp_path: Path
) -> None:
    kit = sorted(path.parent for path in kits.glob("*/kit.json"))[0]
    copy = tmp_path / "shared" / kit.name
    shutil.copytree(kit, copy)
    host = Host(tmp_path)
    try:
        page = context.new_page()
        address = f"{host.address}/shared/{kit.name}"
        open_and_keep(page, address)
        index = copy / "index.html"
        index.write_text(index.read_text().replace("</h1>", " (new)</h1>"), encoding="utf-8")
        worker = (copy / "sw.js").read_text()
        (copy / "sw.js").write_text(worker.replace('MARK = "', 'MARK = "new-'), encoding="utf-8")
        for changed in (index, copy / "sw.js"):
            # Hosts tell changes to the second; this one came a while later.
            os.utime(changed, (changed.stat().st_mtime + 60,) * 2)
        page.evaluate("navigator.serviceWorker.ready.then(one => one.update())")
        told = page.get_by_role("status").filter(has_text="A new version of this kit is here.")
        expect(told).to_be_visible()
        # Until the reader says so, every page is of the old version.
        page.goto(f"{address}/{site_pages_of(copy)[-1].relative_to(copy).as_posix()}")
        page.goto(f"{address}/index.html")
        expect(page.locator("h1")).not_to_contain_text("(new)")
        page.get_by_role("button", name="Use it now").click()
        expect(page.locator("h1")).to_contain_text("(new)")
        wait_until(page, REPLACED)
        expect(told).to_be_hidden()
        host.stop()
        page.reload()
        expect(page.locator("h1")).to_contain_text("(new)")
    finally:
        host.stop()


def test_a_kit_says_when_it_is_ready_offline(
    context: BrowserContext, host: Host, kits: Path
) -> None:
    _, address = kit_address(host, kits)
    page = context.new_page()
    page.goto(f"{address}/index.html")
    expect(page.locator(".kit-toast")).to_contain_text("Ready offline")
    expect(page.locator(".kit-offline")).to_contain_text("Ready offline")
    page.goto(f"{address}/cautions.html")
    expect(page.locator(".kit-offline")).to_contain_text("Ready offline")
    expect(page.locator(".kit-toast")).to_be_hidden()


def test_a_kit_that_could_not_be_fetched_whole_says_so_and_goes_on_from_what_is_kept(
    context: BrowserContext, kits: Path, tmp_path: Path
) -> None:
    kit = sorted(path.parent for path in kits.glob("*/kit.json"))[0]
    shutil.copytree(kit, tmp_path / "half")
    (tmp_path / "half" / "pocket.html").unlink()
    host = Host(tmp_path)
    try:
        page = context.new_page()
        page.goto(f"{host.address}/half/index.html")
        expect(page.locator(".kit-offline")).to_contain_text("could not be fetched whole")
        expect(page.locator(".kit-offline")).to_contain_text("goes on from what is kept")
        kept = (
            "caches.keys().then(async names => (await (await caches.open(names[0])).keys()).length)"
        )
        wait_until(page, f"{kept}.then(count => count > 5)")
        shutil.copy(kit / "pocket.html", tmp_path / "half")
        fetched: list[str] = []
        context.on("request", lambda request: fetched.append(request.url))
        page.reload()
        expect(page.locator(".kit-toast")).to_contain_text("Ready offline")
        assert (
            page.evaluate(kept) == len([*filter(Path.is_file, (tmp_path / "half").rglob("*"))]) - 1
        )
    finally:
        host.stop()


def test_a_hosted_kit_can_be_installed(context: BrowserContext, host: Host, kits: Path) -> None:
    kit, address = kit_address(host, kits)
    page = context.new_page()
    page.goto(f"{address}/{site_pages_of(kit)[-1].relative_to(kit).as_posix()}")
    link = page.locator("link[rel=manifest]")
    expect(link).to_have_attribute("href", f"{address}/webmanifest.json")
    manifest = page.evaluate(
        "fetch(document.querySelector('link[rel=manifest]').href).then(answer => answer.json())"
    )
    assert manifest["start_url"] == "index.html"
    for icon in manifest["icons"]:
        assert (kit / icon["src"]).is_file()
