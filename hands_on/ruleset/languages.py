"""An edition's labels and asked texts in another language than English."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import TypeVar

from hands_on.ruleset.base import Part
from hands_on.ruleset.points import ChoicePoint, Point
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["in_language"]

_Labelled = TypeVar("_Labelled", bound=Part)


def in_language(ruleset: Ruleset, code: str) -> Ruleset:
    """The edition with its labels and asked texts of the language `code`, where it has them."""
    tongue = ruleset.edition.languages.get(code)
    if tongue is None:
        return ruleset
    labels = tongue.labels
    edition = ruleset.edition
    asked = {
        name: one.model_copy(update={"text": tongue.asked.get(name, one.text)})
        for name, one in edition.asked.items()
    }
    told = edition.model_copy(
        update={
            "asked": asked,
            "classes": tuple(_labelled(one, labels) for one in edition.classes),
            "outcomes": tuple(_labelled(one, labels) for one in edition.outcomes),
        }
    )
    return dataclasses.replace(
        ruleset,
        edition=told,
        language=code,
        regions=tuple(_labelled(one, labels) for one in ruleset.regions),
        points={name: _point(one, labels) for name, one in ruleset.points.items()},
        faults={
            name: one.model_copy(update={"label": labels[name]}) if name in labels else one
            for name, one in ruleset.faults.items()
        },
    )


def _point(point: Point, labels: Mapping[str, str]) -> Point:
    """A point with its label, and those of its options: `mouth.bite.scissors`."""
    told = _labelled(point, labels)
    if not isinstance(told, ChoicePoint):
        return told
    options = tuple(
        one.model_copy(update={"label": labels.get(f"{point.id}.{one.id}", one.label)})
        for one in told.options
    )
    return told.model_copy(update={"options": options})


def _labelled(one: _Labelled, labels: Mapping[str, str]) -> _Labelled:
    name = getattr(one, "id", "")
    return one.model_copy(update={"label": labels[name]}) if name in labels else one
