"""The pages of the home as text: runs by week, shopping by shelf, the table for other programs."""

from __future__ import annotations

import csv
import datetime
import html
import io
import json
import re
from pathlib import Path

import pytest

from builder.model.home import Home
from builder.model.learned import Factor, Habit
from builder.pages.home.book import HomeBook, write_home_book
from builder.pages.home.following import follow_page
from builder.pages.home.front import front_page
from builder.pages.home.runs import runs_page
from builder.pages.home.shopping import shopping_csv, shopping_page
from builder.planning.batches import Learned
from builder.planning.home import HomePlan, TripShopping
from builder.planning.runs import DryingPlan, Part, Run, Step
from builder.planning.stock import StockLine, dryables, followed
from builder.planning.ways import Pays, VitaminC, Way, Ways
from builder.planning.year import Experience, Purchase, Task, TripAhead
from builder.record import replace
from tests.pages.conftest import TEMPLATES
from tests.pages.test_labels import BEANS as LABEL
from tests.planning.folders import hand

APPLES = Part("apple", False, "Apple, raw", "dehydrator", 2200.0, 389.0, (), 8, None)


def at(text: str) -> datetime.datetime:
    return datetime.datetime.fromisoformat(text)


RUN = Run(
    id="tall-1",
    dryer="tall",
    dryer_name="Tall dryer",
    method="dehydrator",
    start=at("2031-08-23T10:00"),  # a Saturday
    end=at("2031-08-23T22:00"),
    emptied=at("2031-08-23T22:00"),
    parts=(APPLES,),
    steps=(
        Step("start", at("2031-08-23T10:00"), at("2031-08-23T22:00"), "Start the tall dryer"),
        Step("condition", at("2031-08-23T22:00"), at("2031-08-30T22:00"), "Shake the jar"),
    ),
)
OATS = Purchase("oats", "Oats", "dry goods", 450.0, 1000.0, 2, 500.0, None, False, ("far", "near"))
SALT = Purchase(
    "salt", "=Salt|<b>", "", 7.0, 7.0, 0, 0.0, datetime.date(2031, 9, 4), False, ("far",)
)
EMPTY = HomePlan(
    home=Home(),
    day=datetime.date(2031, 8, 17),
    stock=(),
    drying=DryingPlan(),
    ways=(),
    sources={},
    learned=(),
    tasks=(),
    trips=(),
    labels=(),
    sheets={},
    shopping=(),
    from_stock=(),
    bagging=(),
)


def book(**changes: object) -> HomeBook:
    return write_home_book(replace(EMPTY, **changes), TEMPLATES)  # type: ignore[arg-type]


def test_a_home_with_nothing_in_it_says_so_on_every_page() -> None:
    pages = book().markdown
    assert "Nothing waits: no load to see to, nothing to throw out." in pages["index.md"]
    assert "No trip is ahead." in pages["index.md"]
    assert "No packs are left." in pages["stock.md"]
    assert "Nothing is left to dry for the trips ahead." in pages["runs.md"]
    assert "No packs are left to label." in pages["labels.md"]
    assert "Nothing to buy for the trips ahead." in pages["shopping.md"]
    assert "runs.ics" not in book().files


# -- runs -----------------------------------------------------------------------------------------


def test_a_run_is_drawn_in_each_week_that_it_or_its_jar_lasts() -> None:
    page = runs_page(replace(EMPTY, drying=DryingPlan((RUN,))))
    assert [chart.title for chart in page.charts] == [
        "Week from Mon 18 Aug 2031: 1 run begins",
        "Week from Mon 25 Aug 2031: no run begins",
    ]
    first, second = page.charts
    # 296 wide: Saturday 10:00 is 5 days and 10 hours in, and the dryer runs for half a day.
    dryer, jar = first.bars
    assert float(dryer.x) == pytest.approx(296 / 7 * (5 + 10 / 24), abs=0.05)
    assert float(dryer.width) == pytest.approx(296 / 7 / 2, abs=0.05)
    assert (dryer.fill, jar.fill) == ("solid", "lines")
    assert float(jar.x) + float(jar.width) == pytest.approx(296, abs=0.1)  # to the end of the week
    (rest,) = second.bars
    assert float(rest.x) == 0
    assert float(rest.width) == pytest.approx(296 / 7 * (5 + 22 / 24), abs=0.05)
    assert "Tall dryer: Apple from Sat 23 Aug 2031, 10:00 to Sat 23 Aug 2031, 22:00" in first.text


