"""Measurements that must agree with each other, held against each other.

The misfit w of what should close is compared with its standard uncertainty u_w: from 2 u_w on
look again (``warn``), from 3 u_w on measure again (``alarm``), as is common practice among surveyors.
Every check answers None when a measurement it needs was not taken. ``correlation`` is what measurements share
by running from one landmark: errors there cancel in a sum, and the sum must close the better.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Literal

from hands_on.frozen import dataclass
from hands_on.measure.derived import Correlation, Difference, Expr, Ref, Sum, evaluate, measure_ids

__all__ = [
    "Level",
    "Misfit",
    "MisfitKind",
    "check_agreement",
    "check_fence",
    "check_girth",
    "check_head",
    "check_left_right",
    "check_order",
    "check_sum",
    "ellipse_perimeter",
]

WARN, ALARM = 2.0, 3.0

Level = Literal["ok", "warn", "alarm"]
MisfitKind = Literal["sum", "agreement", "order", "head", "left-right", "girth", "fence"]

Values = Mapping[str, tuple[float, float]]


@dataclass(frozen=True)
class Misfit:
    """How far measurements are from agreeing.

    ``w`` is the misfit and ``u_w`` its standard uncertainty, both in ``unit`` (a ratio, without one, for
    ``girth`` and ``fence``). ``turned``: of an angle taken two ways, one was probably read from the vertical
    and the other from the horizontal.
    """

    kind: MisfitKind
    ids: tuple[str, ...]
    w: float
    u_w: float
    level: Level
    unit: str = ""
    turned: bool = False


def check_sum(
    parts: Sequence[str | Expr],
    whole: str | Expr,
    values: Values,
    *,
    unit: str = "cm",
    correlation: Correlation | None = None,
) -> Misfit | None:
    """Parts that add up to a whole: w = sum of parts less whole, expected 0.

    With exact counts (u = 0) any misfit is an alarm.
    """
    total: Expr = Sum(tuple(_expr(part) for part in parts))
    return _misfit("sum", Difference(total, _expr(whole)), values, unit, correlation)


def check_agreement(
    first: str, second: str, values: Values, *, unit: str = "deg", complement: bool = False
) -> Misfit | None:
    """One thing taken two ways, for instance a slope by inclinometer and from landmarks; expected alike.

    ``complement``: if they do not agree, look whether 90 less one of them does.
    """
    misfit = _misfit("agreement", Difference(Ref(first), Ref(second)), values, unit)
    if misfit is None or not complement or misfit.level == "ok":
        return misfit
    turned = 90.0 - values[first][0] - values[second][0]
    return replace(misfit, turned=abs(turned) <= WARN * misfit.u_w)


def check_order(
    smaller: str | Expr,
    larger: str | Expr,
    values: Values,
    *,
    unit: str = "cm",
    correlation: Correlation | None = None,
) -> Misfit | None:
    """What must be smaller than something else: w = smaller less larger, expected below 0.

    Equality is already impossible in a dog, so it warns from 0 and alarms from 2 u_w.
    """
    wanted = Difference(_expr(smaller), _expr(larger))
    ids = measure_ids(wanted)
    if any(name not in values for name in ids):
        return None
    w, u_w = evaluate(wanted, values, correlation)
    level: Level = "ok" if w < 0 else "alarm" if w >= WARN * u_w else "warn"
    return Misfit("order", ids, w, u_w, level, unit)


def check_head(
    values: Values,
    *,
    muzzle: str = "muzzle-length",
    skull: str = "skull-length",
    head: str = "head-length",
    unit: str = "cm",
    correlation: Correlation | None = None,
) -> Misfit | None:
    """Muzzle and skull against the head, all straight lines: w = muzzle + skull - head.

    It cannot be negative (triangle), and is as much above 0 as the profile breaks at the stop; a
    break of 45 degrees is taken as the most: w up to m + s - sqrt(m^2 + s^2 + 2 m s cos 45). Warns
    and alarms beyond that band by 2 and 3 u_w.
    """
    ids = (muzzle, skull, head)
    if any(name not in values for name in ids):
        return None
    w, u_w = evaluate(Difference(Sum((Ref(muzzle), Ref(skull))), Ref(head)), values, correlation)
    m, s = values[muzzle][0], values[skull][0]
    most = m + s - math.sqrt(m * m + s * s + 2.0 * m * s * math.cos(math.pi / 4))
    beyond = -w if w < 0 else max(0.0, w - most)
    return Misfit("head", ids, w, u_w, _level(beyond, u_w), unit)


def check_left_right(
    name: str, left: float, right: float, u_repeat_left: float, u_repeat_right: float, *, unit: str = "cm"
) -> Misfit:
    """Left against right, by one hand in one stance: w = left less right, expected 0.

    Only the repeatable part of each uncertainty counts, since what stays in the hand is the same on
    both sides. For single takes that makes 1.7 u and 2.5 u.
    """
    w, u_w = left - right, math.hypot(u_repeat_left, u_repeat_right)
    return Misfit("left-right", (name,), w, u_w, _level(abs(w), u_w), unit)


def ellipse_perimeter(first_axis: float, second_axis: float) -> float:
    """Perimeter of an ellipse from its two full axes (Ramanujan's second formula, from memory)."""
    a, b = first_axis / 2.0, second_axis / 2.0
    if a + b == 0:
        return 0.0
    h = ((a - b) / (a + b)) ** 2
    return math.pi * (a + b) * (1.0 + 3.0 * h / (10.0 + math.sqrt(4.0 - 3.0 * h)))


def check_girth(
    values: Values,
    *,
    girth: str = "chest-girth",
    depth: str = "chest-depth",
    width: str = "chest-width",
) -> Misfit | None:
    """Chest girth over the perimeter of the ellipse with chest depth and width as axes: about 0.97 to 0.99.

    Below 1 because the depth starts at the withers; Akbash means give 0.973 (Urosevic and others
    2020, Turkish J. Agric. Food Sci. Technol. 8: 1571-1576). Warns outside 0.88 to 1.10, alarms
    outside 0.82 to 1.16 (judgement on the shape of chests); ``w`` is the ratio.
    """
    ids = (girth, depth, width)
    if any(name not in values for name in ids):
        return None
    (g, u_g), (d, u_d), (b, u_b) = (values[name] for name in ids)
    around = ellipse_perimeter(d, b)
    if not (around > 0 and g > 0):
        return None
    step = 1e-5 * (d + b)
    by_depth = (ellipse_perimeter(d + step, b) - ellipse_perimeter(d - step, b)) / (2 * step)
    by_width = (ellipse_perimeter(d, b + step) - ellipse_perimeter(d, b - step)) / (2 * step)
    ratio = g / around
    u = ratio * math.hypot(u_g / g, by_depth * u_d / around, by_width * u_b / around)
    fence = check_fence(ids, ratio, u, warn=(0.88, 1.10), alarm=(0.82, 1.16))
    return Misfit("girth", ids, ratio, u, fence.level)


def check_fence(
    ids: tuple[str, ...],
    value: float,
    u: float,
    *,
    warn: tuple[float, float],
    alarm: tuple[float, float],
) -> Misfit:
    """A value, often a ratio, against fences set wide enough for every kind of dog.

    Outside ``warn`` it is asked about, outside ``alarm`` it is taken for a reading or typing error.
    """
    inside_alarm, inside_warn = alarm[0] <= value <= alarm[1], warn[0] <= value <= warn[1]
    level: Level = "ok" if inside_warn and inside_alarm else "warn" if inside_alarm else "alarm"
    return Misfit("fence", ids, value, u, level)


def _expr(part: str | Expr) -> Expr:
    return Ref(part) if isinstance(part, str) else part


def _level(size: float, u_w: float) -> Level:
    if size <= 0 or size < WARN * u_w:
        return "ok"
    return "alarm" if size >= ALARM * u_w else "warn"


def _misfit(
    kind: MisfitKind, wanted: Expr, values: Values, unit: str, correlation: Correlation | None = None
) -> Misfit | None:
    ids = measure_ids(wanted)
    if any(name not in values for name in ids):
        return None
    w, u_w = evaluate(wanted, values, correlation)
    return Misfit(kind, ids, w, u_w, _level(abs(w), u_w), unit)
