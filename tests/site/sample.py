"""A small made-up kit that uses every kind of thing a page may hold."""

from __future__ import annotations

import json
from html import escape
from pathlib import Path

from builder import units
from builder.formulas.air import pressure_hpa
from builder.formulas.boiling import boiling_point_c, time_factor
from builder.formulas.heat import (
    FOOD_ROOM_ML_PER_G,
    heating_min,
    pot_heat_kj,
    water_heat_kj,
)
from builder.model.figure import Figure, Origin, Told
from builder.model.gear import Pot
from builder.model.place import Place
from builder.pages.ink import data
from builder.pages.trip.origins.changing import part_of
from builder.planning.cooking import Hearth
from builder.planning.tracing import work
from builder.site.site_input import SiteInput

ROOT = Path(__file__).resolve().parents[2]
ASSETS = ROOT / "site_templates"
BASE_CONFIG = ROOT / "mkdocs.yml"
EPOCH = 1_914_883_200

INDEX = """# Lake &amp; &lt;Shore&gt; walk {#top}

Fri 11 Jul 2031 to Sat 12 Jul 2031.

<div class="next" markdown>
**Next:** put the beans in water at 17 h.
[Open day 1](day-1.md)
</div>

<dl class="glance">
<div><dt>Days</dt><dd>2</dd></div>
<div><dt>People</dt><dd>4</dd></div>
<div><dt>Gas</dt><dd>412 g <span class="small">14.5 oz</span></dd></div>
<div><dt>Heaviest load</dt><dd>13.2 kg <span class="small">29.1 lb</span></dd></div>
</dl>

<div class="caution danger" markdown>
**Danger: carbon monoxide.** Never cook in a closed tent.

Because: the shelter is a tent. [All cautions](cautions.md#carbon-monoxide)
</div>

| Day | Camp | Height | Food |
|-----|------|-------:|-----:|
| [1](day-1.md) | Low camp by the water | 640 m <span class="small">2100 ft</span> | 3.2 kg |
| [2](day-2.md) | Home | 120 m <span class="small">390 ft</span> | 1.1 kg |

<ul class="days">
<li class="day" data-day="1" data-date="2031-07-11"><a href="day-1.html">Day 1</a>,
<time datetime="2031-07-11">Fri 11 Jul 2031</time>.
<span class="meal" data-meal="lunch"><a href="day-1.html#day">Lunch</a></span>.
<span class="meal" data-meal="dinner"><a href="cook/bean-pot.html">Smoky bean pot</a></span></li>
<li class="day" data-day="2" data-date="2031-07-12"><a href="day-2.html">Day 2</a>,
<time datetime="2031-07-12">Sat 12 Jul 2031</time>.
<span class="meal" data-meal="breakfast"><a href="day-2.html#day">Oats</a></span></li>
</ul>

## All in one file {#files}

[Pocket page](pocket.html), [data](kit.json).
"""

DAY = """# Day {n} {{#day}}

<div class="timer-row" markdown>
Boiled beans stand for 10 min.
<button type="button" class="timer" data-minutes="10">Start 10 min</button>
</div>

| What | Who | Energy | Water | Fuel | Time | Potfuls | Mass |
|------|:---:|-------:|------:|-----:|-----:|--------:|-----:|
| Smoky bean pot with rice and oil | all | 812 kcal | 1260 ml | 41 g | 34 min | 2 | 640 g |

<div class="order" data-meal="dinner" markdown>

Start 50 min before you eat.

| Before eating | Do | With |
|--------------:|----|------|
| <span class="before" data-before="50">50 min</span> | Soak the beans. | pot |
| <span class="before" data-before="8">8 min</span> | Simmer 8 min. | stove, pot |

</div>

<details class="derivation" markdown>
<summary>How 41 g of gas came about</summary>

heat = 1.26 · 4.186 · (97.9 − 8) kJ
</details>

## Cautions {{#cautions}}

<div class="caution care" markdown>
**Care** Treat the water. Because: it comes from a stream.
</div>

<div class="caution note" markdown>
**Note** Salt and sweet drinks help. Because: it will be 27 °C.
</div>
"""

