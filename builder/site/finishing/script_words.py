"""What the kit's scripts say, in the language of the trip: each part of them its own words."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from builder.planning.batches import ACTS, VERDICTS
from builder.speech import Speech

Words = dict[str, object]

# The words of each part that has any.
WORDS: Mapping[str, Callable[[Speech], Words]] = {
    "minutes": lambda say: {"h": say("h")},
    "awake": lambda say: {
        "awake": say("Keep screen on"),
        "cannotWake": say(
            "This phone does not let a page do that. Let its screen stay on in its own settings."
        ),
    },
    "ticks": lambda say: {
        "untick": say("Untick all"),
        "tickAgain": say.forms("Undo: tick {n} again", "Undo: tick {n} again"),
        "one": say("One at a time"),
        "stepOf": say("Step {n} of {all}"),
        "allDone": say("All steps done"),
        "back": say("Back"),
        "next": say("Next"),
        "undo": say("Undo"),
        "then": say("Then: {step}"),
    },
    "send": lambda say: {
        "sendList": say("Send the list as text"),
        "copied": say("Copied: paste it where you want it."),
        "notCopied": say("This browser does not let a page copy. Mark the list and copy it."),
    },
    "timers": lambda say: {
        "locked": say("A locked phone may not ring."),
        "left": say("left – stop"),
        "sure": say("Touch again to stop"),
        "over": say("Time is up – stop"),
        "overFor": say("Time was up {time} ago – stop"),
        "timers": say("Timers"),
        "silent": say("Sound is off here. Turn it on"),
    },
    "day": lambda say: {
        "today": say("Today"),
        "meals": {
            "breakfast": say("Breakfast"),
            "lunch": say("Lunch"),
            "dinner": say("Dinner"),
        },
        "tonight": say("Dinner tonight"),
        "noMeal": say("No more meals today."),
        "tomorrow": say("Breakfast tomorrow"),
        "cook": {
            "breakfast": say("Cook breakfast step by step"),
            "lunch": say("Cook lunch step by step"),
            "dinner": say("Cook dinner step by step"),
        },
        "goOn": say("Go on cooking"),
        "stepsDone": say("{n} of {all} steps are done."),
        "beforeEating": say("{n} min before you eat"),
        "inDays": say.forms("in {n} day", "in {n} days"),
        "ticked": say.forms("({n} ticked off)", "({n} ticked off)"),
        "tripOver": say("This trip is over. Write down what came back, and what was too much."),
    },
    "orders": lambda say: {
        "eatAt": say("We eat at"),
        "at": say.of("clock", "At"),
        "before": say("{time} before"),
        "dayBefore": say("{time} before, the day before"),
    },
    "mine": lambda say: {
        "whoAreYou": say("Who are you?"),
        "anybody": say("somebody else"),
        "notForYou": say("Not for you: {foods}"),
        "readPacket": say("Read the packet first: {foods}"),
    },
    "pocket": lambda say: {
        "night": say("Night colours"),
        "print": say("Print as {size}"),
        "start": say("Start {time}"),
    },
    "sealed": lambda say: {
        "opening": say("Opening …"),
        "noPassphrase": say("Type the passphrase first."),
        "wrong": say("That passphrase does not open it, or the file is damaged."),
        "noCrypto": say(
            "This browser opens nothing sealed here. Open the file from disk, or by an address "
            "that begins with https."
        ),
    },
    "quantities": lambda say: {
        "group": say.signs(","),
        "decimal": say.signs("."),
        "cup": say("cup"),
        "cups": say("cups"),
        "tsp": say("tsp"),
        "mug": say("mug"),
        "mugs": say("mugs"),
        "potfuls": say.forms("{n} potful", "{n} potfuls"),
    },
    "otherwise": lambda say: {"rebuild": say("needs a new build")},
    "party": lambda say: {
        "start": say("Start {time}"),
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
            "Cautions, fuel, water and shopping are as planned. "
            "Ask guests what they must not eat."
        ),
        "rebuild": say("needs a new build"),
        "otherPot": say(
            "Another pot fits better now: what hangs on it needs a new build. Amounts follow. "
            "Cautions, fuel, water and shopping are as planned. "
            "Ask guests what they must not eat."
        ),
        "asPlanned": say("As planned"),
        "and": say("{some} and {last}"),
    },
    "follow": lambda say: {
        "in": say("{mass} fresh went in on {when}."),
        "enoughAt": say("Dry enough at"),
        "toGo": say("Still to go"),
        "nothingToGo": say("nothing, by weight"),
        "forecast": say("Likely dry"),
        "when": say("about {when}, between {earliest} and {latest}"),
        "twoTell": say("Two weighings tell when it will be dry."),
        "noCurve": say("These weights make no curve: weigh again in an hour."),
        "never": say(
            "At this pace it takes longer than four weeks: use warmer, drier air or thinner pieces."
        ),
        "look": say("Look next"),
        "lookNow": say("now"),
        "lookHour": say("an hour after the last weighing"),
        "moisture": say("Moisture left"),
        "open": say("about {likely}, by the table {low} to {high}; dry at {limit}"),
        "verdicts": {name: say(text) for name, text in VERDICTS.items()},
        "acts": {name: say(text) for name, text in ACTS.items()},
        "takeOut": say("Dry: take it out and pack it."),
        "weighed": say("Weighed"),
        "after": say("{time} after the start: {mass}"),
        "remove": say("Remove {what}"),
        "weight": say("Weight now, in {unit}"),
        "hours": say("Hours since it went in"),
        "add": say("Add this weight"),
        "badWeight": say("Write what it weighs, above 0 and not above {most}."),
        "badHours": say("Write the hours since it went in, more than {least}."),
        "badFresh": say("Write what goes in, above 0."),
        "tooLight": say("{mass} is lighter than this load can get. Check the scale and the trays."),
        "tests": say("Tests done"),
        "snap": say("A cold piece snaps"),
        "constant": say("Weighed again after 2 h more: at most 0.5 % less"),
        "jar": say("A week in a closed jar: no drops"),
        "end": say("It is out of the dryer"),
        "packs": say("Packs made"),
        "outOn": say("Taken out on"),
        "endNote": say("It ends with its last weight, {mass}."),
        "chart": say("Weight of the load, hour by hour; dots are weighings"),
        "likely": say("likely in these hours"),
        "dryAt": say("dry enough: {mass}"),
        "begin": say.of("drying", "start"),
        "newRun": say("A new load"),
        "food": say("What goes in"),
        "how": say("Dried in, or how"),
        "fresh": say("Fresh weight, in {unit}"),
        "wentIn": say("When it goes in"),
        "follow": say("Follow it"),
        "noFood": say(
            "Choose one from the list: what this home dried before, or its recipes take dried. "
            "Another food is begun at the computer: tripkit log FOOD FRESH --started TIME."
        ),
        "notSo": say("It is as dry as that already: choose another way."),
        "forgetRun": say("Forget this load"),
        "gone": say("Typed here, and no longer in a dryer as far as this page knows: {batch}"),
        "sendHead": say("Take it over into the log"),
        "sendHow": say("Save the file or send it to yourself; at the computer run {command}."),
        "save": say("Save as a file"),
        "sendFile": say("Send it"),
        "saved": say("Saved as {name}."),
        "nothingYet": say("Nothing was typed here yet."),
        "notStored": say(
            "This browser keeps nothing here: save the file before you close the page."
        ),
        "copied": say("Copied: paste it where you want it."),
        "cannotSend": say("This browser cannot send it: save it as a file."),
    },
    "ways": lambda say: {
        "rebuild": say("needs a new build"),
        "notTold": say("not given"),
        "neverPays": say("never pays for itself"),
        "paysAfter": say.forms("pays for itself after {n} run", "pays for itself after {n} runs"),
        "paysYears": say.forms(
            "pays for itself after {n} run, {years} years",
            "pays for itself after {n} runs, {years} years",
        ),
        "runs": say.forms("{n} run", "{n} runs"),
        "numberWrong": say("Write a number from {low} to {high}, or nothing."),
        "changedHere": say("Changed on this page alone: your files are as they were."),
        "asInFiles": say("As in your files"),
    },
    "tables": lambda say: {"table": say("Wide table, scroll sideways")},
    "opener": lambda say: {
        "searchFailed": say("What the search looks through could not be fetched. Try again."),
    },
    "search": lambda say: {
        "searchHow": say("Type what you look for"),
        "found": say.forms("Found in {n} place", "Found in {n} places"),
        "foundNone": say("Not found. Try a shorter word, or another one."),
    },
    "menu": lambda say: {"menu": say("Menu")},
    "settings": lambda say: {
        "settings": say("Offline, forget"),
        "units": say("Units"),
        "forget": say("Forget ticks, timers and changes on this phone"),
        "forgetSure": say("Press again to forget them all"),
        "fetching": say("Fetching the whole kit for use without a network …"),
        "fetched": say("Kept for use without a network: {n} of {all} files."),
        "noWorker": say(
            "At this address the browser keeps no pages: without a network, open the zip "
            "or the page that is all in one."
        ),
        "unstored": say(
            "This browser keeps no ticks and timers here: they last until you close the page."
        ),
        "ready": say("Ready offline: the whole kit is on this device."),
        "addHome": say("Add this page to your home screen; then the phone keeps it."),
        "notKept": say(
            "The kit could not be fetched whole. Open this page again where the network is "
            "better: it goes on from what is kept."
        ),
        "fresh": say("A new version of this kit is here."),
        "useFresh": say("Use it now"),
        "fromDisk": say("Opened from a folder: works without a network."),
    },
}


def words_of_parts(say: Speech, parts: Sequence[str]) -> Words:
    """Give every text by the name that the parts know it by; in pairs for one and many."""
    return {
        name: text for part in parts if part in WORDS for name, text in WORDS[part](say).items()
    }
