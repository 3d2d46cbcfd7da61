"""What the kit's scripts say, in the language of the trip."""

from __future__ import annotations

import json

from builder.speech import Speech


def script_words(say: Speech, of_site: bool = True, of_home: bool = False) -> str:
    """Give the words of the scripts as the script's first line."""
    words = _words(say) | (_words_of_site(say) if of_site else _words_of_pocket(say))
    if of_home:
        words |= _words_of_home(say)
    packed = json.dumps(words, ensure_ascii=False, separators=(",", ":"))
    # Inside a page, nothing in a script may look like its end.
    harmless = packed.replace("<", "\\u003c")
    return f"const SAID = {harmless};"


def _words(say: Speech) -> dict[str, object]:
    """Give every text by the name that the scripts know it by; in pairs for one and many."""
    return {
        "h": say("h"),
        "untick": say("Untick all"),
        "awake": say("Keep screen on"),
        "cannotWake": say(
            "This phone does not let a page do that. Let its screen stay on in its own settings."
        ),
        "locked": say("A locked phone may not ring."),
        "one": say("One at a time"),
        "stepOf": say("Step {n} of {all}"),
        "allDone": say("All steps done"),
        "back": say("Back"),
        "next": say("Next"),
        "undo": say("Undo"),
        "then": say("Then: {step}"),
        "left": say("left – stop"),
        "sure": say("Touch again to stop"),
        "over": say("Time is up – stop"),
        "overFor": say("Time is up since {time} – stop"),
        "timers": say("Timers"),
        "silent": say("Sound is off here. Turn it on"),
        "start": say("Start {time}"),
        "table": say("Wide table, scroll sideways"),
        "today": say("Today"),
        "meals": {
            "breakfast": say("Breakfast"),
            "lunch": say("Lunch"),
            "dinner": say("Dinner"),
        },
        "tonight": say("Dinner tonight"),
        "tomorrow": say("Breakfast tomorrow"),
        "eatAt": say("We eat at"),
        "at": say.of("clock", "At"),
        "before": say("{time} before"),
        "dayBefore": say("{time} before, the day before"),
    }


def _words_of_pocket(say: Speech) -> dict[str, object]:
    """Give the texts of what only the pocket page can do."""
    return {"night": say("Night colours"), "print": say("Print as {size}")}


def _words_of_home(say: Speech) -> dict[str, object]:
    """Give the texts of what only the site of the home can do."""
    return {
        "sendList": say("Send the list as text"),
        "copied": say("Copied: paste it where you want it."),
        "notCopied": say("This browser does not let a page copy. Mark the list and copy it."),
    }


def _words_of_site(say: Speech) -> dict[str, object]:
    """Give the texts of what only the pages with the theme can do."""
    return {
        "group": say.signs(","),
        "decimal": say.signs("."),
        "cup": say("cup"),
        "cups": say("cups"),
        "tsp": say("tsp"),
        "mug": say("mug"),
        "mugs": say("mugs"),
        "potfuls": say.forms("{n} potful", "{n} potfuls"),
        "change": say("Who eats? How high?"),
        "whoEats": say("Who eats?"),
        "guests": say("Guests"),
        "guestsToo": say.forms("{n} guest", "{n} guests"),
        "people": say.forms("{n} person", "{n} people"),
        "fewer": say("One person fewer"),
        "more": say("One person more"),
        "height": say("Height of the camp"),
        "heightWrong": say("Write a height from {low} to {high}."),
        "nobody": say("Somebody must eat. Amounts are as planned."),
        "changed": say("Changed: for {who}."),
        "changedHigh": say("Changed: for {who}, at {height}."),
        "follow": say(
            "Amounts, potfuls, presses and minutes on this page follow. "
            "Fuel, water to carry and shopping are as planned."
        ),
        "rebuild": say("needs a new build"),
        "otherPot": say(
            "Another pot fits better now: what hangs on it needs a new build of the kit. "
            "Amounts on this page follow. Fuel, water to carry and shopping are as planned."
        ),
        "asPlanned": say("As planned"),
        "and": say("{some} and {last}"),
        "menu": say("Menu"),
        "settings": say("Units, offline, forget"),
        "usFirst": say("US units first"),
        "metricFirst": say("Metric units first"),
        "forget": say("Forget ticks, timers and changes on this phone"),
        "forgetSure": say("Press again to forget them all"),
        "fetching": say("Fetching the whole kit for use without a network …"),
        "ready": say("Ready offline: the whole kit is on this device."),
        "addHome": say("Add this page to your home screen; then the phone keeps it."),
        "notKept": say(
            "The kit could not be fetched whole. Open this page again where the network is better."
        ),
        "fresh": say("A new version of this kit is here."),
        "useFresh": say("Use it now"),
        "fromDisk": say("Opened from a folder: works without a network."),
    }
