"""What is looked at: regions, points of five kinds, and the vocabulary of faults."""

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from hands_on.ruleset.base import Degree, Name, Part, Quantity, Sex, Side, Source, UnitName, Words
from hands_on.ruleset.landmarks import Between

__all__ = [
    "QUANTITY_UNITS",
    "Ages",
    "ChoicePoint",
    "Fault",
    "GradePoint",
    "MeasurePoint",
    "Option",
    "Point",
    "Region",
    "ScalePoint",
    "TeethPoint",
    "faults_of",
]

QUANTITY_UNITS: dict[Quantity, tuple[UnitName, ...]] = {
    "length": ("cm", "mm", "in", "ft"),
    "angle": ("deg",),
    "mass": ("kg", "g", "lb"),
    "count": ("teeth",),
    "share": ("share", "%"),
}


class Region(Part):
    """A part of the dog, in the order of the examination."""

    id: Name
    label: str
    intro: str = ""
    caution: str = ""


class Ages(Part):
    """The earliest ages, in months, at which something can be judged, by size of breed."""

    small: float
    medium: float
    large: float
    giant: float
    basis: str = ""
    source: Source = ()
    note: str = ""


class CarefulTake(Part):
    """Standard uncertainty of one careful take x: sqrt(a^2 + (b x)^2), a in the point's unit.

    Source of the form: JCGM 100:2008 (GUM) 4.3; the figures carry their own source.
    """

    a: float = Field(ge=0)
    b: float = Field(default=0.0, ge=0)
    basis: str
    source: Source
    note: str = ""


class PointBase(Part):
    """What every point tells the evaluator."""

    id: Name
    region: str = ""
    """Filled in from the file's region; an edition's own point names it."""
    label: str
    ask: str = ""
    ideal: str = ""
    find: str
    stance: str = ""
    caution: str = ""
    why: str
    only_sex: Sex | None = None
    source: Source

    @property
    def fault_as_asked(self) -> str | None:
        """The fault that what is asked for here is in other editions; only an option can be one."""
        return None


class MeasurePoint(PointBase):
    """A point measured with an instrument."""

    kind: Literal["measure"]
    quantity: Quantity
    unit: UnitName
    instrument: str = ""
    between: Between | None = None
    """The landmarks it runs between; None for what has none (a girth, a mass)."""
    resolution: float = Field(gt=0)
    """What the instrument can tell apart, in `unit`."""
    plausible: tuple[float, float]
    """Readings outside are questioned at once; in `unit`."""
    beyond: float | None = Field(default=None, gt=0)
    """How far beyond what an edition asks for a reading is asked about: a share of the figure, of an angle
    degrees. None: an edition's limits raise no question here."""
    takes: int = Field(default=3, ge=1, le=9)
    sides: bool = False
    u: CarefulTake
    too_young: Ages | None = None
    wording: Words = ()

    @model_validator(mode="after")
    def _sound(self) -> Self:
        if self.unit not in QUANTITY_UNITS[self.quantity]:
            fitting = ", ".join(f'"{unit}"' for unit in QUANTITY_UNITS[self.quantity])
            raise ValueError(f'unit "{self.unit}" does not measure {self.quantity}. Right: {fitting}.')
        low, high = self.plausible
        if low >= high:
            raise ValueError(f"plausible {low} to {high} is empty. Right: the smaller number first.")
        return self


class GradePoint(PointBase):
    """A graded observation: as asked for, or departures each with a degree."""

    kind: Literal["grade"]
    less: tuple[str, ...] = ()
    """Departures one way on an ordered scale."""
    more: tuple[str, ...] = ()
    """Departures the other way."""
    other: tuple[str, ...] = ()
    """Departures that lie on no scale."""
    sides: bool = False

    @property
    def departures(self) -> tuple[str, ...]:
        """All fault ids in the order shown."""
        return (*self.less, *self.more, *self.other)

    @model_validator(mode="after")
    def _sound(self) -> Self:
        if not self.departures:
            raise ValueError(
                "this graded point has no departures. "
                'Right: at least one fault id in less, more or other, e.g. more = ["neck.throaty"].'
            )
        if len(self.departures) > 9:
            raise ValueError("more than nine departures. Right: at most nine, or split the point.")
        return self


