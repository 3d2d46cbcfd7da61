"""What numbers are usual, and which are possible at all, by kind of record and field.

Outside the usual a person is asked to look again; outside the possible the tool stops. Both are
wide on purpose: a usual value is never told as odd. Where no source is named, the ranges are
common practice: what shops, leaflets and log books hold.
"""

from __future__ import annotations

from builder.record import dataclass
from builder.units import plain


@dataclass(frozen=True, slots=True)
class Range:
    """The usual and the possible values of one number, bounds included, and why these."""

    usual: tuple[float, float]
    possible: tuple[float, float]
    why: str

    def judge(self, value: float) -> str:
        """Tell "" for a usual value, "unusual", or "impossible"."""
        # What comes from pounds or degrees Fahrenheit may miss a bound by binary rounding.
        hair = 1e-9 * max(1.0, abs(value))
        if not self.possible[0] - hair <= value <= self.possible[1] + hair:
            return "impossible"
        return "" if self.usual[0] - hair <= value <= self.usual[1] + hair else "unusual"

    def usual_in(self, unit: str, of: float = 1.0) -> str:
        """Give what is usual for a message, such as `0.5 to 9 km/h`, times `of`."""
        low, high = (plain(bound * of) for bound in self.usual)
        return f"{low} to {high} {unit}".rstrip()


