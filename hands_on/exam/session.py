"""A session as it stands in its file; the format is explained in sessions/README.md.

Unknown keys, of a newer version or of the user's own, are kept through a load and a save.
"""

import datetime
import re
from typing import Annotated, Any, Literal, Self

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, model_validator

from hands_on.exam.formats import FORMAT
from hands_on.ruleset.base import Degree, Sex, Side, UnitName, Words

__all__ = [
    "Amendment",
    "CautionAnswer",
    "Choice",
    "CritiqueText",
    "Decision",
    "Dog",
    "Examination",
    "Given",
    "Grade",
    "Note",
    "NoteFinding",
    "Record",
    "Replaced",
    "RulesetRef",
    "Session",
    "Signature",
    "Skip",
    "Status",
    "Summary",
    "Take",
    "Teeth",
]

Kind = Literal["full", "recheck", "round"]
Status = Literal["present", "absent", "unsure"]


class Record(BaseModel):
    """Base of all parts of a session: nothing changes once made, unknown keys stay."""

    model_config = ConfigDict(extra="allow", frozen=True, defer_build=True, protected_namespaces=())


class Dog(Record):
    """Who stands on the table."""

    call_name: str = ""
    registered_name: str = ""
    sex: Sex | None = None
    born: datetime.date | None = None
    chip: str = ""
    tattoo: str = ""
    registration: str = ""
    sire: str = ""
    dam: str = ""
    litter: str = ""
    variety: str = ""
    colour: str = ""
    attributes: dict[str, str] = {}
    """What else an edition asks of the dog: coat, size, ..."""

    def attribute(self, name: str) -> str:
        """The dog's value of an attribute, empty when not known."""
        own = {"variety": self.variety, "colour": self.colour}.get(name, "")
        return own or self.attributes.get(name, "")

    @property
    def identity(self) -> str:
        """What tells this dog from every other, as well as the file can."""
        return self.chip or self.tattoo or self.registration or self.registered_name or self.call_name


class Examination(Record):
    """Who examined, where, when, as what."""

    evaluator: str = ""
    scribe: str = ""
    place: str = ""
    country: str = ""
    """Two letters; decides which rules the law of the place allows."""
    purpose: str = ""
    started: datetime.datetime | None = None
    finished: datetime.datetime | None = None
    kind: Kind = "full"
    baseline: str = ""
    """For a re-check: the file of the earlier session."""
    restless: bool = False
    """The dog did not stand still: every measurement is less sure."""
    switches: Words = ()
    """Rules of the edition that are off until chosen, chosen for this examination."""


class RulesetRef(Record):
    """Under which edition the session was held."""

    id: str
    edition: str = ""
    digest: str = ""


class Given(Record):
    """What every answer tells of itself."""

    at: datetime.datetime | None = None
    by: str = ""
    note: str = ""
    by_region: bool = False
    """Given with the rest of its region by one key, not point by point."""


class CautionAnswer(Given):
    """A caution read and answered before the dog is touched."""

    id: str
    answer: str = ""


def _number_or_text(value: Any) -> Any:
    if isinstance(value, bool):
        word = str(value).lower()
        raise ValueError(f'{word} is no reading. Right: a number, or a text such as "25 3/8 in".')
    return value


class Take(Given):
    """One reading of a measurement, as entered."""

    point: str
    value: Annotated[float | str, BeforeValidator(_number_or_text)]
    """A number in `unit`, or the text as typed (`"25 3/8 in"`)."""
    unit: UnitName | None = None
    """As entered; without it the point's own unit is meant."""
    side: Side | None = None
    typed: str = ""
    """The text as typed, where it was more than the number: `25 3/8`."""
    struck: str = ""
    """Not empty: the take does not count, and why. It stays on record."""
    hidden: bool = False
    """The earlier readings at this point were hidden while it was taken: a repeat that shows the hand."""
    stand: int = Field(default=1, ge=1)
    """On which stand of the dog it was taken: it was stood anew before each later one."""


class Grade(Given):
    """What was seen or felt at a graded point: as asked for, or one departure."""

    point: str
    as_asked: bool = False
    fault: str | None = None
    degree: Degree | None = None
    side: Side | None = None
    step: int | None = None
    """At a point with a scale of its own: the step."""
    status: Status = "present"

    @model_validator(mode="after")
    def _one(self) -> Self:
        given = [self.as_asked, self.fault is not None, self.step is not None]
        if sum(given) != 1:
            raise ValueError(
                "a grade is one of as_asked, fault or step. Right: as_asked = true, or "
                'fault = "hindquarters.cow-hocks" with degree = "slight", or step = 5 on a scale.'
            )
        return self


class Choice(Given):
    """What was chosen at a choice."""

    point: str
    choice: Words = Field(min_length=1)
    degree: Degree | None = None
    side: Side | None = None
    status: Status = "present"


_NUMBER = re.compile("[0-9]{1,3}")


def _teeth(value: Any) -> Any:
    if not isinstance(value, list | tuple):
        return value
    return [int(item) if isinstance(item, str) and _NUMBER.fullmatch(item) else item for item in value]


