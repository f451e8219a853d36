"""Small rulesets and sessions for tests: one common part, editions and sessions of a few lines.

The dogs and the edition are invented; figures stand only for what each test says.
"""

from __future__ import annotations

from scipy import stats

from hands_on.evaluate.evaluation import evaluate
from hands_on.evaluate.result import Evaluation, Finding, RuleResult
from hands_on.exam.session import Session
from hands_on.ruleset.assemble import assemble, assemble_common, read_common_file, read_edition_file
from hands_on.ruleset.ruleset import Common, Ruleset
from hands_on.store.session_file import parse_session

LAW = stats.t(8 / (0.6**4 + 0.8**4))
"""Of one take: two judged parts of 0.6 and 0.8 u with 8 degrees of freedom each (JCGM 100:2008, G.4.1)."""


def _measure(name: str, quantity: str, unit: str, low: float, high: float, u: float, more: str = "") -> str:
    return f"""
[[points]]
id = "{name}"
kind = "measure"
quantity = "{quantity}"
unit = "{unit}"
label = "{name.capitalize()}"
resolution = 0.1
plausible = [{low}, {high}]
find = "f"
why = "w"
u = {{ a = {u}, basis = "judgement", source = "common practice" }}
source = "common practice"
{more}
"""


_YOUNG = "too_young = { small = 9, medium = 12, large = 12, giant = 15 }"

GENERAL = (
    'format = 1\n[region]\nid = "general"\nlabel = "General"\n'
    + _measure("height", "length", "cm", 10, 115, 0.5, _YOUNG)
    + _measure("body-length", "length", "cm", 10, 130, 0.5)
    + _measure("elbow-height", "length", "cm", 5, 80, 0.5)
    + _measure("withers-elbow", "length", "cm", 5, 80, 0.5)
    + _measure("weight", "mass", "kg", 0.5, 130, 0.1)
    + _measure("girth", "length", "cm", 10, 150, 0.5)
    + _measure("gap", "length", "mm", 0, 50, 0.1)
    + _measure("tail-end", "length", "cm", -50, 50, 0.5)
    + f"""
[[points]]
id = "body-condition"
kind = "scale"
label = "Condition"
find = "f"
why = "w"
source = "common practice"
steps = [
    {{ value = 3, label = "thin", fault = "general.thin", degree = "moderate" }},
    {{ value = 5, label = "right" }},
    {{ value = 8, label = "fat", fault = "general.fat", degree = "marked" }},
]

[[points]]
id = "general.type"
kind = "grade"
label = "Type"
other = ["general.odd"]
find = "f"
why = "w"
source = "common practice"

[faults."general.over-height"]
label = "Over height"
meaning = "m"
function = "f"
opposite = ["general.under-height"]
{_YOUNG}
always = "it will not shrink"
[faults."general.under-height"]
label = "Under height"
meaning = "m"
function = "f"
{_YOUNG}
[faults."general.body-short"]
label = "Short body"
meaning = "m"
function = "f"
{_YOUNG}
[faults."general.body-long"]
label = "Long body"
meaning = "m"
function = "f"
[faults."general.fat"]
label = "Fat"
meaning = "m"
function = "f"
opposite = ["general.thin"]
[faults."general.thin"]
label = "Thin"
meaning = "m"
function = "f"
[faults."general.odd"]
label = "Odd"
meaning = "m"
function = "f"
always = "at any age"
veterinary = "see a veterinarian"
{_YOUNG}
"""
)

MOUTH = (
    'format = 1\n[region]\nid = "mouth"\nlabel = "Mouth"\n'
    + _measure("teeth-count", "count", "teeth", 0, 50, 0)
    + """
[[points]]
id = "mouth.teeth"
kind = "teeth"
label = "Teeth"
find = "f"
why = "w"
source = "common practice"

[[points]]
id = "mouth.bite"
kind = "choice"
label = "Bite"
find = "f"
why = "w"
source = "common practice"
options = [
    { id = "scissors", label = "Scissors" },
    { id = "level", label = "Level", fault = "mouth.level-bite", detail = "whole-row" },
    { id = "level-part", label = "Level in part", fault = "mouth.level-bite", detail = "part-row" },
    { id = "overshot", label = "Overshot", fault = "mouth.overshot", degree = "slight" },
]

[faults."mouth.teeth-missing"]
label = "Missing teeth"
meaning = "m"
function = "f"
too_young = { small = 7, medium = 7, large = 7, giant = 7 }
[faults."mouth.teeth-worn"]
label = "Worn teeth"
meaning = "m"
function = "f"
[faults."mouth.teeth-extra"]
label = "Extra tooth"
meaning = "m"
function = "f"
[faults."mouth.level-bite"]
label = "Level bite"
meaning = "m"
function = "f"
[faults."mouth.overshot"]
label = "Overshot"
meaning = "m"
function = "f"
"""
)