RECIPE = """# Smoky bean pot {#recipe}

<div class="party" data-party="4" data-eaters="trips/walk.yaml:9:5" data-names="{names}"
data-height="trips/walk.yaml:7:5" data-altitude="640" markdown>
For Ash, Rowan, Juniper and Bram.
</div>

**<span class="takes" data-figure="minutes" data-kind="min">{takes}</span>**. Pot, <span
class="scales" data-figure="potfuls" data-kind="potfuls">1 potful</span>. Water boils at <span
class="boils-at" data-figure="boils" data-kind="celsius" data-units="metric">98&nbsp;°C</span> <span
class="small boils-at" data-figure="boils" data-kind="celsius" data-units="us">208&nbsp;°F</span>,
at <span class="height" data-figure="height" data-kind="m" data-units="metric">640&nbsp;m</span>
<span class="small height" data-figure="height" data-kind="m" data-units="us">2,100&nbsp;ft</span>.
About 41&nbsp;g each <span class="small">1.4&nbsp;oz</span>.

<ul>
<li><span class="scales" data-figure="beans" data-kind="g" data-units="metric">160 g</span> beans
<span class="small scales" data-figure="beans" data-kind="g" data-units="us">5.6&nbsp;oz</span></li>
<li><span class="scales" data-figure="water" data-kind="ml" data-units="metric">520 ml</span>
water</li>
</ul>

## Steps {#steps}

<ol class="steps">
<li><label><input type="checkbox"> Soak the beans <span class="lasts" data-figure="soak"
data-kind="min">10 min</span>. <span class="stands">Keep them cold.</span></label></li>
<li><label><input type="checkbox"> Bring to the boil, simmer
<span class="lasts" data-figure="simmer" data-kind="min">9 min</span>
<span class="small">8 min at sea level</span>.
<span class="stands as-planned">Then still about 85&nbsp;°C hot.</span></label>
<button type="button" class="timer" data-minutes="9">Start 9 min</button></li>
<li><label><input type="checkbox"> Serve.</label></li>
</ol>

<script type="application/json" class="figures">{figures}</script>
"""

EATERS = ("Ash", "Rowan", "Juniper", "Bram")


def recipe_figures(eaters: int, altitude_m: float) -> dict[str, float]:
    """Give the figures of the recipe for so many at a height.

    Of two pots the lighter is taken, until for 19 eaters the other one makes fewer potfuls.
    """
    people = Figure(eaters, Told(Place("trips/walk.yaml", 9, 5), "eaters"))
    height_m = Figure(altitude_m, Told(Place("trips/walk.yaml", 7, 5), "altitude_m"))
    boils_c = work(boiling_point_c, work(pressure_hpa, height_m))
    beans_g, water_ml = people * 40.0, people * 130.0
    small, large = pot("small", 1500.0, 240.0), pot("large", 1550.0, 900.0)
    _, potfuls = Hearth(None, (), (small, large), (), 16.0).pot_for(
        water_ml + FOOD_ROOM_ML_PER_G * beans_g
    )
    heat_kj = work(water_heat_kj, water_ml, 10.0, boils_c)
    heat_kj += potfuls * work(pot_heat_kj, 240.0, "aluminium", 10.0, boils_c)
    simmer = work(time_factor, boils_c) * 8.0
    return {
        "beans": beans_g,
        "water": water_ml,
        "potfuls": potfuls,
        "boils": boils_c,
        "height": height_m,
        "soak": 10.0,
        "simmer": simmer,
        "minutes": work(heating_min, heat_kj, 0.5, 1.0, 1800.0) + 10.0 + simmer,
    }


