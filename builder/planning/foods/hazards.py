"""What a food is watched for: told by its `beware`, or else read off its name and id.

The words stand here for all languages in one table, so that a food which nobody marked is found
whatever tongue it was written in. They are regular expressions over lower-case text.
"""

from __future__ import annotations

import re
from functools import lru_cache

from builder.model.food import FLESH_KINDS, Food

_WITHOUT_ALCOHOL = r"alcohol[- ]free|alkoholfrei|alkoholfri"

# hazard → (the kinds it is looked for in, or none for all; English; German; Norwegian)
_WORDS: dict[str, tuple[frozenset[str], str, str, str]] = {
    "honey": (
        frozenset(),
        r"\bhoney(?!dew| melon)",
        r"honig(?!melone)",
        r"honning(?!melon)",
    ),
    "infant-formula": (
        frozenset(),
        r"(infant|baby|toddler|follow[- ]on|starter) (formula|milk)|formula (milk|powder)",
        r"säuglings(milch|nahrung)|(anfangs|folge)(milch|nahrung)|(baby|kinder)milch|\bpre-?milch",
        r"morsmelkerstatning|(baby|barne|tilskudds)melk|tilskuddsblanding",
    ),
    "kidney-bean": (
        frozenset(),
        r"kidney[- ]bean",
        r"kidney[- ]?bohne",
        r"kidney[- ]?bønne|nyrebønne",
    ),
    "mushroom-gathered": (
        frozenset(),
        r"(wild|gathered|foraged) mushroom|chanterelle|porcini|\bbolete|\bmorels?\b|\bceps?\b",
        r"pfifferling|steinpilz|morchel|(wald|wild)pilz|gesammelte pilze",
        r"kantarell|steinsopp|morkel|(skogs|vill)sopp|plukket sopp",
    ),
    "sprouts": (
        frozenset(),
        r"(?<!brussels[- ])(?<!brussel[- ])\bsprouts?\b",
        r"sprossen(?!kohl)|\bsprosse\b|keimlinge",
        r"spirer\b",
    ),
    "garlic-in-oil": (
        frozenset(),
        r"(garlic|herbs?)( cloves)?( kept)? in oil|garlic oil|herb oil",
        r"(knoblauch|kräuter)(zehen)? in öl|(knoblauch|kräuter)-?öl",
        r"(hvitløk|urter)( lagt)? i olje|(hvitløks?|urte)olje",
    ),
    "home-canned": (
        frozenset(),
        r"home[- ](canned|bottled|preserved)",
        r"eingeweckt|eingekocht|selbst eingemacht",
        r"hjemmehermeti|hermetisert hjemme",
    ),
    "liver": (
        frozenset(),
        r"\bliver(?!wort)|\bp[aâ]t[eé]\b",
        r"(?<!k)leber(?!käs)|pastete",
        r"\blever(postei|pølse)?\b|kyllinglever|torskelever|\bpaté\b",
    ),
    "raw-milk": (
        frozenset(),
        r"\braw[- ]milk|unpasteuri[sz]ed",
        r"rohmilch|unpasteurisiert|nicht pasteurisiert",
        r"\brå ?melk|råmelk|upasteurisert",
    ),
    "soft-cheese": (
        frozenset(),
        r"\bbrie\b|camembert|\bsoft cheese|blue cheese|gorgonzola|roquefort|soft goat",
        r"weichkäse|schimmelkäse|blaukäse",
        r"\bmyk ?ost|mugg(e)?ost|blåmugg|hvitmugg",
    ),
    "cured-raw": (
        frozenset(),
        r"salami|chorizo|prosciutto|serrano|parma ham|pepperoni|\braw ham|biltong|bresaola"
        r"|(air-dried|cured) (ham|sausage|beef|meat)",
        r"rohwurst|rohschinken|mettwurst|landjäger|cervelat|bündnerfleisch|teewurst|luftgetrocknet",
        r"\bspeke|fenalår|morrpølse|pinnekjøtt",
    ),
    "raw-fish": (
        frozenset({"fish", "meal", "other"}),
        r"sushi|sashimi|ceviche|gravlax|gravad|cold[- ]smoked|smoked (salmon|trout)|\blox\b",
        r"räucherlachs|kaltgeräuchert|graved|matjes|gebeizt",
        r"røykelaks|røkt laks|kaldrøkt|gravlaks|rakfisk|rakørret",
    ),
    "game": (
        frozenset({"meat", "poultry", "meal", "other"}),
        r"venison|\bgame\b|reindeer|\bdeer\b|\belk\b|\bmoose\b|\bboar\b|\bbear\b|\bhare\b|grouse"
        r"|\bwalrus",
        r"wild(fleisch|schwein|bret|salami|schinken|wurst|gulasch|ragout|braten)|\breh|hirsch|\belch"
        r"|rentier|\bhasen|\bbär(en(fleisch|schinken|salami|wurst|braten)?)?\b",
        r"\bvilt|\belg|\brein(sdyr|kjøtt)|\bhjort|rådyr|villsvin|\bbjørn(e(kjøtt|skinke|pølse|biff))?\b|\brype",
    ),
    "freshwater-fish": (
        frozenset({"fish", "meal", "other"}),
        r"\bpike\b|pikeperch|\bperch\b|burbot|\bchar\b|\btrout|\bcarp\b|whitefish|vendace",
        r"hecht|barsch|quappe|saibling|forelle|zander|karpfen|felchen|renke",
        r"gjedde|\babbor|lakefisk|\brøye|ørret|\bsik\b|\bharr\b|karpe",
    ),
    "shellfish": (
        frozenset({"fish", "meal", "other"}),
        r"mussel|\bclams?\b|oysters?\b(?! mushroom| sauce)|cockle|scallop|shellfish|limpet|winkle",
        r"muschel|\bauster(?!npilz)",
        r"skjell|\bøsters(?!sopp)",
    ),
    "wild-plant": (
        frozenset(),
        r"foraged|\bwild (plant|garlic|leek|greens|herb)|ramsons?\b|\bnettles?\b",
        r"wild(kräuter|gemüse|pflanze)|bärlauch|brennnessel|brennessel|giersch",
        r"ville (urter|vekster|planter)|ramsløk|brennesle|\bnesle",
    ),
    "caffeine": (
        frozenset(),
        r"coffee|espresso|caffein|cocoa|chocolate|\bcola\b|guarana|energy drink|yerba|\bmat[eé]\b"
        r"|(?<!fruit )(?<!herb )(?<!herbal )(?<!mint )(?<!camomile )(?<!chamomile )(?<!rooibos )"
        r"\btea\b",
        r"kaffee|koffein|kakao|schoko|(schwarz|grün|eis)tee|(schwarzer|grüner) tee",
        r"kaffe\b|koffein|kakao|sjokolade|(svart|grønn) te\b|\biste\b",
    ),
    "alcohol": (
        frozenset(),
        r"\b(red |white |mulled )?wine\b(?! vinegar| gum)|(?<!ginger )(?<!root )\bbeer\b|whisk(e)?y"
        r"|\brum\b|brandy|liqueur|\bvodka|\bgin\b|cognac|\bsherry\b",
        r"\b(rot|weiß|glüh)?wein\b|\bbier\b|likör|schnaps|weinbrand|wodka|\bkorn\b(?= \d)",
        r"\b(rød|hvit)?vin\b|\bøl\b|likør|akevitt|konjakk|brennevin",
    ),
}

