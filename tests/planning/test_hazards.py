"""What a food is watched for: told, or read off its name in any of the three languages."""

from __future__ import annotations

import pytest

from builder.model.content import Content
from builder.model.food import HAZARDS, KINDS, Composition, Food, FoodKind, FoodState
from builder.planning.foods.hazards import hazards_of, is_game, is_minced
from builder.reading.folder import Layer, read_folder
from builder.record import replace

from .folders import SHIPPED


def food(name: str, kind: FoodKind = "other", state: FoodState = "ready", **more: object) -> Food:
    return replace(Food("it", name, kind, state, Composition()), **more)  # type: ignore[arg-type]


NAMED: list[tuple[str, str, FoodKind]] = [
    ("honey", "Forest honey", "sugar"),
    ("honey", "Waldhonig", "sugar"),
    ("honey", "Lynghonning", "sugar"),
    ("infant-formula", "Infant formula", "dairy"),
    ("infant-formula", "Folgemilch", "dairy"),
    ("infant-formula", "Morsmelkerstatning", "dairy"),
    ("kidney-bean", "Red kidney beans", "legume"),
    ("kidney-bean", "Kidneybohnen", "legume"),
    ("kidney-bean", "Kidneybønner", "legume"),
    ("mushroom-gathered", "Dried porcini", "vegetable"),
    ("mushroom-gathered", "Pfifferlinge", "vegetable"),
    ("mushroom-gathered", "Kantareller", "vegetable"),
    ("sprouts", "Bean sprouts", "vegetable"),
    ("sprouts", "Mungbohnensprossen", "vegetable"),
    ("sprouts", "Bønnespirer", "vegetable"),
    ("garlic-in-oil", "Garlic in oil", "fat"),
    ("garlic-in-oil", "Knoblauch in Öl", "fat"),
    ("garlic-in-oil", "Hvitløk i olje", "fat"),
    ("home-canned", "Home-canned beans", "legume"),
    ("home-canned", "Eingeweckte Bohnen", "legume"),
    ("home-canned", "Hjemmehermetiserte bønner", "legume"),
    ("liver", "Liver sausage", "meat"),
    ("liver", "Kalbsleberwurst", "meat"),
    ("liver", "Leverpostei", "meat"),
    ("raw-milk", "Raw-milk cheese", "dairy"),
    ("raw-milk", "Rohmilchkäse", "dairy"),
    ("raw-milk", "Ost av rå melk", "dairy"),
    ("soft-cheese", "Ripe Brie", "dairy"),
    ("soft-cheese", "Blauschimmelkäse", "dairy"),
    ("soft-cheese", "Blåmuggost", "dairy"),
    ("cured-raw", "Salami sticks", "meat"),
    ("cured-raw", "Rohschinken", "meat"),
    ("cured-raw", "Spekeskinke", "meat"),
    ("raw-fish", "Cold-smoked salmon", "fish"),
    ("raw-fish", "Räucherlachs", "fish"),
    ("raw-fish", "Røykelaks", "fish"),
    ("game", "Venison stew", "meat"),
    ("game", "Wildschwein", "meat"),
    ("game", "Elgkjøtt", "meat"),
    ("freshwater-fish", "Pike fillet", "fish"),
    ("freshwater-fish", "Hechtfilet", "fish"),
    ("freshwater-fish", "Gjeddefilet", "fish"),
    ("shellfish", "Mussels", "fish"),
    ("shellfish", "Miesmuscheln", "fish"),
    ("shellfish", "Blåskjell", "fish"),
    ("wild-plant", "Wild garlic leaves", "vegetable"),
    ("wild-plant", "Bärlauch", "vegetable"),
    ("wild-plant", "Ramsløk", "vegetable"),
    ("caffeine", "Iced coffee", "drink"),
    ("caffeine", "Schwarztee", "drink"),
    ("caffeine", "Mørk sjokolade", "sugar"),
    ("alcohol", "Mulled wine", "drink"),
    ("alcohol", "Glühwein", "drink"),
    ("alcohol", "Rødvin", "drink"),
    ("choking", "Raisins", "other"),
    ("choking", "Studentenfutter", "other"),
    ("choking", "Rosiner", "other"),
    ("whole-nut", "Cashews", "nut"),
]

