"""What an evaluation holds: values only. `wording` says them."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import field
from typing import TYPE_CHECKING, Literal, get_args

from hands_on.exam.session import Status
from hands_on.frozen import dataclass
from hands_on.measure import conformity
from hands_on.measure.conformity import Band
from hands_on.measure.further import Resting
from hands_on.measure.growth import GrowthCaution
from hands_on.measure.growth_curves import NoGrowth
from hands_on.measure.stopping import KEPT_HOWEVER_OFTEN, Stopping, stopping
from hands_on.measure.takes import BasisOfU
from hands_on.ruleset.base import Degree, Side, SizeClass
from hands_on.ruleset.labels import Label

if TYPE_CHECKING:
    from hands_on.evaluate.alarms import About
    from hands_on.evaluate.circumstances import Circumstances
    from hands_on.evaluate.classes import Classes
    from hands_on.evaluate.measures import Measures
    from hands_on.evaluate.outcome import OutcomeReason
    from hands_on.evaluate.outlook import Outlook
    from hands_on.evaluate.reasons import Reason

__all__ = [
    "BASES",
    "Alarm",
    "AlarmKind",
    "Basis",
    "DerivedResult",
    "Evaluation",
    "Finding",
    "Gap",
    "GrowthResult",
    "MeasureResult",
    "Origin",
    "RuleResult",
    "Rung",
    "Verdict",
]

Origin = Literal["take", "grade", "choice", "teeth", "note", "combination", "dog"]
Verdict = Literal["inside", "outside", "undecided", "not-yet", "not-measured"]
Basis = Literal["own hand", "published", "derived", "judgement", "counted"]
"""On what an uncertainty rests: the evaluator's own repeats, a figure published or derived for the purpose,
judgement; a count has none."""

BASES: tuple[Basis, ...] = get_args(Basis)

AlarmKind = Literal[
    "implausible",  # a take outside what is plausible
    "unlikely",  # one take alone, far from what the edition asks for
    "unreadable",  # a take that is no reading
    "discordant",  # takes that cannot all be right
    "drift",  # takes that fall from first to last
    "closure",  # measurements that should add up and do not
    "sides",  # left and right too far apart
    "contradiction",  # a measurement and a grade, or two answers, that say opposite things
    "together",  # a question: what seldom stands together, or explains each other
    "degree-needed",  # the class depends on a degree that was not said
    "undecided-class",  # a heavier class cannot be told from a lighter one
    "near-limit",  # within the error of a limit
    "too-narrow",  # the band is narrower than a careful hand can tell
    "unknown-attribute",  # a rule needs something of the dog that is not known
    "unknown-point",  # an answer at a point this edition does not know
    "unseen",  # teeth that were not seen
    "conditional",  # a rule that the law of the place may forbid
    "veterinary",  # goes to a veterinarian
    "digest",  # the edition has changed since the session was held
]


@dataclass(frozen=True)
class MeasureResult:
    """A measurement of one or more takes."""

    id: str
    value: float
    u: float
    unit: str
    takes: int
    side: Side | None = None
    dof: float | None = None
    basis: BasisOfU = field(kw_only=True)
    """On what the uncertainty rests."""
    rests_on: Basis = "judgement"
    """The same in one word."""
    own_tem: float | None = None
    """The evaluator's own repeatability of one take, in `unit`, where it is used."""
    hand_share: float = 0.0
    """Share of u squared that is the hand's from take to take; the rest all its takes have in common."""
    contradictory: bool = False
    """The takes cannot all be right: nothing is judged on them."""
    too_young: bool = False
    judged_from: float | None = None
    """From how many months on it can be judged, where it is too young."""
    entered_unit: str = ""
    """The unit most of the takes were entered in."""


@dataclass(frozen=True)
class DerivedResult:
    """A computed value."""

    id: str
    value: float
    u: float
    unit: str
    named: Label


@dataclass(frozen=True)
class Rung:
    """A stretch of the values of a limit: how likely the dog's value lies in it, and what that is."""

    values: Band
    p: float
    cls: str
    """The class it gives this dog; `none` for what is asked for, tolerated or no fault."""
    fault: str | None = None
    degree: Degree | None = None


