"""Records are found by any words of theirs, in any language, the best first."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.planning.finding.finding import Found, find
from builder.planning.finding.known_as import Known, Mark, known_as
from builder.reading.folder import Layer, read_folder

ROOT = Path(__file__).resolve().parents[2]
DEMO = known_as(read_folder([Layer(ROOT / "content", "content")]).content)


def found(searched: str) -> list[Found]:
    return find(DEMO, searched).found


def why(searched: str, wanted: str) -> tuple[str, ...]:
    """Give by what a search finds a record, or nothing."""
    return next((each.because for each in found(searched) if each.id == wanted), ())


@pytest.mark.parametrize(
    ("searched", "wanted", "because"),
    [
        ("beans", "black-beans-cooked", "name"),
        ("black-beans-cooked", "black-beans-cooked", "name"),
        ("BLACK bean", "black-beans-cooked", "name"),
        ("bohne", "kidney-beans-dry", "German: Kidneybohnen, trocken"),
        ("valnøtter", "walnuts", "Norwegian: Valnøtter"),
        ("valnotter", "walnuts", "Norwegian: Valnøtter"),
        ("legume", "lentils-dry", "kind legume"),
        ("Hülsenfrucht", "lentils-dry", "kind legume"),
        ("Hülsenfrüchte", "lentils-dry", "kind legume"),
        ("belgfrukter", "lentils-dry", "kind legume"),
        ("nuts", "oat-biscuits", "may contain nuts"),
        ("Nüsse", "almonds", "kind nut"),
        ("nøtter", "almonds", "kind nut"),
        ("gluten", "crispbread", "allergen cereals-gluten"),
        ("Weizen", "crispbread", "allergen cereals-gluten"),
        ("Schalenfrüchte", "oat-biscuits", "may contain nuts"),
        ("caffeine", "instant-coffee", "watched for caffeine"),
        ("vegan", "lentils-dry", "fits vegan"),
        ("dinner", "smoky-bean-pot", "dinner"),
        ("Abendessen", "smoky-bean-pot", "dinner"),
        ("frühstück", "apple-cinnamon-oats", "breakfast"),
        ("cheddar", "smoky-bean-pot", "uses Cheddar cheese"),
        ("freeze-dried", "chicken-january", "name"),
        (
            "gefriergetrocknet",
            "black-beans-spring",
            "German: Schwarze Bohnen, gekocht, gefriergetrocknet",
        ),
        ("iron", "square-iron", "name"),
        ("aluminium", "pot-2l", "aluminium"),
        ("emmerin", "lake-emmerin", "name"),
        ("chikpea", "chickpeas-dry", "near chickpea: name"),
        ("potatto", "potato-raw", "near potato: name"),
        ("ground beef", "beef-mince-raw", "also called ground beef"),
        ("ground beef", "jerky-february", "also called ground beef"),  # a batch of it
        ("Capsicum", "red-pepper-raw", "also called capsicum"),
        ("capsicum", "pepper-egg-scramble", "uses Red pepper"),
        ("eggplant", "aubergine-raw", "also called eggplant"),
        ("carrots", "carrot-raw", "name"),
        ("Zwiebeln", "onion-raw", "German: Zwiebel"),
    ],
)
def test_a_record_is_found_by_any_word_of_it(searched: str, wanted: str, because: str) -> None:
    assert because in why(searched, wanted)


@pytest.mark.parametrize(
    ("searched", "other"),
    [
        ("walnut", "almonds"),
        ("vegan", "cheese-hard"),
        ("vegan", "salmon-chowder"),
        ("vegetarian", "chicken-january"),
        ("bean", "dark-chocolate"),  # not by a part of `soybeans`, of which it holds traces
        ("te", "potato-raw"),  # two letters are no part of a word
        ("black lentils", "black-beans-dry"),
    ],
)
def test_what_does_not_fit_is_not_found(searched: str, other: str) -> None:
    assert why(searched, other) == ()


def test_several_words_narrow() -> None:
    one, both = found("beans"), found("beans black")
    assert {each.id for each in both} < {each.id for each in one}
    assert {each.id for each in both} == {each.id for each in found("black beans")}


@pytest.mark.parametrize(
    ("searched", "first"),
    [
        ("rice-dry", "rice-dry"),
        ("White rice, cooked", "rice-cooked"),
        ("walnuts", "walnuts"),
        ("pot-2l", "pot-2l"),
        ("peanuts", "peanuts"),  # its name before those that hold it
        ("corn", "sweetcorn-raw"),  # called just that, before what holds the word
        ("zucchini", "courgette-raw"),
        ("eggs", "egg-raw"),  # more than one of it is all of its name
        ("carrots", "carrot-raw"),
        ("muesli", "granola"),  # its name before a bar that is called after it
    ],
)
def test_the_best_comes_first(searched: str, first: str) -> None:
    assert found(searched)[0].id == first


def known(name: str, *marks: tuple[str, int, str]) -> Known:
    return Known("food", name, name, tuple(Mark(*each) for each in marks))


def test_a_name_counts_more_than_a_kind_and_a_whole_word_more_than_a_part() -> None:
    records = [
        known("a", ("nut", 70, "kind")),
        known("b", ("nut", 100, "name")),
        known("c", ("nutmeg", 100, "name")),
        known("d", ("chestnut", 100, "name")),
    ]
    assert [each.id for each in find(records, "nut").found] == ["b", "c", "a", "d"]


def test_near_words_are_asked_only_where_none_is_right_and_are_told() -> None:
    assert find(DEMO, "chickpea").near == {}
    near = find(DEMO, "chikpea curry").near
    assert set(near) == {"chikpea"} and "chickpea" in near["chikpea"]
    assert [each.id for each in find(DEMO, "chikpea curry").found][:1] == ["coconut-chickpea-curry"]
    assert find(DEMO, "zzz").near == {}, "three letters are near too much"


def test_where_nothing_has_all_words_each_is_counted_alone() -> None:
    search = find(DEMO, "salmon walnuts")
    assert search.found == []
    assert search.alone["salmon"] > 0 and search.alone["walnuts"] > 0
    assert find(DEMO, " - ").found == []
