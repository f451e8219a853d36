"""Angles and slopes from lengths, or from heights and horizontal positions of landmarks.

Side view: x forwards (towards the head), z up, in cm; angles in degrees, joint angles included
(straight = 180). Uncertainties are of first order with exact partial derivatives (JCGM 100:2008,
5.1.2); where first order breaks down the angle is refused.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from hands_on.frozen import dataclass
from hands_on.measure.distributions import upper_tail

__all__ = [
    "STRAIGHTEST",
    "Angle",
    "GeometryProblem",
    "Landmark",
    "angle_at",
    "angle_from_lengths",
    "distance",
    "impossible_share",
    "law_of_cosines",
    "slope",
    "slope_from_height_and_length",
]

STRAIGHTEST = 135.0
"""Above this included angle three lengths no longer give a useful one: its u grows as 1/sin (judgement)."""

IMPOSSIBLE_SHARE = 0.01
"""If more of what the lengths may truly be forms no triangle, first order is not to be trusted."""


class GeometryProblem(Exception):
    """An angle that cannot be given: ``kind`` is ``impossible`` or ``ill-conditioned``."""

    def __init__(self, kind: str, message: str) -> None:
        super().__init__(message)
        self.kind = kind
        self.message = message


@dataclass(frozen=True)
class Angle:
    """A value with its standard uncertainty and its partial derivative by each input.

    ``value`` and ``u`` are in degrees for angles and slopes, in cm for a distance; derivatives in
    the same per cm. ``impossible`` is the probability that the lengths form no triangle.
    """

    value: float
    u: float
    sensitivity: Mapping[str, float]
    impossible: float = 0.0


@dataclass(frozen=True)
class Landmark:
    """A point seen from the side with the standard uncertainty of each coordinate, in cm."""

    name: str
    x: float
    z: float
    u_x: float = 0.0
    u_z: float = 0.0


def impossible_share(a: float, b: float, c: float, u_a: float, u_b: float, u_c: float) -> float:
    """Probability that three lengths (normal, independent) form no triangle, cm.

    The conditions a + b > c, a + c > b, b + c > a are linear, so each is exact; at most one fails.
    """
    u = math.hypot(u_a, u_b, u_c)
    slack = (a + b - c, a + c - b, b + c - a)
    if u == 0.0:
        return 1.0 if min(slack) < 0 else 0.0
    return min(1.0, math.fsum(upper_tail(each / u) for each in slack))


def law_of_cosines(
    a: float,
    b: float,
    c: float,
    u_a: float = 0.0,
    u_b: float = 0.0,
    u_c: float = 0.0,
    *,
    names: tuple[str, str, str] = ("first side", "second side", "opposite side"),
) -> Angle:
    """The angle between sides a and b opposite c, whatever its condition.

    acos((a^2 + b^2 - c^2) / 2ab), with dC/dc = c/(ab sin C), dC/da = (cos C / a - 1/b) / sin C and
    dC/db likewise. Lengths in cm, one unit for all. Raises `GeometryProblem` (``impossible``)
    naming the side that is too long, and for a length that is not positive.
    """
    for name, length in zip(names, (a, b, c), strict=True):
        if not length > 0 or math.isinf(length):
            raise GeometryProblem("impossible", f"{name} must be more than nought")
    for long, first, second in ((2, 0, 1), (0, 1, 2), (1, 0, 2)):
        sides = (a, b, c)
        if sides[long] >= sides[first] + sides[second]:
            raise GeometryProblem(
                "impossible",
                f"These lengths do not form a triangle: {names[long]} ({sides[long]:g}) is not shorter than "
                f"{names[first]} and {names[second]} together ({sides[first] + sides[second]:g}).",
            )
    cosine = max(-1.0, min(1.0, (a * a + b * b - c * c) / (2.0 * a * b)))
    sine = math.sqrt((1.0 - cosine) * (1.0 + cosine))
    if sine == 0.0:
        raise GeometryProblem("ill-conditioned", "These lengths lie on one line.")
    slopes = (
        (cosine / a - 1.0 / b) / sine,
        (cosine / b - 1.0 / a) / sine,
        c / (a * b * sine),
    )
    u = math.hypot(*(each * u_each for each, u_each in zip(slopes, (u_a, u_b, u_c), strict=True)))
    return Angle(
        math.degrees(math.acos(cosine)),
        math.degrees(u),
        dict(zip(names, (math.degrees(each) for each in slopes), strict=True)),
        impossible_share(a, b, c, u_a, u_b, u_c),
    )


def angle_from_lengths(
    a: float,
    b: float,
    c: float,
    u_a: float,
    u_b: float,
    u_c: float,
    *,
    names: tuple[str, str, str] = ("first side", "second side", "opposite side"),
) -> Angle:
    """The angle between a and b opposite c, where three lengths can give it.

    As `law_of_cosines`, but raises `GeometryProblem` (``ill-conditioned``) also above 135 degrees,
    and where more than one in a hundred of the triangles the lengths may stand for cannot exist.
    """
    angle = law_of_cosines(a, b, c, u_a, u_b, u_c, names=names)
    if angle.value > STRAIGHTEST:
        raise GeometryProblem(
            "ill-conditioned",
            f"An angle near {angle.value:.0f}° is too straight to be computed from three lengths: "
            "use the goniometer, or heights and horizontal positions of the landmarks.",
        )
    if angle.impossible > IMPOSSIBLE_SHARE:
        raise GeometryProblem(
            "ill-conditioned",
            f"These lengths are too uncertain for an angle: {100 * angle.impossible:.0f} % of what they "
            "may truly be forms no triangle.",
        )
    return angle


def slope(rear: Landmark, front: Landmark) -> Angle:
    """How steeply the line falls from the rear (upper) point to the front (lower) one, from the horizontal.

    atan2(z_rear - z_front, x_front - x_rear), degrees; negative for a line that rises forwards, as the
    upper arm does from the elbow. Raises `GeometryProblem` when the points coincide.
    """
    along, down = front.x - rear.x, rear.z - front.z
    square = along * along + down * down
    if square == 0.0:
        raise GeometryProblem("impossible", f"{rear.name} and {front.name} are one and the same point.")
    # d atan2(s, c) = (c ds - s dc) / (s^2 + c^2)
    sensitivity = {
        f"{rear.name}.z": along / square,
        f"{front.name}.z": -along / square,
        f"{front.name}.x": -down / square,
        f"{rear.name}.x": down / square,
    }
    return _angle(math.atan2(down, along), sensitivity, (rear, front))


def angle_at(corner: Landmark, first: Landmark, second: Landmark) -> Angle:
    """The included angle at ``corner`` between the lines to two other landmarks, degrees.

    The corner's error enters both lines at once, which is why the two slopes must not simply be
    added with their uncertainties. Raises `GeometryProblem` when two points coincide and where the
    three lie on one line.
    """
    one, other = (first.x - corner.x, first.z - corner.z), (second.x - corner.x, second.z - corner.z)
    squares = (one[0] ** 2 + one[1] ** 2, other[0] ** 2 + other[1] ** 2)
    if 0.0 in squares:
        raise GeometryProblem("impossible", f"A landmark lies on {corner.name}.")
    cross, dot = one[0] * other[1] - one[1] * other[0], one[0] * other[0] + one[1] * other[1]
    if cross == 0.0:
        raise GeometryProblem("ill-conditioned", "The landmarks lie on one line.")
    sign = math.copysign(1.0, cross)
    # the direction of a line from the corner turns by (-dz, dx)/length^2 with its far end
    turn_one = (sign * one[1] / squares[0], -sign * one[0] / squares[0])
    turn_other = (-sign * other[1] / squares[1], sign * other[0] / squares[1])
    sensitivity = {
        f"{first.name}.x": turn_one[0],
        f"{first.name}.z": turn_one[1],
        f"{second.name}.x": turn_other[0],
        f"{second.name}.z": turn_other[1],
        f"{corner.name}.x": -turn_one[0] - turn_other[0],
        f"{corner.name}.z": -turn_one[1] - turn_other[1],
    }
    return _angle(math.atan2(abs(cross), dot), sensitivity, (corner, first, second))


def distance(first: Landmark, second: Landmark) -> Angle:
    """Straight distance of two landmarks in cm. Raises `GeometryProblem` when they coincide."""
    across, up = second.x - first.x, second.z - first.z
    length = math.hypot(across, up)
    if length == 0.0:
        raise GeometryProblem("impossible", f"{first.name} and {second.name} are one and the same point.")
    sensitivity = {
        f"{first.name}.x": -across / length,
        f"{first.name}.z": -up / length,
        f"{second.name}.x": across / length,
        f"{second.name}.z": up / length,
    }
    return Angle(length, _u(sensitivity, (first, second)), sensitivity)


def slope_from_height_and_length(drop: float, length: float, u_drop: float, u_length: float) -> Angle:
    """A slope from the height it falls over and its length, asin(drop / length), degrees.

    Poorer than `slope`, a check only. Raises `GeometryProblem` when the drop is not shorter than the
    length, or probably enough is not (one in a hundred).
    """
    if not length > 0 or not abs(drop) < length:
        raise GeometryProblem("impossible", f"A drop of {drop:g} over a length of {length:g} cannot be.")
    u = math.hypot(u_drop, u_length)
    share = upper_tail((length - abs(drop)) / u) if u > 0 else 0.0
    if share > IMPOSSIBLE_SHARE:
        raise GeometryProblem("ill-conditioned", "The drop is too near the length to give a slope.")
    cosine = math.sqrt(1.0 - (drop / length) ** 2)
    by_drop, by_length = 1.0 / (length * cosine), -drop / (length * length * cosine)
    return Angle(
        math.degrees(math.asin(drop / length)),
        math.degrees(math.hypot(by_drop * u_drop, by_length * u_length)),
        {"drop": math.degrees(by_drop), "length": math.degrees(by_length)},
        share,
    )


def _angle(radians: float, sensitivity: dict[str, float], points: tuple[Landmark, ...]) -> Angle:
    degrees = {name: math.degrees(each) for name, each in sensitivity.items()}
    return Angle(math.degrees(radians), _u(degrees, points), degrees)


def _u(sensitivity: Mapping[str, float], points: tuple[Landmark, ...]) -> float:
    return math.hypot(
        *(sensitivity[f"{point.name}.x"] * point.u_x for point in points),
        *(sensitivity[f"{point.name}.z"] * point.u_z for point in points),
    )