def pot(name: str, holds_ml: float, mass_g: float) -> Pot:
    """Give a pot that may be filled to the brim."""
    return Pot(name, name, holds_ml, mass_g, "aluminium", fill_share=1.0)


def recipe(planned: dict[str, float]) -> str:
    """Give the page of the recipe, with the part of the graph that follows eaters and height."""
    keys: dict[Origin, str] = {
        Told(Place("trips/walk.yaml", 9, 5), "eaters"): "trips/walk.yaml:9:5",
        Told(Place("trips/walk.yaml", 7, 5), "altitude_m"): "trips/walk.yaml:7:5",
    }
    return (
        RECIPE.replace("{names}", escape(json.dumps(EATERS)))
        .replace("{takes}", units.show(planned["minutes"], "duration_min"))
        .replace("{figures}", data(part_of(planned, keys)))
    )


CAUTIONS = """# Cautions {#all}

## Carbon monoxide {#carbon-monoxide}

Never cook in a closed tent.
"""

CHART = """
<figure class="chart">
<svg viewBox="0 0 320 60" role="img" aria-labelledby="chart-title">
<title id="chart-title">Energy: day 1 3200 kcal, day 2 2900 kcal</title>
<rect x="60" y="5" width="220" height="18" class="bar"/>
<text x="4" y="19">Day 1</text>
<rect x="60" y="33" width="180" height="18" class="bar other"/>
<text x="4" y="47">Day 2</text>
</svg>
<figcaption>Energy per day</figcaption>
</figure>
"""

POCKET = """<main>
<h1>Lake &amp; &lt;Shore&gt; walk</h1>
<h2 id="day-1">Day 1</h2>
<section class="order" data-meal="dinner"><h3>Order of work</h3>
<table><thead><tr><th>Before eating</th><th>Do</th></tr></thead>
<tbody><tr><td><span class="before" data-before="50">50 min</span></td><td>Soak.</td></tr></tbody>
</table></section>
<ol class="steps"><li><label><input type="checkbox"> Soak the beans.</label></li></ol>
<table><caption>Food</caption><thead><tr><th scope="col">What</th><th scope="col">Mass</th></tr>
</thead><tbody><tr><td>Beans</td><td class="num">160 g</td></tr></tbody></table>
</main>
"""

KIT_JSON = {
    "format": "trip-kit",
    "version": 1,
    "trip": {
        "id": "lake-walk",
        "title": "Lake & <Shore> walk",
        "start": "2031-07-11",
        "party": [{"name": "Ash", "energy_share": 1.0}],
    },
    "days": [{"day": 1}, {"day": 2}],
}


def sample_site(
    trip_id: str = "lake-walk",
    title: str = "Lake & <Shore> walk",
    start: str = "2031-07-11",
    extra_page: str = "",
) -> SiteInput:
    """Give a site of six pages; `extra_page` is put at the end of the cautions."""
    trip = {**KIT_JSON["trip"], "id": trip_id, "title": title, "start": start}  # type: ignore[dict-item]
    return SiteInput(
        trip_id=trip_id,
        title=title,
        language="en",
        pages={
            "index.md": INDEX,
            "day-1.md": DAY.format(n=1) + CHART,
            "day-2.md": DAY.format(n=2),
            "cook/bean-pot.md": recipe(recipe_figures(len(EATERS), 640.0)),
            "cautions.md": CAUTIONS + extra_page,
        },
        nav=(
            ("At a glance", "index.md"),
            ("Days", (("Day 1 & <more>", "day-1.md"), ("Day 2", "day-2.md"))),
            ("Cooking", (("Smoky bean pot", "cook/bean-pot.md"),)),
            ("Cautions", "cautions.md"),
        ),
        files={"kit.json": json.dumps({**KIT_JSON, "trip": trip}).encode()},
        pocket_html=POCKET,
        epoch=EPOCH,
        dates=("2031-07-11", "2031-07-12"),
    )
