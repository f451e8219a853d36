"""Landmarks: points of the body that the hand finds, between which measurements run."""

from typing import Literal, Self

from pydantic import Field, model_validator

from hands_on.ruleset.base import Name, Part, Source

__all__ = ["Between", "Landmark"]

Runs = Literal["straight", "upright", "level", "across"]
"""How a measurement runs between its landmarks: by the shortest way, straight up, along the ground seen from
the side, or from one side of the dog to the other."""


class Landmark(Part):
    """A place on the body that is found by hand, and how far off it two careful people may be.

    The three figures are standard deviations in millimetres, the dog square: along its length, up and down,
    and across.
    """

    id: Name
    label: str
    find: str
    at: tuple[float, float]
    """Where it lies in a dog of ordinary build seen from the side, in heights at the withers: how far in
    front of the withers, and how high. Only directions and drawings come from it."""
    along: float = Field(ge=0)
    up: float = Field(ge=0)
    across: float = Field(default=0, ge=0)
    basis: Literal["published", "derived", "judgement"]
    source: Source


class Between(Part):
    """Between which landmarks a measurement runs, and how."""

    points: tuple[Name, Name]
    runs: Runs

    @model_validator(mode="after")
    def _two(self) -> Self:
        if self.points[0] == self.points[1]:
            raise ValueError("a measurement runs between two different landmarks.")
        return self
