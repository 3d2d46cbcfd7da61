"""German and Norwegian words are longer: nothing is cut for that, and the kits stay light."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from builder.model.home import AT_HOME

from .looking import SCROLLS, offline_page, pages_of
from .test_weight import MOST_ZIP_BYTES

# Words of which a part stands in the next line; what a joint parts counts as two.
CUT_WORDS = r"""() => {
  document.querySelectorAll("details").forEach(one => { one.open = true; });
  const places = "h1, h2, h3, th, td, dt, dd, summary, .steps label";
  const found = [];
  for (const place of document.querySelectorAll(places)) {
    const texts = document.createTreeWalker(place, NodeFilter.SHOW_TEXT);
    while (texts.nextNode()) {
      const text = texts.currentNode;
      if (!text.parentElement.checkVisibility({ visibilityProperty: true })) continue;
      for (const word of text.data.matchAll(/[\p{L}\p{N}]+/gu)) {
        const range = document.createRange();
        range.setStart(text, word.index);
        range.setEnd(text, word.index + word[0].length);
        const lines = [...range.getClientRects()].filter(box => box.width).map(box => box.top);
        if (new Set(lines).size > 1) found.push(`${place.localName}: ${word[0]}`);
      }
    }
  }
  return found;
}"""


def of_each_kind(kits: Path) -> list[Path]:
    """Give all pages of one trip and of the home, and of the others those that differ most."""
    return [
        page
        for page in pages_of(kits)
        if ("lake-emmerin" in page.parts or AT_HOME in page.parts or page.parent.parent == kits)
        and page.parent.name != "numbers"  # nothing but rows like those of numbers.html
    ]


def test_no_word_is_cut_and_nothing_scrolls_sideways(browser: Browser, translated: Path) -> None:
    found = {}
    with offline_page(browser, width=320) as (page, _):
        for file in of_each_kind(translated):
            page.goto(file.as_uri())
            name = file.relative_to(translated).as_posix()
            for width in (320, 360, 1220, 1280):
                page.set_viewport_size({"width": width, "height": 640})
                if wrong := [*page.evaluate(SCROLLS), *page.evaluate(CUT_WORDS)]:
                    found[name, width] = wrong
    assert found == {}


def test_kits_of_longer_words_are_light_too(translated: Path) -> None:
    sizes = {zipped.name: zipped.stat().st_size for zipped in translated.glob("*.zip")}
    assert len(sizes) == 5
    assert {name: size for name, size in sizes.items() if size > MOST_ZIP_BYTES} == {}


def test_a_long_word_is_parted_with_a_hyphen_and_copied_and_found_whole(
    browser: Browser, translated: Path
) -> None:
    word = {"de": "Zartbitterschokolade", "nb": "Grønnsaksbuljongpulver"}
    with offline_page(browser, width=320) as (page, _):
        kit = translated / "lake-emmerin"
        page.goto((kit / "index.html").as_uri())
        language = page.locator("html").get_attribute("lang") or ""
        holding = [
            file
            for file in sorted(kit.rglob("*.html"))
            if re.search(r'<i class="joint"></i>', file.read_text("utf-8"))
        ]
        assert holding
        page.goto(holding[0].as_uri())
        cell = page.locator(":is(th, td, label):has(.joint)").first
        copied = cell.evaluate(
            "one => { getSelection().selectAllChildren(one); return getSelection().toString(); }"
        )
        assert "\xad" not in copied
        assert "\xad" not in (cell.text_content() or "")
        hyphen = cell.locator(".joint").first.evaluate(
            "one => getComputedStyle(one, '::before').content"
        )
        assert hyphen == '"\xad"'
    searched = (kit / "search" / "search_index.js").read_text("utf-8")
    assert "joint" not in searched and "\xad" not in searched
    assert word[language] in searched


CUT_BUTTONS = """() => {
  const found = [];
  for (const one of document.querySelectorAll(".kit-tools .kit-button")) {
    if (!one.offsetWidth) continue;
    if (one.scrollHeight > one.clientHeight + 1) found.push(one.textContent);
    const text = one.firstChild;
    for (const word of text.data.matchAll(/[^\\s\u00a0]+/g)) {
      const range = document.createRange();
      range.setStart(text, word.index);
      range.setEnd(text, word.index + word[0].length);
      if (new Set([...range.getClientRects()].map(each => each.top)).size > 1) found.push(word[0]);
    }
  }
  const at = document.querySelector(".eat-at");
  if (at && at.scrollHeight > at.clientHeight + 1) found.push(at.textContent);
  return found;
}"""


@pytest.mark.parametrize("width", [320, 360])
def test_no_word_of_a_button_is_cut_in_two(browser: Browser, translated: Path, width: int) -> None:
    found = {}
    with offline_page(browser, width=width) as (page, _):
        for name in ("meals/day-1-dinner", "cook/hot-chocolate", "bags", "shopping"):
            page.goto((translated / "lake-emmerin" / f"{name}.html").as_uri())
            expect(page.locator(".kit-tools .kit-button").first).to_be_attached()
            if cut := page.evaluate(CUT_BUTTONS):
                found[name] = cut
    assert found == {}


# What is read on a phone and smaller than 14 px; letters of a chart are as large as it has room
# for, and labels as they come out of a printer.
SMALL = """() => {
  document.querySelectorAll("details").forEach(one => { one.open = true; });
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const found = [];
  while (texts.nextNode()) {
    const one = texts.currentNode.parentElement;
    if (!texts.currentNode.data.trim() || one.closest("svg, .md-skip, .md-search") ||
      !one.checkVisibility()) continue;
    const size = parseFloat(getComputedStyle(one).fontSize);
    if (size < 13.99) found.push(texts.currentNode.data.trim());
  }
  return found;
}"""


def test_no_words_are_small_and_the_list_begins_on_the_first_screen(
    browser: Browser, translated: Path
) -> None:
    found = {}
    with offline_page(browser, width=360, height=640) as (page, _):
        for file in of_each_kind(translated):
            if file.name == "pocket.html" or file.name.startswith("labels-"):
                continue
            page.goto(file.as_uri())
            if small := page.evaluate(SMALL):
                found[file.relative_to(translated).as_posix()] = small
        page.set_viewport_size({"width": 320, "height": 640})
        page.goto((translated / "tarrow-tops" / "shopping.html").as_uri())
        first = page.locator(".steps > li").first.bounding_box()
        assert first is not None and first["y"] + 48 < 640
    assert found == {}