# Names that look like another hazard and are none.
INNOCENT: list[tuple[str, str, FoodKind]] = [
    ("honey", "Honeydew melon", "fruit"),
    ("mushroom-gathered", "Morello cherries", "fruit"),
    ("sprouts", "Brussels sprouts", "vegetable"),
    ("liver", "Weizenkleber", "grain"),
    ("game", "Gummibärchen", "sugar"),
    ("game", "Bärlauchpesto", "other"),
    ("game", "Bjørnebærsyltetøy", "other"),
    ("game", "Wildreis", "meal"),
    ("game", "Hazelnut spread", "other"),
    ("freshwater-fish", "Chard", "vegetable"),
    ("shellfish", "Oyster mushrooms", "vegetable"),
    ("shellfish", "Muschelnudeln", "grain"),
    ("caffeine", "Fruit tea", "drink"),
    ("caffeine", "Steamed rice", "grain"),
    ("alcohol", "Schweinefleisch", "meat"),
    ("alcohol", "Weintrauben", "fruit"),
    ("alcohol", "Ginger beer", "drink"),
    ("alcohol", "Alkoholfreies Bier", "drink"),
    ("alcohol", "Wine vinegar", "other"),
    ("choking", "Raisin paste", "fruit"),
    ("whole-nut", "Almond butter", "nut"),
    ("whole-nut", "Ground hazelnuts", "nut"),
]


@pytest.mark.parametrize(("hazard", "name", "kind"), NAMED)
def test_a_name_tells_in_every_language(hazard: str, name: str, kind: FoodKind) -> None:
    assert hazard in hazards_of(food(name, kind))


@pytest.mark.parametrize(("hazard", "name", "kind"), INNOCENT)
def test_a_name_that_only_looks_like_it_tells_nothing(
    hazard: str, name: str, kind: FoodKind
) -> None:
    assert hazard not in hazards_of(food(name, kind))


