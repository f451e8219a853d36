"""Points of a side outline of the dog, to scale, from what was measured.

Pure data for drawings: x forwards from the point of buttock, z up from the ground, cm. Where a
measurement is missing the proportion of a dog of middling build stands in for it, and the point says
so; an outline is a picture of proportions, never a source of measurements.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

__all__ = ["STROKES", "Outline", "OutlinePoint", "outline"]

# Means of 96 Akbash dogs (Urosevic and others 2020, Turkish J. Agric. Food Sci. Technol. 8: 1571-1576),
# as shares of the height; chest depth agrees with the 0.45 to 0.48 of FCI standard 166.
_OF_HEIGHT = {
    "body-length": 1.08,
    "elbow-height": 0.553,
    "chest-depth": 0.454,
    "hock-height": 0.262,
    "head-length": 0.417,
    # judgement, to make a dog of these: no published share was found
    "blade-length": 0.29,
    "upper-arm-length": 0.28,
    "neck-length": 0.42,
    "loin-length": 0.22,
    "ear-length": 0.19,
}
_ANGLES = {"blade-slope": 52.0, "croup-slope": 25.0, "pastern-slope": 15.0}
"""Degrees, judgement; a blade felt from rim to point reads some 5 to 8 degrees flatter than the bone."""
_TAIL_OF_BODY = 0.61  # Sloughis, Algeria: Haddam and others 2024, S. Afr. J. Anim. Sci. 54: 135-146
_MUZZLE_OF_HEAD = 0.42  # yearling Akbash: Tepeli and Cetin 2003, Eurasian J. Vet. Sci. 19: 17-20
_NECK_RISE, _HEAD_FALL, _TAIL_FALL = math.radians(48), math.radians(22), math.radians(70)

STROKES: tuple[tuple[str, ...], ...] = (
    ("nose", "stop", "occiput", "withers", "last-rib", "croup", "tail-set", "buttock"),
    ("tail-set", "tail-tip"),
    ("occiput", "point-of-shoulder", "brisket", "tuck-up", "stifle"),
    ("withers", "point-of-shoulder", "elbow"),
    ("elbow", "wrist", "fore-pastern", "ground-fore"),
    ("croup", "hip", "buttock"),
    ("hip", "stifle", "hock", "ground-hind"),
)
"""Which points a drawing joins, in order; every name is a point of every outline."""


@dataclass(frozen=True, slots=True)
class OutlinePoint:
    """A point of the outline: x forwards from the buttock and z up from the ground, cm.

    ``x_measured`` and ``z_measured`` tell whether that coordinate rests on measurements alone;
    ``reason`` says what the point rests on and what is assumed.
    """

    name: str
    x: float
    z: float
    x_measured: bool
    z_measured: bool
    reason: str

    @property
    def measured(self) -> bool:
        """Whether the whole place rests on measurements."""
        return self.x_measured and self.z_measured


@dataclass(frozen=True, slots=True)
class Outline:
    """The points by name, in a fixed order; empty when neither height nor body length is known."""

    points: tuple[OutlinePoint, ...]

    def __getitem__(self, name: str) -> OutlinePoint:
        for point in self.points:
            if point.name == name:
                return point
        raise KeyError(name)


class _Sizes:
    """Sizes as measured, or assumed in proportion; remembers which were assumed."""

    def __init__(self, measures: Mapping[str, tuple[float, float]], height: float) -> None:
        self._measures = measures
        self._height = height

    def has(self, name: str) -> bool:
        return name in self._measures and self._measures[name][0] > 0

    def size(self, name: str) -> float:
        if self.has(name):
            return self._measures[name][0]
        if name == "height":
            return self._height
        if name == "tail-length":
            return _TAIL_OF_BODY * self.size("body-length")
        if name == "muzzle-length":
            if self.has("skull-length") and self.has("head-length"):
                return max(0.0, self.size("head-length") - self.size("skull-length"))
            return _MUZZLE_OF_HEAD * self.size("head-length")
        return _ANGLES[name] if name in _ANGLES else _OF_HEIGHT[name] * self._height

    def angle(self, name: str) -> float:
        return math.radians(min(85.0, max(0.0, self.size(name))))


def outline(measures: Mapping[str, tuple[float, float]]) -> Outline:
    """Points of the side outline from measurements {id: (value, u)} in cm and degrees.

    Needs height or body length for the scale, else the outline is empty. Measurements that cannot be
    fitted together (an upper arm too short to reach the elbow) leave the point at the nearest place
    and mark it as assumed.
    """
    if "height" in measures and measures["height"][0] > 0:
        height = measures["height"][0]
    elif "body-length" in measures and measures["body-length"][0] > 0:
        height = measures["body-length"][0] / _OF_HEIGHT["body-length"]
    else:
        return Outline(())
    sizes = _Sizes(measures, height)
    places = _front(sizes) | _back(sizes) | _head(sizes)
    order = dict.fromkeys(name for stroke in STROKES for name in stroke)
    return Outline(tuple(_point(name, places[name], sizes) for name in order))


@dataclass(frozen=True, slots=True)
class _Place:
    """A place and what each coordinate rests on: ids of measurements, or words for what is assumed."""

    x: float
    z: float
    x_needs: tuple[str, ...]
    z_needs: tuple[str, ...]


def _point(name: str, place: _Place, sizes: _Sizes) -> OutlinePoint:
    needs = tuple(dict.fromkeys((*place.z_needs, *place.x_needs)))
    given = [need for need in needs if sizes.has(need)]
    assumed = [need for need in needs if not sizes.has(need)]
    reason = f"from {', '.join(given)}" if given else "from the scale alone"
    if assumed:
        reason += f"; assumed: {', '.join(assumed)}"
    x_measured = all(sizes.has(need) for need in place.x_needs)
    z_measured = all(sizes.has(need) for need in place.z_needs)
    return OutlinePoint(name, place.x, max(0.0, place.z), x_measured, z_measured, reason)


_BLADE = ("blade-length", "blade-slope")


def _front(sizes: _Sizes) -> dict[str, _Place]:
    height, length = sizes.size("height"), sizes.size("body-length")
    blade, lay = sizes.size("blade-length"), sizes.angle("blade-slope")
    shoulder = (length, height - blade * math.sin(lay))
    elbow_z = sizes.size("elbow-height")
    arm, drop = sizes.size("upper-arm-length"), shoulder[1] - elbow_z
    elbow_x, elbow_needs = shoulder[0], ("place below the point of shoulder",)
    if sizes.has("shoulder-angle"):
        rise = math.radians(sizes.size("shoulder-angle")) - lay
        elbow_x, elbow_needs = shoulder[0] - arm * math.cos(rise), ("shoulder-angle",)
    elif abs(drop) < arm:
        elbow_x, elbow_needs = shoulder[0] - math.sqrt(arm * arm - drop * drop), ("elbow-height",)
    leg_x = ("body-length", *_BLADE, "upper-arm-length", *elbow_needs)
    wrist = (elbow_x + 0.02 * height, 0.38 * elbow_z)
    pastern = (wrist[0] + 0.22 * elbow_z * math.tan(sizes.angle("pastern-slope")), 0.12 * elbow_z)
    foot_x = (*leg_x, "pastern-slope", "length of the foot")
    return {
        "withers": _Place(length - blade * math.cos(lay), height, ("body-length", *_BLADE), ("height",)),
        "point-of-shoulder": _Place(*shoulder, ("body-length",), ("height", *_BLADE)),
        "elbow": _Place(elbow_x, elbow_z, leg_x, ("elbow-height",)),
        "brisket": _Place(
            elbow_x - 0.02 * length,
            height - sizes.size("chest-depth"),
            (*leg_x, "place behind the elbow"),
            ("height", "chest-depth"),
        ),
        "wrist": _Place(*wrist, (*leg_x, "foreleg upright"), ("elbow-height", "height of the wrist")),
        "fore-pastern": _Place(*pastern, foot_x, ("elbow-height", "height of the wrist")),
        "ground-fore": _Place(pastern[0] + 0.03 * height, 0.0, foot_x, ()),
    }


def _back(sizes: _Sizes) -> dict[str, _Place]:
    height, length = sizes.size("height"), sizes.size("body-length")
    croup = (0.27 * length, 0.985 * height)
    fall = croup[0] * math.tan(sizes.angle("croup-slope"))
    buttock_z = max(0.3 * height, croup[1] - fall)
    along = 0.72
    tail_set = (croup[0] * (1 - along), croup[1] - along * 0.85 * (croup[1] - buttock_z))
    tail = sizes.size("tail-length")
    tip = (tail_set[0] - tail * math.cos(_TAIL_FALL), tail_set[1] - tail * math.sin(_TAIL_FALL))
    hock_z = sizes.size("hock-height")
    under = "rear pastern upright below the buttock"
    croup_x, croup_z = ("body-length", "place of the croup"), ("height", "height of the croup")
    slope_z = (*croup_z, "croup-slope", "length of the croup")
    depth = ("height", "chest-depth")
    return {
        "croup": _Place(*croup, croup_x, croup_z),
        "buttock": _Place(0.0, buttock_z, (), slope_z),
        "tail-set": _Place(*tail_set, croup_x, slope_z),
        "tail-tip": _Place(
            *tip, (*croup_x, "tail-length", "carriage of the tail"), (*slope_z, "tail-length")
        ),
        "last-rib": _Place(
            min(croup[0] + sizes.size("loin-length"), 0.75 * length),
            0.985 * height,
            (*croup_x, "loin-length"),
            ("height", "height of the loin"),
        ),
        "hip": _Place(
            0.17 * length, 0.78 * height, ("body-length", "place of the hip"), ("height", "place of the hip")
        ),
        "stifle": _Place(
            0.27 * length,
            max(hock_z, 0.47 * height),
            ("body-length", "place of the stifle"),
            ("height", "place of the stifle"),
        ),
        "hock": _Place(-0.03 * length, hock_z, (under,), ("hock-height",)),
        "ground-hind": _Place(0.0, 0.0, (under,), ()),
        "tuck-up": _Place(
            0.36 * length,
            height - sizes.size("chest-depth") + 0.10 * height,
            ("body-length", "place of the tuck-up"),
            (*depth, "depth of the tuck-up"),
        ),
    }


def _head(sizes: _Sizes) -> dict[str, _Place]:
    blade, lay = sizes.size("blade-length"), sizes.angle("blade-slope")
    start = (sizes.size("body-length") - blade * math.cos(lay), sizes.size("height"))
    neck, head = sizes.size("neck-length"), sizes.size("head-length")
    muzzle = min(head, sizes.size("muzzle-length"))
    occiput = (start[0] + neck * math.cos(_NECK_RISE), start[1] + neck * math.sin(_NECK_RISE))

    def place(distance: float, *lengths: str) -> _Place:
        needs = ("neck-length", *lengths, "carriage of neck and head")
        return _Place(
            occiput[0] + distance * math.cos(_HEAD_FALL),
            occiput[1] - distance * math.sin(_HEAD_FALL),
            ("body-length", *_BLADE, *needs),
            ("height", *needs),
        )

    return {
        "occiput": place(0.0),
        "stop": place(head - muzzle, "head-length", "muzzle-length"),
        "nose": place(head, "head-length"),
    }
