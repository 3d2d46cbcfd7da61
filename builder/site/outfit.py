"""What the site of the home has and a trip's kit has not, and the other way round."""

from __future__ import annotations

from builder.record import dataclass
from builder.site.finishing.scripts import HOME_SCRIPTS, KIT_SCRIPTS, Script
from builder.site.folder.kit_files import DATA_NAME, HOME_DATA_NAME

HOME_STYLES = ("home.css",)


@dataclass(frozen=True, slots=True)
class Outfit:
    """The scripts and styles that a site needs, and the file that holds its data."""

    scripts: tuple[Script, ...]
    styles: tuple[str, ...]  # sheets of the assets that follow the one of all sites
    data_name: str


TRIP = Outfit(KIT_SCRIPTS, (), DATA_NAME)
HOME = Outfit(HOME_SCRIPTS, HOME_STYLES, HOME_DATA_NAME)