# By (what a record is called in messages, key); each number in the unit that reading gives it.
USUAL: dict[tuple[str, str], Range] = {
    # Food. 5,514 foods of SR28 span the composition; pure substances bound it.
    ("food", "density"): Range((0.02, 1.7), (0.005, 2.3), "puffed grain to syrup; salt 2.2"),
    ("food", "piece"): Range((0.02, 3000), (0.001, 30_000), "a peppercorn to a pumpkin"),
    ("composition", "energy"): Range((0, 905), (0, 950), "pure fat 902 (SR28)"),
    ("composition", "water"): Range((0, 100), (0, 100), "of 100 g"),
    ("composition", "protein"): Range((0, 92), (0, 100), "soy isolate 88 (SR28)"),
    ("composition", "fat"): Range((0, 100), (0, 100), "oil"),
    ("composition", "carbohydrate"): Range((0, 100), (0, 100), "sugar"),
    ("composition", "fibre"): Range((0, 85), (0, 100), "maize bran 79 (SR28)"),
    ("composition", "sodium"): Range((0, 39_000), (0, 39_400), "salt 38,758; pure NaCl 39,340"),
    ("composition", "ash"): Range((0, 100), (0, 100), "salt 99.8 (SR28)"),
    ("composition", "alcohol"): Range((0, 50), (0, 95), "spirit 42.5 (SR28); 96 % by volume 94"),
    ("food", "caffeine"): Range((0, 6000), (0, 20_000), "instant tea 5,714 (SR28)"),
    ("food", "keeps"): Range((0.2, 120), (0.05, 360), "courgette 1 month to sugar"),
    ("food", "spread"): Range((0.001, 0.1), (0.0001, 0.3), "SR28: 0.6 to 3 points for most"),
    ("food", "takes_up"): Range((0.1, 1), (0.01, 1), "tomato 0.2 to cooked rice"),
    ("recipe", "cooked"): Range((50, 60_000), (5, 500_000), "a cup to a canteen pot"),
    ("perishable", "hours"): Range((0.5, 8784), (0.1, 8784), "an hour in heat to a year"),
    ("perishable", "below"): Range((0, 40), (-20, 60), "fridge to a hot day"),
    # Drying at home.
    ("batch", "fresh"): Range((10, 60_000), (1, 500_000), "a handful of herbs to a shed of plums"),
    ("batch", "dried"): Range((1, 30_000), (0.1, 300_000), "what that leaves"),
    ("batch", "ice"): Range((5, 25_000), (0.5, 500_000), "of a handful; home machines to 12 kg"),
    ("batch", "kept_at"): Range((-30, 35), (-40, 40), "freezer to attic"),
    ("batch", "used"): Range((0, 200), (0, 1000), "no more than were made"),
    ("batch", "loaded_at"): Range((-45, 10), (-70, 60), "a freezer"),
    ("place", "at"): Range((-30, 35), (-40, 40), "freezer to attic"),
    ("packs", "count"): Range((1, 300), (1, 1000), "packs of one run or one purchase"),
    ("packs", "of"): Range((3, 5000), (0.5, 50_000), "a spice bag to a sack"),
    ("heat step", "to"): Range((50, 180), (40, 300), "a pan of water to a hot oven"),
    ("heat step", "minutes"): Range((0.5, 1440), (0.01, 1440), "a boil to a water bath"),
    ("weighing", "at"): Range((10, 7 * 1440), (1, 30 * 1440), "in the sun a week"),
    ("weighing", "mass"): Range((1, 60_000), (0.1, 500_000), "as the load"),
    ("source", "year"): Range((1700, 2100), (1400, 2200), "printed books"),
    # Recipes. What hangs on servings, eaters or on what is done stands in plausible.py.
    ("recipe", "serves"): Range((0.5, 30), (0.1, 300), "one mug to a large camp"),
    ("recipe", "reach"): Range((60, 100), (40, 130), "63 to 74 for raw food; boiling"),
    ("recipe", "drain"): Range((0, 20_000), (0, 100_000), "a large pot"),
    ("step", "water"): Range((0, 30_000), (0, 100_000), "a large pot"),
    ("step", "each_side"): Range((0.5, 20), (0.1, 60), "over embers 2 to 8 minutes"),
    ("step", "at"): Range((140, 230), (100, 260), "bread and cake in an oven"),
    ("step", "pieces"): Range((0.1, 12), (0.01, 50), "fillings for one eater"),
    # Gear.
    ("stove", "power"): Range((150, 12_000), (30, 30_000), "a tablet burner to a group's ring"),
    ("stove", "lowest"): Range((0, 5000), (0, 30_000), "a fifth to a half of full"),
    ("stove", "efficiency"): Range((0.15, 0.85), (0.05, 0.95),
                                   "0.25 alcohol in wind to 0.80 with fins (references 7)"),
    ("stove", "mass"): Range((10, 6000), (0, 30_000), "a wire stand to a two-ring stove"),
    ("stove test", "water"): Range((100, 10_000), (10, 100_000), "a mug to a large pot"),
    ("stove test", "cold"): Range((0, 35), (0, 90), "snow water to a warm tap"),
    ("stove test", "fuel"): Range((1, 1000), (0.1, 10_000), "7 to 30 g a litre"),
    ("stove test", "height"): Range((-430, 6500), (-500, 8849), "as a camp"),
    ("stove", "fuel_reserve"): Range((0, 0.6), (0, 1), "10 to 30 %"),
    ("fuel", "energy"): Range((14, 52), (8, 60), "gel 14 to propane 50; by kind in plausible.py"),
    ("fuel", "lights_from"): Range((-50, 80), (-90, 120), "flash points: petrol −43, diesel 60"),
    ("container", "holds"): Range((5, 15_000), (1, 60_000), "a tablet box to a gas bottle"),
    ("container", "empty"): Range((0, 15_000), (0, 60_000), "steel bottle"),
    ("gas mix", "propane"): Range((0, 1), (0, 1), "a share"),
    ("gas mix", "isobutane"): Range((0, 1), (0, 1), "a share"),
    ("gas mix", "butane"): Range((0, 1), (0, 1), "a share"),
    ("pot", "holds"): Range((150, 30_000), (50, 200_000), "a mug to a canteen pot"),
    ("pot", "mass"): Range((20, 15_000), (0, 60_000), "titanium mug to cast iron"),
    ("pot", "fill_to"): Range((0.4, 1), (0.1, 1), "room to boil over"),
    ("pot", "loss_at_boil"): Range((10, 1500), (0, 10_000), "about 100 W a litre pot"),
    ("pot", "pressure"): Range((10, 120), (1, 150), "household cookers 50 to 100 kPa"),
    ("iron", "mass"): Range((300, 8000), (0, 40_000), "aluminium to double cast iron"),
    ("iron", "presses"): Range((1, 6), (1, 20), "fillings at once"),
    ("iron", "face"): Range((40, 900), (10, 5000), "one plate, 10 to 30 cm"),
    ("packaging", "mass"): Range((0.3, 1500), (0, 10_000), "paper to a preserving jar"),
    ("packaging", "holds"): Range((10, 20_000), (1, 200_000), "a spice bag to a bucket"),
    ("dryer", "load"): Range((100, 40_000), (10, 500_000), "a small shelf to a cabinet"),
    ("dryer", "hours"): Range((1, 120), (0.5, 500), "a day; freeze-drying two; sun five"),
    ("dryer", "ice"): Range((300, 25_000), (50, 500_000), "home freeze-dryers 2 to 12 kg"),
    ("dryer", "trays"): Range((200, 60_000), (50, 1_000_000), "one tray to a cabinet"),
    # The party.
    ("person", "age"): Range((0, 95), (0, 120), "who goes on trips"),
    ("person", "mass"): Range((6.5, 150), (4.5, 300), "by age in plausible.py"),
    ("person", "height"): Range((66, 208), (58, 255), "by age in plausible.py"),
    ("person", "own_gear"): Range((0, 25_000), (0, 80_000), "3 to 15 kg"),
    ("person", "carries_to"): Range((0, 40_000), (0, 100_000), "a third of one's mass"),
    ("shared thing", "mass"): Range((1, 45_000), (0, 500_000), "a whistle to a canoe"),
    ("trip", "mug"): Range((100, 1000), (30, 3000), "a cup to a camp mug"),
    ("trip", "ladle"): Range((30, 500), (5, 3000), "a large spoon to a canteen ladle"),
    ("meal", "caffeine"): Range((0, 6000), (0, 20_000), "as of a food: instant tea 5,714 (SR28)"),
    ("home", "portion"): Range((3, 500), (0.5, 5000), "dried: a spoonful of herbs to a big meal"),
    ("home", "electricity"): Range((0.005, 1000), (0, 1e6), "of any currency"),
    ("trip", "washing"): Range((0, 20_000), (0, 200_000), "1 to 2 l a camp"),
    ("until", "day"): Range((1, 4), (1, 366), "a soft bag a day, a hard box full of ice three"),
    ("fire", "wood_moisture"): Range((0.05, 0.55), (0, 0.6), "kiln-dried to green"),
    # The way and the weather.
    ("day", "camp_altitude"): Range((-430, 6500), (-500, 8849), "a salt lake to the highest top"),
    ("day", "barometer"): Range((440, 1060), (300, 1090), "weather records; the highest top 314"),
    ("air", "low"): Range((-45, 32), (-70, 60), "weather records"),
    ("air", "high"): Range((-40, 45), (-70, 60), "weather records"),
    ("water", "at"): Range((0, 32), (0, 50), "melting ice to a tropical lake"),
    ("water", "between_water"): Range((0, 14), (0, 48), "hours of a long day"),
    ("travel", "hours"): Range((0, 12), (0, 16), "a long day"),
    ("travel", "distance"): Range((100, 250_000), (1, 800_000), "by way in plausible.py"),
    ("travel", "ascent"): Range((0, 2500), (0, 9000), "by way in plausible.py"),
    ("travel", "descent"): Range((0, 3500), (0, 12_000), "by way in plausible.py"),
    ("travel", "load"): Range((0, 40_000), (0, 100_000), "as a pack"),
    # What was, after the trip.
    ("review", "fuel_used"): Range((5, 20_000), (0, 500_000), "a cup of tea to a long trip"),
    ("review", "wood_used"): Range((50, 200_000), (0, 5e6), "twigs to a pile"),
    ("water used", "used"): Range((500, 200_000), (0, 2e6), "one in the cool to a large party"),
    ("water used", "day"): Range((1, 60), (1, 366), "the days of a trip, checked against it"),
    ("what was left", "day"): Range((1, 60), (1, 366), "as above"),
    ("what was left", "share"): Range((0, 1), (0, 1), "none to all"),
    ("what was left", "mass"): Range((1, 10_000), (0, 200_000), "crumbs to days of food"),
    ("what a dish took", "minutes"): Range((1, 240), (0, 1440), "a mug to a roast"),
    ("review", "back"): Range((0, 200), (0, 1000), "as packs of a batch"),
}  # fmt: skip

