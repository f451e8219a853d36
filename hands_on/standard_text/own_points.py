"""A point, a measurement or a fault that common does not have -> the tables of the edition's own."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, Final

__all__ = ["OWN_KINDS", "own_fault", "own_point", "own_slug"]

OWN_KINDS: Final[Mapping[str, tuple[str, str, float, tuple[float, float], float]]] = {
    "cm": ("length", "soft ruler or tape", 0.5, (0.0, 200.0), 0.5),
    "in": ("length", "soft ruler or tape", 0.25, (0.0, 80.0), 0.25),
    "deg": ("angle", "goniometer, or by eye", 5.0, (0.0, 180.0), 5.0),
    "share": ("share", "estimate", 0.05, (0.0, 1.0), 0.05),
}
"""By unit: quantity, instrument, what it tells apart, plausible readings, uncertainty of a careful take.

The uncertainties are judgement: those of the nearest points of common."""


def own_slug(label: str) -> str:
    """A label as the last part of an id: small letters, digits and hyphens."""
    return re.sub(r"[^a-z0-9]+", "-", label.lower()).strip("-") or "point"


def own_fault(label: str) -> dict[str, Any]:
    """The table of a fault of the edition's own."""
    said = label.strip()
    return {
        "label": said[:1].upper() + said[1:],
        "meaning": said.lower(),
        "wording": [said.lower()],
        "function": "What it costs the dog is not said by the standard.",
    }


def own_point(
    name: str, region: str, label: str, *, unit: str = "", departures: tuple[str, ...] = ()
) -> dict[str, Any]:
    """The table of a point of the edition's own, without its source.

    With `unit`, a key of OWN_KINDS, it is measured; without one its `departures` are graded.
    """
    table: dict[str, Any] = {
        "id": name,
        "region": region,
        "kind": "measure" if unit else "grade",
        "label": label,
        "find": "As the standard describes it: look first, then feel.",
        "why": "This edition asks for it.",
    }
    if not unit:
        return {**table, "other": list(departures)}
    quantity, instrument, resolution, plausible, careful = OWN_KINDS[unit]
    return {
        **table,
        "quantity": quantity,
        "unit": unit,
        "instrument": instrument,
        "resolution": resolution,
        "plausible": list(plausible),
        "u": {"a": careful, "basis": "judgement", "source": "reading"},
    }