def test_weeks_in_which_nothing_lasts_have_no_chart() -> None:
    later = datetime.timedelta(weeks=4)
    steps = tuple(
        replace(step, at=step.at + later, until=step.until and step.until + later)
        for step in RUN.steps
    )
    second = replace(RUN, start=RUN.start + later, end=RUN.end + later, steps=steps)
    page = runs_page(replace(EMPTY, drying=DryingPlan((RUN, second))))
    assert [chart.title.partition(":")[0] for chart in page.charts] == [
        "Week from Mon 18 Aug 2031",
        "Week from Mon 25 Aug 2031",
        "Week from Mon 15 Sep 2031",
        "Week from Mon 22 Sep 2031",
    ]


def test_a_run_tells_loads_steps_and_the_calendar_file() -> None:
    written = book(drying=DryingPlan((RUN,)))
    page = written.markdown["runs.md"]
    assert "## Tall dryer, Sat 23 Aug 2031, 10:00" in page
    assert "12 h to Sat 23 Aug 2031, 22:00, 2.2\u00a0kg in, 1.81\u00a0kg of water out." in page
    assert "- <strong>2.2\u00a0kg</strong> Apple, raw&#58; gives 389\u00a0g, 8 packs" in page
    assert "Shake the jar" in page
    assert "(runs.ics)" in page
    assert b"BEGIN:VEVENT" in written.files["runs.ics"]
    assert written.files["runs.ics"] == book(drying=DryingPlan((RUN,))).files["runs.ics"]


def test_what_cannot_be_done_is_said() -> None:
    page = book(drying=DryingPlan(impossible=("two more free evenings would do",)))
    assert "## Cannot be done" in page.markdown["runs.md"]
    assert "two more free evenings would do" in page.markdown["runs.md"]
    assert "Nothing is left to dry" not in page.markdown["runs.md"]


@pytest.mark.parametrize(("day", "told"), [("2031-08-16", True), ("2031-08-15", False)])
def test_the_front_page_tells_the_steps_of_the_week(day: str, told: bool) -> None:
    page = book(day=datetime.date.fromisoformat(day), drying=DryingPlan((RUN,)))
    assert ("Start the tall dryer" in page.markdown["index.md"]) is told


def front(**changes: object) -> str:
    """Give the front page as plain text, day 2031-08-17."""
    text = html.unescape(book(**changes).markdown["index.md"]).replace("\xa0", " ")
    return text.replace("<strong>", "**").replace("</strong>", "**")


@pytest.mark.parametrize(
    ("needed_on", "told"),
    [
        ("2031-08-24", "Buy by Sun 24 Aug 2031: [Oats](shopping.md)."),
        ("2031-08-25", ""),  # there is a week's time yet
        ("2031-08-10", "Buy by Sun 17 Aug 2031: [Oats](shopping.md)."),  # late, so today
        (None, ""),
    ],
)
def test_what_is_needed_within_the_week_is_bought(needed_on: str | None, told: str) -> None:
    day = datetime.date.fromisoformat(needed_on) if needed_on else None
    text = front(shopping=(replace(OATS, needed_on=day),))
    assert (told in text) if told else ("Buy by" not in text)


