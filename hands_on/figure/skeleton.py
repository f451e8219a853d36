"""Where the landmarks of a dog lie, seen from the side, given its proportions.

x runs forwards from the point of buttock, z up from the ground, both in cm. A shape is a mapping from the ids
of `rulesets/common/figure.toml` to numbers: `height` in cm, angles in degrees, everything else in heights at
the withers. Any numbers within the ranges given there make a dog that can be drawn.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from hands_on.figure.curves import Point

__all__ = ["Landmarks", "Shape", "skeleton", "tail_line"]

Shape = Mapping[str, float]
Landmarks = dict[str, Point]

_WITHERS_BEHIND_BLADE = 0.02
_OUTER_HOCK = (0.045, -0.012)
"""The outer knob of the hock from its point, in heights."""
_TAIL_STEPS = 8
_LEAST = 0.02
"""Two landmarks that lie over each other stay at least so far apart, in heights."""


def skeleton(shape: Shape) -> Landmarks:
    """Every landmark of the side view, in cm."""
    found = {**_front(shape), **_rear(shape)}
    found |= _back(shape, found)
    found |= _head(shape, found["withers"])
    scale = shape["height"]
    return {name: (x * scale, z * scale) for name, (x, z) in found.items()}


def _front(s: Shape) -> Landmarks:
    length, point = s["body-length"], s["shoulder-height"]
    top = 1 - s["blade-drop"]
    lay, arm = math.radians(s["blade-slope"]), math.radians(s["upper-arm-slope"])
    blade = (length - max(_LEAST, top - point) / math.tan(lay), max(top, point + _LEAST))
    tip = (
        length - max(_LEAST, point - s["elbow-height"]) / math.tan(arm),
        min(s["elbow-height"], point - _LEAST),
    )
    lean = math.radians(s["pastern-slope"])
    foot = s["foot-height"]
    wrist = (tip[0] + s["forearm-lean"], foot + s["pastern-length"] * math.cos(lean))
    toes = (wrist[0] + s["pastern-length"] * math.sin(lean), foot)
    return {
        "withers": (blade[0] - _WITHERS_BEHIND_BLADE, 1.0),
        "blade-top": blade,
        "point-of-shoulder": (length, point),
        "prosternum": (length + s["forechest"], point - 0.05),
        "elbow": tip,
        "sternum": (tip[0] - 0.04, 1 - s["chest-depth"]),
        "wrist": wrist,
        "mid-pastern": ((wrist[0] + toes[0]) / 2, (wrist[1] + toes[1]) / 2),
        "forefoot": toes,
    }


def _rear(s: Shape) -> Landmarks:
    slope, croup = math.radians(s["croup-slope"]), s["croup-height"]
    hip = (s["croup-length"] * math.cos(slope), croup - s["hip-drop"])
    buttock = (0.0, hip[1] - s["croup-length"] * math.sin(slope))
    root = (0.03, buttock[1] + s["tail-set"])
    hock = (s["hock-forward"], s["hock-height"])
    outer = (hock[0] + _OUTER_HOCK[0], hock[1] + _OUTER_HOCK[1])
    trochanter = (s["trochanter-forward"], s["trochanter-height"])
    rear = math.radians(s["rear-pastern-lean"])
    foot = (outer[0] + (outer[1] - 0.05) * math.tan(rear), 0.05)
    found = {
        "point-of-hip": hip,
        "croup-top": (hip[0] - 0.015, croup),
        "point-of-buttock": buttock,
        "tail-root": root,
        "great-trochanter": trochanter,
        "stifle": _stifle(trochanter, outer, s["stifle-angle"], s["thigh-share"]),
        "outer-hock": outer,
        "hock": hock,
        "hindfoot": foot,
    }
    found["tail-tip"] = tail_line(s, root)[-1]
    return found


def _stifle(trochanter: Point, outer: Point, angle: float, share: float) -> Point:
    """In front of the line from trochanter to hock, where thigh and lower thigh meet at the angle."""
    dx, dz = outer[0] - trochanter[0], outer[1] - trochanter[1]
    whole = max(_LEAST, math.hypot(dx, dz))
    ratio = share / (1 - share)
    opening = math.radians(angle)
    lower = whole / math.sqrt(1 + ratio * ratio - 2 * ratio * math.cos(opening))
    upper = ratio * lower
    along = (whole * whole + upper * upper - lower * lower) / (2 * whole)
    off = math.sqrt(max(0.0, upper * upper - along * along))
    ex, ez = dx / whole, dz / whole
    return (trochanter[0] + along * ex - off * ez, trochanter[1] + along * ez + off * ex)


def tail_line(s: Shape, root: Point) -> list[Point]:
    """The tail from root to tip in heights, a bow of even bend; as long along itself as `tail-length`."""
    step = s["tail-length"] / _TAIL_STEPS
    line = [root]
    for n in range(_TAIL_STEPS):
        turn = math.radians(s["tail-rise"] + s["tail-bend"] * (n + 0.5) / _TAIL_STEPS)
        x, z = line[-1]
        line.append((x - step * math.cos(turn), z + step * math.sin(turn)))
    return line


def _back(s: Shape, found: Landmarks) -> Landmarks:
    withers, hip = found["withers"], found["point-of-hip"]
    share = s["rib-share"]
    return {
        "last-rib": (
            withers[0] + share * (hip[0] - withers[0]),
            withers[1] + share * (hip[1] - withers[1]) - s["rib-drop"],
        )
    }


def _head(s: Shape, withers: Point) -> Landmarks:
    rise, fall = math.radians(s["neck-angle"]), math.radians(s["head-fall"])
    occiput = (
        withers[0] + s["neck-length"] * math.cos(rise),
        withers[1] + s["neck-length"] * math.sin(rise),
    )
    length = s["head-length"]
    ex, ez = math.cos(fall), -math.sin(fall)
    skull = length * (1 - s["muzzle-share"])

    def at(along: float, up: float) -> Point:
        return (occiput[0] + along * ex - up * ez, occiput[1] + along * ez + up * ex)

    return {
        "occiput": occiput,
        "stop": at(skull, -s["stop-below"]),
        "nose": at(length, 0.0),
        "throat": at(0.16 * length, -s["skull-depth"] * length),
    }
