"""Figures: the dog that an edition asks for, a single departure from it, and a dog as it was examined."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import field
from functools import lru_cache
from typing import Literal

from hands_on.evaluate import Evaluation
from hands_on.figure.fitting import Wanted, fit
from hands_on.figure.front import front_view
from hands_on.figure.parts import parts_of_measure
from hands_on.figure.reading import readings, value_read
from hands_on.figure.rear import rear_view
from hands_on.figure.shapes import Drawing, ViewName
from hands_on.figure.side import side_view
from hands_on.figure.skeleton import skeleton
from hands_on.frozen import dataclass
from hands_on.measure.units import canonical_unit, convert, quantity_of
from hands_on.ruleset.base import DEGREES, Degree, Sex, Side
from hands_on.ruleset.figure import FigurePlan
from hands_on.ruleset.points import MeasurePoint
from hands_on.ruleset.rules import Limit
from hands_on.ruleset.ruleset import Ruleset

__all__ = [
    "Departure", "Figure", "Line", "Measures", "Style", "departing", "dog_figure", "figure_of", "ideal",
    "measures_of", "plan_of", "sex_of",
]  # fmt: skip

Measures = dict[str, tuple[float, float]]
"""By measure its value and uncertainty in cm or degrees."""

Style = Literal["measured", "graded", "assumed"]
Line = Literal["full", "middle", "light"]

_LINES: dict[Style, Line] = {"measured": "full", "graded": "middle", "assumed": "light"}

_WELL_WITHIN = 0.05
"""How far beyond the one end of a limit the ideal is drawn, as a share of it."""

_UNSAID: Degree = "moderate"
"""How far a departure is drawn whose degree was not said."""


@dataclass(frozen=True)
class Departure:
    """A fault drawn: how far, and on which side."""

    fault: str
    degree: Degree | None = None
    side: Side | None = None


@dataclass(frozen=True)
class Figure:
    """A dog drawn: views on demand, and what each part rests on."""

    sides: Mapping[str, Mapping[str, float]]
    """The proportions of `left` and `right`; they differ where a departure is on one side alone."""
    styles: Mapping[str, Style] = field(default_factory=dict)
    """By part of the outline; a part that is not named is assumed."""
    measured: tuple[str, ...] = ()
    """Measures that are drawn: read off the figure they give what was measured."""
    left_out: tuple[str, ...] = ()
    """Measures that do not go with those that are drawn."""
    departures: tuple[Departure, ...] = ()
    """What is drawn of what was graded."""
    unseen: tuple[str, ...] = ()
    """Faults found that the figure cannot show."""
    examined: bool = False
    """A dog that was examined; else what an edition asks, or a departure from it."""
    _views: dict[ViewName, Drawing] = field(default_factory=dict, repr=False, compare=False)

    @property
    def shape(self) -> Mapping[str, float]:
        """The proportions, those of the left where the sides differ."""
        return self.sides["left"]

    @property
    def height(self) -> float:
        """At the withers, cm."""
        return self.shape["height"]

    def view(self, name: ViewName) -> Drawing:
        """The dog from the side, from in front or from behind."""
        if name not in self._views:
            if name == "side":
                self._views[name] = side_view(self.shape)
            else:
                self._views[name] = (front_view if name == "front" else rear_view)(self.sides)
        return self._views[name]

    def line(self, part: str) -> Line:
        """How a part of the outline is drawn: of a dog, what was measured in full, what was graded in the
        middle, what is assumed light; of any other figure what departs in full, the rest in the middle.
        """
        style = self.styles.get(part, "assumed")
        if self.examined:
            return _LINES[style]
        return "middle" if style == "assumed" else "full"


def plan_of(ruleset: Ruleset) -> FigurePlan:
    """What the figure is drawn from. Raises LookupError where the common files hold no figure."""
    if ruleset.figure is None:
        raise LookupError("the common files hold no [figure]: nothing can be drawn")
    return ruleset.figure


def ideal(ruleset: Ruleset, sex: Sex | None = None) -> Figure:
    """The dog an edition asks for: its [[figure]] brought to the middle of each of its limits.

    Without a sex that of a male. What only one end of a limit holds stays where it is within it.
    """
    shape = _ideal_shape(_Key(ruleset), sex or "male")
    return Figure({"left": shape, "right": shape})


class _Key:
    """A ruleset as a key: two of the same identity and digest are the same."""

    def __init__(self, ruleset: Ruleset) -> None:
        self.ruleset = ruleset

    def __hash__(self) -> int:
        return hash((self.ruleset.id, self.ruleset.digest, id(self.ruleset.figure)))

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Key) and hash(self) == hash(other)


@lru_cache(maxsize=64)
def _ideal_shape(key: _Key, sex: Sex) -> Mapping[str, float]:
    ruleset = key.ruleset
    plan = plan_of(ruleset)
    shape = {name: one.usual for name, one in plan.proportions.items()}
    for entry in ruleset.edition.figure:
        shape.update({name: value for name, value in entry.set.items() if name in shape})
    ways = readings(ruleset)
    wanted: list[Wanted] = []
    for limit in _limits(ruleset, sex):
        way, asked = value_read(limit, ways), limit.asked
        if way is None or asked is None or quantity_of(_unit(ruleset, limit)) == "mass":
            continue
        unit = _unit(ruleset, limit)
        low, high = (_canonical(end, unit) for end in (asked.low, asked.high))
        middle = (low + high) / 2
        if not math.isfinite(middle):
            now = way(shape, skeleton(shape))
            if low < now < high:
                continue
            middle = low + _WELL_WITHIN * abs(low or now) if math.isfinite(low) else high
        wanted.append(Wanted(limit.id, way, middle, max(abs(middle), 0.05)))
    wanted.sort(key=lambda one: not one.name.startswith("height"))
    return fit(shape, plan.proportions, wanted).shape


def _canonical(value: float, unit: str) -> float:
    if unit == "share" or not math.isfinite(value):
        return value
    return convert(value, unit, canonical_unit(quantity_of(unit)))


def _limits(ruleset: Ruleset, sex: Sex) -> Iterable[Limit]:
    for limit in ruleset.edition.limits:
        when = limit.when
        if limit.classifies or limit.optional or (when is not None and when.sex not in (None, sex)):
            continue
        if when is not None and (when.model_fields_set - {"sex"} or when.attributes):
            continue
        yield limit


def _unit(ruleset: Ruleset, limit: Limit) -> str:
    if limit.unit is not None:
        return limit.unit
    point = ruleset.points.get(limit.measure or "")
    return point.unit if isinstance(point, MeasurePoint) else "share"


def departing(ruleset: Ruleset, departures: Sequence[Departure], *, sex: Sex | None = None) -> Figure:
    """The edition's dog with these departures alone."""
    return figure_of(ruleset, {}, departures, sex=sex)


