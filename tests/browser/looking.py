"""Opening pages the way the tests do, and noting what a page does that it must not."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, BrowserContext, Page, expect

from builder.model.home import AT_HOME
from builder.record import dataclass, field


@dataclass(slots=True)
class Seen:
    """What a page asked for and complained about."""

    requests: list[str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)

    def watch(self, page: Page) -> None:
        """Note everything from now on."""
        page.on("request", lambda request: self.requests.append(request.url))
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.on(
            "console",
            lambda message: (
                self.complaints.append(message.text)
                if message.type in ("error", "warning")
                else None
            ),
        )

    @property
    def outside(self) -> list[str]:
        """Give the requests that leave the disk."""
        return [url for url in self.requests if not url.startswith(("file:", "data:", "about:"))]


def pages_of(kits: Path) -> list[Path]:
    """Give every page below a folder of kits."""
    return sorted(
        page
        for page in kits.rglob("*.html")
        if not any(part.startswith(".") for part in page.relative_to(kits).parts)
    )


def site_pages_of(kits: Path) -> list[Path]:
    """Give the pages of trips that carry the theme: neither the list of kits nor a pocket page.

    The site of the home has tests of its own.
    """
    return [
        page
        for page in pages_of(kits)
        if page.parent != kits and page.name != "pocket.html" and AT_HOME not in page.parts
    ]


# What a reader of a narrow screen cannot get at: a box that scrolls and that no key reaches or that
# has no name, words cut short, words beyond the screen. Details are looked at open.
CUT_OFF = """() => {
  document.querySelectorAll("article details").forEach(one => { one.open = true; });
  dispatchEvent(new Event("resize"));
  const wide = one => one.scrollWidth > one.clientWidth + 1 && one.clientWidth > 2;
  const seen = [...document.querySelectorAll("body *")].filter(
    one => one.checkVisibility({ visibilityProperty: true, opacityProperty: true })
      && !one.closest("svg, .md-sidebar, .md-search, .md-skip, .kit-unseen, dialog, #next")
      && one.textContent.trim());
  const scrolls = one => /auto|scroll/.test(getComputedStyle(one).overflowX) && wide(one);
  const boxes = seen.filter(scrolls);
  return [
    ...boxes.filter(one => one.tabIndex !== 0 || !one.ariaLabel)
      .map(one => ["no key or name", one]),
    ...seen.filter(one => getComputedStyle(one).overflowX === "hidden" && wide(one)
      && !boxes.some(box => box.contains(one))).map(one => ["cut", one]),
    ...seen.filter(one => !one.children.length && one.getBoundingClientRect().right > innerWidth + 1
      && !boxes.some(box => box.contains(one))).map(one => ["beyond", one]),
  ].map(([what, one]) => `${what}: ${one.tagName} ${one.textContent.trim().slice(0, 40)}`);
}"""


# Boxes that scroll sideways by themselves, with all folds open.
SCROLLS = """() => {
  document.querySelectorAll("details").forEach(one => { one.open = true; });
  return [...document.querySelectorAll("article *, main *")]
    .filter(one => one.clientWidth > 2 && one.scrollWidth > one.clientWidth + 1)
    .filter(one => /auto|scroll/.test(getComputedStyle(one).overflowX))
    .map(one => one.textContent.trim().slice(0, 60));
}"""


WIDTH_NEEDED = "document.documentElement.scrollWidth"


def too_wide(
    page: Page,
    kits: Path,
    widths: tuple[int, ...] = (320, 360, 1280),
    files: Iterable[Path] | None = None,
) -> dict[tuple[str, int], int]:
    """Give the pages, all or those named, that scroll sideways, with the width that they need."""
    found = {}
    # Crossing a breakpoint slides the theme's drawer; what counts is the page once that has ended.
    page.emulate_media(reduced_motion="reduce")
    for file in files or pages_of(kits):
        page.goto(file.as_uri())
        for width in widths:
            page.set_viewport_size({"width": width, "height": 800})
            needed = page.evaluate(WIDTH_NEEDED)
            if needed > width:
                found[file.relative_to(kits).as_posix(), width] = needed
    return found


def wait_until(page: Page, condition: str) -> None:
    """Wait for a condition; Playwright's own way needs eval, which the policy forbids."""
    page.evaluate(
        f"""async () => {{
          for (let tries = 0; tries < 200; tries += 1) {{
            if (await ({condition})) return;
            await new Promise(resolve => setTimeout(resolve, 50));
          }}
          throw new Error("waited in vain");
        }}"""
    )


def search_for(page: Page, word: str) -> None:
    """Type a word into the search box, key by key: setting its value starts no search."""
    field = page.locator("input.md-search__input")
    opener = page.locator("header label[for=__search]").first
    # On narrow screens the field lies beside the screen until it is opened, and takes the focus.
    (opener if opener.is_visible() else field).click()
    expect(field).to_be_focused()
    page.keyboard.type(word, delay=30)


@contextmanager
def offline_page(
    browser: Browser, width: int = 1280, height: int = 800, **options: object
) -> Iterator[tuple[Page, Seen]]:
    """Open an empty page with the network off."""
    context: BrowserContext = browser.new_context(
        viewport={"width": width, "height": height},
        offline=True,
        **options,  # type: ignore[arg-type]
    )
    context.set_default_timeout(10_000)
    try:
        page = context.new_page()
        seen = Seen()
        seen.watch(page)
        yield page, seen
    finally:
        context.close()