# Every word by which a hazard is known, in a name as a packet has it.
WORDS: dict[str, tuple[FoodKind, str]] = {
    "honey": ("sugar", "honey; Waldhonig; lynghonning"),
    "kidney-bean": (
        "legume",
        "kidney bean; kidney-beans; Kidneybohnen; Kidney-Bohne; kidneybønner; nyrebønner",
    ),
    "mushroom-gathered": (
        "vegetable",
        "wild mushrooms; gathered mushroom; foraged mushrooms; chanterelles; porcini; bolete; "
        "morels; cep; ceps; Pfifferlinge; Steinpilze; Spitzmorcheln; Waldpilze; Wildpilze; "
        "gesammelte Pilze; kantareller; steinsopp; spissmorkel; skogssopp; villsopp; plukket sopp",
    ),
    "sprouts": ("vegetable", "bean sprouts; sprout; Sprossen; Sprosse; Keimlinge; bønnespirer"),
    "garlic-in-oil": (
        "fat",
        "garlic in oil; garlic cloves in oil; garlic kept in oil; herbs in oil; garlic oil; "
        "herb oil; Knoblauch in Öl; Knoblauchzehen in Öl; Kräuter in Öl; Knoblauchöl; Kräuter-Öl; "
        "hvitløk i olje; urter lagt i olje; hvitløksolje; urteolje",
    ),
    "home-canned": (
        "legume",
        "home-canned; home bottled; home preserved; eingeweckt; eingekocht; selbst eingemacht; "
        "hjemmehermetisert; hermetisert hjemme",
    ),
    "liver": (
        "meat",
        "liver; pate; pâté; paté; Leberwurst; Pastete; lever; leverpostei; leverpølse; "
        "kyllinglever; torskelever",
    ),
    "raw-milk": (
        "dairy",
        "raw milk; raw-milk cheese; unpasteurised; unpasteurized; Rohmilch; unpasteurisiert; "
        "nicht pasteurisiert; rå melk; råmelk; upasteurisert",
    ),
    "soft-cheese": (
        "dairy",
        "brie; camembert; soft cheese; blue cheese; gorgonzola; roquefort; soft goat; Weichkäse; "
        "Schimmelkäse; Blaukäse; myk ost; mykost; muggost; blåmuggost; hvitmugg",
    ),
    "cured-raw": (
        "meat",
        "salami; chorizo; prosciutto; serrano; parma ham; pepperoni; raw ham; biltong; bresaola; "
        "air-dried ham; air-dried beef; cured sausage; cured meat; Rohwurst; Rohschinken; "
        "Mettwurst; Landjäger; Cervelat; Bündnerfleisch; Teewurst; luftgetrocknet; spekeskinke; "
        "fenalår; morrpølse; pinnekjøtt",
    ),
    "raw-fish": (
        "fish",
        "sushi; sashimi; ceviche; gravlax; gravad; cold-smoked; cold smoked; smoked salmon; "
        "smoked trout; lox; Räucherlachs; kaltgeräuchert; graved; Matjes; gebeizt; røykelaks; "
        "røkt laks; kaldrøkt; gravlaks; rakfisk; rakørret",
    ),
    "game": (
        "meat",
        "venison; game; reindeer; deer; elk; moose; boar; bear; hare; grouse; walrus; Wildfleisch; "
        "Wildschwein; Wildbret; Reh; Hirsch; Elch; Rentier; Hasenkeule; Bär; Bärenfleisch; "
        "Bärenschinken; Bärensalami; Wildsalami; Wildschinken; Wildgulasch; vilt; "
        "elg; reinsdyr; reinkjøtt; hjort; rådyr; villsvin; bjørn; "
        "bjørnekjøtt; bjørneskinke; rype",
    ),
    "freshwater-fish": (
        "fish",
        "pike; pikeperch; perch; burbot; char; trout; carp; whitefish; vendace; Hecht; Barsch; "
        "Quappe; Saibling; Forelle; Zander; Karpfen; Felchen; Renke; gjedde; abbor; lakefisk; "
        "røye; ørret; sik; harr; karpe",
    ),
    "shellfish": (
        "fish",
        "mussels; clam; clams; oyster; oysters; cockles; scallops; shellfish; limpets; winkles; "
        "Miesmuscheln; Auster; blåskjell; østers",
    ),
    "wild-plant": (
        "vegetable",
        "foraged greens; wild plant; wild garlic; wild leek; wild greens; wild herbs; ramsons; "
        "nettle; nettles; Wildkräuter; Wildgemüse; Wildpflanzen; Bärlauch; Brennnesseln; "
        "Brennessel; Giersch; ville urter; ville vekster; ville planter; ramsløk; brennesle; nesle",
    ),
    "caffeine": (
        "drink",
        "coffee; espresso; caffeine; cocoa; chocolate; cola; guarana; energy drink; yerba; mate; "
        "maté; tea; Kaffee; koffeinhaltig; Kakao; Schokolade; Schwarztee; Grüntee; Eistee; "
        "schwarzer Tee; grüner Tee; kaffe; koffein; kakao; sjokolade; svart te; grønn te; iste",
    ),
    "alcohol": (
        "drink",
        "wine; red wine; white wine; mulled wine; beer; whisky; whiskey; rum; brandy; liqueur; "
        "vodka; gin; cognac; sherry; Wein; Rotwein; Weißwein; Glühwein; Bier; Likör; Schnaps; "
        "Weinbrand; Wodka; Korn 38; vin; rødvin; hvitvin; øl; likør; akevitt; konjakk; brennevin",
    ),
    "choking": (
        "other",
        "raisins; sultanas; popcorn; grapes; cherry tomatoes; cherry; cherries; seeds; jerky; "
        "sausage; salami; hard sweets; hard candy; boiled sweets; marshmallows; olives; nut mix; "
        "trail mix; Rosinen; Sultaninen; Weintrauben; Kirschtomaten; Kirschen; Kerne; Wurst; "
        "Würstchen; Bonbons; Nussmix; Studentenfutter; Trockenfleisch; rosiner; druer; "
        "cherrytomater; kirsebær; linfrø; pølse; drops; nøtteblanding; tørrkjøtt",
    ),
}


