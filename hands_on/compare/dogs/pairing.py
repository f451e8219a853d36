"""Sire and dam side by side: faults they share, where one mends the other, extremes that add up.

What breeders ask of two dogs' conformation and no more: see CAUTIONS.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, Literal

from hands_on.compare.answer import Answer, answer_at
from hands_on.compare.dogs.findings import Held, findings_of
from hands_on.compare.examined import Examined, one_edition, same_dog
from hands_on.evaluate.result import Finding, RuleResult
from hands_on.ruleset.base import DEGREES
from hands_on.ruleset.points import GradePoint

__all__ = ["CAUTIONS", "OneSided", "Pairing", "SameEnd", "SharedFault", "pairing"]

Parent = Literal["sire", "dam"]

CAUTIONS = (
    "Conformation is not genetics: what a dog shows is not what it passes on, and most of it hangs on many "
    "genes (common practice).",
    "A fault in one parent is not surely mended by the other, and opposite extremes do not meet in the "
    "middle (common practice).",
    "This is no health test. Joints, eyes, heart, inherited disease and how near the two are related are for "
    "a veterinarian, the tests of the breed and the pedigree.",
)
"""Said with every pairing."""

_END = 0.2
"""Within the outer fifth of what is asked for a value counts as at that end; a choice."""


@dataclass(frozen=True)
class SharedFault:
    """A fault, or a direction, that both have."""

    label: str
    region: str
    sire: str
    dam: str
    faults: tuple[str, ...]
    adds_up: bool
    """Both are beyond slight, or it disqualifies: the litter is likely to show it too."""


@dataclass(frozen=True)
class OneSided:
    """A fault in one of them, and what the other is there."""

    parent: Parent
    """Who has it."""
    fault: str
    label: str
    region: str
    words: str
    other: str
    """What the other one is at this point, in words."""


@dataclass(frozen=True)
class SameEnd:
    """Both within what is asked, at the same end of it."""

    label: str
    end: Literal["low", "high"]
    sire: str
    dam: str


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
    remarks: tuple[str, ...]
    cautions: tuple[str, ...] = CAUTIONS

    def as_json(self) -> dict[str, Any]:
        """The pairing as JSON."""

        def sided(rows: Iterable[OneSided]) -> list[dict[str, Any]]:
            return [
                {
                    "id": one.fault,
                    "label": one.label,
                    "region": one.region,
                    "in": one.parent,
                    "words": one.words,
                    "other": one.other,
                }
                for one in rows
            ]

        return {
            "sire": self.sire.dog,
            "dam": self.dam.dog,
            "shared": [
                {
                    "ids": list(one.faults),
                    "label": one.label,
                    "region": one.region,
                    "sire": one.sire,
                    "dam": one.dam,
                    "adds_up": one.adds_up,
                }
                for one in self.shared
            ],
            "mended": sided(self.mended),
            "opposite": sided(self.opposite),
            "open": sided(self.open),
            "same_end": [
                {"label": one.label, "end": one.end, "sire": one.sire, "dam": one.dam}
                for one in self.same_end
            ],
            "remarks": list(self.remarks),
            "cautions": list(self.cautions),
        }


def pairing(first: Examined, second: Examined) -> Pairing:
    """Hold a dog and a bitch against each other, in either order; a sex that does not fit is remarked on."""
    turned = (_sex(first) == "female" != _sex(second)) or (_sex(second) == "male" != _sex(first))
    sire, dam = (second, first) if turned else (first, second)
    found = findings_of((sire, dam))
    shared = [_shared(held, (sire, dam)) for held in (*found.shared, *_both(found.by_edition))]
    mended: list[OneSided] = []
    opposite: list[OneSided] = []
    left_open: list[OneSided] = []
    same_way: dict[str, SharedFault] = {}
    for held in (*found.only, *(one for one in found.by_edition if len(one.sessions) == 1)):
        place = held.sessions[0]
        has, other = (sire, dam) if place == 0 else (dam, sire)
        finding = held.of[0][1]
        kind, words = _other_side(finding, other)
        row = OneSided(
            "sire" if place == 0 else "dam", held.id, held.label, held.region, _words(finding), words
        )
        if kind == "same-way":
            both = (_words(finding), words) if place == 0 else (words, _words(finding))
            label = has.label(finding.points[0])
            faults = same_way[label].faults if label in same_way else ()
            same_way[label] = SharedFault(
                label, held.region, *both, tuple(dict.fromkeys((*faults, held.id))), _beyond(finding)
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
        tuple(_same_ends(sire, dam)),
        _remarks(sire, dam),
    )


def _sex(one: Examined) -> str:
    return one.session.dog.sex or ""


def _both(rows: Iterable[Held]) -> Iterable[Held]:
    return (one for one in rows if len(one.sessions) == 2)


def _shared(held: Held, pair: tuple[Examined, Examined]) -> SharedFault:
    words = ["; ".join(_words(one) for place, one in held.of if place == parent) for parent in (0, 1)]
    beyond = [any(_beyond(one) for place, one in held.of if place == parent) for parent in (0, 1)]
    out = any(_disqualifies(pair[place], one) for place, one in held.of)
    return SharedFault(held.label, held.region, words[0], words[1], (held.id,), all(beyond) or out)


def _disqualifies(one: Examined, finding: Finding) -> bool:
    known = one.ruleset.classes.get(finding.cls or "")
    return known is not None and known.disqualifies


def _beyond(finding: Finding) -> bool:
    """Beyond slight; a fault without degrees counts as such."""
    return finding.degree is None or finding.degree != DEGREES[0]


def _words(finding: Finding) -> str:
    parts = [finding.label, finding.detail or "", finding.degree or "", finding.side or ""]
    parts += ["unsure"] if finding.status == "unsure" else []
    parts += ["too young to judge"] if finding.too_young else []
    return ", ".join(filter(None, parts))


Kind = Literal["mended", "opposite", "open", "same-way"]


def _other_side(finding: Finding, other: Examined) -> tuple[Kind, str]:
    """What the other parent is where this one has a fault."""
    known = other.ruleset.faults.get(finding.id)
    opposites = set(known.opposite) if known is not None else set()
    for one in other.evaluation.findings:
        if one.id in opposites and one.status != "absent" and one.decision != "dismiss":
            return "opposite", _words(one)
    ruled_out = any(one.id == finding.id and one.status == "absent" for one in other.evaluation.allowed)
    if ruled_out:
        return "mended", "looked for and ruled out"
    limits = _limits_kept(finding, other)
    if limits:
        return (
            ("mended", limits[0].sentence)
            if all(_kept(one) for one in limits)
            else ("open", limits[0].sentence)
        )
    answers = [
        (point, answer_at(other, other.ruleset.points[point]))
        for point in finding.points
        if point in other.ruleset.points
    ]
    given = [(point, answer) for point, answer in answers if answer.given]
    if not given:
        return "open", "not examined there"
    point, answer = given[0]
    if answer.value is not None:
        return "open", answer.words
    if answer.unsure or answer.too_young:
        return "open", f"{answer.words}; {answer.too_young}" if answer.too_young else answer.words
    if not answer.faults:
        return "mended", answer.words
    return _way(finding, answer, other, point), answer.words


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
    """For a measured fault: the other parent's limits that name it and were held against it."""
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
            yield SameEnd(rule.label, end, rule.sentence, ends[1][name][0].sentence)


def _end(rule: RuleResult) -> Literal["low", "high"] | None:
    if rule.value is None or rule.low is None or rule.high is None or rule.optional:
        return None
    if rule.verdict not in ("inside", "undecided") or rule.high <= rule.low:
        return None
    share = (rule.value - rule.low) / (rule.high - rule.low)
    if share <= _END:
        return "low"
    return "high" if share >= 1 - _END else None


def _remarks(sire: Examined, dam: Examined) -> tuple[str, ...]:
    remarks = []
    if same_dog(sire, dam):
        remarks.append("Both files speak of the same dog.")
    for one, name, wanted in ((sire, "sire", "male"), (dam, "dam", "female")):
        if _sex(one) != wanted:
            found = _sex(one) or "not known"
            remarks.append(f"{one.dog} stands here as the {name}; the sex in its file is {found}.")
        young = sum(finding.too_young for finding in one.evaluation.findings)
        if young or (one.age is not None and one.age < 12):
            remarks.append(f"{one.dog} was examined at {one.age_words}: too young for some of this.")
    if not one_edition((sire, dam)):
        remarks.append("Held under different editions: what one calls a fault the other may not.")
    return tuple(remarks)
