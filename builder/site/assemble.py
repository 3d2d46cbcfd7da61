"""From pages to a kit: one folder and one zip, put in place of the old ones as a whole."""

from __future__ import annotations

from pathlib import Path, PurePosixPath

from builder.problems import Problem, errors
from builder.site.checks import check_kit
from builder.site.errors import SiteError, of_the_system
from builder.site.finishing import offline
from builder.site.finishing.grown import script_of_grown
from builder.site.finishing.marks import marks_in, style_of_marks, with_marks
from builder.site.finishing.pages import finished, texts_of
from builder.site.finishing.scripts import written
from builder.site.finishing.styles import STYLE_NAME, merge_styles
from builder.site.folder import address, archive, made, swap
from builder.site.folder.kit_files import POCKET_NAME, write_files
from builder.site.outfit import HOME_STYLES
from builder.site.pocket import pocket_page
from builder.site.rendering.framing import put_together
from builder.site.rendering.generators import USUAL_GENERATOR, renderer_of
from builder.site.rendering.navigation import is_safe_path, nav_paths
from builder.site.rendering.renderer import Renderer, Rendering
from builder.site.search.search_index import write_searched
from builder.site.site_input import SiteInput
from builder.speech import Speech, speech_of

FIRST_PAGE = "index.md"
COLOURS_SCRIPT = "colours.js"  # runs behind what it makes: switch of colours, search box
# Names the build itself writes; a page or file of the same name would be lost.
OWN_NAMES = (POCKET_NAME, offline.WORKER_NAME, offline.MANIFEST_NAME)
OWN_FOLDERS = ("assets", "search")


def build_site(
    site: SiteInput,
    out: Path,
    assets: Path,
    base_config: Path,
    made_from: str = "",
    *,
    generator: str = USUAL_GENERATOR,
) -> tuple[Problem, ...]:
    """Build the kit folder and zip of one trip, swapped in whole.

    `assets` is the folder of theme/ and assets/, `base_config` the base mkdocs.yml, `made_from` a
    short name for all that goes in, `generator` what renders the pages. Gives what a person may
    want to mend; raises SiteError, and then the kit that was there before is as it was.
    """
    _check_input(site)
    try:
        swap.recover(out)
        with swap.kit_lock(out, site.trip_id):
            swap.recover_kit(out, site.trip_id)
            made.refuse_foreign(out, site.trip_id)
            try:
                doubts = _write_new(site, out, assets, base_config, renderer_of(generator))
                _describe_new(out, site.trip_id, made_from)
                # Again, since building took a while.
                made.refuse_foreign(out, site.trip_id)
                swap.swap(out, site.trip_id)
                return doubts
            finally:
                swap.recover_kit(out, site.trip_id)
    except OSError as error:
        own = out / made.OWN_FOLDER
        raise of_the_system(error, f"the kit {site.trip_id}", out, own) from error


def _describe_new(out: Path, trip_id: str, made_from: str) -> None:
    """Write down what will be remembered of the new kit, so that it is swapped in with it."""
    new, zipped = swap.new_folder(out, trip_id), swap.new_zip(out, trip_id)
    made.write_made(swap.new_record(out, trip_id), made.describe(new, zipped, made_from))