@dataclass(frozen=True)
class RuleResult:
    """One limit held against the dog."""

    id: str
    value: float | None
    u: float | None
    unit: str
    low: float | None
    high: float | None
    p_inside: float | None
    verdict: Verdict
    fault: str | None
    cls: str | None
    """The class called; `class` in JSON. On an undecided value that of the likeliest band, never a
    disqualifying one."""
    named: Label
    likelier: str = ""
    more_takes: int | None = None
    more_takes_p: float | None = None
    """How probably so many more takes settle it."""
    resting: Resting | None = None
    """What its uncertainty rests on; None where nothing was measured."""
    confidence: float = 0.95
    """How sure the edition wants a verdict to be."""
    source: str = ""
    reading: str = ""
    optional: bool = False
    about: bool = False
    band: str = ""
    """The band's label, where it has one."""
    missing: tuple[str, ...] = ()
    """Measurements that were not taken."""
    problem: str = ""
    """Why the value cannot be computed of what was measured."""
    value_unit: str = ""
    """The unit the value comes in, where the limit's own cannot be had of it."""
    side: Side | None = None
    measures: tuple[str, ...] = ()
    """The measurements that the value comes from."""
    ideal: bool = False
    """What is asked for is an ideal and not a limit."""
    words: str = ""
    """What is asked for, in words, where the edition says so."""
    too_narrow: bool = False
    """What is asked for is narrower than this hand can tell, however often it is taken."""
    judged_from: float | None = None
    """From how many months on it can be judged, where a measurement of it is too young."""
    from_age: float | None = None
    """From how many months on the limit holds, where the dog is younger or its age not known."""
    tolerated: bool = False
    """The value lies in a stretch outside what is asked for that is tolerated."""
    asked: Band | None = None
    """What is asked for, of a limit that was held."""
    contradictory: tuple[str, ...] = ()
    """Measurements whose takes contradict each other, so that there is no verdict."""
    held: conformity.Verdict | None = None
    """How the value stands to it."""
    sorts: str = ""
    """The attribute of the dog that a limit decides."""
    sorted_surely: bool = False
    sources: tuple[str, ...] = ()
    """The keys of `source`."""
    ladder: tuple[Rung, ...] = ()
    """Of a limit that judges and was held: what is asked for, then every stretch beside it."""

    @property
    def judged(self) -> bool:
        """Was the dog judged by it? Not where it only sorts, or nothing could be called."""
        return bool(self.ladder) or (bool(self.sorts) and self.cls is not None)

    @property
    def stopping(self) -> Stopping | None:
        """What it costs to take as many more as are advised until it is inside; None where none are."""
        if self.more_takes is None or self.resting is None:
            return None
        return stopping(self.resting, self.more_takes, self.confidence)

    @property
    def looked(self) -> Stopping | None:
        """Of a value only just inside after several takes, what it costs had one looked after each.

        None where it would be inside at the confidence too that keeps the rate however often one looks.
        """
        if self.verdict != "inside" or self.resting is None or self.resting.n < 2 or self.p_inside is None:
            return None
        if self.p_inside >= 1.0 - KEPT_HOWEVER_OFTEN * (1.0 - self.confidence):
            return None
        return stopping(self.resting, 0, self.confidence)

    @property
    def p_class(self) -> dict[str, float]:
        """Probability of each class outside what is asked for; `none` for what is tolerated or no fault."""
        chances: dict[str, float] = {}
        for rung in self.ladder[1:]:
            chances[rung.cls] = chances.get(rung.cls, 0.0) + rung.p
        return chances