@pytest.mark.parametrize("hazard", WORDS)
def test_every_word_of_a_hazard_is_known(hazard: str) -> None:
    kind, names = WORDS[hazard]
    missed = [name for name in names.split("; ") if hazard not in hazards_of(food(name, kind))]
    assert missed == []


WITHIN: dict[str, tuple[str, set[str]]] = {
    "raw-fish": ("Sashimi", {"fish", "meal", "other"}),
    "game": ("Venison", {"meat", "poultry", "meal", "other"}),
    "freshwater-fish": ("Pike", {"fish", "meal", "other"}),
    "shellfish": ("Clams", {"fish", "meal", "other"}),
    "liver": ("Liver", {*KINDS}),
}


@pytest.mark.parametrize("hazard", WITHIN)
def test_a_hazard_is_looked_for_in_the_kinds_that_can_hold_it(hazard: str) -> None:
    name, kinds = WITHIN[hazard]
    assert {kind for kind in KINDS if hazard in hazards_of(food(name, kind))} == kinds  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("kind", "state", "name", "is_chunk"),
    [
        ("fruit", "dried", "Slices", True),
        ("meat", "dried", "Slices", True),
        ("fish", "dried", "Slices", True),
        ("vegetable", "dried", "Slices", False),
        ("fruit", "ready", "Slices", True),
        ("meat", "ready", "Slices", True),
        ("poultry", "ready", "Slices", True),
        ("fish", "ready", "Slices", False),
        ("meat", "cooked", "Slices", False),
        ("vegetable", "raw", "Leaves", False),
        *(
            ("vegetable", "raw", name, True)
            for name in (
                "Carrots",
                "Celery",
                "Kohlrabi",
                "Karotte",
                "Möhren",
                "Sellerie",
                "Gulrot",
                "Selleri",
            )
        ),
        *(
            ("fruit", "raw", name, True)
            for name in ("Apple", "Pear", "Apfel", "Birne", "Eple", "Pære")
        ),
        ("vegetable", "ready", "Carrots", False),
        ("grain", "raw", "Apple grain", False),
        *(
            ("dairy", "ready", name, True)
            for name in ("Goat cheese", "Cheddar", "Gouda", "Bergkäse", "Brunost")
        ),
        ("dairy", "ready", "Käsekuchen", False),
        ("grain", "ready", "Cheddar bread", False),
        *(
            ("fruit", "dried", name, False)
            for name in (
                "Date bar",
                "Ground fruit",
                "Fruit powder",
                "Purée",
                "Puree",
                "Fruchtriegel",
                "Apfelmus",
                "Fruit cream",
                "Malt frukt",
            )
        ),
    ],
)
def test_a_chunk_is_known_by_kind_and_state(
    kind: FoodKind, state: FoodState, name: str, is_chunk: bool
) -> None:
    assert ("choking" in hazards_of(food(name, kind, state))) is is_chunk


def test_what_is_free_of_alcohol_is_told_by_its_name() -> None:
    for name in ("Alcohol-free beer", "Alcohol free wine", "Bier, alkoholfrei", "Alkoholfri øl"):
        assert "alcohol" not in hazards_of(food(name, "drink"))


def test_every_hazard_can_be_found_by_name() -> None:
    assert {hazard for hazard, _, _ in NAMED} == set(HAZARDS) - {"wild-mushroom"}


def test_the_id_tells_where_the_name_is_in_no_known_tongue() -> None:
    assert "liver" in hazards_of(replace(food("Foie"), id="duck-liver"))


def test_what_is_told_is_believed_over_the_name() -> None:
    assert hazards_of(food("Liver of a chocolate bear", beware=())) == frozenset()
    assert hazards_of(food("Paste", beware=("liver",))) == {"liver"}