Triadan = Annotated[tuple[int, ...], BeforeValidator(_teeth)]


class Teeth(Given):
    """The tooth chart, by modified Triadan number; what is in no list is there and sound."""

    missing: Triadan = ()
    unseen: Triadan = ()
    """Not seen: neither there nor missing."""
    worn: Triadan = ()
    broken: Triadan = ()
    extra: Triadan = ()
    """Beside which tooth a surplus one stands."""
    milk: Triadan = ()
    """Places where a milk tooth still stands (the permanent tooth's number)."""

    @model_validator(mode="after")
    def _in_the_dog(self) -> Self:
        from hands_on.ruleset.dentition import TEETH

        for name in ("missing", "unseen", "worn", "broken", "extra", "milk"):
            for number in getattr(self, name):
                if number not in TEETH:
                    raise ValueError(
                        f"{number} in {name} is no tooth of the dog. Right: a modified Triadan number, "
                        "101-110, 201-210, 301-311 or 401-411."
                    )
        return self


class NoteFinding(Record):
    """A finding accepted from a note."""

    fault: str
    degree: Degree | None = None
    side: Side | None = None
    worse: Literal["left", "right"] | None = None
    """Of both sides the worse, where the note compares them."""
    status: Status = "present"
    detail: str | None = None
    confidence: float | None = None
    taken_by: str = ""
    """Empty: read and accepted by the program; otherwise who took it by hand."""


class Note(Given):
    """Words as typed, and the findings accepted from them."""

    text: str
    region: str = ""
    point: str = ""
    findings: tuple[NoteFinding, ...] = ()


class Skip(Given):
    """A point or a whole region not examined, and why."""

    point: str = ""
    region: str = ""
    reason: str = ""

    @model_validator(mode="after")
    def _one(self) -> Self:
        if bool(self.point) == bool(self.region):
            raise ValueError('a skip names a point or a region. Right: region = "movement".')
        return self


class Decision(Given):
    """What the evaluator decided where the tool proposed otherwise; both are kept."""

    model_config = ConfigDict(extra="allow", frozen=True, populate_by_name=True, defer_build=True)

    fault: str
    side: Side | None = None
    decision: Literal["uphold", "dismiss"]
    class_: str | None = Field(default=None, alias="class")
    """Another of the edition's classes than the one computed."""
    reason: str = ""

    @model_validator(mode="after")
    def _upheld(self) -> Self:
        if self.class_ is not None and self.decision == "dismiss":
            raise ValueError('what is dismissed has no class. Right: decision = "uphold", or no class.')
        return self


class Summary(Record):
    """The evaluator's own words on the dog."""

    text: str = ""
    outcome: str = ""
    """The grade given, where the edition has outcomes."""


class CritiqueText(Given):
    """A critique as the evaluator edited it; what is only drafted is not kept."""

    language: str = "en"
    length: Literal["catalogue", "paragraph", "page"] = "page"
    text: str


class Signature(Record):
    """Who signed, when, and over what."""

    name: str
    at: datetime.datetime
    digest: str = ""
    """SHA-256 over the session as signed, without signature and amendments."""
    evaluation: dict[str, Any] = {}
    """What the session gave when it was signed; never read back as truth."""


class Amendment(Given):
    """A change after signing: what was answered before stays where it is."""

    reason: str = ""
    point: str = ""
    """The point whose answers these replace; empty for a note or summary."""
    takes: tuple[Take, ...] = ()
    grades: tuple[Grade, ...] = ()
    choices: tuple[Choice, ...] = ()
    teeth: Teeth | None = None
    notes: tuple[Note, ...] = ()
    skips: tuple[Skip, ...] = ()
    summary: Summary | None = None
    critique: CritiqueText | None = None


class Replaced(Given):
    """What was answered at a point before another answer took its place, or before it was taken back."""

    point: str
    taken_back: bool = False
    """Nothing took its place."""
    grades: tuple[Grade, ...] = ()
    choices: tuple[Choice, ...] = ()
    teeth: Teeth | None = None


class Session(Record):
    """One examination of one dog by one evaluator under one ruleset."""

    format: int = FORMAT
    dog: Dog = Dog.model_construct()
    examination: Examination = Examination.model_construct()
    ruleset: RulesetRef
    cautions: tuple[CautionAnswer, ...] = ()
    takes: tuple[Take, ...] = ()
    grades: tuple[Grade, ...] = ()
    choices: tuple[Choice, ...] = ()
    teeth: Teeth | None = None
    notes: tuple[Note, ...] = ()
    skips: tuple[Skip, ...] = ()
    replaced: tuple[Replaced, ...] = ()
    """Earlier answers that no longer stand, as they were given; nothing is computed from them."""
    decisions: tuple[Decision, ...] = ()
    summary: Summary = Summary.model_construct()
    critiques: tuple[CritiqueText, ...] = ()
    """One at most for each language and length; an empty text stands for the draft again."""
    signature: Signature | None = None
    amendments: tuple[Amendment, ...] = ()