@dataclass(frozen=True)
class Finding:
    """A fault recorded for, or computed of, this dog."""

    id: str
    named: Label
    region: str
    degree: Degree | None
    side: Side | None
    status: Status
    cls: str | None
    """The edition's class; `none`, `observation` or `unclassed` where it has no class here."""
    origin: Origin
    origins: tuple[Origin, ...]
    points: tuple[str, ...]
    """Where it was found."""
    too_young: bool = False
    judged_from: float | None = None
    """From how many months on it can be judged, where it is too young."""
    detail: str | None = None
    rules: tuple[RuleResult, ...] = ()
    """For a measured finding: the limits it comes from."""
    teeth: tuple[int, ...] = ()
    function: str = ""
    veterinary: str = ""
    source: str = ""
    reading: str = ""
    reasons: tuple[Reason, ...] = ()
    """Why this class: the ruling, the degree, what was lacking."""
    decision: str = ""
    """`uphold` or `dismiss` where the evaluator decided; a dismissed finding does not count."""
    computed_cls: str | None = None
    """Where the evaluator gave another class, the one that was computed; `computed_class` in JSON."""
    sources: tuple[str, ...] = ()
    """The keys of `source`."""
    counts: bool = True
    """False: too young, dismissed, absent, or no class that counts."""

    @property
    def worse(self) -> str:
        """Of both sides the worse, where that was said; else empty."""
        said = (one.text for one in self.reasons if one.kind == "worse-side")
        return next(said, "") if self.side == "both" else ""


@dataclass(frozen=True)
class GrowthResult:
    """What a young dog's height or weight lets expect of the grown dog, or why nothing can be said."""

    id: str
    value: float
    u: float
    unit: str
    age_months: float
    judged_from: float
    """Months from which the measurement is judged in a dog of this size."""
    size_class: SizeClass | None
    expected: float | None = None
    """The expected adult value, in `unit`; None where it is refused."""
    expected_u: float | None = None
    low: float | None = None
    """Low end of the 95 % interval."""
    high: float | None = None
    recheck_from: float | None = None
    """Months from which a re-check can tell growth from measuring."""
    recheck_on: datetime.date | None = None
    """The day on which the dog is of that age."""
    cautions: tuple[GrowthCaution, ...] = ()
    source: str = ""
    refused: NoGrowth | None = None
    """Why there is no projection; None where there is one."""


@dataclass(frozen=True)
class Alarm:
    """Something the evaluator should look at again."""

    kind: AlarmKind
    points: tuple[str, ...]
    about: About


@dataclass(frozen=True)
class Gap:
    """A point without an answer."""

    point: str
    region: str
    skipped: bool
    reason: str = ""


@dataclass(frozen=True)
class Evaluation:
    """What ruleset and session give together."""

    session: str
    """A name for the session: the file, or the dog's name."""
    ruleset: str
    edition: str
    circumstances: Circumstances
    """Age, size class and what else conditions ask for, with what weight and limits have settled."""
    classes: Classes
    """What any departure is worth under the edition in these circumstances."""
    measured: Measures
    """The measurements by point, sides apart and together, with the parts of their uncertainty."""
    measures: tuple[MeasureResult, ...]
    """The same in the units of their points."""
    derived: tuple[DerivedResult, ...]
    rules: tuple[RuleResult, ...]
    findings: tuple[Finding, ...]
    """Departures that this edition counts, or has no class for."""
    allowed: tuple[Finding, ...]
    """Departures seen that are no fault here, observations, and faults ruled out."""
    totals: Mapping[str, int]
    """How many findings count in each class, every class of the edition named; also `unclassed`."""
    unsure: Mapping[str, int]
    """The same for findings that are unsure; not in `totals`."""
    alarms: tuple[Alarm, ...]
    gaps: tuple[Gap, ...]
    disqualifying: tuple[str, ...]
    """Ids of findings, sure and counted, in a class that disqualifies."""
    outlook: Outlook
    """What is left open: each class with its probability, the outcome at best and at worst."""
    outcome_at_most: str | None = None
    """The best outcome left open, where the edition has outcomes and caps."""
    outcome_reasons: tuple[OutcomeReason, ...] = ()
    outcomes: tuple[str, ...] = ()
    """The outcomes that the dog's age leaves, best first."""
    growth: tuple[GrowthResult, ...] = ()
    """Height and weight of a dog too young for them to be judged: what they may grow to."""
    as_asked: tuple[str, ...] = ()
    """Points said to be as asked for, in the order of the examination, of which nothing else says otherwise
    and that can be judged at this age."""
    bases: Mapping[str, int] = field(default_factory=dict)
    """On what the uncertainties of the edition's measurements rest, and how many on each."""

    @property
    def age_months(self) -> float | None:
        """The dog's age at the examination; None when not known."""
        return self.circumstances.age
