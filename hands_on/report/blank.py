"""The sheet for paper days: every point in the order of the walk, its scale drawn, room for takes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from hands_on.exam.session import Dog, RulesetRef, Session
from hands_on.exam.walk import Stop, stops
from hands_on.frozen import dataclass
from hands_on.plain_text import one_line
from hands_on.report.html import render
from hands_on.ruleset.base import DEGREES, Sex
from hands_on.ruleset.dentition import TEETH
from hands_on.ruleset.points import ChoicePoint, GradePoint, MeasurePoint, Point, ScalePoint
from hands_on.ruleset.ruleset import Ruleset
from hands_on.ruleset.walks import Walk
from hands_on.wording.point import asked_in_short

__all__ = ["Sheet", "blank_html", "blank_markdown", "blank_sheet"]

_HEAD = ("Registered name", "Call name", "Sex", "Born", "Chip or tattoo", "Registration", "Variety, colour",
         "Evaluator", "Scribe", "Place", "Date and time")  # fmt: skip


@dataclass(frozen=True)
class Box:
    """One thing to tick."""

    text: str
    degrees: bool = False
    """Are degrees ticked beside it?"""


@dataclass(frozen=True)
class Line:
    """One point of the sheet."""

    label: str
    asked: str
    boxes: tuple[Box, ...] = ()
    takes: int = 0
    """Fields for readings; on each side where `sides`."""
    unit: str = ""
    sides: bool = False
    teeth: tuple[tuple[int, ...], ...] = ()
    """Rows of the tooth chart."""


@dataclass(frozen=True)
class Region:
    """One region with its number, by which the walk jumps to it."""

    number: int
    label: str
    caution: str
    lines: tuple[Line, ...]


@dataclass(frozen=True)
class Sheet:
    """A sheet to fill in by hand."""

    title: str
    head: tuple[str, ...]
    degrees: tuple[str, ...]
    regions: tuple[Region, ...]


def blank_sheet(ruleset: Ruleset, walk: Walk | None = None, sex: Sex | None = None) -> Sheet:
    """The points this edition asks, or those of a shorter walk; with `sex` without those of the other."""
    session = Session(ruleset=RulesetRef(id=ruleset.id), dog=Dog(sex=sex))
    asked = [stop for stop in stops(ruleset, session) if walk is None or walk.asks(stop.point)]
    numbers = {region.id: n for n, region in enumerate(dict.fromkeys(stop.region for stop in asked), start=1)}
    regions: list[Region] = []
    for name, group in groupby(asked, lambda stop: stop.region.id):
        own = list(group)
        # a region may be come back to, as the walk does
        visits = 1 + sum(one.number == numbers[name] for one in regions)
        label = own[0].region.label + (f", visit {visits}" if visits > 1 else "")
        caution = own[0].region.caution if visits == 1 else ""
        regions.append(Region(numbers[name], label, caution, _lines(ruleset, own, sex)))
    named = f" · {walk.label}" if walk is not None else ""
    return Sheet(f"{ruleset.edition.title}{named}", _HEAD, DEGREES, tuple(regions))


def _lines(ruleset: Ruleset, own: Sequence[Stop], sex: Sex | None) -> tuple[Line, ...]:
    return tuple(_line(ruleset, stop.point, sex) for stop in own)


def _line(ruleset: Ruleset, point: Point, sex: Sex | None) -> Line:
    asked = asked_in_short(ruleset, point, sex)
    if isinstance(point, MeasurePoint):
        return Line(point.label, asked, takes=point.takes, unit=point.unit, sides=point.sides)
    if isinstance(point, GradePoint):
        known = [ruleset.faults[name] for name in point.departures if name in ruleset.faults]
        faults = [fault for fault in known if sex is None or fault.only_sex in (None, sex)]
        boxes = (Box("as asked"), *(Box(fault.label, degrees=True) for fault in faults))
        return Line(point.label, asked, boxes, sides=point.sides)
    if isinstance(point, ScalePoint):
        return Line(point.label, asked, tuple(Box(step.label) for step in point.steps))
    if isinstance(point, ChoicePoint):
        return Line(point.label, asked, tuple(Box(one.label) for one in point.options), sides=point.sides)
    upper = [tooth for tooth in TEETH if tooth < 300]
    lower = [tooth for tooth in TEETH if tooth >= 300]
    return Line(point.label, asked, teeth=(_round(upper), _round(lower)))


def _round(teeth: list[int]) -> tuple[int, ...]:
    """A jaw as it is looked at: the dog's right from back to front, then its left from front to back."""
    quarters = sorted({tooth // 100 for tooth in teeth})
    right = quarters[0] if quarters[0] == 1 else quarters[-1]
    own = sorted((tooth for tooth in teeth if tooth // 100 == right), reverse=True)
    return (*own, *sorted(tooth for tooth in teeth if tooth // 100 != right))


def blank_html(sheet: Sheet) -> str:
    """The sheet as one HTML file, to be printed."""
    return render("blank.html.j2", sheet=sheet)


def blank_markdown(sheet: Sheet) -> str:
    """The same as plain text that is Markdown too."""
    return "\n".join(_rows(sheet)) + "\n"


def _rows(sheet: Sheet) -> Iterator[str]:
    yield f"# {one_line(sheet.title)}"
    yield ""
    yield from (f"{name}: {'_' * 40}  " for name in sheet.head)
    for region in sheet.regions:
        yield ""
        yield f"## {region.number} {one_line(region.label)}"
        for line in region.lines:
            yield ""
            yield f"**{one_line(line.label)}** (asked: {one_line(line.asked)})  "
            yield from _fields(line, sheet.degrees)
    yield ""
    yield "## Summary, outcome, signature"
    yield from ("", "_" * 78, "", "_" * 78)


def _fields(line: Line, degrees: tuple[str, ...]) -> Iterator[str]:
    if line.takes:
        for side in ("left ", "right ") if line.sides else ("",):
            yield f"{side}{'  '.join(['________'] * line.takes)} {line.unit}  "
    steps = "   ".join(f"( ) {degree}" for degree in degrees)
    sides = "   [ ] left [ ] right" if line.sides and line.boxes else ""
    for box in line.boxes:
        yield f"[ ] {one_line(box.text)}{f': {steps}{sides}' if box.degrees else ''}  "
    if line.sides and line.boxes and not any(box.degrees for box in line.boxes):
        yield "[ ] left   [ ] right  "
    for row in line.teeth:
        yield f"`{' '.join(map(str, row))}`  "
    if line.teeth:
        yield "missing - / worn ~ / broken x / extra + / not seen ?  "
    yield f"Note: {'_' * 60}"
