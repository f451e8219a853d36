"""What an edition asks: limits, rulings, teeth, classes, outcomes."""

import math
from typing import Annotated, Any, Self

from pydantic import BeforeValidator, Field, model_validator

from hands_on.ruleset.base import Degree, Name, Part, Source, UnitName, When, Words
from hands_on.ruleset.values import Value

__all__ = [
    "Asked",
    "Attribute",
    "Band",
    "Cap",
    "Class",
    "Combination",
    "Follow",
    "GeneralClause",
    "Limit",
    "Outcome",
    "Placing",
    "Range",
    "Remark",
    "Ruling",
    "Silence",
    "Switch",
    "TeethRule",
    "TeethRules",
    "WalkPlan",
]


class Range(Part):
    """A stretch of the number line; `from` and `to` belong to it, `above` and `below` do not."""

    from_: float | None = Field(default=None, alias="from")
    to: float | None = None
    above: float | None = None
    below: float | None = None

    @model_validator(mode="after")
    def _sound(self) -> Self:
        if self.from_ is not None and self.above is not None:
            raise ValueError("both `from` and `above`. Right: one of them, `from` if the number belongs.")
        if self.to is not None and self.below is not None:
            raise ValueError("both `to` and `below`. Right: one of them, `to` if the number belongs.")
        if self.low == -math.inf and self.high == math.inf:
            raise ValueError("no end at all. Right: from or above, to or below.")
        if self.low > self.high or (self.low == self.high and (self.low_open or self.high_open)):
            raise ValueError(f"{self.low:g} to {self.high:g} is empty. Right: the smaller number first.")
        return self

    @property
    def low(self) -> float:
        """Lower end; minus infinity when open-ended."""
        return next((end for end in (self.from_, self.above) if end is not None), -math.inf)

    @property
    def high(self) -> float:
        """Upper end; infinity when open-ended."""
        return next((end for end in (self.to, self.below) if end is not None), math.inf)

    @property
    def low_open(self) -> bool:
        """True when the lower end itself does not belong."""
        return self.from_ is None

    @property
    def high_open(self) -> bool:
        """True when the upper end itself does not belong."""
        return self.to is None


class Band(Range):
    """A stretch outside (or, when a limit classifies, a named stretch)."""

    fault: str | None = None
    class_: str | None = Field(default=None, alias="class")
    degree: Degree | None = None
    tolerated: bool = False
    label: str = ""
    value: str | None = None
    detail: Words = ()
    """Place or form of the fault; any after the first name the same thing seen by eye."""
    note: str = ""

    @property
    def place(self) -> str | None:
        """The detail that a finding gets."""
        return self.detail[0] if self.detail else None


class Limit(Value):
    """A rule on a number of the dog."""

    id: Name
    unit: UnitName | None = None
    when: When | None = None
    asked: Range | None = None
    bands: tuple[Band, ...] = ()
    about: bool = False
    ideal: bool = False
    words: str = ""
    classifies: str | None = None
    from_age: float | None = None
    optional: bool = False
    source: Source
    text: str = ""
    note: str = ""
    reading: str = ""

    @model_validator(mode="after")
    def _sound(self) -> Self:
        if self.classifies is None and self.asked is None:
            raise ValueError(
                "a limit says what is asked for. Right: asked = { from = 63, to = 70 }, "
                'or classifies = "size" when it sorts instead of judging.'
            )
        return self


class Class(Part):
    """How the edition ranks faults; the file's order is the edition's, lightest first."""

    id: Name
    label: str
    means: str = ""
    leads_to: str = ""
    disqualifies: bool = False
    ladder: bool = True
    """False: a word outside the ladder, such as undesirable."""
    source: Source


class Ruling(Part):
    """The class of some faults; the first ruling that fits a finding counts."""

    faults: Words = Field(min_length=1)
    class_: str | None = Field(default=None, alias="class")
    by_degree: dict[Degree, str] = {}
    """Class from this degree up."""
    when: When | None = None
    optional: bool = False
    source: Source
    text: str = ""
    note: str = ""
    reading: str = ""

    @model_validator(mode="after")
    def _one(self) -> Self:
        if (self.class_ is None) == (not self.by_degree):
            raise ValueError(
                "a ruling says either class or by_degree. "
                'Right: class = "fault", or by_degree = { slight = "fault", marked = "severe" }.'
            )
        return self


