"""What foods are called by others: in another country, in a shop, on a packet.

Common practice, no source. A search finds a food by these words too, and where one writes such a
word for an id, it is told which food is meant.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from itertools import accumulate, chain

from builder.meant import folded

# How the ids of foods begin, parted by spaces → what else these are called, parted by commas.
_CALLED: Mapping[str, str] = {
    # meat and fish
    "beef-mince": "ground beef, minced beef, hamburger, hamburger meat, rinderhack, hackfleisch,"
    " faschiertes,"
    " gehacktes, kjøttdeig",
    "pork-mince": "ground pork, minced pork, hackfleisch, faschiertes, gehacktes",
    "lamb-mince": "ground lamb, minced lamb",
    "veal-mince": "ground veal, minced veal",
    "turkey-mince": "ground turkey, minced turkey",
    "chicken-mince": "ground chicken, minced chicken",
    "venison-mince": "ground venison, minced venison, deer burger",
    "venison": "deer, hirsch, reh, wildfleisch, hjort",
    "moose": "elgkjøtt",
    "reindeer": "caribou, reinkjøtt, reinsdyr",
    "bison": "buffalo",
    "beef-rump": "sirloin, steak",
    "beef-topside": "top round, inside round, london broil",
    "beef-silverside": "eye of round, bottom round",
    "beef-shoulder": "chuck, chuck roast, stewing beef",
    "pork-fillet": "pork tenderloin, lungenbraten",
    "chicken-breast": "poulet",
    "chicken-leg": "drumstick",
    "turkey": "truthahn, kalkun",
    "cod-salted": "klippfisk, bacalao",
    "beef-jerky": "dried beef, biltong",
    "frankfurter": "hot dog, wiener, würstel",
    "meat-sticks": "beef stick, landjäger",
    "shrimp": "prawns, reker",
    "tuna-canned": "tuna pouch, tinned tuna",
    "salmon-canned": "salmon pouch, tinned salmon",
    "chicken-canned": "chicken pouch",
    "saithe": "coalfish, pollock",
    "whitefish": "coregonus, felchen, renke",
    # vegetables
    "green-pepper red-pepper yellow-pepper": "bell pepper, capsicum, sweet pepper, peperoni",
    "chilli-red chilli-green": "chile, chili pepper, hot pepper, jalapeno, serrano",
    "spring-onion": "scallion, green onion, salad onion",
    "aubergine": "eggplant, brinjal, melanzani",
    "courgette": "zucchini, summer squash, zucchetti",
    "sweetcorn": "corn, kukuruz",
    "mangetout": "snow peas, sugar peas, snap peas",
    "green-beans": "string beans, french beans, runner beans, fisolen",
    "broad-beans": "fava beans, faba beans",
    "swede": "rutabaga, neep",
    "beetroot": "beet, red beet, rote rübe, rande, randen",
    "beet-greens": "beet leaves",
    "celeriac": "celery root, knollensellerie",
    "daikon": "mooli",
    "pak-choi": "bok choy",
    "chinese-cabbage": "napa cabbage",
    "cabbage": "kraut, weißkraut",
    "cauliflower": "karfiol",
    "leek": "porree, purreløk",
    "carrot": "karotte, möhre, rüebli, gelbe rübe",
    "potato": "erdäpfel, spud",
    "tomato": "paradeiser",
    "mushroom": "button mushrooms, champignons",
    "portobello": "portobello mushrooms, portabella",
    "chanterelle": "eierschwammerl, pfifferlinge",
    "peas-raw peas-boiled": "frozen peas, garden peas, petits pois",
    "butternut": "winter squash",
    "yellow-squash": "crookneck squash",
    "chard": "swiss chard, silverbeet, mangold",
    "coriander-leaf": "cilantro, chinese parsley",
    "spinach": "baby spinach",
    "gherkins": "pickles, dill pickles",
    "potato-flakes potato-granules": "instant mashed potatoes, instant potatoes, potato buds,"
    " kartoffelpüree, potetmospulver",
    "tomato-puree": "passata, sieved tomatoes",
    "tomato-paste": "tomato concentrate",
    # fruit
    "apple-puree": "applesauce, apple sauce, apfelmus",
    "sultanas": "golden raisins, white raisins",
    "kiwi": "kiwifruit",
    "plum": "zwetschke, zwetschge",
    "prunes": "dried plums, dörrzwetschken, svisker",
    "blueberry": "bilberry, huckleberry, blaubeeren, schwarzbeeren",
    "melon": "muskmelon",
    "lemon-peel": "lemon zest",
    "orange-peel": "orange zest",
    "apricot": "marille, marillen",
    "redcurrant blackcurrant": "ribisel",
    "coconut-dried coconut-sweetened": "shredded coconut, desiccated coconut, coconut flakes",
    "fruit-leather": "fruit roll, fruit bark",
    # legumes
    "chickpeas": "garbanzo, garbanzo beans, ceci",
    "chickpea-flour": "besan, gram flour",
    "white-beans": "cannellini, great northern beans, haricot beans",
    "navy-beans": "haricot beans, pea beans",
    "borlotti-beans": "cranberry beans, roman beans",
    "butter-beans": "lima beans",
    "adzuki-beans": "azuki beans",
    "red-lentils": "masoor dal, dal",
    "soy-granules": "tvp, textured vegetable protein, textured soy protein, soy crumbles,"
    " sojagranulat, sojaschnetzel",
    "soy-bits": "bacon bits, bacon bits of soy",
    # grain, flour and pasta
    "pasta": "spaghetti, macaroni, penne, fusilli, noodles, nudeln",
    "noodles-quick instant-noodles": "ramen, ramen noodles, cup noodles",
    "soba": "soba noodles",
    "glass-noodles": "cellophane noodles, bean threads, mung bean vermicelli",
    "rice-noodles": "rice vermicelli, pad thai noodles",
    "oats-dry": "oatmeal, porridge oats, quick oats, old-fashioned oats",
    "oat-groats": "steel cut oats, pinhead oats",
    "oat-porridge": "oatmeal",
    "farina": "cream of wheat",
    "cornmeal polenta-quick": "corn meal, corn grits",
    "maize-grits": "corn grits, hominy grits",
    "tortilla-maize": "corn tortilla",
    "bread-maize": "cornbread, corn bread",
    "pasta-maize": "corn pasta",
    "maize-starch": "cornstarch, cornflour, speisestärke, maisenna",
    "maize-oil": "corn oil",
    "glucose-syrup": "corn syrup",
    "wheat-flour": "plain flour, all-purpose flour, mehl, hvetemel",
    "wheat-flour-bread": "bread flour",
    "wheat-flour-whole": "whole wheat flour, wholemeal flour, vollkornmehl",
    "rice-instant": "minute rice, quick rice, precooked rice",
    "granola": "crunchy cereal",
    "breadcrumbs": "paniermehl, panko",
    "yeast-dried": "dry yeast, trockengerm, germ, tørrgjær",
    "bar-oat": "granola bar, cereal bar, muesli bar, müsliriegel, müslibar",
    "bar-nut bar-peanut bar-sesame": "energy bar, protein bar, nut bar",
    # milk, egg, fat
    "milk-powder": "powdered milk, dried milk, dry milk, milchpulver, melkepulver, tørrmelk",
    "buttermilk-powder": "powdered buttermilk",
    "egg-powder": "powdered eggs, dried egg, whole egg powder, eggepulver",
    "yoghurt": "yogurt, joghurt",
    "yoghurt-strained": "greek yogurt, greek yoghurt",
    "cream-whipping": "heavy cream, double cream, obers",
    "ghee": "butterschmalz",
    "rapeseed-oil": "canola oil",
    "cheese-slices": "american cheese",
    # nuts, sweets and drinks
    "peanuts": "groundnuts",
    "linseed": "flax seeds, flaxseed",
    "trail-mix": "gorp, studentenfutter, scroggin",
    "nut-spread": "chocolate hazelnut spread, chocolate spread",
    "boiled-sweets": "hard candy",
    "fruit-gums": "gummy candy, gummi bears, gummibärchen",
    "jelly-powder": "gelatin dessert",
    "drinking-chocolate": "hot cocoa, hot chocolate mix",
    "lemonade-powder orange-drink-powder": "drink mix, soft drink powder",
    "molasses": "treacle",
    "sugar-icing": "powdered sugar, confectioners sugar, puderzucker, staubzucker",
    "biscuits": "cookies, kekse",
    "potato-crisps": "potato chips, crisps",
    "tortilla-chips": "corn chips, nachos",
    # stock and spice
    "stock-powder": "bouillon, stock cube, bouillon cube, vegetable bouillon, suppenwürfel",
    "beef-stock-powder": "beef bouillon, bouillon, stock cube",
    "chicken-stock-powder": "chicken bouillon, bouillon, stock cube",
    "vegetable-broth": "vegetable stock",
    "chilli-powder": "chili powder",
    "spice-mix-chilli": "chili seasoning",
    "horseradish": "kren",
    "worcester-sauce": "worcestershire sauce",
}
_WORDS = re.compile(r"[a-z0-9]+")


def called_by_others(food: str) -> tuple[str, ...]:
    """Give what else a food is called, by its id."""
    rows = _rows()
    found = (rows[start] for start in _starts_of(food) if start in rows)
    return tuple(dict.fromkeys(chain.from_iterable(found)))


def foods_called(word: str, foods: Iterable[str]) -> list[str]:
    """Give the ids among some that are of foods which others call so."""
    said = _plainly(word)
    starts = {start for start, others in _rows().items() if said in map(_plainly, others)}
    return [food for food in foods if not starts.isdisjoint(_starts_of(food))]


@cache
def _rows() -> Mapping[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for starts, others in _CALLED.items():
        names = tuple(each.strip() for each in others.split(","))
        found |= dict.fromkeys(starts.split(), names)
    return found


def _starts_of(food: str) -> Iterator[str]:
    """Give how an id begins, word by word: `beef`, `beef-mince`, `beef-mince-raw`."""
    return accumulate(food.split("-"), "{}-{}".format)


@cache
def _plainly(words: str) -> str:
    """Give words in small plain letters, each without what marks more of it than one."""
    return " ".join(each.removesuffix("s") for each in _WORDS.findall(folded(words)))
