"""Sire and dam side by side: faults they share, where one mends the other, extremes that add up.

What breeders ask of two dogs' conformation and no more.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from hands_on.compare.answer import Answer, answer_at
from hands_on.compare.dogs.findings import Held, findings_of
from hands_on.compare.examined import Examined, one_edition, same_dog
from hands_on.evaluate.result import Finding, RuleResult
from hands_on.frozen import dataclass
from hands_on.ruleset.base import DEGREES
from hands_on.ruleset.labels import Label
from hands_on.ruleset.points import GradePoint

__all__ = ["OneSided", "Pairing", "PairingRemark", "Parent", "SameEnd", "SharedFault", "Shown", "pairing"]

Parent = Literal["sire", "dam"]

Shown = Finding | RuleResult | Answer | Literal["ruled-out", "not-examined"]
"""What a parent shows where the other has a fault: a finding, a limit it was judged by, its answer; that the
fault was looked for and is not there, or that nobody looked."""

_END = 0.2
"""Within the outer fifth of what is asked for a value counts as at that end; a choice."""

_YOUNG = 12
"""Months; a younger parent is remarked on."""


@dataclass(frozen=True)
class SharedFault:
    """A fault, or a direction, that both have."""

    named: Label
    region: str
    sire: tuple[Shown, ...]
    dam: tuple[Shown, ...]
    faults: tuple[str, ...]
    adds_up: bool
    """Both are beyond slight, or it disqualifies: the litter is likely to show it too."""


@dataclass(frozen=True)
class OneSided:
    """A fault in one of them, and what the other is there."""

    parent: Parent
    """Who has it."""
    fault: str
    named: Label
    region: str
    finding: Finding
    other: Shown
    """What the other one is at this point."""


@dataclass(frozen=True)
class SameEnd:
    """Both within what is asked, at the same end of it."""

    named: Label
    end: Literal["low", "high"]
    sire: RuleResult
    dam: RuleResult


@dataclass(frozen=True)
class PairingRemark:
    """What must be borne in mind of the pairing, or of one parent in it."""

    kind: Literal["same-dog", "sex", "young", "different-editions"]
    one: Examined | None = None
    parent: Parent = "sire"


@dataclass(frozen=True)
class Pairing:
    """What two dogs' conformation says of putting them together."""

    sire: Examined
    dam: Examined
    shared: tuple[SharedFault, ...]
    mended: tuple[OneSided, ...]
    """A fault in one; the other is as asked there."""
    opposite: tuple[OneSided, ...]
    """A fault in one; the other departs the opposite way."""
    open: tuple[OneSided, ...]
    """A fault in one; of the other it is not known, unsure, or it was too young."""
    same_end: tuple[SameEnd, ...]
    remarks: tuple[PairingRemark, ...]


def pairing(first: Examined, second: Examined) -> Pairing:
    """Compare a dog and a bitch, given in either order; a sex that does not fit is remarked on."""
    turned = (_sex(first) == "female" != _sex(second)) or (_sex(second) == "male" != _sex(first))
    sire, dam = (second, first) if turned else (first, second)
    found = findings_of((sire, dam))
    shared = [_shared(held, (sire, dam)) for held in (*found.shared, *_both(found.by_edition))]
    mended: list[OneSided] = []
    opposite: list[OneSided] = []
    left_open: list[OneSided] = []
    same_way: dict[Label, SharedFault] = {}
    for held in (*found.only, *(one for one in found.by_edition if len(one.sessions) == 1)):
        place = held.sessions[0]
        has, other = (sire, dam) if place == 0 else (dam, sire)
        finding = held.of[0][1]
        kind, shown = _other_side(finding, other)
        if finding.too_young and kind != "same-way":
            kind = "open"  # what a puppy may still grow out of is no fault that anybody mends
        row = OneSided("sire" if place == 0 else "dam", held.id, held.named, held.region, finding, shown)
        if kind == "same-way":
            both: tuple[tuple[Shown, ...], tuple[Shown, ...]] = (
                ((finding,), (shown,)) if place == 0 else ((shown,), (finding,))
            )
            named = Label(has.label(finding.points[0]))
            faults = same_way[named].faults if named in same_way else ()
            same_way[named] = SharedFault(
                named, held.region, *both, tuple(dict.fromkeys((*faults, held.id))), _beyond(finding)
            )
        else:
            {"mended": mended, "opposite": opposite, "open": left_open}[kind].append(row)
    return Pairing(
        sire,
        dam,
        (*shared, *same_way.values()),
        tuple(mended),
        tuple(opposite),
        tuple(left_open),
        tuple(_once(_same_ends(sire, dam))),
        _remarks(sire, dam),
    )


def _sex(one: Examined) -> str:
    return one.session.dog.sex or ""


def _both(rows: Iterable[Held]) -> Iterable[Held]:
    return (one for one in rows if len(one.sessions) == 2)


def _shared(held: Held, pair: tuple[Examined, Examined]) -> SharedFault:
    shown = [tuple(one for place, one in held.of if place == parent) for parent in (0, 1)]
    beyond = [any(_beyond(one) for place, one in held.of if place == parent) for parent in (0, 1)]
    out = any(_disqualifies(pair[place], one) for place, one in held.of)
    return SharedFault(held.named, held.region, shown[0], shown[1], (held.id,), all(beyond) or out)