# Of keys that are read and kept, and of which nothing is made yet.
USUAL_KEPT: dict[tuple[str, str], Range] = {
    ("food", "hours"): Range((1, 120), (0.5, 500), "herbs 2 hours, freeze-drying and sun days"),
    ("food", "refuse"): Range((0, 0.75), (0, 0.95), "SR28: leaf beet 8 %, pineapple 49, maize 64"),
    ("food", "price"): Range((0.1, 5000), (0, 1e6), "of any currency"),
    ("food", "dried_price"): Range((0.1, 20_000), (0, 1e6), "of any currency"),
    ("food", "pack"): Range((5, 25_000), (0.5, 500_000), "a spice bag to a sack"),
    ("pot", "diameter"): Range((8, 45), (3, 150), "a mug to a canteen pot"),
    ("packaging", "price"): Range((0.005, 100), (0, 10_000), "of any currency"),
    ("dryer", "power"): Range((80, 4000), (5, 30_000), "a small shelf to a freeze dryer; fans"),
    ("dryer", "from"): Range((15, 80), (-60, 200), "a freeze dryer needs none"),
    ("dryer", "to"): Range((40, 260), (0, 320), "a dehydrator 70, an oven 250"),
    ("dryer", "price"): Range((5, 100_000), (0, 1e6), "of any currency"),
    ("dryer", "lasts"): Range((20, 5000), (1, 100_000), "a few years of weekends"),
    ("dryer", "runs_a_year"): Range((1, 150), (0.1, 730), "now and then to every other day"),
    ("sheet", "columns"): Range((1, 10), (1, 50), "shop sheets 1 to 7"),
    ("sheet", "rows"): Range((1, 30), (1, 100), "shop sheets 1 to 27"),
    ("sheet", "width"): Range((15, 216), (5, 420), "a small label to a page"),
    ("sheet", "height"): Range((8, 297), (3, 600), "a small label to a page"),
    ("sheet", "left"): Range((0, 40), (0, 300), "the paper's margin"),
    ("sheet", "top"): Range((0, 40), (0, 300), "the paper's margin"),
    ("gap", "across"): Range((0, 20), (0, 200), "cut one beside the other, or apart"),
    ("gap", "down"): Range((0, 20), (0, 200), "cut one below the other, or apart"),
    ("review", "marks"): Range((1, 5), (1, 5), "checked"),
    ("depot", "camp"): Range((1, 60), (1, 366), "the days of a trip, checked against it"),
    ("depot", "holds"): Range((1, 60), (1, 366), "the days of a trip, checked against it"),
}

# A packet's label stands on the meal itself; what a camp tells may stand on the trip, and what
# holds for all trips and batches at home.
_SAME_AS = {
    "meal": "composition",
    "start camp": "day",
    "home": "trip",
    "batch of the home": "batch",
    "run of the file": "batch",
    "leg": "travel",
}


def usual_of(what: str, key: str) -> Range | None:
    """Give the range of a record's number; None for one that any value would do for."""
    return (
        USUAL.get((what, key))
        or USUAL.get((_SAME_AS.get(what, ""), key))
        or USUAL_KEPT.get((what, key))
    )
