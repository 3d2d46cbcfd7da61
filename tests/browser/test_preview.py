"""The preview shows what was saved last, also where the browser kept an earlier kit."""

from __future__ import annotations

import threading
from pathlib import Path

from playwright.sync_api import Browser, expect

from builder.preview import server_for
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
    server = server_for(tmp_path, host.server.server_port)
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