HIND = (
    'format = 1\n[region]\nid = "hindquarters"\nlabel = "Hindquarters"\n'
    + _measure("hock-angle", "angle", "deg", 60, 180, 1.0, "sides = true")
    + """
[[points]]
id = "hindquarters.hocks"
kind = "grade"
label = "Hocks"
less = ["hindquarters.cow-hocks"]
more = ["hindquarters.bowed-hocks"]
sides = true
find = "f"
why = "w"
source = "common practice"

[[points]]
id = "croup-tail.carriage"
kind = "grade"
label = "Tail"
other = ["croup-tail.natural", "croup-tail.curled"]
find = "f"
why = "w"
source = "common practice"

[faults."hindquarters.cow-hocks"]
label = "Cow hocks"
meaning = "m"
function = "f"
sides = true
opposite = ["hindquarters.bowed-hocks"]
[faults."hindquarters.bowed-hocks"]
label = "Bowed hocks"
meaning = "m"
function = "f"
sides = true
[faults."hindquarters.straight"]
label = "Straight behind"
meaning = "m"
function = "f"
sides = true
[faults."croup-tail.natural"]
label = "Natural tail"
meaning = "m"
function = "f"
[faults."croup-tail.curled"]
label = "Curled tail"
meaning = "m"
function = "f"
"""
)

CLOSURES = """
format = 1
order = ["general", "mouth", "hindquarters"]
[[closures]]
id = "elbow-and-rest"
parts = ["elbow-height", "withers-elbow"]
whole = "height"
text = "Elbow height and the rest make the height. Take both upright."
source = "common practice"
[[closures]]
id = "order"
smaller = "elbow-height"
larger = "height"
text = "The elbow is lower than the withers."
source = "common practice"
"""

HEAD = """
format = 1
id = "test"
builds_on = "common"
breed = "Test"
title = "Test"
edition = "1"
size_class = "large"
"""

LADDER = """
[[classes]]
id = "undesirable"
label = "Undesirable"
ladder = false
source = "reading"
[[classes]]
id = "fault"
label = "Fault"
source = "reading"
[[classes]]
id = "severe"
label = "Severe"
source = "reading"
[[classes]]
id = "out"
label = "Disqualifying"
disqualifies = true
source = "reading"
"""

CLAUSE = """
[general_clause]
class = "fault"
text = "Every departure is a fault."
source = "reading"
"""

WALK = '\n[walk]\nmeasures = ["height", "body-length", "teeth-count"]\n'


def common() -> Common:
    """The common parts above."""
    texts = {"general": GENERAL, "mouth": MOUTH, "hindquarters": HIND, "order": CLOSURES}
    return assemble_common([read_common_file(text, name) for name, text in texts.items()])


_COMMON = common()


def edition(rules: str, *, clause: bool = True, head: str = HEAD) -> Ruleset:
    """An edition with the ladder undesirable (beside it), fault, severe, out, and these rules."""
    text = head + LADDER + (CLAUSE if clause else "") + rules
    if "[walk]" not in text:
        text += WALK
    return assemble([read_edition_file(text, "test.toml")], _COMMON)


def session(answers: str, *, dog: str = 'sex = "male"\nborn = 2020-01-01', examination: str = "") -> Session:
    """A session of an adult male on 1 June 2024, with these answers."""
    text = (
        f'format = 1\n[ruleset]\nid = "test"\n[dog]\n{dog}\n'
        f"[examination]\nstarted = 2024-06-01T09:00:00+02:00\n{examination}\n{answers}"
    )
    return parse_session(text, "session.toml")


def take(point: str, *values: float | str, side: str = "", unit: str = "") -> str:
    """Takes of one measurement."""
    more = (f'side = "{side}"\n' if side else "") + (f'unit = "{unit}"\n' if unit else "")
    shown = [f'"{value}"' if isinstance(value, str) else value for value in values]
    return "".join(f'[[takes]]\npoint = "{point}"\nvalue = {value}\n{more}' for value in shown)


def grade(fault: str, degree: str = "", side: str = "", point: str = "general.type", more: str = "") -> str:
    """A departure seen at a point."""
    rows = [f'degree = "{degree}"'] * bool(degree) + [f'side = "{side}"'] * bool(side) + [more] * bool(more)
    return f'[[grades]]\npoint = "{point}"\nfault = "{fault}"\n' + "\n".join(rows) + "\n"


def rule_of(evaluation: Evaluation, name: str) -> RuleResult:
    """The one result of a limit."""
    (found,) = [rule for rule in evaluation.rules if rule.id == name]
    return found


def finding_of(evaluation: Evaluation, name: str) -> Finding:
    """The one finding of a fault, counted or allowed."""
    (found,) = [one for one in (*evaluation.findings, *evaluation.allowed) if one.id == name]
    return found


def kinds(evaluation: Evaluation) -> list[str]:
    """The kinds of all alarms."""
    return [alarm.kind for alarm in evaluation.alarms]


def judge(rules: str, answers: str, **given: str) -> Evaluation:
    """An evaluation of these answers under these rules."""
    return evaluate(edition(rules), session(answers, **given))