# Pieces that lodge in a small child's throat: hard and round, tough, or dry and sticky.
_CHOKING_WORDS = (
    r"raisin|sultana|popcorn|\bgrapes?\b|cherry tomato|\bcherr(y|ies)\b|\bseeds?\b|jerky|sausage"
    r"|salami|hard (sweet|candy)|boiled sweet|marshmallow|\bolives\b|nut mix|trail mix",
    r"rosine|sultanine|(wein)?traube|kirschtomate|kirsche|\bkerne\b|wurst|würstchen|bonbon|nussmix"
    r"|studentenfutter|trockenfleisch",
    r"rosin|\bdruer?\b|cherrytomat|kirsebær|frø\b|pølse|drops\b|nøtteblanding|tørrkjøtt",
)
# Nuts and fruit of these forms cannot be breathed in whole.
_SOFT_WORDS = (
    r"butter|\bground\b|powder|flour|paste|milk|cream|purée|puree|grated|\bbar\b"
    r"|gemahlen|pulver|mehl|mus\b|milch|sahne|gerieben|raspel|riegel"
    r"|malte?\b|mel\b|smør|melk|krem|revet|raspet"
)

# Hard as long as they are raw.
_HARD_RAW_WORDS = (
    r"carrot|celery|\bapple|\bpear\b|kohlrabi|karotte|möhre|sellerie|\bapfel|\bbirne|gulrot|selleri"
    r"|\beple|\bpære"
)
# Meat and fish that were minced: germs sit all through them.
_MINCED_WORDS = (
    r"ground|minced?|burger|patty|patties|sausage|meatball"
    r"|\bhack|[a-z]hack\b|hackfleisch|gehackt|faschiert|gewolft|frikadelle|bulette|\bmett|wurst|würst"
    r"|kjøttdeig|karbonadedeig|medisterdeig|\bdeig\b|farse|kvernet|hakket|kjøttkake|karbonade|pølse"
)
# What smells so strongly that fruit beside it takes the smell.
_PUNGENT_WORDS = r"onion|shallot|garlic|zwiebel|schalotte|knoblauch|\bløk|hvitløk|rødløk|sjalott"
_CHEESE_WORDS = r"cheese|cheddar|gouda|käse(?!kuchen)|ost\b"

