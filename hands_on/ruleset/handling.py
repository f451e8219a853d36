"""What makes a dog harder to measure, and what of an error belongs to the way it stands."""

from __future__ import annotations

from typing import Literal

from pydantic import Field, model_validator

from hands_on.ruleset.base import Name, Part, Quantity, Source, Words

__all__ = ["Harder", "Standing"]


class Harder(Part):
    """What makes a careful take less sure, and how it shows in a session: by any of what is named."""

    id: Name
    label: str
    factor: float = Field(gt=1, le=3)
    """By what every part of the uncertainty grows."""
    quantities: tuple[Quantity, ...]
    """Of what is measured; others are as sure as ever."""
    not_in: Words = ()
    """Regions where it does not matter."""
    faults: Words = ()
    """Departures that tell of it."""
    attributes: dict[Name, Words] = {}
    """The dog's attributes that tell of it, with their values."""
    measure: Name | None = None
    above: float | None = None
    """A measurement that tells of it from a reading above this, in its unit."""
    restless: bool = False
    """Told of by the examination itself: the dog did not stand still."""
    basis: Literal["published", "derived", "judgement"]
    source: Source

    @model_validator(mode="after")
    def _shown(self) -> Harder:
        if (self.measure is None) != (self.above is None):
            raise ValueError("measure and above go together.")
        if not (self.faults or self.attributes or self.measure or self.restless):
            raise ValueError("nothing tells of it. Right: faults, attributes, a measure or restless.")
        return self


class Standing(Part):
    """How much of what stays in all takes on one stand is the stand's: another stand frees it."""

    share: float = Field(gt=0, lt=1)
    """Of the lasting variance."""
    measures: Words
    basis: Literal["published", "derived", "judgement"]
    source: Source
