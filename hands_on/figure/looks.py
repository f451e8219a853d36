"""How a point of the examination looks: where hand or stick goes, and each departure at its degrees."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import field
from functools import lru_cache

from hands_on.figure.curves import Point
from hands_on.figure.drawn import Departure, Figure, departing, ideal
from hands_on.figure.parts import landmarks_of_parts, parts_of_fault, parts_of_measure
from hands_on.figure.reading import landmarks_of
from hands_on.figure.shapes import Drawing, ViewName
from hands_on.frozen import dataclass
from hands_on.ruleset.base import Degree, Sex
from hands_on.ruleset.points import MeasurePoint, faults_of
from hands_on.ruleset.points import Point as ExamPoint
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["SHOWN_DEGREES", "Look", "Window", "look_at_point", "unseen_at_point", "window_on"]

SHOWN_DEGREES: tuple[Degree, ...] = ("slight", "marked")
"""What is shown beside what is asked."""

Window = tuple[float, float, float, float]
"""Left, right, bottom and top of what is looked at, cm."""

_ROUND = 0.22
"""How much of the dog is shown round what is looked at, in heights."""

_FROM_IN_FRONT = ("skull-width", "chest-width", "foreleg-girth")


@dataclass(frozen=True)
class Look:
    """What is to be seen at a point from one side; of a graded point a look for each departure."""

    view: ViewName
    asked: Figure
    window: Window
    fault: str = ""
    """Empty at a measurement."""
    degrees: tuple[tuple[Degree, Figure], ...] = ()
    landmarks: tuple[str, ...] = ()
    """Those the hand finds, in this view."""
    stick: tuple[Point, ...] = field(default=())
    """Where the stick or tape lies, at a measurement between landmarks."""


def look_at_point(ruleset: Ruleset, point: ExamPoint, sex: Sex | None = None) -> tuple[Look, ...]:
    """The looks of a point, in the order of its answers; none where the figure shows nothing of it."""
    if ruleset.figure is None:
        return ()
    if isinstance(point, MeasurePoint):
        return _measured(ruleset, point, sex)
    found = []
    for fault in faults_of(point):
        if (seen := ruleset.figure.seen.get(fault)) is not None:
            look = _graded(ruleset, fault, seen.views[0], sex)
            # What a breed has by nature (hanging ears) looks the same at every degree: nothing to show.
            first, *others = (figure.view(look.view) for _, figure in look.degrees)
            if any(other != first for other in others):
                found.append(look)
    return tuple(found)


def unseen_at_point(ruleset: Ruleset, point: ExamPoint) -> dict[str, str]:
    """The departures of a point that the figure cannot show, each with the reason."""
    plan = ruleset.figure
    if plan is None:
        return {}
    if isinstance(point, MeasurePoint):
        reasons = [entry.reason for entry in plan.unseen if point.id in entry.measures]
        return {point.id: reasons[0]} if reasons else {}
    return {fault: reason for fault in faults_of(point) if (reason := plan.unseen_reason(fault))}


@lru_cache(maxsize=512)
def _departing(key: _Edition, fault: str, degree: Degree, sex: Sex | None) -> Figure:
    return departing(key.ruleset, [Departure(fault, degree)], sex=sex)


@dataclass(frozen=True)
class _Edition:
    """A ruleset, known by its identity and digest."""

    id: str
    digest: str
    ruleset: Ruleset = field(compare=False)


def _graded(ruleset: Ruleset, fault: str, view: ViewName, sex: Sex | None) -> Look:
    key = _Edition(ruleset.id, ruleset.digest, ruleset)
    asked = ideal(ruleset, sex)
    degrees = tuple((degree, _departing(key, fault, degree, sex)) for degree in SHOWN_DEGREES)
    parts = parts_of_fault(ruleset, fault)
    drawing = asked.view(view)
    window = window_on([drawing, *(figure.view(view) for _, figure in degrees)], parts, asked.height)
    places = tuple(name for name in landmarks_of_parts(parts) if name in drawing.marks)
    return Look(view, asked, window, fault, degrees, places)


def _measured(ruleset: Ruleset, point: MeasurePoint, sex: Sex | None) -> tuple[Look, ...]:
    parts = parts_of_measure(ruleset, point.id)
    if not parts:
        return ()
    asked = ideal(ruleset, sex)
    view: ViewName = "front" if point.id in _FROM_IN_FRONT else "side"
    drawing = asked.view(view)
    names = landmarks_of(ruleset, point.id)
    shown = tuple(name for name in names if name in drawing.marks)
    stick = _stick(drawing, names, point)
    window = drawing.extent if "ground" in names else window_on([drawing], parts, asked.height, stick)
    return (Look(view, asked, window, landmarks=shown, stick=stick),)


def _stick(drawing: Drawing, names: tuple[str, ...], point: MeasurePoint) -> tuple[Point, ...]:
    """Where stick, tape or the arms of the goniometer lie between the landmarks."""
    at = {**drawing.marks, "ground": (0.0, 0.0)}
    places = [at[name] for name in names if name in at]
    if len(places) < 2:
        return ()
    runs = point.between.runs if point.between is not None else "straight"
    (ax, az), (bx, bz) = places[0], places[1]
    if runs == "upright" or "ground" in names:
        x = bx if names[0] == "ground" else ax
        return ((x, az), (x, bz))
    if runs == "level":
        z = max(az, bz)
        return ((ax, z), (bx, z))
    return tuple(places)


def window_on(
    drawings: Iterable[Drawing], parts: Iterable[str], height: float, more: Iterable[Point] = ()
) -> Window:
    """What shows these parts, with some of the dog round them."""
    wanted = set(parts)
    drawings = list(drawings)
    points = [
        point for one in drawings for shape in one.shapes for part, run in shape.runs if part in wanted
        for point in run
    ]  # fmt: skip
    points += more
    whole = drawings[0].extent
    if not points:
        return whole
    xs, zs = [x for x, _ in points], [z for _, z in points]
    margin = _ROUND * height
    left, right = max(whole[0], min(xs) - margin), min(whole[1], max(xs) + margin)
    bottom, top = max(whole[2], min(zs) - margin), min(whole[3], max(zs) + margin)
    return left, right, bottom, top