_FOUND = {
    hazard: (kinds, re.compile("|".join(words))) for hazard, (kinds, *words) in _WORDS.items()
}
_CHOKING = re.compile("|".join(_CHOKING_WORDS))
_HARD_RAW = re.compile(_HARD_RAW_WORDS)
_PUNGENT = re.compile(_PUNGENT_WORDS)
_CHEESE = re.compile(_CHEESE_WORDS)
_SOFT = re.compile(_SOFT_WORDS)
_MINCED = re.compile(_MINCED_WORDS)
_NO_ALCOHOL = re.compile(_WITHOUT_ALCOHOL)


def called(food: Food) -> str:
    """Give a food's id and name as words: the name may stand in another language."""
    return f"{food.id.replace('-', ' ')}, {food.name}".lower()


def hazards_of(food: Food) -> frozenset[str]:
    """Give what a food is watched for: as told, or else as name, id, kind and state say."""
    told: set[str] = set(food.beware or ())
    if food.beware is None:
        told |= _by_name(called(food), food.kind, food.state, food.allergens)
    if "wild-mushroom" in told:
        told.discard("wild-mushroom")
        told.add("mushroom-gathered")
    if food.game:
        told.add("game")
    if food.per_100g.alcohol_g > 0:
        told.add("alcohol")
    if food.per_100g.caffeine_mg:
        told.add("caffeine")
    return frozenset(told)


def is_game(food: Food) -> bool:
    """Tell whether it is game: as told, or else as its name says."""
    return "game" in hazards_of(food)


def is_minced(food: Food) -> bool:
    """Tell whether meat is minced: by its `cut`, or else by its name."""
    if food.cut is not None:
        return food.cut == "minced"
    return food.kind in FLESH_KINDS and bool(_MINCED.search(called(food)))


def is_pungent(food: Food) -> bool:
    """Tell whether it is onion or garlic: by how it is dried, or else by its name."""
    return food.dry_as in ("onion", "garlic") or bool(_PUNGENT.search(called(food)))


@lru_cache(maxsize=4096)  # cautions ask for the same foods at each meal
def _by_name(
    words: str, kind: str, state: str, allergens: tuple[str, ...] | None
) -> frozenset[str]:
    found = {
        hazard
        for hazard, (kinds, pattern) in _FOUND.items()
        if (not kinds or kind in kinds) and pattern.search(words)
    }
    if _NO_ALCOHOL.search(words):
        found.discard("alcohol")
    if kind == "fish" and state == "raw":
        found.add("raw-fish")
    if "molluscs" in (allergens or ()):
        found.add("shellfish")
    if not _SOFT.search(words):
        if _is_chunk(words, kind, state):
            found.add("choking")
        elif kind == "nut":
            found.add("whole-nut")
    return frozenset(found)


def _is_chunk(words: str, kind: str, state: str) -> bool:
    """Tell whether a food comes in pieces that lodge in a small child's throat."""
    dry = state == "dried" and kind in FLESH_KINDS | {"fruit"}
    ready = state == "ready" and kind in ("fruit", "meat", "poultry")
    hard = state == "raw" and kind in ("fruit", "vegetable") and _HARD_RAW.search(words)
    cheese = kind == "dairy" and _CHEESE.search(words)
    return bool(dry or ready or hard or cheese or _CHOKING.search(words))