def test_many_things_to_buy_are_counted() -> None:
    day = datetime.date(2031, 8, 20)
    many = tuple(replace(OATS, name=f"Food {n}", needed_on=day) for n in range(7))
    assert "[Food 0, Food 1, Food 2, Food 3, Food 4 and Food 5]" in front(shopping=many[:6])
    assert "Buy by Wed 20 Aug 2031: [7 things to buy](shopping.md)." in front(shopping=many)


@pytest.mark.parametrize(
    ("start", "told"),
    [
        ("2031-08-24", "Fill the bags for [Tops](bagging/tops.md) by Sat 23 Aug 2031."),
        ("2031-08-17", "Fill the bags for [Tops](bagging/tops.md) by Sun 17 Aug 2031."),
        ("2031-08-25", ""),
        ("2031-08-16", ""),  # under way
    ],
)
def test_bags_are_filled_in_the_week_before_a_trip(start: str, told: str) -> None:
    first = datetime.date.fromisoformat(start)
    trip = TripAhead("tops", "Tops", first, (first - EMPTY.day).days, 0, 0)
    text = front_text(replace(EMPTY, trips=(trip,)), {"tops": "bagging/tops.md"})
    assert (told in text) if told else ("Fill the bags" not in text)


def front_text(plan: HomePlan, bagging_paths: dict[str, str]) -> str:
    page = front_page(plan, bagging_paths)
    return "\n".join(
        "".join(f"[{each.text}]({each.href})" if each.href else each.text for each in line)
        for line in page.week
    )


def on_shelf(name: str, best_before: datetime.date | None, **changes: object) -> StockLine:
    line = StockLine(
        batch=name, food=name, name=name, kind="vegetable", method="dehydrator", verdict="dry",
        act="", packs_left=2, packs_promised=0, pack_g=30.0, best_before=best_before,
        promised_to=(), remark="", shelf="Cellar", made_on=datetime.date(2031, 1, 5),
        is_planned=False,
    )  # fmt: skip
    return replace(line, **changes)  # type: ignore[arg-type]


def test_what_several_batches_ask_for_is_said_once() -> None:
    old = datetime.date(2031, 6, 1)
    past = "PAST ITS DATE: smell, look"
    stock = (
        on_shelf("Carrot", old, remark=past),
        on_shelf("Carrot", datetime.date(2031, 7, 1), remark=past),
        on_shelf("Jerky", old, remark="PAST ITS DATE: throw it out"),
        on_shelf("Leek", None, act="Dry on."),
        on_shelf("Apple", old, act="Test it.", remark="PAST ITS DATE: smell it"),
        on_shelf("Mince", old, act="Throw it out.", remark="PAST ITS DATE", is_waste=True),
        on_shelf("Egg", None, act="Throw it away.", why="raw egg, dried by heat"),
        on_shelf("Beans", None, act="Wait.", is_planned=True, made_on=None),
    )
    page = book(stock=stock).markdown["stock.md"].replace("\xa0", " ")
    assert page.count(past) == 1
    to_see = page[page.index(past) : page.index("## By date")]
    assert re.findall(r"<span>(.*)</span>", to_see) == [
        "<strong>Carrot</strong>, best before 1 Jun 2031",
        "<strong>Carrot</strong>, best before 1 Jul 2031",
        "<strong>Jerky: </strong>PAST ITS DATE: throw it out.",
        "<strong>Leek: </strong>Dry on.",
        "<strong>Apple: </strong>Test it. PAST ITS DATE: smell it.",
        "<strong>Mince: </strong>Throw it out.",
        "<strong>Egg</strong> (raw egg, dried by heat)&#58; Throw it away.",
    ]
    assert page.count("Dry on.") == 1, "neither by place nor by kind"
    assert "<strong>Leek</strong>&#58; 2 packs of 30 g, no date" in page
    assert "<strong>Beans</strong>&#58; 2 packs of 30 g. Wait." in page


