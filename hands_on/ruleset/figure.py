"""The drawn dog as data: its proportions, where measures are read off it, what each departure moves."""

from typing import Annotated, Literal, Self

from pydantic import BeforeValidator, Field, model_validator

from hands_on.ruleset.base import Name, Part, Source

__all__ = ["DrawnAs", "FigurePlan", "Proportion", "Read", "Settings", "Unseen"]

View = Literal["side", "front", "rear"]
PerDegree = tuple[float, float, float, float]
"""How far at slight, moderate, marked and extreme."""


class Proportion(Part):
    """A number that the figure is drawn from."""

    label: str
    unit: Literal["cm", "deg", "heights", "heads", "share"]
    """`heights` at the withers, `heads` lengths of the head, `share` of what the label names."""
    usual: float
    """In a dog of ordinary build: no ideal is meant by it."""
    range: tuple[float, float]
    gives: float = Field(gt=0)
    """How readily it gives way to a measurement: the larger, the sooner."""

    @model_validator(mode="after")
    def _sound(self) -> Self:
        low, high = self.range
        if not low <= self.usual <= high:
            raise ValueError(f"usual {self.usual:g} is outside its range {low:g} to {high:g}.")
        return self


class Read(Part):
    """Where a measure that runs between no two landmarks is read off the figure: one of these."""

    slope: tuple[Name, Name] | None = None
    """From the level, falling from the first landmark to the second; degrees."""
    lean: tuple[Name, Name] | None = None
    """Off the upright, forwards from the first landmark down to the second; degrees."""
    angle: tuple[Name, Name, Name] | None = None
    """At the middle one of three landmarks; degrees."""
    below: tuple[Name, Name] | None = None
    """How far the first landmark lies below the second."""
    proportion: Name | None = None
    """A proportion itself, which is given in heights."""
    round_: Name | None = Field(default=None, alias="round")
    """The way round something as thick as this proportion."""
    oval: tuple[Name, Name] | None = None
    """The way round an oval of these two proportions."""

    @model_validator(mode="after")
    def _one(self) -> Self:
        if len(self.model_fields_set) != 1:
            raise ValueError("a measure is read in one way. Right: one of slope, lean, angle, below, "
                             "proportion, round, oval.")  # fmt: skip
        return self


def _listed(value: object) -> object:
    return [value] if isinstance(value, str) else value


class DrawnAs(Part):
    """How a departure is drawn."""

    views: Annotated[tuple[View, ...], BeforeValidator(_listed)] = Field(min_length=1)
    """Where it is seen; the first shows it best."""
    parts: tuple[Name, ...] = Field(min_length=1)
    """The parts of the outline that show it."""
    moves: dict[Name, PerDegree]
    """By how much each proportion differs from what it would be; as felt, drawn it is exaggerated."""
    sides: bool = False
    """It can be on one side alone."""

    @model_validator(mode="after")
    def _grows(self) -> Self:
        if not self.moves:
            raise ValueError("a departure that moves nothing is not seen. Right: at least one proportion.")
        for name, steps in self.moves.items():
            sizes = [abs(step) for step in steps]
            if sizes[0] <= 0 or sizes != sorted(set(sizes)) or len({step > 0 for step in steps}) != 1:
                raise ValueError(f"{name} must go one way, further at each degree. "
                                 "Right: for instance [2, 4, 6, 8] or [-2, -4, -6, -8].")  # fmt: skip
        return self


class Unseen(Part):
    """What the figure cannot show, and why."""

    reason: str
    regions: tuple[Name, ...] = ()
    faults: tuple[Name, ...] = ()
    measures: tuple[Name, ...] = ()


class FigurePlan(Part):
    """All that the figure of any dog is drawn from; one common file gives it."""

    exaggerated: float = Field(ge=1)
    """How many times as strong as it is felt a graded departure is drawn."""
    proportions: dict[Name, Proportion]
    reads: dict[Name, Read] = {}
    """By measure; one that runs between landmarks is read between those."""
    seen: dict[Name, DrawnAs] = {}
    """By fault."""
    unseen: tuple[Unseen, ...] = ()
    source: Source

    def unseen_reason(self, fault: str) -> str:
        """Why a fault is not drawn; empty where it is, or where nobody said."""
        if fault in self.seen:
            return ""
        region = fault.split(".")[0]
        for entry in self.unseen:
            if fault in entry.faults or region in entry.regions:
                return entry.reason
        return ""


class Settings(Part):
    """Proportions of an edition's dog, from one source."""

    set: dict[Name, float]
    source: Source
    note: str = ""