class Follow(Part):
    """A fault that follows from what is known of the dog, without an answer at any point."""

    fault: str
    when: When
    class_: str | None = Field(default=None, alias="class")
    """Without it the rulings decide."""
    degree: Degree | None = None
    detail: str | None = None
    source: Source
    text: str = ""
    note: str = ""
    reading: str = ""


class Together(Part):
    """A fault within a combination."""

    fault: str
    from_degree: Degree | None = None


def _together(value: Any) -> Any:
    return {"fault": value} if isinstance(value, str) else value


class Combination(Part):
    """Faults that count otherwise when they are found together."""

    all: tuple[Annotated[Together, BeforeValidator(_together)], ...] = Field(min_length=2)
    class_: str = Field(alias="class")
    when: When | None = None
    label: str = ""
    source: Source
    text: str = ""
    note: str = ""
    reading: str = ""


class TeethRule(Part):
    """A class by number and kind of missing teeth."""

    of: tuple[str, ...] = ()
    not_of: tuple[str, ...] = ()
    at_least: int = Field(default=1, ge=1)
    at_most: int | None = None
    others_at_least: int = 0
    others_at_most: int | None = Field(default=None, ge=0)
    class_: str = Field(alias="class")
    when: When | None = None
    source: Source
    text: str = ""
    note: str = ""
    reading: str = ""


class TeethRules(Part):
    """What an edition says of missing teeth."""

    text: str = ""
    exempt: tuple[str, ...] = ()
    unseen_is_missing: bool = False
    rules: tuple[TeethRule, ...] = ()
    source: Source
    reading: str = ""


class Attribute(Part):
    """Something else of the dog that decides rules: colour, coat variety, size."""

    label: str
    options: dict[str, str] = Field(min_length=1)
    derived: bool = False
    """True when a limit classifies it; then the dog screen does not ask."""
    source: Source
    note: str = ""


class Switch(Part):
    """A rule that is off until it is chosen for an examination."""

    label: str
    caution: str


class GeneralClause(Part):
    """The class of every departure that no ruling names."""

    class_: str = Field(alias="class")
    text: str
    source: Source


class WalkPlan(Part):
    """Which points the edition needs."""

    measures: tuple[str, ...] = ()
    leave_out: tuple[str, ...] = ()
    offer: tuple[str, ...] = ()
    when: dict[str, When] = {}
    """Points that are asked of some dogs only; where the condition is not known they are asked."""


class Silence(Part):
    """What the standard says nothing of."""

    about: str
    points: tuple[str, ...] = ()
    note: str = ""
    source: Source


class Asked(Part):
    """What the edition asks for at a point."""

    text: str
    right: tuple[str, ...] = ()
    """Of a choice the options asked for; of one alone 0 gives it. Empty: those that are no fault here."""
    source: Source
    note: str = ""
    reading: str = ""


class Outcome(Part):
    """A grade an examination may end in."""

    id: Name
    label: str
    means: str = ""
    when: When | None = None
    """Offered only where this holds, or is not known."""
    source: Source


class Placing(Part):
    """How dogs are put in order: disqualified ones last, then class weight times degree, the least first."""

    weights: dict[str, Annotated[float, Field(gt=0)]]
    """What a finding of each class weighs, `unclassed` among them; those that disqualify have none."""
    degrees: dict[Degree, Annotated[float, Field(gt=0)]] = {
        "slight": 1,
        "moderate": 2,
        "marked": 3,
        "extreme": 4,
    }
    unsaid: Degree = "moderate"
    """What a finding without a degree counts as."""
    source: Source
    text: str = ""
    note: str = ""
    reading: str = ""


class Cap(Part):
    """What rules an outcome out."""

    class_: str | None = Field(default=None, alias="class")
    faults: Words = ()
    limit: str | None = None
    from_degree: Degree | None = None
    """Only findings of this degree or more rule the outcome out; a class heavier than `class` does anyhow."""
    when: When | None = None
    at_most: str
    optional: bool = False
    source: Source
    note: str = ""


class Remark(Part):
    """A clause without a number: shown, never computed."""

    text: str
    points: tuple[str, ...] = ()
    source: Source
