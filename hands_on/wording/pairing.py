"""Sire and dam in words. Pure, and unwrapped."""

from __future__ import annotations

from collections.abc import Iterator

from hands_on.compare.answer import Answer
from hands_on.compare.dogs.pairing import OneSided, Pairing, PairingRemark, SameEnd, SharedFault, Shown
from hands_on.compare.examined import Examined
from hands_on.evaluate.result import Finding, RuleResult
from hands_on.ruleset.dentition import place_name
from hands_on.wording.ages import age_words, too_young_words
from hands_on.wording.answers import answer_words
from hands_on.wording.labels import label_words
from hands_on.wording.rules import rule_sentence

__all__ = [
    "CAUTIONS",
    "finding_words",
    "pairing_remarks",
    "same_end_sentences",
    "same_end_words",
    "shared_words",
    "shown_words",
    "sided_parts",
    "sided_sentence",
    "sided_words",
]

CAUTIONS = (
    "Conformation is not genetics: what a dog shows is not what it passes on, and most of it depends on many "
    "genes (common practice).",
    "A fault in one parent is not surely mended by the other, and opposite extremes do not meet in the "
    "middle (common practice).",
    "This is no health test. Joints, eyes, heart, inherited disease and how near the two are related are for "
    "a veterinarian, the tests of the breed and the pedigree.",
)
"""Said with every pairing."""


def finding_words(finding: Finding, *, named: bool = True) -> str:
    """A parent's fault, its degree and side; without its name where that stands beside it."""
    teeth = ", ".join(f"{tooth} {place_name(tooth)}" for tooth in finding.teeth)
    parts = [
        label_words(finding.named) if named else "",
        (finding.detail or "").replace("-", " "),
        teeth,
        finding.degree or "",
    ]
    parts.append(finding.side or "")
    parts += ["unsure"] if finding.status == "unsure" else []
    parts += ["too young to judge"] if finding.too_young else []
    return ", ".join(filter(None, parts))


def shown_words(shown: Shown, one: Examined) -> str:
    """What parent `one` shows where the other has a fault."""
    if isinstance(shown, Finding):
        return finding_words(shown)
    if isinstance(shown, RuleResult):
        return rule_sentence(one.evaluation, shown)
    if isinstance(shown, Answer):
        # How far a measurement can be judged at that age is said where it is judged.
        told = answer_words(shown, one.ruleset)
        if shown.too_young is None or shown.value is not None:
            return told
        return "; ".join(filter(None, (told, too_young_words(shown.too_young))))
    return "looked for and ruled out" if shown == "ruled-out" else "not examined there"


def shared_words(shared: SharedFault, found: Pairing) -> tuple[str, str]:
    """A fault that both have: how it is in the sire, and in the dam."""
    sire = "; ".join(shown_words(one, found.sire) for one in shared.sire)
    return sire, "; ".join(shown_words(one, found.dam) for one in shared.dam)


def sided_words(one: OneSided, found: Pairing, *, named: bool = True) -> tuple[str, str]:
    """A fault of one parent, and what the other shows there."""
    other = found.dam if one.parent == "sire" else found.sire
    return finding_words(one.finding, named=named), shown_words(one.other, other)


def sided_sentence(one: OneSided, found: Pairing) -> str:
    """A fault in one parent and what the other is there."""
    own, other = sided_words(one, found)
    return f"{own} in the {one.parent}; {'dam' if one.parent == 'sire' else 'sire'}: {other}"


def sided_parts(found: Pairing) -> tuple[tuple[str, tuple[OneSided, ...]], ...]:
    """The faults that one parent has, by what the other is there, each with its title."""
    return (
        ("One mends the other", found.mended),
        ("Opposite extremes", found.opposite),
        ("Not known of the other", found.open),
    )


def same_end_words(one: SameEnd, found: Pairing) -> tuple[str, str]:
    """How a value lies in the sire, and in the dam."""
    sire = rule_sentence(found.sire.evaluation, one.sire)
    return sire, rule_sentence(found.dam.evaluation, one.dam)


def same_end_sentences(found: Pairing) -> Iterator[str]:
    """Values at the same end of what is asked."""
    for one in found.same_end:
        sire, dam = same_end_words(one, found)
        ends = f"sire {sire}; dam {dam}"
        yield f"{label_words(one.named)}: both at the {one.end} end of what is asked: {ends}"


def pairing_remarks(found: Pairing) -> tuple[str, ...]:
    """What must be borne in mind of this pairing."""
    return tuple(map(_remark, found.remarks))


def _remark(remark: PairingRemark) -> str:
    one = remark.one
    if remark.kind == "sex" and one is not None:
        sex = one.session.dog.sex or "not known"
        return f"{one.dog} stands here as the {remark.parent}; the sex in its file is {sex}."
    if remark.kind == "young" and one is not None:
        return f"{one.dog} was examined at {age_words(one.age)}: too young for some of this."
    if remark.kind == "same-dog":
        return "Both files speak of the same dog."
    return "Held under different editions: what one calls a fault the other may not."