def test_what_is_thrown_out_stands_apart_from_what_is_looked_at() -> None:
    old = datetime.date(2031, 6, 1)
    text = front(
        tasks=(
            Task("throw-out", "a", "Jerky", old, "", 2),
            Task("throw-out", "b", "Leek", None, "Throw it out.", 1, "raw egg, dried by heat"),
            Task("past", "c", "Carrot", old, "PAST ITS DATE", 3),
        )
    )
    thrown, past = text[text.index("## Throw out") :].split("## Past their date")
    assert "**Jerky**: 2 packs, best before 1 Jun 2031" in thrown
    assert "**Leek**: 1 pack (raw egg, dried by heat)</span>" in thrown
    assert "**Carrot**: 3 packs, best before 1 Jun 2031" in past
    assert "No load to see to, nothing to buy or to pack." in text
    assert "nothing to throw out" not in text


def test_what_gets_no_label_tells_why_it_is_thrown_out() -> None:
    label = replace(LABEL, failed=True, act="Throw it out.", why="raw egg, dried by heat")
    page = book(labels=(label,)).markdown["labels.md"]
    assert f"<strong>{LABEL.name}</strong> (raw egg, dried by heat)&#58; Throw it out." in page


# -- ways to dry ----------------------------------------------------------------------------------


def way(**changes: object) -> Way:
    told = Way(
        method="dehydrator",
        dryer="tall",
        dryer_name="Tall dryer",
        dried_g=180.0,
        room_ml=490.0,
        water_back_ml=615.0,
        takes_up_share=0.6,
        soak_min=(30.0, 75.0),
        hours=12.0,
        runs=2,
        energy_kwh=3.25,
        cost=4.0,
        portion_cost=1.125,
        portions=3.6,
        keeps_until=datetime.date(2032, 5, 20),
        kept_at_told=True,
        vitamin_c=VitaminC(0.01, 0.36, "table"),
        cautions=(),
        cannot=(),
    )
    return replace(told, **changes)  # type: ignore[arg-type]


# Seen where the table stands as lines.
NAME_OF_COLUMN = re.compile(r'<span class="which" data-search-exclude="1">([^<]*)</span>')


def ways_of(*every: Way, pays: tuple[Pays, ...] = ()) -> str:
    found = Ways("apple", "Apple", 1000.0, "EUR", every, pays)
    return book(ways=(found,), sources={"table": "A table"}).markdown["ways.md"]


def test_ways_of_raw_meat_say_what_their_date_rests_on() -> None:
    says = "heat it to 72\xa0°C in the middle before it goes into the dryer: the date rests on that"
    assert says in ways_of(way(heat_first_c=72.0))
    assert says not in ways_of(way())


def test_ways_stand_side_by_side() -> None:
    page = ways_of(way())
    assert (
        # Halves go up, as in all figures.
        "| <strong>Tall dryer</strong> | A portion 1.13\u00a0EUR | Gives "
        '180\u00a0g <span class="small">490\u00a0ml</span> | Time '
        '2 × 12\u00a0h <span class="small">3.3\u00a0kWh</span> | Water back '
        '615\u00a0ml <span class="small">30 to 75 min</span> | Keeps until 20\u00a0May 2032 |'
    ) in NAME_OF_COLUMN.sub(r"\1", page)
    assert "Not all costs are given" not in page


def test_a_date_says_with_which_warmth_it_is_counted_where_nobody_told() -> None:
    assert "20\u00a0May 2032 if kept at 20\u00a0°C (not given) |" in ways_of(
        way(kept_at_told=False)
    )


def test_what_holds_for_several_ways_is_said_once() -> None:
    page = ways_of(way(), way(dryer="oven", dryer_name="Oven"))
    kept = "1\u00a0% to 36\u00a0% of the vitamin C is kept (A table)"
    assert f"<strong>Tall dryer and Oven: </strong>{kept}" in page


