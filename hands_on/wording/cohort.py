"""A cohort in words: what the command prints and the screen shows. Pure, and unwrapped."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from hands_on.compare.cohort.cohort import Cohort, Frequency, Spread
from hands_on.compare.cohort.members import Wanted
from hands_on.compare.cohort.shares import FEW, Share
from hands_on.compare.cohort.trends import LEAST_DOGS, LEAST_YEARS, Trend
from hands_on.measure.units import format_value, quantity_of
from hands_on.wording.dogs import percent
from hands_on.wording.labels import label_words

__all__ = [
    "FAULTS_HEAD",
    "FAULTS_NOTE",
    "SIZES_HEAD",
    "SIZES_NOTE",
    "about_sentences",
    "asked_stretch",
    "frequency_cells",
    "share_words",
    "spread_cells",
    "trend_sentences",
    "wanted_words",
]

FAULTS_NOTE = (
    "Of the dogs in which it was looked for and which were old enough; in brackets the 95 % interval."
)
FAULTS_HEAD = ("Fault", "How often", "Degrees", "Classes")
SIZES_NOTE = (
    "Mean with its 95 % interval, spread (standard deviation between the dogs), least and most, what is "
    "asked and how many lie outside."
)
SIZES_HEAD = ("Measurement", "Mean, spread", "From, to", "Asked")
"""What the cells of `frequency_cells` and `spread_cells` are."""

_SEXES = {"male": "dogs", "female": "bitches"}
_ONE = {"dogs": "dog", "bitches": "bitch"}


def wanted_words(wanted: Wanted) -> str:
    """Which dogs are meant."""
    parts = [
        f"litter {wanted.litter}" if wanted.litter else "",
        f"sire {wanted.sire}" if wanted.sire else "",
        f"dam {wanted.dam}" if wanted.dam else "",
        f"registered name with {wanted.kennel}" if wanted.kennel else "",
        _born(wanted),
        f"examined by {wanted.evaluator}" if wanted.evaluator else "",
        f"breed {wanted.breed}" if wanted.breed else "",
        f"under {wanted.edition}" if wanted.edition else "",
        _SEXES.get(wanted.sex or "", ""),
    ]
    return ", ".join(filter(None, parts)) or "all dogs"


def _many(count: int, word: str) -> str:
    return f"{count} {_ONE[word] if count == 1 else word}"


def _born(wanted: Wanted) -> str:
    if wanted.born_from is None and wanted.born_to is None:
        return ""
    if wanted.born_from == wanted.born_to:
        return f"born {wanted.born_from}"
    return f"born {wanted.born_from or '...'} to {wanted.born_to or '...'}"


def about_sentences(found: Cohort) -> Iterator[str]:
    """How many dogs, and what must be borne in mind."""
    dogs = len(found.members)
    sexes = [_many(sum(one.sex == sex for one in found.members), word) for sex, word in _SEXES.items()]
    yield f"{dogs} dog{'' if dogs == 1 else 's'} ({', '.join(sexes)}): {wanted_words(found.wanted)}."
    if dogs < FEW:
        yield f"Fewer than {FEW} dogs: this says little of others; the intervals say how little."
    elif any(one.share.n < FEW for one in found.frequencies):
        yield f"Some faults were looked for in fewer than {FEW} dogs: their shares say little of others."
    if found.left_out:
        more = (
            "examination of the same dogs does" if found.left_out == 1 else "examinations of the same dogs do"
        )
        yield f"{found.left_out} further {more} not count: a dog counts once."
    unsigned = sum(not one.signed for one in found.members)
    if unsigned:
        yield f"{unsigned} of these examinations {'is' if unsigned == 1 else 'are'} not signed."
    editions = sorted({one.edition for one in found.members})
    if len(editions) > 1:
        yield f"Held under several editions ({', '.join(editions)}): classes differ between them."
    evaluators = {one.evaluator.casefold() for one in found.members}
    if len(evaluators) > 1:
        yield f"Examined by {len(evaluators)} evaluators: what differs may be between the hands."


def share_words(share: Share) -> str:
    """`3 of 9, 33 % [12 to 65 %]`."""
    if not share.n:
        return "nobody looked"
    ends = f"[{100 * share.low:.0f} to {100 * share.high:.0f} %]"
    return f"{share.count} of {share.n}, {percent(share.value)} {ends}"


def frequency_cells(one: Frequency, labels: Mapping[str, str]) -> tuple[str, str, str, str]:
    """Fault, how often, degrees, classes; `labels` names the classes."""
    degrees = ", ".join(f"{count} {name or 'degree not said'}" for name, count in one.degrees.items())
    classes = ", ".join(
        f"{count} {labels.get(name, name or 'no class')}" for name, count in one.classes.items()
    )
    young = f"; {one.too_young} too young to judge" if one.too_young else ""
    return label_words(one.named), share_words(one.share) + young, degrees, classes


def spread_cells(one: Spread) -> tuple[str, str, str, str]:
    """Measurement and sex, mean and spread, ends, what is asked and how many lie outside."""
    sex = _SEXES.get(one.sex or "", "sex not known")
    digits = 3 if one.unit == "share" else 1
    counted = 0 if quantity_of(one.unit) == "count" else digits
    mean = format_value(one.mean, one.unit, digits)
    spread = f", spread {format_value(one.sd, one.unit, digits)}" if one.sd is not None else ""
    interval = f" [{one.low:.{digits}f} to {one.high:.{digits}f}]" if one.low is not None else ""
    told = f"{mean}{interval}{spread}"
    ends = f"{one.least:.{counted}f} to {format_value(one.most, one.unit, counted)}"
    if one.least == one.most:
        ends = format_value(one.most, one.unit, counted)
        told = f"{ends} in each" if one.n > 1 else ends
    asked = [asked_stretch(one)]
    if one.outside is not None:
        asked.append(f"outside {share_words(one.outside)}")
    dogs = _many(one.n, sex) if sex in _ONE else f"{one.n}, {sex}"
    return f"{label_words(one.named)}, {dogs}", told, ends, "; ".join(filter(None, asked))


def asked_stretch(one: Spread) -> str:
    """What is asked of all of them alike; empty where it differs or nothing is."""
    if one.asked is None:
        return ""
    low, high = one.asked
    unit = "" if one.unit == "share" else f" {one.unit}"
    if low is None:
        return f"asked up to {high:g}{unit}" if high is not None else ""
    return f"asked {low:g}{unit} and more" if high is None else f"asked {low:g} to {high:g}{unit}"


def trend_sentences(found: Cohort) -> Iterator[str]:
    """What moves over the years, and what cannot be told."""
    told = [one for one in found.trends if one.clear]
    for one in told:
        yield f"{_about(one)} {_moves(one)} a year of birth, over {one.n} dogs born in {one.years} years."
    tested = sum(one.p is not None for one in found.trends)
    if not tested:
        least = f"{LEAST_DOGS} born in {LEAST_YEARS} years at least"
        yield f"Too few dogs for a trend over years of birth: {least}."
    elif not told:
        yield f"Nothing moves over the years of birth by more than chance gives ({tested} looked at)."
    drifting = [one for one in found.drift if one.clear]
    for one in drifting:
        yield (
            f"{one.about} {_moves(one)} a graded point and year of examination, over {one.n} examinations: "
            "the dogs may have changed, or the eye."
        )
    if found.drift and not drifting:
        looked = sum(one.p is not None for one in found.drift)
        yield (
            "No evaluator grades otherwise over the years than chance gives."
            if looked
            else "Too few examinations to tell whether an evaluator's grading drifts."
        )


def _about(one: Trend) -> str:
    if one.kind == "graded":
        return "The dogs' distance from as asked"
    return f"{label_words(one.named)} of {_SEXES.get(one.sex or '', 'dogs')}"


def _moves(one: Trend) -> str:
    value = one.slope or 0.0
    if one.kind == "evaluator":
        way = "graded farther from as asked by" if value > 0 else "graded nearer to as asked by"
    else:
        way = "rises by" if value > 0 else "falls by"
    digits = 3 if one.unit in ("share", "degree") else 2
    unit = " degrees" if one.unit == "degree" else "" if one.unit == "share" else f" {one.unit}"
    low, high = sorted((abs(one.low or 0.0), abs(one.high or 0.0)))
    return f"{way} {abs(value):.{digits}f} [{low:.{digits}f} to {high:.{digits}f}]{unit}"