def figure_of(
    ruleset: Ruleset, measures: Mapping[str, tuple[float, float]], departures: Sequence[Departure] = (),
    *, sex: Sex | None = None, examined: bool = False,
) -> Figure:  # fmt: skip
    """A dog of these measurements {id: (value, u)} in cm and degrees, and these departures.

    What was neither measured nor graded is as the edition asks. A measurement goes before a grade.
    """
    plan = plan_of(ruleset)
    shape = dict(_ideal_shape(_Key(ruleset), sex or "male"))
    seen = [one for one in departures if one.fault in plan.seen]
    one_side = [one for one in seen if plan.seen[one.fault].sides and one.side in ("left", "right")]
    for one in seen:
        if one not in one_side:
            _move(plan, shape, one)
    ways = readings(ruleset)
    wanted = [
        Wanted(name, ways[name], value, max(abs(value), _least(value, name, measures)))
        for name, (value, _) in sorted(measures.items(), key=lambda item: _first(ruleset, item[0]))
        if name in ways
    ]
    fitted = fit(shape, plan.proportions, wanted)
    sides: dict[str, Mapping[str, float]] = {}
    for side in ("left", "right"):
        own = dict(fitted.shape)
        for one in one_side:
            if one.side == side:
                _move(plan, own, one)
        sides[side] = own
    styles: dict[str, Style] = {part: "graded" for one in seen for part in plan.seen[one.fault].parts}
    styles |= {part: "measured" for name in fitted.drawn for part in parts_of_measure(ruleset, name)}
    unseen = tuple(dict.fromkeys(one.fault for one in departures if one.fault not in plan.seen))
    return Figure(sides, styles, fitted.drawn, fitted.left_out, tuple(seen), unseen, examined)


def _least(value: float, name: str, measures: Mapping[str, tuple[float, float]]) -> float:
    """A distance that may be nothing is held against a tenth of the dog."""
    return 0.1 * measures["height"][0] if abs(value) < 1 and "height" in measures else 1.0


def _first(ruleset: Ruleset, measure: str) -> tuple[int, int]:
    """Which measure goes before which: size, then heights and lengths, then angles, then girths."""
    order = ("height", "body-length")
    if measure in order:
        return (0, order.index(measure))
    point = ruleset.points[measure]
    place = list(ruleset.points).index(measure)
    if not isinstance(point, MeasurePoint) or point.quantity == "angle":
        return (3, place)
    if point.between is None:
        return (4, place)
    return (1 if point.between.runs == "upright" else 2, place)


def _move(plan: FigurePlan, shape: dict[str, float], one: Departure) -> None:
    step = DEGREES.index(one.degree or _UNSAID)
    for name, sizes in plan.seen[one.fault].moves.items():
        low, high = plan.proportions[name].range
        shape[name] = min(high, max(low, shape[name] + plan.exaggerated * sizes[step]))


def measures_of(evaluation: Evaluation) -> Measures:
    """Each measurement with its uncertainty in cm or degrees; of two sides the mean."""
    rows: dict[str, list[tuple[float, float]]] = {}
    for one in evaluation.measures:
        quantity = quantity_of(one.unit)
        if quantity in ("length", "angle"):
            unit = canonical_unit(quantity)
            rows.setdefault(one.id, []).append(
                (convert(one.value, one.unit, unit), convert(one.u, one.unit, unit))
            )
    return {
        name: (sum(value for value, _ in pairs) / len(pairs), max(u for _, u in pairs))
        for name, pairs in rows.items()
    }


def dog_figure(ruleset: Ruleset, evaluation: Evaluation, points: Collection[str] | None = None) -> Figure:
    """The dog as it was examined; with `points` only what was found at these.

    What rests on a measurement alone is drawn from that, not as a grade.
    """
    departures = [
        Departure(one.id, one.degree, one.side)
        for one in evaluation.findings
        if one.status == "present"
        and one.decision != "dismiss"
        and set(one.origins) - {"take"}
        and (points is None or set(one.points) & set(points))
    ]
    measures = {
        name: pair for name, pair in measures_of(evaluation).items() if points is None or name in points
    }
    return figure_of(ruleset, measures, departures, sex=sex_of(evaluation), examined=True)


def sex_of(evaluation: Evaluation) -> Sex | None:
    """The dog's sex, where it is known."""
    sex = evaluation.circumstances.entered("sex")
    return "male" if sex == "male" else "female" if sex == "female" else None