def test_figures_and_marks_tell_even_where_beware_does_not() -> None:
    assert hazards_of(food("Punch", beware=(), per_100g=Composition(alcohol_g=4.0))) == {"alcohol"}
    assert hazards_of(food("Drops", beware=(), per_100g=Composition(caffeine_mg=9.0))) == {
        "caffeine"
    }
    assert hazards_of(food("Roast", "meat", "cooked", beware=(), game=True)) == {"game"}


def test_raw_fish_molluscs_and_dry_chunks_tell_by_themselves() -> None:
    assert hazards_of(food("Fillet", "fish", "raw")) == {"raw-fish"}
    assert hazards_of(food("Squid", "fish", "cooked", allergens=("molluscs",))) == {"shellfish"}
    assert hazards_of(food("Rings", "fruit", "dried")) == {"choking"}
    assert hazards_of(food("Sticks", "meat", "ready")) == {"choking"}
    assert hazards_of(food("Carrot", "vegetable", "raw")) == {"choking"}
    assert hazards_of(food("Carrot", "vegetable", "cooked")) == frozenset()
    assert hazards_of(food("Mountain cheese", "dairy")) == {"choking"}
    assert hazards_of(food("Slices", "fruit", "raw")) == frozenset()


def test_both_words_for_a_gathered_mushroom_mean_it() -> None:
    assert hazards_of(food("Found", "vegetable", "dried", beware=("wild-mushroom",))) == {
        "mushroom-gathered"
    }


@pytest.fixture(scope="module")
def shipped() -> Content:
    return read_folder([Layer(SHIPPED, "content")]).content


def test_every_shipped_food_tells_allergens_their_source_and_hazards(shipped: Content) -> None:
    assert len(shipped.foods) >= 450
    silent = [
        name
        for name, food in shipped.foods.items()
        if food.allergens is None or not food.allergen_source or food.beware is None
    ]
    assert silent == []


def test_shipped_foods_tell_no_allergen_twice(shipped: Content) -> None:
    twice = {
        name: set(food.allergens or ()) & set(food.may_contain)
        for name, food in shipped.foods.items()
        if set(food.allergens or ()) & set(food.may_contain)
    }
    assert twice == {}


@pytest.mark.parametrize(
    ("name", "told", "traces"),
    [
        ("apricot-dried", {"sulphites"}, set()),
        ("potato-flakes", {"sulphites"}, {"milk"}),
        ("beef-jerky", set(), {"soybeans", "cereals-gluten"}),
        ("stock-powder", {"celery"}, {"cereals-gluten", "milk", "fish"}),
        ("raisins", set(), {"sulphites"}),
        ("baking-powder", set(), {"cereals-gluten"}),
        ("soy-sauce", {"soybeans", "cereals-gluten"}, set()),
        ("couscous-dry", {"cereals-gluten"}, set()),
        ("soba-dry", {"cereals-gluten"}, set()),
        ("quinoa-dry", set(), {"cereals-gluten"}),
        ("curry-powder", {"mustard", "celery"}, set()),
        ("worcester-sauce", {"fish", "cereals-gluten"}, {"soybeans"}),
        ("oyster-sauce", {"molluscs", "soybeans", "cereals-gluten"}, {"crustaceans"}),
        ("pesto", {"milk", "nuts"}, {"eggs", "peanuts"}),
        ("hummus", {"sesame"}, set()),
        ("crab-sticks", {"fish", "crustaceans", "eggs", "soybeans", "cereals-gluten"}, {"milk"}),
        ("kimchi", {"fish", "crustaceans"}, {"soybeans"}),
        ("mayonnaise", {"eggs", "mustard"}, {"milk"}),
        ("milk-chocolate", {"milk", "soybeans"}, {"nuts", "peanuts", "cereals-gluten"}),
        ("wine-vinegar", {"sulphites"}, set()),
        ("beer", {"cereals-gluten"}, {"sulphites"}),
        ("pine-nuts", set(), {"nuts", "peanuts"}),
        ("sausage-pork-raw", set(), {"cereals-gluten", "milk", "sulphites"}),
    ],
)
def test_what_such_foods_usually_carry_is_told(
    shipped: Content, name: str, told: set[str], traces: set[str]
) -> None:
    food = shipped.foods[name]
    assert set(food.allergens or ()) == told
    assert traces <= set(food.may_contain)