class Step(Part):
    """A step of an ordered scale; no fault means as asked for."""

    value: int
    label: str
    fault: str | None = None
    degree: Degree | None = None


class ScalePoint(PointBase):
    """An ordered scale with steps of its own."""

    kind: Literal["scale"]
    steps: tuple[Step, ...] = Field(min_length=2)

    @property
    def right_steps(self) -> tuple[int, ...]:
        """The steps that are no fault."""
        return tuple(step.value for step in self.steps if step.fault is None)


class Option(Part):
    """One answer to a choice; no fault means as asked for."""

    id: Name
    label: str
    fault: str | None = None
    degree: Degree | None = None
    detail: str | None = None
    side: Side | None = None
    """The side it speaks of by itself: the left testicle."""
    beside: bool = False
    """Noted beside other answers: neither as asked for nor a fault."""
    measure: str = ""
    """The measure that says how far it goes; asked next where this is chosen and a fault: a bite's gap."""

    @model_validator(mode="after")
    def _sound(self) -> Self:
        if self.beside and self.fault:
            raise ValueError("an option noted beside others is no fault. Right: beside = true, or a fault.")
        return self


class ChoicePoint(PointBase):
    """A choice among options; with `several` more than one may hold."""

    kind: Literal["choice"]
    options: tuple[Option, ...] = Field(min_length=2)
    as_asked: str = ""
    """The one option asked for; empty where several are right."""
    several: bool = False
    sides: bool = False
    instead_of: str = ""
    """The point that this one stands for in an edition that says what each option means, under [seen]. The
    options say only what is seen: the edition makes right or wrong of it."""

    @property
    def fault_as_asked(self) -> str | None:
        """The fault that the option asked for is in other editions: a natural tail where docking is asked."""
        return next((option.fault for option in self.options if option.id == self.as_asked), None)

    @model_validator(mode="after")
    def _sound(self) -> Self:
        right = [option.id for option in self.options if option.fault is None and not option.beside]
        if self.as_asked and self.as_asked not in right:
            raise ValueError(
                f'as_asked = "{self.as_asked}" is no option without a fault. '
                f"Right: one of {right}, or no as_asked."
            )
        return self


class TeethPoint(PointBase):
    """The tooth chart, by modified Triadan number."""

    kind: Literal["teeth"]


Point = Annotated[
    MeasurePoint | GradePoint | ScalePoint | ChoicePoint | TeethPoint, Field(discriminator="kind")
]


def faults_of(point: Point) -> tuple[str, ...]:
    """The faults an answer at this point can name."""
    if isinstance(point, GradePoint):
        return point.departures
    if isinstance(point, ScalePoint):
        return tuple(dict.fromkeys(step.fault for step in point.steps if step.fault))
    if isinstance(point, ChoicePoint):
        return tuple(dict.fromkeys(option.fault for option in point.options if option.fault))
    if isinstance(point, TeethPoint):
        return ("mouth.teeth-missing", "mouth.teeth-worn", "mouth.teeth-extra")
    return ()


class Fault(Part):
    """A defined departure."""

    label: str
    meaning: str
    wording: Words = ()
    function: str
    """What it costs the dog in function, for its owner."""
    sides: bool = False
    only_sex: Sex | None = None
    """Not empty: only in a dog, or only in a bitch."""
    opposite: Words = ()
    hand_decides: bool = False
    """Felt or seen, whatever is measured: a measurement within its limits does not speak against it."""
    too_young: Ages | None = None
    always: str = ""
    """Not empty: reported at any age, and why."""
    stability: Literal["", "fixed", "slow", "changes"] = ""
    veterinary: str = ""
    region: str = ""
    """Filled in from the file's region, or from the id."""
