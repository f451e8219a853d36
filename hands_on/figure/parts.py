"""Parts of the outline: which of them a measure settles, and which show a point that was graded."""

from __future__ import annotations

from collections.abc import Iterable

from hands_on.figure.reading import landmarks_of
from hands_on.ruleset.points import faults_of
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["landmarks_of_parts", "parts_of_fault", "parts_of_measure", "parts_of_point"]

_AT: dict[str, tuple[str, ...]] = {
    "occiput": ("skull", "neck"),
    "stop": ("stop",),
    "nose": ("muzzle",),
    "throat": ("throat",),
    "withers": ("withers",),
    "blade-top": ("shoulder",),
    "point-of-shoulder": ("shoulder", "forechest"),
    "prosternum": ("forechest",),
    "elbow": ("elbow", "upper-arm"),
    "wrist": ("foreleg", "pastern"),
    "mid-pastern": ("pastern",),
    "forefoot": ("pastern", "forefoot"),
    "sternum": ("brisket",),
    "last-rib": ("back",),
    "point-of-hip": ("loin", "croup"),
    "croup-top": ("croup",),
    "tail-root": ("croup", "tail"),
    "tail-tip": ("tail",),
    "point-of-buttock": ("buttock",),
    "great-trochanter": ("thigh",),
    "stifle": ("thigh", "lower-thigh", "stifle"),
    "outer-hock": ("hock", "lower-thigh"),
    "hock": ("hock",),
    "hindfoot": ("rear-pastern",),
}
"""The stretches of outline that run past a landmark."""

_BY_PROPORTION: dict[str, tuple[str, ...]] = {
    "tail-length": ("tail",),
    "ear-length": ("ear",),
    "skull-width": ("skull", "cheek"),
    "chest-width": ("ribs", "shoulder"),
    "chest-depth": ("brisket",),
    "bone": ("foreleg",),
}


def landmarks_of_parts(parts: Iterable[str]) -> tuple[str, ...]:
    """The landmarks that these stretches of outline run past."""
    wanted = set(parts)
    return tuple(place for place, near in _AT.items() if wanted & set(near))


def parts_of_measure(ruleset: Ruleset, measure: str) -> tuple[str, ...]:
    """The parts of the outline that a measure settles."""
    found = [part for place in landmarks_of(ruleset, measure) for part in _AT.get(place, ())]
    if ruleset.figure is not None and (read := ruleset.figure.reads.get(measure)) is not None:
        names: Iterable[str | None] = (read.proportion, read.round_, *(read.oval or ()))
        found += [part for name in names if name is not None for part in _BY_PROPORTION.get(name, ())]
    return tuple(dict.fromkeys(found))


def parts_of_fault(ruleset: Ruleset, fault: str) -> tuple[str, ...]:
    """The parts of the outline that show a fault; none where the figure does not show it."""
    seen = ruleset.figure.seen.get(fault) if ruleset.figure is not None else None
    return seen.parts if seen is not None else ()


def parts_of_point(ruleset: Ruleset, point: str) -> tuple[str, ...]:
    """The parts that show what is recorded at a point."""
    known = ruleset.points.get(point)
    faults = faults_of(known) if known is not None else ()
    found = [*parts_of_measure(ruleset, point), *(p for f in faults for p in parts_of_fault(ruleset, f))]
    return tuple(dict.fromkeys(found))
