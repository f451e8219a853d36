"""Measurement: units and entry, takes and their uncertainty, conformity, geometry, closure, age, growth.

Pure functions on plain values: nothing here knows a ruleset's file, a session, the terminal or the
clock. Lengths are in cm, masses in kg, angles in degrees, ages in months unless a name says
otherwise; every ``u`` is one standard uncertainty in the unit of its value.

The names below are the ones most callers need; they are imported when first used.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from hands_on.measure.age import age_months as age_months
    from hands_on.measure.asked_reading import Entry as Entry
    from hands_on.measure.conformity import Band as Band
    from hands_on.measure.conformity import classify as classify
    from hands_on.measure.conformity import p_between as p_between
    from hands_on.measure.conformity import verdict as verdict
    from hands_on.measure.derived import evaluate as evaluate
    from hands_on.measure.entry import EntryProblem as EntryProblem
    from hands_on.measure.entry import parse_entry as parse_entry
    from hands_on.measure.takes import DefaultU as DefaultU
    from hands_on.measure.takes import Measured as Measured
    from hands_on.measure.takes import summarise as summarise

_HOME = {
    "age_months": "age",
    "Band": "conformity",
    "classify": "conformity",
    "p_between": "conformity",
    "verdict": "conformity",
    "evaluate": "derived",
    "Entry": "asked_reading",
    "EntryProblem": "entry",
    "parse_entry": "entry",
    "DefaultU": "takes",
    "Measured": "takes",
    "summarise": "takes",
}

__all__ = sorted(_HOME)


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module

    return getattr(import_module(f"{__name__}.{_HOME[name]}"), name)
