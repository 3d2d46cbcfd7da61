"""Long words of narrow cells, with joints at which they may be parted by a hyphen.

Some browsers have no dictionary of a language, and part a word anywhere. A joint holds no letter:
what is copied, searched or read by a script has the word as it was written.
"""

from __future__ import annotations

import re
from functools import cache

JOINT = '<i class="joint"></i>'
# What words are often put together with, by language, behind at least four other letters.
_BEGINS = {
    "de": """
        absorber apparat beeren behandlung blatt blätter blumen bohnen brenner brot brühe brühpulver
        butter creme drink eintopf entnahme essig extrakt fett fleisch flocken forelle gemüse
        gekommen getränk getränke gewicht graupen grieß granulat grütze handschuhe hartkäse kaffee
        kartoffel kekse kerne kernmus kernöl knäcke kohl konzentrat korn kuchen kürbis käse
        marmelade mehl milch mischung nudeln nudel nüsse oberschenkel paprika pfeffer pilze polenta
        proben protein pudding pulver püree reserve riegel samen saft schale scheiben schinken
        schmalz schokolade schokoladen schulter sellerie soße soßen sprossen stärke suppe suppen
        tablette temperatur tomaten topf tortilla trauben vollkorn wasser weich wurst wärme zeit
        zwiebel zucker
    """,
    "nb": """
        absorber behandling blader blanding bolle brød bønner buljong drikk eddik ekstrakt fett flak
        flesk frø grateng gryte gryn kjeks kjerner knekke kraft krem lår mel melk mos nudler nøtter
        olje ost pannekaker pasta potet protein pudding pulver pølse rekkefølge reserve rømme saft
        salat saus sjokolade skiver sopp spirer stivelse suppe tabletter temperatur tomat tørket
        vann
    """,
}
_CELL = re.compile(r"<t[hd][ >].*?</t[hd]>", re.S)
_WORDS = re.compile(r"(?<=>)[^<]+")
_LONG = re.compile(r"(?<![\w&])[^\W\d_]{12,}")


def with_joints(html: str, language: str) -> str:
    """Give a page's text with joints in the long words of its cells; English has none."""
    joint = _joint(language)
    if joint is None:
        return html

    def jointed(found: re.Match[str]) -> str:
        return joint.sub(JOINT, found[0])

    def in_cell(cell: re.Match[str]) -> str:
        return _WORDS.sub(lambda words: _LONG.sub(jointed, words[0]), cell[0])

    return _CELL.sub(in_cell, html)


@cache
def _joint(language: str) -> re.Pattern[str] | None:
    begins = _BEGINS.get(language, "").split()
    if not begins:
        return None
    return re.compile(rf"(?<=[^\W\d_]{{4}})(?=(?:{'|'.join(begins)})(?:\w{{0,2}}\b|\w{{4}}))")