def test_a_kind_that_is_an_allergen_is_told_as_one(shipped: Content) -> None:
    by_kind = {"fish": {"fish", "crustaceans", "molluscs"}, "egg": {"eggs"}, "dairy": {"milk"}}
    for name, food in shipped.foods.items():
        for kind in food.kinds & set(by_kind):
            assert by_kind[kind] & set(food.allergens or ()), name


def test_whatever_holds_caffeine_tells_how_much(shipped: Content) -> None:
    untold = [
        name
        for name, food in shipped.foods.items()
        if "caffeine" in hazards_of(food) and food.per_100g.caffeine_mg is None
    ]
    assert untold == []


def test_marks_of_shipped_foods_miss_nothing_that_their_names_tell(shipped: Content) -> None:
    """Where a shipped food's marks leave out what its name would tell, that was a choice."""
    chosen = {
        "kidney-beans-cooked": {"kidney-bean"},  # boiled soft
        "kidney-beans-canned": {"kidney-bean"},  # boiled soft in the can
        "beef-cured": {"choking"},  # thin slices
        "coconut-raw": {"whole-nut"},  # marked as hard pieces
        "coconut-sweetened": {"whole-nut"},  # marked as hard pieces
        "hazelnuts-chopped": {"whole-nut"},  # marked as hard pieces
        "linseed": {"whole-nut"},  # too small
        "white-chocolate": {"caffeine"},  # of cocoa it holds the fat alone
    }
    tiny = "sesame sesame-hulled chia hemp poppy cumin coriander caraway fennel celery fenugreek"
    for seed in tiny.split():
        name, _, how = seed.partition("-")
        chosen["-".join(filter(None, (name, "seeds", how)))] = {"choking"}
    for soft in (
        "cottage-cheese",
        "goat-cheese-soft",
        "cheese-spread",
        "liver-pate-canned",
        "pineapple-canned",
    ):
        chosen[soft] = {"choking"}
    missed = {
        name: hazards_of(replace(food, beware=None)) - hazards_of(food)
        for name, food in shipped.foods.items()
    }
    assert {name: found for name, found in missed.items() if found} == chosen


@pytest.mark.parametrize(
    "name",
    [
        "Ground beef, raw",
        "Pork sausage",
        "Turkey burger",
        "Rinderhack, roh",
        "Hackfleisch",
        "Schweinegehacktes",
        "Bratwurst, roh",
        "Würstchen",
        "Kjøttdeig, rå",
        "Karbonadedeig",
        "Kyllingfarse",
        "Grillpølser",
        "Hakket oksekjøtt",
    ],
)
def test_minced_meat_is_known_by_its_name_in_every_language(name: str) -> None:
    assert is_minced(food(name, "meat", "raw"))
    assert not is_minced(food(name, "meat", "raw", cut="whole"))
    assert not is_minced(food(name, "legume", "raw"))


@pytest.mark.parametrize("name", ["Beef, lean, raw", "Rinderhüfte, roh", "Lammelår, rå", "Hachse"])
def test_whole_cuts_are_not_minced(name: str) -> None:
    assert not is_minced(food(name, "meat", "raw"))
    assert is_minced(food(name, "meat", "raw", cut="minced"))


def test_game_is_known_by_its_name_as_well() -> None:
    assert is_game(food("Rehrücken, roh", "meat", "raw"))
    assert is_game(food("Elgkjøtt, rå", "meat", "raw"))
    assert not is_game(food("Beef, lean, raw", "meat", "raw"))
    assert not is_game(food("Rehrücken, roh", "meat", "raw", beware=()))
