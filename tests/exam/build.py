"""A small edition with a point of each kind, and keys pressed at its points."""

from __future__ import annotations

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue import Dialogue, Step, dialogue_for
from hands_on.ruleset.assemble import assemble, assemble_common, read_common_file, read_edition_file
from hands_on.ruleset.ruleset import Ruleset

COMMON = (
    """
format = 1
order = ["general"]
[region]
id = "general"
label = "General"
[[points]]
id = "height"
kind = "measure"
quantity = "length"
unit = "cm"
label = "Height"
find = ""
why = ""
resolution = 0.5
plausible = [10, 115]
takes = 2
sides = true
u = { a = 0.4, b = 0.006, basis = "test", source = "common practice" }
source = "common practice"
[[points]]
id = "tip"
kind = "measure"
quantity = "length"
unit = "cm"
label = "Tail tip to hock"
find = ""
why = ""
resolution = 0.5
plausible = [-40, 40]
u = { a = 0.5, basis = "test", source = "common practice" }
source = "common practice"
[[points]]
id = "general.hocks"
kind = "grade"
label = "Hocks"
find = ""
why = ""
less = ["general.cow"]
more = ["general.bowed"]
sides = true
source = "common practice"
[[points]]
id = "general.skin"
kind = "grade"
label = "Skin"
find = ""
why = ""
more = ["general.throaty"]
source = "common practice"
[[points]]
id = "condition"
kind = "scale"
label = "Condition"
find = ""
why = ""
source = "common practice"
[[points.steps]]
value = 1
label = "thin"
fault = "general.throaty"
[[points.steps]]
value = 2
label = "ideal"
[[points]]
id = "general.bite"
kind = "choice"
label = "Bite"
find = ""
why = ""
source = "common practice"
[[points.options]]
id = "scissors"
label = "Scissors"
[[points.options]]
id = "level"
label = "Level"
fault = "general.bowed"
[[points]]
id = "general.white"
kind = "choice"
label = "White"
several = true
find = ""
why = ""
source = "common practice"
[[points.options]]
id = "none"
label = "None"
[[points.options]]
id = "toes"
label = "Toes"
fault = "general.cow"
detail = "toes"
[[points.options]]
id = "chest"
label = "Chest"
fault = "general.cow"
detail = "chest"
[[points]]
id = "general.many"
kind = "choice"
label = "Many"
find = ""
why = ""
source = "common practice"
"""
    + "".join(f'[[points.options]]\nid = "o{n}"\nlabel = "Option {n}"\n' for n in range(1, 13))
    + """
[[points]]
id = "mouth.teeth"
kind = "teeth"
label = "Teeth"
find = ""
why = ""
source = "common practice"
[faults."general.cow"]
label = "Cow hocks"
meaning = ""
function = ""
sides = true
opposite = ["general.bowed"]
[faults."general.bowed"]
label = "Bowed hocks"
meaning = ""
function = ""
sides = true
opposite = ["general.cow"]
[faults."general.throaty"]
label = "Throaty"
meaning = ""
function = ""
"""
)

EDITION = """
format = 1
id = "test"
builds_on = "common"
breed = "Test"
title = "Test"
edition = "1"
[walk]
measures = ["height", "tip"]
[[classes]]
id = "fault"
label = "Fault"
source = "common practice"
[[rulings]]
faults = ["general.bowed"]
by_degree = { slight = "none", marked = "fault" }
source = "common practice"
[[rulings]]
faults = ["general.throaty"]
class = "none"
source = "common practice"
"""

RULESET = assemble(
    [read_edition_file(EDITION, "test.toml")], assemble_common([read_common_file(COMMON, "common.toml")])
)


def at(point: str, answers: Answers | None = None, rules: Ruleset = RULESET) -> Dialogue:
    """The dialogue at a point."""
    return dialogue_for(rules.points[point], rules, answers or Answers())


def press(dialogue: Dialogue, keys: str | list[str]) -> Step:
    """Press keys one after the other: single characters, or words in a list; the last step."""
    *before, last = keys
    for key in before:
        dialogue.press(key)
    return dialogue.press(last)
