"""Numbers of the dog: every member is measured somewhere, and the kinds of quantity go together."""

from __future__ import annotations

from collections.abc import Sequence

from hands_on.ruleset.checks.known import Known
from hands_on.ruleset.values import Closure, Derived, Fence, Value
from hands_on.toml_text.lines import Path
from hands_on.toml_text.report import Report, offer

__all__ = ["RATIO", "check_closures", "check_derived", "check_fences", "check_value"]

RATIO = "ratio"
"""Stands for the quantity of a ratio: a plain number."""


def check_value(report: Report, path: Path, value: Value, known: Known) -> str | None:
    """Check a value and return its quantity, RATIO for a ratio, None where it can't be told."""
    if value.measure is not None:
        where = (*path, "measure")
        return _check_measure(report, where, value.measure, known)
    key = value.kind
    found: list[str | None] = []
    for position, member in enumerate(value.members):
        where = (*path, key, position)
        if member.measure is not None:
            found.append(_check_measure(report, where, member.measure, known))
        else:
            found.append(check_value(report, where, member, known))
    kinds = sorted({kind for kind in found if kind is not None})
    names = [member.name for member in value.members]
    if key == "ratio" and len(set(names)) == 1:
        report.error((*path, key), f"{names[0]} against itself is always 1.", "two different measurements.")
    if key in ("slope", "angle"):
        if set(kinds) - {"length"}:
            report.error((*path, key), f"a {key} is made of lengths.", "members that measure lengths.")
            return None
        return "angle"
    if key != "ratio" and len(kinds) > 1:
        report.error(
            (*path, key),
            f"a {key} of {' and '.join(kinds)} has no meaning.",
            "members that measure the same kind of thing.",
        )
        return None
    return RATIO if key == "ratio" else kinds[0] if kinds else None


def _check_measure(report: Report, path: Path, name: str, known: Known) -> str | None:
    point = known.measures.get(name)
    if point is not None:
        return point.quantity
    if name in known.derived:
        right = "ratio, difference or sum of the measurements it is made of."
        report.error(path, f'"{name}" is a computed value, not a measurement.', right)
    elif name in known.points:
        right = "a point of kind measure."
        report.error(
            path, f'"{name}" is a {known.points[name].kind} point, nothing is measured there.', right
        )
    else:
        right = offer(name, list(known.measures), "measurement")
        report.error(path, f'no point measures "{name}".', right)
    return None


def check_derived(report: Report, derived: Sequence[Derived], known: Known) -> None:
    """Computed values with names."""
    for index, entry in enumerate(derived):
        check_value(report, ("derived", index), entry, known)
    report.unique(((("derived", n, "id"), entry.id) for n, entry in enumerate(derived)), "computed value")


def check_closures(report: Report, closures: Sequence[Closure], known: Known) -> None:
    """Measurements that must agree with each other."""
    for index, entry in enumerate(closures):
        path: Path = ("closures", index)
        for position, name in enumerate(entry.parts):
            _check_measure(report, (*path, "parts", position), name, known)
        for key in ("whole", "smaller", "larger"):
            name = getattr(entry, key)
            if name is not None:
                _check_measure(report, (*path, key), name, known)
        if entry.smaller is not None and entry.smaller == entry.larger:
            what = f'"{entry.smaller}" is never smaller than itself.'
            report.error((*path, "larger"), what, "another measurement.")
    report.unique(((("closures", n, "id"), entry.id) for n, entry in enumerate(closures)), "closure")


def check_fences(report: Report, fences: Sequence[Fence], known: Known) -> None:
    """How far computed values can lie: each names one that is known, once."""
    for index, entry in enumerate(fences):
        report.expect(("fences", index, "derived"), entry.derived, list(known.derived), "computed value")
    report.unique(((("fences", n, "derived"), entry.derived) for n, entry in enumerate(fences)), "fence of")
