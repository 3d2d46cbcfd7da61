"""Keys go through a page in the order it is read in, and what they reach is seen, also enlarged.

A window of 1280 × 1024 has room for 640 × 512 at 200 % and for 320 × 256 at 400 %.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from .looking import offline_page

PAGES = (
    "tarrow-tops/index.html",
    "tarrow-tops/day-2.html",
    "lake-emmerin/meals/day-3-breakfast.html",
    "lake-emmerin/cook/shepherds-pockets.html",
    "tarrow-tops/bags.html",
    "tarrow-tops/if-it-goes-wrong.html",
    "at-home/stock.html",
    "graupel-ridge/pocket.html",
)
MOST_KEYS = 400
# What has the focus: its words, whether it is seen where it is, and where it stands in the page;
# what stays at an edge of the screen stands nowhere.
# Who presses keys so fast that a page still moves can be where it moves away from again.
FOCUSED = """async () => {
  for (let was = -1; was !== scrollY;) {
    was = scrollY;
    await new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)));
  }
  const one = document.activeElement;
  if (!one || one === document.body) return null;
  const switched = one.closest(".md-header__option");  // its box itself is never drawn
  const { left, top, width, height } = (switched ?? one).getBoundingClientRect();
  const reach = one.localName === "input" ? width : 40;
  const [x, y] = [left + Math.min(width, reach) / 2, top + height / 2];
  const hit = document.elementFromPoint(x, y);
  const label = one.closest("label") ?? one.labels?.[0];
  const seen = Boolean(hit)
    && (one.contains(hit) || hit.contains(one) || label?.contains(hit) || switched?.contains(hit));
  let stays = false;
  for (let each = one; each; each = each.parentElement) {
    stays ||= /fixed|sticky/.test(getComputedStyle(each).position);
  }
  const place = one.closest("tr, dl > div") ?? one;  // cells are read from side to side
  const at = stays || !one.closest("article, main") ? null
    : Math.round(place.getBoundingClientRect().top + scrollY);
  const words = (one.ariaLabel || one.textContent.trim() || label?.textContent || "").slice(0, 40);
  return [`${one.localName} ${words}`, seen, at];
}"""
LINE_PX = 24  # what stands beside one another is read as one line


@pytest.mark.parametrize(("width", "height"), [(640, 512), (320, 256)])
@pytest.mark.parametrize("name", PAGES)
def test_keys_reach_all_in_the_order_of_reading_and_it_is_seen(
    browser: Browser, demo_kits: Path, name: str, width: int, height: int
) -> None:
    with offline_page(browser, width, height, reduced_motion="reduce") as (page, _):
        page.goto((demo_kits / name).as_uri())
        expect(page.locator("html.kit-ready, html:not(:has(.md-header))")).to_be_attached()
        hidden, astray, last, reached = [], [], 0, 0
        for _ in range(MOST_KEYS):
            page.keyboard.press("Tab")
            focused = page.evaluate(FOCUSED)
            if focused is None:
                break
            if not focused[1]:  # the search slides in
                page.wait_for_timeout(300)
                focused = page.evaluate(FOCUSED)
            words, seen, at = focused
            reached += 1
            hidden += [] if seen else [words]
            if at is not None:
                astray += [(words, last, at)] if at < last - LINE_PX else []
                last = at
        else:
            pytest.fail("the keys never leave the page")
    assert reached > 5
    assert (hidden, astray) == ([], [])
