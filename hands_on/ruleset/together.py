"""What seldom stands together in one dog, or explains each other: asked about, never a fault."""

from typing import Literal, Self

from pydantic import Field, model_validator

from hands_on.ruleset.base import Degree, Name, Part, Source, UnitName, When, Words
from hands_on.ruleset.values import Value

__all__ = ["Sign", "StandTogether"]


class Sign(Part):
    """One of the things that stand together: a fault found, a point said to be right, or a number."""

    fault: Words = ()
    """Any of these faults, found in the dog."""
    from_degree: Degree | None = None
    """Only from that degree up; a fault without a degree counts."""
    right: Words = ()
    """Any of these points, given as asked for."""
    value: Value | None = None
    """A measurement or a value computed of such, surely beyond a figure."""
    unit: UnitName | None = None
    above: float | None = None
    below: float | None = None

    @model_validator(mode="after")
    def _one(self) -> Self:
        if sum((bool(self.fault), bool(self.right), self.value is not None)) != 1:
            raise ValueError(
                'a sign is one of fault, right or value. Right: { fault = "neck.short" }, '
                '{ right = "movement.reach" } or { value = { measure = "height" }, above = 60 }.'
            )
        ends = sum(end is not None for end in (self.above, self.below))
        if ends != (1 if self.value is not None else 0):
            raise ValueError(
                "a value, and nothing else, stands above or below one figure. Right: above = 0.55."
            )
        if self.from_degree is not None and not self.fault:
            raise ValueError("only a fault has a degree. Right: from_degree beside fault.")
        return self


class StandTogether(Part):
    """All signs hold at once: seldom so, or the one explains the other."""

    id: Name
    how: Literal["seldom", "explains"] = "seldom"
    signs: tuple[Sign, ...] = Field(min_length=2)
    text: str
    """Why, or what to look at again; a sentence."""
    when: When | None = None
    source: Source
