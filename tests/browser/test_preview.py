"""The preview shows what was saved last, also where the browser kept an earlier kit."""

from __future__ import annotations

import threading
from pathlib import Path

from playwright.sync_api import Browser, expect

from builder.preview import Rebuilt, Shown
from builder.preview.server import server_for
from builder.record import replace
from builder.site.assemble import build_site
from tests.site.sample import ASSETS, BASE_CONFIG, sample_site

from .hosting import Host
from .looking import wait_until


def test_a_kept_kit_of_yesterday_gives_way(browser: Browser, tmp_path: Path) -> None:
    def build(line: str) -> None:
        build_site(sample_site(extra_page=f"\n{line}\n"), tmp_path, ASSETS, BASE_CONFIG)

    build("As it was yesterday.")
    context = browser.new_context()
    page = context.new_page()
    host = Host(tmp_path)
    address = f"{host.address}/lake-walk/cautions.html"
    page.goto(address)
    wait_until(page, "navigator.serviceWorker.controller !== null")
    host.stop()
    build("As it is today.")
    server = server_for(tmp_path, host.server.server_port, Shown())
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        page.goto(address)
        expect(page.get_by_text("As it is today.")).to_be_visible()
        wait_until(page, "caches.keys().then(names => names.length === 0)")
        for line in ("As it is at noon.", "As it is at night."):
            build(line)
            page.goto(address)
            expect(page.get_by_text(line)).to_be_visible()
        assert (
            page.evaluate("navigator.serviceWorker.getRegistrations().then(found => found.length)")
            == 0
        )
    finally:
        context.close()
        server.shutdown()
        server.server_close()
        thread.join(timeout=5)


def test_a_page_that_is_open_follows_what_is_saved(browser: Browser, tmp_path: Path) -> None:
    build_site(sample_site(), tmp_path, ASSETS, BASE_CONFIG)
    shown = Shown()
    server = server_for(tmp_path, 0, shown)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    context = browser.new_context()
    page = context.new_page()
    faults: list[str] = []
    page.on("console", lambda told: faults.append(told.text) if told.type == "error" else None)
    try:
        page.goto(f"http://127.0.0.1:{server.server_address[1]}/lake-walk/cook/bean-pot.html")
        first = page.locator(".steps input[type=checkbox]").first
        first.check()
        shown.tell(Rebuilt(stopped=True, said=("a.yaml:1:1: <b>wrong</b>",)))
        expect(page.locator("#kit-preview[role=alert]")).to_contain_text("a.yaml:1:1: <b>wrong</b>")
        expect(first).to_be_checked()
        # The kit is built anew: the page says so by itself, and what was ticked is ticked.
        changed = sample_site()
        pages = {
            **changed.pages,
            "cook/bean-pot.md": changed.pages["cook/bean-pot.md"] + "\nNew.\n",
        }
        build_site(replace(changed, pages=pages), tmp_path, ASSETS, BASE_CONFIG)
        shown.tell(Rebuilt(stopped=False, said=("a.yaml:2:1: warning: odd",)))
        expect(page.get_by_text("New.")).to_be_visible()
        expect(page.locator("#kit-preview pre")).to_be_hidden()
        expect(page.get_by_text("Rebuilt, with something to look at.")).to_be_visible()
        expect(page.locator(".steps input[type=checkbox]").first).to_be_checked()
        assert faults == []
    finally:
        context.close()
        shown.end()
        server.shutdown()
        server.server_close()
        thread.join(timeout=5)