def test_what_was_not_told_is_told_as_such() -> None:
    page = ways_of(way(portion_cost=None, cost=None, not_told=("price of apple",)))
    assert "| A portion not given |" in NAME_OF_COLUMN.sub(r"\1", page)
    assert "Write these into your files, and the page counts them: price of apple." in page


@pytest.mark.parametrize(
    ("runs", "years", "says"),
    [
        (22, 1.1, "Tall dryer against buying dried&#58; pays for itself after 22 runs, 1.1 years"),
        (1, None, "Tall dryer against buying dried&#58; pays for itself after 1 run"),
        (None, None, "Tall dryer against buying dried&#58; never pays for itself"),
    ],
)
def test_when_a_dryer_pays(runs: int | None, years: float | None, says: str) -> None:
    assert f"- {says}" in ways_of(way(), pays=(Pays("tall", "bought", runs, years),))


def test_who_did_not_tell_prices_gets_no_answer_on_paying() -> None:
    page = ways_of(way(), pays=(Pays("tall", "bought", None, None, ("x",)),))
    assert "against buying" not in page and "pays" not in page


# -- learned --------------------------------------------------------------------------------------


def test_learned_weights_tell_table_own_and_on_how_many_they_rest() -> None:
    learned = Learned(0.2, (0.25, 0.25), ("one", "two"))
    page = book(learned=(Experience("Apple, raw", "dehydrator", learned),)).markdown["learned.md"]
    # exp((2 ln 0.2 + 2 ln 0.25) / 4) = sqrt(0.2 × 0.25) = 0.2236: of 1 kg 224 g.
    assert (
        "| <strong>Apple, raw</strong>, dried | 200\u00a0g | 250\u00a0g "
        '<span class="small">2 batches</span> | 224\u00a0g |'
    ) in page


def test_who_dried_nothing_plans_by_the_table() -> None:
    assert "weights are planned by the table alone" in book().markdown["learned.md"]


def test_what_trips_taught_is_told_with_how_many_and_how_to_turn_it_off() -> None:
    fuel = Factor(1.1, (1.331,), ("Old",))
    water = Factor(1.2, (1.3, 1.4), ("Old", "Older"))
    habits = (Habit("fuel", fuel, ("Top burner",)), Habit("water", water))
    page = book(habits=habits).markdown["learned.md"]
    assert "| Fuel of Top burner | 1.10 times | 1 trip |" in page
    assert "| Water to drink | 1.20 times | 2 trips |" in page
    assert "<code>learned: false</code>" in page


def test_who_reviewed_no_trip_is_told_how_to() -> None:
    page = book().markdown["learned.md"]
    assert "<code>tripkit review TRIP</code>" in page and "learned: false" not in page


# -- shopping -------------------------------------------------------------------------------------


def test_the_list_goes_by_shelf_in_packets() -> None:
    page = shopping_page(replace(EMPTY, shopping=(OATS, SALT)))
    assert list(page.shelves) == ["dry goods", "No shelf given"]
    (oats,), (salt,) = page.shelves.values()
    assert "".join(piece.text for piece in oats) == "2 × 500\u00a0g Oats for far and near"
    assert "by 4\u00a0Sep 2031, for far" in "".join(piece.text for piece in salt)


def test_without_any_shelf_there_is_one_list() -> None:
    page = shopping_page(replace(EMPTY, shopping=(SALT,)))
    assert list(page.shelves) == ["To buy"]


def test_trips_have_lists_of_their_own_where_there_are_several() -> None:
    trips = tuple(TripAhead(name, name.title(), None, None, 0, 1) for name in ("far", "near"))
    own = tuple(TripShopping(each.trip, each.title, (OATS,), ()) for each in trips)
    written = book(shopping=(OATS, SALT), trips=trips, trip_shopping=own)
    assert "[Far](shopping/far.md), [Near](shopping/near.md)" in written.markdown["shopping.md"]
    page = written.markdown["shopping/far.md"]
    assert page.startswith("# Shopping for Far {#top}")
    assert "](../shopping/far.csv)" in page
    assert "Salt" not in page
    assert b"Oats" in written.files["shopping/far.csv"]
    alone = book(shopping=(OATS,), trips=trips[:1], trip_shopping=own[:1])
    assert "shopping/far.md" not in alone.markdown