def _write_new(
    site: SiteInput, out: Path, assets: Path, base_config: Path, renderer: Renderer
) -> tuple[Problem, ...]:
    """Write the new folder and, when it is found good, the new zip."""
    new = swap.new_folder(out, site.trip_id)
    say = speech_of(site.language)
    rendered = renderer(
        Rendering(
            site,
            files=_given(site, assets, say),
            into=new.resolve(),
            theme=(assets / "theme").resolve(),
            base_config=base_config,
        )
    )
    marks = marks_in(texts_of(rendered.pages))
    pages = finished(rendered.pages, marks, site.outfit.scripts, say)
    front = put_together(rendered.pages[_rendered_name(FIRST_PAGE)])
    _tell(new, COLOURS_SCRIPT, script_of_grown(with_marks(front, marks)))
    write_searched(new, rendered.parts)
    # What scripts put into pages has its look too: the front page as it was tells it.
    merge_styles(new, [*texts_of(pages), front], style_of_marks(marks))
    whole = {name: put_together(page) for name, page in pages.items()}
    write_files(new, {name: html.encode("utf-8") for name, html in whole.items()})
    offline.add_manifest(new, site.title, site.language)
    offline.add_service_worker(new, assets / "assets" / "service-worker.js")
    problems = (*rendered.doubts, *check_kit(new, site.trip_id, whole))
    if errors(problems):
        raise SiteError(
            f"the kit {site.trip_id} did not pass the checks on its pages", problems=problems
        )
    archive.zip_folder(new, swap.new_zip(out, site.trip_id), site.epoch, top=site.trip_id)
    return problems


def _given(site: SiteInput, assets: Path, say: Speech) -> dict[str, bytes]:
    """Give all files that a site is rendered of: pages as Markdown, and what stays as it is."""
    hosted_at = address.kit_address(site.address, site.trip_id)
    given = {name: text.encode("utf-8") for name, text in site.pages.items()}
    given |= site.files
    if hosted_at:
        given[FIRST_PAGE] += address.fetch_markdown(say, hosted_at).encode("utf-8")
        given[address.PICTURE_NAME] = address.qr_svg(hosted_at).encode("utf-8")
    if site.pocket_html:
        given[POCKET_NAME] = pocket_page(
            site.pocket_html,
            trip_id=site.trip_id,
            title=site.title,
            language=site.language,
            assets=assets / "assets",
            last=address.fetch_html(say, hosted_at) if hosted_at else "",
            pictures=site.files,
        ).encode("utf-8")
    for file in _shipped(assets / "assets"):
        given[f"assets/{file.name}"] = file.read_bytes()
    for name in site.outfit.styles:
        given[STYLE_NAME] += (assets / "assets" / name).read_bytes()
    for script in site.outfit.scripts:
        given[f"assets/{script.name}"] = written(assets / "assets", script, say).encode("utf-8")
    return given


def _check_input(site: SiteInput) -> None:
    """Refuse paths that leave the kit, pages outside the navigation, and names taken twice."""
    paths = [*site.pages, *site.files]
    bad = [
        path
        for path in [site.trip_id, *paths]
        if not is_safe_path(path) or path.split("/")[0].casefold() in OWN_FOLDERS
    ]
    if "/" in site.trip_id:
        bad.append(site.trip_id)
    if bad:
        raise SiteError("these names cannot be files of a kit", bad)
    rendered = [_rendered_name(page) for page in site.pages]
    folded = [path.casefold() for path in [*rendered, *site.files, *OWN_NAMES]]
    twice = sorted({path for path in folded if folded.count(path) > 1})
    if twice:
        raise SiteError("these names are taken twice in the kit", twice)
    listed = list(nav_paths(site.nav))
    if sorted(listed) != sorted(site.pages):
        odd = sorted(set(listed) ^ set(site.pages)) or ["a page is listed twice"]
        raise SiteError("the navigation does not list each page once", odd)
    if site.outfit.data_name not in site.files:
        raise SiteError(f"a kit needs its {site.outfit.data_name}")


def _shipped(assets: Path) -> list[Path]:
    """Give the asset files that go into each kit as they are."""
    pages = ("pocket.css", "sealed.css", "labels.css", "labels.js")  # that stand alone
    apart = {*pages, "service-worker.js", *HOME_STYLES}
    return sorted(file for file in assets.iterdir() if file.is_file() and file.name not in apart)


def _rendered_name(page: str) -> str:
    """Give the path of what is made of a page."""
    return PurePosixPath(page).with_suffix(".html").as_posix()


def _tell(new: Path, script: str, line: str) -> None:
    """Add a line to one of the scripts that run while a page is read."""
    with (new / "assets" / script).open("a", encoding="utf-8", newline="\n") as file:
        file.write(line)