def _disqualifies(one: Examined, finding: Finding) -> bool:
    known = one.ruleset.classes.get(finding.cls or "")
    return known is not None and known.disqualifies


def _beyond(finding: Finding) -> bool:
    """Beyond slight; a fault without degrees counts as such."""
    return finding.degree is None or finding.degree != DEGREES[0]


Kind = Literal["mended", "opposite", "open", "same-way"]


def _other_side(finding: Finding, other: Examined) -> tuple[Kind, Shown]:
    """What the other parent is where this one has a fault."""
    known = other.ruleset.faults.get(finding.id)
    opposites = set(known.opposite) if known is not None else set()
    for one in other.evaluation.findings:
        if one.id in opposites and one.status != "absent" and one.decision != "dismiss":
            return "opposite", one
    ruled_out = any(one.id == finding.id and one.status == "absent" for one in other.evaluation.allowed)
    if ruled_out:
        return "mended", "ruled-out"
    limits = _limits_kept(finding, other)
    if limits:
        return "mended" if all(_kept(one) for one in limits) else "open", limits[0]
    answers = [
        (point, answer_at(other, other.ruleset.points[point]))
        for point in finding.points
        if point in other.ruleset.points
    ]
    given = [(point, answer) for point, answer in answers if answer.given]
    if not given:
        return "open", "not-examined"
    point, answer = given[0]
    if answer.value is not None or answer.unsure or answer.too_young:
        return "open", answer
    if not answer.faults:
        return "mended", answer
    return _way(finding, answer, other, point), answer


def _way(finding: Finding, answer: Answer, other: Examined, point: str) -> Kind:
    """Both depart at one point: the same way on its scale, the opposite way, or neither."""
    at = other.ruleset.points.get(point)
    if not isinstance(at, GradePoint):
        return "open"
    here = -1 if finding.id in at.less else 1 if finding.id in at.more else 0
    there = {-1 if fault in at.less else 1 if fault in at.more else 0 for fault in answer.faults}
    if here and there == {here}:
        return "same-way"
    if here and there == {-here}:
        return "opposite"
    # Another fault altogether: this one it has not.
    return "mended" if finding.id not in answer.faults else "open"


def _limits_kept(finding: Finding, other: Examined) -> list[RuleResult]:
    """For a measured fault: the other parent's limits that name it and that it was judged by."""
    if "take" not in finding.origins:
        return []
    named = {
        limit.id for limit in other.ruleset.edition.limits for band in limit.bands if band.fault == finding.id
    }
    return [one for one in other.evaluation.rules if one.id in named and one.verdict != "not-measured"]


def _kept(rule: RuleResult) -> bool:
    return rule.verdict == "inside"


def _same_ends(sire: Examined, dam: Examined) -> Iterable[SameEnd]:
    """Values that both lie at the same end of what is asked of each."""
    limits = {limit.id: limit.name for one in (sire, dam) for limit in one.ruleset.edition.limits}
    ends = [
        {
            limits[rule.id]: (rule, end)
            for rule in one.evaluation.rules
            if rule.id in limits and (end := _end(rule)) is not None
        }
        for one in (sire, dam)
    ]
    for name, (rule, end) in ends[0].items():
        if name in ends[1] and ends[1][name][1] == end:
            yield SameEnd(rule.named, end, rule, ends[1][name][0])


def _once(rows: Iterable[SameEnd]) -> Iterable[SameEnd]:
    """An extreme that several limits speak of is told once: by the limit that leaves the least room."""
    kept: dict[tuple[frozenset[str], str], SameEnd] = {}
    for one in rows:
        key = (frozenset(one.sire.measures), one.end)
        before = kept.get(key)
        if before is None or _width(one.sire) < _width(before.sire):
            kept[key] = one
    return kept.values()


def _width(rule: RuleResult) -> float:
    return (rule.high or 0.0) - (rule.low or 0.0)


def _end(rule: RuleResult) -> Literal["low", "high"] | None:
    if rule.value is None or rule.low is None or rule.high is None or rule.optional:
        return None
    if rule.verdict not in ("inside", "undecided") or rule.high <= rule.low:
        return None
    share = (rule.value - rule.low) / (rule.high - rule.low)
    if share <= _END:
        return "low"
    return "high" if share >= 1 - _END else None


def _remarks(sire: Examined, dam: Examined) -> tuple[PairingRemark, ...]:
    remarks = []
    if same_dog(sire, dam):
        remarks.append(PairingRemark("same-dog"))
    parents: tuple[tuple[Examined, Parent, str], ...] = ((sire, "sire", "male"), (dam, "dam", "female"))
    for one, parent, wanted in parents:
        if _sex(one) != wanted:
            remarks.append(PairingRemark("sex", one, parent))
        young = sum(finding.too_young for finding in one.evaluation.findings)
        if young or (one.age is not None and one.age < _YOUNG):
            remarks.append(PairingRemark("young", one, parent))
    if not one_edition((sire, dam)):
        remarks.append(PairingRemark("different-editions"))
    return tuple(remarks)