def test_the_table_holds_all_of_it_and_runs_nothing() -> None:
    text = shopping_csv((OATS, SALT)).decode()
    oats, salt = csv.DictReader(io.StringIO(text))
    assert (oats["buy_g"], oats["packets"], oats["packet_g"]) == ("1000", "2", "500")
    assert (oats["shelf"], oats["trips"], oats["to_dry"]) == ("dry goods", "far near", "no")
    assert (salt["name"], salt["needed_on"]) == ("'=Salt|<b>", "2031-09-04")
    assert (salt["packets"], salt["packet_g"]) == ("", "")


def test_names_are_text_and_nothing_else() -> None:
    page = book(shopping=(SALT,)).markdown["shopping.md"]
    assert "<b>" not in page
    assert "&#60;b&#62;" in page


def test_the_pages_lie_where_the_navigation_says(tmp_path: Path) -> None:
    written = book(drying=DryingPlan((RUN,)), shopping=(OATS,))
    assert list(written.markdown) == [path for _, path in written.nav if isinstance(path, str)]


# -- a run that is followed -----------------------------------------------------------------------


BEANS = {
    "id": "beans", "food": "leaf", "method": "dehydrator", "started": "2031-05-01T08:00",
    "fresh": "1000 g",
    "weighings": [{"at": "2 h", "mass": "550 g"}, {"at": "4 h", "mass": "325 g"}],
}  # fmt: skip


def test_a_run_is_told_as_of_its_weighings(tmp_path: Path) -> None:
    read = hand(tmp_path, batches=[BEANS])
    plan = replace(EMPTY, in_dryer=followed(read.stock), dryable=dryables(read.content, read.stock))
    page = follow_page(plan)
    (run,) = page.runs
    # 100 g of solids are dry at 111 g, after 12 h 41 min; told to the half hour.
    assert run.verdict.replace("\xa0", " ") == "NOT DRY. Keep drying, 214 g to go."
    told = {fact.name: fact.value[0].text.replace("\xa0", " ") for fact in run.facts}
    assert told["Dry enough at"] == "111 g"
    assert told["Likely dry"].startswith("about Thu, 20:30, between Thu, ")
    assert told["Look next"].startswith("Thu, ")
    assert run.chart is not None
    assert run.command == 'tripkit log --batch beans --weighing "3 h=812 g"'
    told_the_script = json.loads(json.dumps(page.data))["runs"]
    assert [(each["batch"], each["weighings"]) for each in told_the_script] == [
        ("beans", [[120, 550], [240, 325]])
    ]


def test_with_nothing_in_a_dryer_the_page_says_how_to_begin() -> None:
    text = write_home_book(EMPTY, TEMPLATES).markdown["follow.md"]
    assert "Nothing is in a dryer" in text
    assert "tripkit log FOOD FRESH --started TIME" in text


def test_many_foods_have_several_pages_of_ways_each_leading_to_the_others() -> None:
    foods = (Ways(f"food-{n}", f"Food {n:02}", 1000.0, "EUR", (way(),), ()) for n in range(13))
    many = book(ways=tuple(foods), sources={"table": "A table"})
    pages = {path: text for path, text in many.markdown.items() if path.startswith("ways")}
    assert list(pages) == ["ways.md", "ways-2.md"]
    assert "# Ways to dry: Food 00 – Food 11" in pages["ways.md"]
    assert "[Food 12](ways-2.md)" in pages["ways.md"]
    assert "[Food 00 – Food 11](ways.md)" in pages["ways-2.md"]
    assert pages["ways.md"].count("\n## Food") == 12
