"""Long words of headings, steps and narrow cells, with joints at which a hyphen may part them.

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
        absorber apparat beeren behandlung benzin blatt blumen blätter bohnen brenner brot brust
        brühe brühpulver butter creme drink eintopf entnahme essig extrakt fett fleisch flocken
        forelle gekommen gemüse getrocknet getränk getränke gewicht granulat graupen grieß grütze
        handschuhe hartkäse kaffee kartoffel kekse kerne kirschen kernmus kernöl knäcke kocher kohl
        konzentrat korn kuchen käse kürbis marmelade mehl milch mischung nudel nudeln nüsse
        oberschenkel paprika pfeffer pilze polenta proben protein pudding pulver püree reserve
        riegel saft samen schale scheiben schinken schmalz schmelzen schokolade schokoladen
        schulter sellerie soße soßen sprossen stärke suppe suppen tablette temperatur tomaten topf
        tortilla trauben vollkorn wasser weich wurst wärme zeit zucker zwiebel
    """,
    "nb": """
        absorber behandling blader blanding bolle brød buljong bønner deig drikk eddik ekstrakt
        fett flak flesk frø grateng gryn gryte kjeks kjerner knekke kraft krem lår mel melk mos
        nudler nøtter olje ost pannekaker pasta potet protein pudding pulver pølse rekkefølge
        reserve rømme saft salat saus sjokolade skiver sopp spirer stivelse suppe tabletter
        temperatur tomat tørket vann
    """,
}
# A heading and a step have the whole width of the page, in larger letters.
_NARROW = re.compile(r"<(?P<name>t[hd]|d[td]|h[1-3]|label)[ >].*?</(?P=name)>", re.S)
_WORDS = re.compile(r"(?<=>)[^<]+")
_LONG = {
    name: re.compile(rf"(?<![\w&])[^\W\d_]{{{letters},}}")
    for name, letters in (("t", 12), ("d", 12), ("h", 16), ("l", 16))
}


def with_joints(html: str, language: str) -> str:
    """Give a page's text with joints in the long words of narrow places; English has none."""
    joint = _joint(language)
    if joint is None:
        return html

    def jointed(found: re.Match[str]) -> str:
        return joint.sub(JOINT, found[0])

    def parted(element: re.Match[str]) -> str:
        long = _LONG[element["name"][0]]
        return _WORDS.sub(lambda words: long.sub(jointed, words[0]), element[0])

    return _NARROW.sub(parted, html)


@cache
def _joint(language: str) -> re.Pattern[str] | None:
    begins = _BEGINS.get(language, "").split()
    if not begins:
        return None
    return re.compile(rf"(?<=[^\W\d_]{{4}})(?=(?:{'|'.join(begins)})(?:\w{{0,2}}\b|\w{{4}}))")
