"""Says in plain words why open meals cannot be filled, and the least change that would do."""

from __future__ import annotations

from collections import Counter

from builder.model.content import Content
from builder.planning.filling.appetite import Aim
from builder.planning.filling.dishes import OpenMeal, Options
from builder.planning.filling.model import FillingModel
from builder.planning.filling.suiting import Kitchen, obstacles
from builder.planning.filling.task import Filled, Task, never_together

SECONDS = 2.0
_LEAST_KCAL = 1.0


def no_recipe_said(options: Options, content: Content) -> str:
    """Say which meals no recipe suits, and which recipe is nearest to it."""
    kitchen = Kitchen.of(options.trip, content)
    meals = [meal for meal in options.meals if not meal.recipes]
    said = [_no_recipe(meal, kitchen, content) for meal in meals]
    return " ".join(dict.fromkeys(said))


def _no_recipe(meal: OpenMeal, kitchen: Kitchen, content: Content) -> str:
    where = f"{meal.meal} of day {meal.day + 1}"
    if not content.recipes:
        return f"There is no recipe for {where}. Least change: write one."
    against = {
        name: obstacles(recipe, meal.meal, meal.eaters, kitchen, content)
        for name, recipe in content.recipes.items()
    }
    name, least = min(against.items(), key=lambda each: (len(each[1]), each[0]))
    if not least:
        return (
            f"No recipe suits {where}. Nearest is {name}: no second pot holds the part that is "
            f"taken out. Least change: a larger second pot; or write another recipe."
        )
    why = ", and ".join(dict.fromkeys(each.says for each in least))
    mends = ", and ".join(dict.fromkeys(each.mend for each in least))
    return (
        f"No recipe suits {where}. Nearest is {name}: it {why}. Least change: {name} would do "
        f"{mends}; or write another recipe."
    )


def shortfall_said(options: Options, task: Task, aim: Aim, is_sure: bool) -> str:
    """Say why nothing fills the open meals together."""
    if not is_sure:
        return (
            "Nothing was found in the time there is. Try another --seed, or fill some of the open "
            "meals yourself."
        )
    relaxed = FillingModel(task, bend_days=True).relaxed(SECONDS)
    if relaxed is not None:
        return _energy_said(task, aim, relaxed.short_kcal, relaxed.over_kcal)
    relaxed = FillingModel(task, bend_days=True, bend_dinners=True).relaxed(SECONDS)
    if relaxed is None:
        return "Nothing was found in the time there is. Fill some of the open meals yourself."
    return _dinners_said(options, task, relaxed.filled)


def _energy_said(
    task: Task, aim: Aim, short_kcal: tuple[float, ...], over_kcal: tuple[float, ...]
) -> str:
    """Say which days get too little or too much, and how much would mend it."""
    least, most = (f"{round(100 * share)} %" for share in (aim.least_share, aim.most_share))
    said = []
    for each, short, over in zip(task.days, short_kcal, over_kcal, strict=True):
        if short >= _LEAST_KCAL:
            said.append(
                f"On day {each.day} no choice feeds all: {short:.0f} kcal are lacking to {least} "
                "of what the day takes. "
                f"Least change: add food of {short:.0f} kcal, for all together."
            )
        elif over >= _LEAST_KCAL:
            said.append(
                f"On day {each.day} every choice is too much: {over:.0f} kcal above {most} of what "
                f"the day takes. Least change: take out food of {over:.0f} kcal, of all together."
            )
    return " ".join(said)


def _dinners_said(options: Options, task: Task, filled: Filled) -> str:
    """Say which dinners would have to come again within three days."""
    cooked = [
        *task.dinners,
        *(
            (slot.day, task.dishes[dish].recipe)
            for slot, dish in zip(task.slots, filled.dishes, strict=True)
            if slot.is_dinner
        ),
    ]
    again: Counter[int] = Counter()
    for number, (day, recipe) in enumerate(cooked):
        for before, same in cooked[:number]:
            if same == recipe and never_together(abs(day - before)):
                again[day] += 1
                break
    days = ", ".join(str(day) for day in sorted(again))
    recipes = {dish for slot in task.slots if slot.is_dinner for dish, _ in slot.fuel_kj}
    count = len({task.dishes[dish].recipe for dish in recipes})
    names = sorted({options.kinds[dish].recipe.id for dish in recipes})
    return (
        f"No recipe may be dinner twice in three days, and for the open dinners there are only "
        f"{count}: {', '.join(names)}. Least change: write one more recipe that suits, or name "
        f"what is cooked on day {days} yourself."
    )
