"""One ruleset file as it is written: a common file or an edition."""

import datetime
from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from hands_on.ruleset.base import Name, Part, SizeClass, Tongue, UnitName, Words
from hands_on.ruleset.figure import FigurePlan, Settings
from hands_on.ruleset.handling import Harder, Standing
from hands_on.ruleset.landmarks import Landmark
from hands_on.ruleset.points import Fault, Point, Region
from hands_on.ruleset.rules import (
    Asked,
    Attribute,
    Cap,
    Class,
    Combination,
    Follow,
    GeneralClause,
    Limit,
    Outcome,
    Placing,
    Remark,
    Ruling,
    Silence,
    Switch,
    TeethRules,
    WalkPlan,
)
from hands_on.ruleset.seen import Seen
from hands_on.ruleset.together import StandTogether
from hands_on.ruleset.values import Closure, Derived, Fence
from hands_on.ruleset.walks import Walk

__all__ = ["FORMAT", "CommonFile", "EditionFile"]

FORMAT = 1
"""The format this program reads."""


class CommonFile(Part):
    """A file of `common/`: one region, or parts that belong to none."""

    format: Literal[1]
    order: tuple[str, ...] = ()
    walk: tuple[str, ...] = ()
    """The way through the dog: points, and regions for what is left of them."""
    region: Region | None = None
    landmarks: tuple[Landmark, ...] = ()
    harder: tuple[Harder, ...] = ()
    standing: tuple[Standing, ...] = ()
    walks: tuple[Walk, ...] = ()
    opposites: tuple[tuple[str, str], ...] = ()
    """Words that say the opposite of each other: long and short."""
    sources: dict[str, str] = {}
    points: tuple[Point, ...] = ()
    faults: dict[Name, Fault] = {}
    derived: tuple[Derived, ...] = ()
    closures: tuple[Closure, ...] = ()
    fences: tuple[Fence, ...] = ()
    together: tuple[StandTogether, ...] = ()
    outcome_sets: dict[Name, tuple[Outcome, ...]] = {}
    """Grades that editions of one body share, by the name of the set."""
    figure: FigurePlan | None = None
    """What every dog is drawn from; one common file gives it."""


class Drop(Part):
    """What an edition takes out of the one it builds on."""

    limits: tuple[str, ...] = ()
    remarks: bool = False
    rulings: bool = False
    follows: bool = False
    combinations: bool = False


class EditionFile(Part):
    """An edition's file."""

    format: Literal[1]
    id: Name
    builds_on: Name
    breed: str
    title: str
    body: str = ""
    number: str = ""
    edition: str
    published: datetime.date | None = None
    valid: datetime.date | None = None
    size_class: SizeClass | None = None
    unit: UnitName = "cm"
    confidence: float = Field(default=0.95, gt=0.5, lt=1)
    note: str = ""
    sources: dict[str, str] = {}
    attributes: dict[Name, Attribute] = {}
    switches: dict[Name, Switch] = {}
    general_clause: GeneralClause | None = None
    walk: WalkPlan = WalkPlan.model_construct()
    walks: tuple[Walk, ...] = ()
    """Shorter walks of this edition, beside those of common."""
    silent: tuple[Silence, ...] = ()
    classes: tuple[Class, ...] = ()
    asked: dict[str, Asked] = {}
    languages: dict[Annotated[str, StringConstraints(pattern=r"^[a-z]{2}$")], Tongue] = {}
    """Labels and asked texts by language code."""
    seen: dict[str, Seen] = {}
    """What options mean here, at points that only say what is seen."""
    limits: tuple[Limit, ...] = ()
    rulings: tuple[Ruling, ...] = ()
    follows: tuple[Follow, ...] = ()
    combinations: tuple[Combination, ...] = ()
    teeth: TeethRules | None = None
    outcomes: tuple[Outcome, ...] = ()
    outcomes_from: Name | None = None
    """The set of common that the outcomes are; then none stand here."""
    caps: tuple[Cap, ...] = ()
    placing: Placing | None = None
    """The rule by which dogs are put in order; without it that of `compare.dogs.class_rank`."""
    remarks: tuple[Remark, ...] = ()
    wording: dict[str, Words] = {}
    landmarks: tuple[Landmark, ...] = ()
    figure: tuple[Settings, ...] = ()
    """How this edition's dog is drawn; what its limits say goes before it."""
    points: tuple[Point, ...] = ()
    faults: dict[Name, Fault] = {}
    derived: tuple[Derived, ...] = ()
    together: tuple[StandTogether, ...] = ()
    """What seldom stands together in this breed, beside what common says; an id of common is said anew."""
    drop: Drop = Drop.model_construct()
