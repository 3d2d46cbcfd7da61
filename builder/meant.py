"""What people write where the tool has another word for it, in the languages it speaks.

Spelling alone leads astray: `hiking` is spelt like `skiing`, and `weight` like `height`.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping

# Our word → what people write for it, parted by commas. A word of several meanings stands in
# several rows: only what is known where it was written is ever proposed.
_MEANT: Mapping[str, str] = {
    # ways of travel
    "walking": "walk, hike, hiking, hillwalking, trek, trekking, tramping, backpacking, on foot,"
    " foot, mountaineering, wandern, wanderung, gehen, zu fuß, bergsteigen, gå, gåing, fottur,"
    " vandring, fjelltur",
    "paddling": "paddle, kayak, kayaking, canoe, canoeing, packraft, packrafting, raft, rafting,"
    " row, rowing, boat, paddeln, kajak, kanu, rudern, boot, padle, padling, kano, ro, roing, båt",
    "skiing": "ski, skis, ski touring, ski tour, cross-country skiing, nordic skiing,"
    " skitour, skifahren, skilaufen, langlauf, skitur, skigåing, langrenn",
    "snowshoeing": "snowshoe, snowshoes, schneeschuh, schneeschuhe, schneeschuhwandern, truge,"
    " truger, trugetur",
    "cycling": "cycle, bike, bikes, biking, bicycle, bikepacking, mountain biking, rad, fahrrad,"
    " radfahren, radtour, sykkel, sykle, sykling, sykkeltur",
    "resting": "rest, rest day, zero day, day off, none, ruhetag, rasttag, rast, pause, ruhe,"
    " hvile, hviledag, kvile",
    "carried": "passenger, carry, sitting, trailer, child trailer, getragen, gefahren, mitfahren,"
    " anhänger, båret, bæres, passasjer, vogn",
    # water and ground
    "stream": "river, brook, creek, burn, spring, bach, fluss, quelle, bekk, elv, kilde",
    "lake": "pond, tarn, loch, reservoir, see, teich, innsjø, sjø, vann, tjern",
    "snow": "ice, glacier, schnee, eis, snø, is",
    "tap": "house, leitung, wasserhahn, spring, kran",
    "boil": "boiled, boiling, cook, bring to a boil, bring to the boil, kochen, abkochen,"
    " aufkochen, koke, koking",
    "chemical": "chemicals, tablet, tablets, drops, chlorine, chlorine dioxide, iodine, bleach,"
    " tabletten, tropfen, chlor, jod, tabletter, dråper, klor",
    "filter": "filtered, filtering, pump, gravity, filtern, filtrieren, filtrere",
    "path": "trail, track, footpath, pfad, weg, sti",
    "road": "gravel, tarmac, asphalt, street, straße, forststraße, vei, grusvei",
    "rough": "scree, boulders, bog, off-trail, heath, geröll, weglos, ur, myr, utenfor sti",
    # people
    "female": "f, w, woman, girl, weiblich, frau, kvinne, jente",
    "male": "m, man, boy, männlich, mann, gutt",
    "vegetarian": "veggie, vegetarisch, vegetarier, vegetarisk, vegetarianer",
    "vegan": "plant-based, veganer, vegansk",
    # what the law on labels calls them
    "cereals-gluten": "gluten, wheat, coeliac, celiac, weizen, glutenhaltig, hvete",
    "crustaceans": "prawn, prawns, shrimp, shrimps, crab, lobster, shellfish, seafood, krebstiere,"
    " garnelen, meeresfrüchte, krepsdyr, reker, skalldyr, sjømat",
    "eggs": "egg, ei, eier",
    "peanuts": "peanut, groundnuts, erdnuss, erdnüsse, peanøtter",
    "soybeans": "soy, soya, soja, soyabønner",
    "milk": "dairy, lactose, milch, laktose, melk",
    "nuts": "nut, tree nuts, nuss, nüsse, nøtter, nøtt",
    "celery": "celeriac, sellerie, selleri",
    "mustard": "senf, sennep",
    "sesame": "sesame seeds, sesam",
    "sulphites": "sulfites, sulphur dioxide, sulfur dioxide, sulfit, sulfite, schwefel, sulfitt",
    "lupin": "lupine, lupinen, lupiner",
    "molluscs": "mollusks, mussels, squid, shellfish, seafood, weichtiere, muscheln,"
    " meeresfrüchte, bløtdyr, skjell, skalldyr, sjømat",
    # kinds of food
    "fruit": "fruits, berry, berries, obst, frukt",
    "vegetable": "veg, veggies, vegetables, gemüse, grønnsak, grønnsaker",
    "legume": "pulse, pulses, hülsenfrucht, hülsenfrüchte, belgfrukt, belgfrukter",
    "grain": "cereal, cereals, getreide, korn",
    "nut": "nuts, seed, seeds, nuss, nüsse, nøtt, nøtter",
    "meat": "fleisch, kjøtt",
    "poultry": "bird, geflügel, fjærfe",
    "fish": "seafood, fisch, meeresfrüchte, fisk, sjømat",
    "egg": "eggs, ei, eier",
    "dairy": "milk, milch, milchprodukt, melk, meieri",
    "fat": "oil, fett, öl, olje",
    "sugar": "sweet, sweets, zucker, sukker",
    "herb": "spice, spices, herbs, seasoning, kräuter, gewürz, urter, krydder",
    "drink": "beverage, getränk, drikke",
    "meal": "dish, ready meal, gericht, mahlzeit, rett, måltid",
    # steps, and what is cooked in
    "soak": "rehydrate, hydrate, steep, einweichen, quellen, bløtlegge, trekke",
    "mix": "add, stir, stir in, combine, whisk, blend, fold, mischen, rühren, einrühren, blande,"
    " røre",
    "simmer": "cook, stew, poach, köcheln, ziehen, småkoke, putre",
    "fry": "sauté, brown, braten, anbraten, rösten, steke",
    "press": "toast, grill, toasten, grillen, riste",
    "bake": "roast, oven, backen, steke i ovn",
    "rest": "stand, let stand, sit, wait, stehen, ruhen, ziehen lassen, hvile, vente",
    "serve": "eat, share out, dish up, servieren, anrichten, verteilen, servere, spise",
    "pot": "pan, kettle, dutch oven, skillet, saucepan, billy, topf, pfanne, kessel, gryte, kjele,"
    " panne",
    "iron": "pie iron, sandwich iron, campfire iron, toaster, sandwicheisen, toastjern",
    "mug": "cup, bowl, becher, tasse, schüssel, kopp, krus, skål",
    "none": "no cook, no cooking, cold soak, uncooked, ohne kochen, ukokt",
    # drying and packing
    "dehydrator": "dryer, dried, dehydrated, air, dörrgerät, dörrautomat, tørke, tørker",
    "freeze-dryer": "freeze-dried, freeze drying, gefriertrockner, gefriergetrocknet, frysetørker,"
    " frysetørket",
    "sun": "solar, sonne, sol",
    "bought": "shop, store, store-bought, packet, gekauft, kjøpt",
    "ready": "cold, as it is, prepared, fertig, klar",
    "dried": "dry, dry_weight, trocken, getrocknet, tørr, tørket",
    "cooked": "boiled, roasted, gekocht, kokt",
    "raw": "fresh, roh, frisch, rå, fersk",
    # keys
    "mass": "weight, weighs, gewicht, vekt",
    "name": "title, called",
    "title": "name, called",
    "party": "people, persons, members, group, who, gruppe, gjeng",
    "energy": "calories, kcal, kilocalories, kj, kalorien, kalorier",
    "carbohydrate": "carbs, carbohydrates, carb",
    "fibre": "fiber, dietary fiber",
    "camp_altitude": "altitude, elevation, height, camp_height, høyde, höhe",
    "carries_to": "max_load, capacity, carries, can_carry",
    "avoids": "allergies, allergic, allergens, diet, intolerances",
    "uses": "ingredients, foods, zutaten, ingredienser",
    "steps": "instructions, directions, method, schritte, trinn",
    "serves": "servings, portions, people, yields",
    "holds": "volume, capacity, size",
    "fresh": "wet, raw, fresh_weight",
    "done": "date, finished, dried_on",
    "minutes": "min, time, duration",
    "hours": "time, duration",
    "distance": "length, km, miles",
    "ascent": "climb, up, elevation_gain",
    "descent": "down, elevation_loss",
    "days": "itinerary, stages, tage, dager",
    "start": "date, begins, from",
}


_LETTERS = str.maketrans({"ø": "o", "æ": "ae", "ß": "ss", "œ": "oe"})


def folded(text: str) -> str:
    """Give a text in small plain letters: `Nüsse` and `nusse` are one."""
    plain = unicodedata.normalize("NFKD", text.casefold().translate(_LETTERS))
    return "".join(sign for sign in plain if not unicodedata.combining(sign))


def _normal(word: str) -> str:
    return " ".join(folded(word).replace("-", " ").replace("_", " ").split())


def _by_written() -> dict[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {}
    for ours, written in _MEANT.items():
        for each in written.split(","):
            found.setdefault(_normal(each), []).append(ours)
    return {written: tuple(ours) for written, ours in found.items()}


_BY_WRITTEN = _by_written()


def meant_by(word: str) -> tuple[str, ...]:
    """Give the tool's own words that somebody may mean by a word."""
    return _BY_WRITTEN.get(_normal(word), ())
