"""Limits: what they measure is asked, their bands cover the number line, their classes exist."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from hands_on.measure.units import canonical_unit, convert
from hands_on.ruleset.base import NO_CLASS
from hands_on.ruleset.checks.cover import Stretch, ends, joins
from hands_on.ruleset.checks.known import Known
from hands_on.ruleset.checks.values import RATIO, check_value
from hands_on.ruleset.files import EditionFile
from hands_on.ruleset.points import QUANTITY_UNITS
from hands_on.ruleset.rules import Attribute, Limit, Range, WalkPlan
from hands_on.toml_text.explain import listed
from hands_on.toml_text.lines import Path
from hands_on.toml_text.report import Report

__all__ = ["check_limits", "check_walk"]


def check_limits(report: Report, own: EditionFile, edition: EditionFile, known: Known) -> None:
    """The file's own limits; `edition` is the same with what it builds on."""
    classes = [entry.id for entry in edition.classes]
    report.unique(((("limits", n, "id"), limit.id) for n, limit in enumerate(own.limits)), "limit")
    for index, limit in enumerate(own.limits):
        path: Path = ("limits", index)
        quantity = check_value(report, path, limit, known)
        _check_asked_for(report, path, limit, edition, known)
        _check_unit(report, path, limit, quantity)
        _check_bands(report, path, limit, classes, edition.attributes, known)
        _check_cover(report, path, limit, quantity, known)
        _check_reach(report, path, limit, known)
        _check_single(report, path, limit, quantity)
    _check_once(report, own.limits)
    _check_sexes(report, own.limits, edition.limits, known)


def _check_asked_for(report: Report, path: Path, limit: Limit, edition: EditionFile, known: Known) -> None:
    """What a limit needs must be measured, in the walk or behind a choice, and not be what is silent."""
    walk = edition.walk
    silent = {name: silence.about for silence in edition.silent for name in silence.points}
    for name, where in _members(limit, path):
        if name in silent:
            report.error(
                where,
                f'the edition is silent on "{name}" ([[silent]], {silent[name]}), yet here is a limit on it.',
                "no limit on it, or no [[silent]] entry for it.",
            )
        elif name in known.called_for:
            continue  # no gap is measured where there is none
        elif name not in walk.measures and not (limit.optional and name in walk.offer):
            offered = name in walk.offer
            report.error(
                where,
                f'"{name}" is {"only offered, never judged" if offered else "not asked in the walk"}, '
                f'so the limit "{limit.id}" can never be judged.',
                f'"{name}" in [walk] measures{" instead of offer" if offered else ""}, or no such limit.',
            )


def _members(limit: Limit, path: Path) -> Iterator[tuple[str, Path]]:
    for name in limit.measures:
        yield name, (*path, limit.kind)


def _check_unit(report: Report, path: Path, limit: Limit, quantity: str | None) -> None:
    if limit.unit is None or quantity is None:
        return
    if quantity == RATIO:
        report.error((*path, "unit"), "a ratio has no unit.", "the line left out.")
        return
    fitting = next((units for name, units in QUANTITY_UNITS.items() if name == quantity), ())
    if limit.unit not in fitting:
        what = f'"{limit.unit}" does not measure {quantity}.'
        report.error((*path, "unit"), what, listed(f'"{unit}"' for unit in fitting) + ".")


def _check_bands(
    report: Report,
    path: Path,
    limit: Limit,
    classes: Sequence[str],
    attributes: dict[str, Attribute],
    known: Known,
) -> None:
    options = _sorted_into(report, path, limit, attributes)
    for n, band in enumerate(limit.bands):
        where = (*path, "bands", n)
        if band.fault is not None:
            report.expect((*where, "fault"), band.fault, known.faults, "fault")
        for place, detail in enumerate(band.detail):
            at = (*where, "detail", place) if len(band.detail) > 1 else (*where, "detail")
            about, details = band.fault or "no fault", known.details([band.fault or ""])
            none = f"the line left out: no answer names {about} with a detail."
            report.expect(at, detail, details, f"detail of {about}", "" if details else none)
        if band.class_ is not None:
            report.expect((*where, "class"), band.class_, [*classes, *NO_CLASS], "class")
        if limit.classifies is None and band.value is not None:
            report.error(
                (*where, "value"),
                "a band names a value, but the limit does not sort.",
                'classifies = "..." on the limit, or no value here.',
            )
        elif limit.classifies is not None and band.value is None and band.fault is None:
            right = 'value = "...", or fault = "..." where the stretch fits none of the values.'
            report.error(where, "a band without a value in a limit that sorts.", right)
        elif band.value is not None and options:
            report.expect((*where, "value"), band.value, options, f"value of {limit.classifies}")
        says = band.fault or band.class_ or band.label or band.note or band.value or band.tolerated
        if not says:
            report.error(
                where,
                "this band says nothing of what lies in it.",
                'fault = "...", class = "...", tolerated = true or at least a label.',
            )


def _sorted_into(report: Report, path: Path, limit: Limit, attributes: dict[str, Attribute]) -> Iterable[str]:
    if limit.classifies is None:
        return ()
    if not report.expect((*path, "classifies"), limit.classifies, attributes, "attribute"):
        return ()
    attribute = attributes[limit.classifies]
    if not attribute.derived:
        report.error(
            (*path, "classifies"),
            f"the limit finds out the {limit.classifies}, yet the user is asked for it as well.",
            f"derived = true in [attributes.{limit.classifies}].",
        )
    return attribute.options


def _check_cover(report: Report, path: Path, limit: Limit, quantity: str | None, known: Known) -> None:
    stretches = [Stretch((*path, "bands", n), f"bands[{n + 1}]", band) for n, band in enumerate(limit.bands)]
    if limit.asked is not None:
        stretches.append(Stretch((*path, "asked"), "asked", limit.asked))
    if not limit.bands:
        if not (limit.ideal or limit.about or limit.optional or limit.words or limit.reading or limit.note):
            report.warn(
                (*path, "asked"),
                "nothing is said of what lies outside.",
                "bands = [...], or a note that the standard leaves it open.",
            )
        return
    flaws = list(joins(stretches))
    if limit.classifies is None:
        flaws += ends(stretches, _floor(limit, quantity, known))
    for flaw in flaws:
        report.error(flaw.path, flaw.what, flaw.right)


def _floor(limit: Limit, quantity: str | None, known: Known) -> float:
    """Below this nothing can lie: 0, save for signed quantities."""
    if limit.difference is not None or quantity is None:
        return -math.inf
    signed = any(known.measures[name].plausible[0] < 0 for name in limit.measures if name in known.measures)
    return -math.inf if signed else 0.0


def _check_reach(report: Report, path: Path, limit: Limit, known: Known) -> None:
    """A figure that no reading can reach is a slip of the pen: 630 cm, 6.3 cm."""
    point = known.measures.get(limit.measure or "")
    if point is None or (limit.unit is not None and limit.unit not in QUANTITY_UNITS[point.quantity]):
        return
    unit = limit.unit or canonical_unit(point.quantity)
    low, high = point.plausible
    for where, stretch in _ranges(limit, path):
        for key, end in _written_ends(stretch):
            figure = convert(end, unit, point.unit)
            if not low <= figure <= high:
                report.error(
                    (*where, key),
                    f"{end:g} {unit} is no possible {point.label.lower()}: readings lie between "
                    f"{low:g} and {high:g} {point.unit}.",
                    "the figure of the standard, in the limit's unit, with a point for the decimals.",
                )


def _check_single(report: Report, path: Path, limit: Limit, quantity: str | None) -> None:
    """A single figure is met by no reading: it is a target, and needs the width that still meets it.

    Under any uncertainty the probability of lying on one point of the line is zero (JCGM 106:2012, 7.4),
    so every dog would depart. Teeth are counted, and may be asked for by one number.
    """
    if quantity is None or quantity == "count":
        return
    for where, stretch in _ranges(limit, path):
        if stretch.low == stretch.high:
            report.error(
                where,
                f"{stretch.low:g} alone: no reading lies on a single figure, so every dog would depart.",
                'the width that still meets it: for "about 42" for instance asked = { from = 38, to = 46 }, '
                'about = true, and the width told in `reading`; `source` then names "reading" too.',
            )


def _ranges(limit: Limit, path: Path) -> Iterator[tuple[Path, Range]]:
    if limit.asked is not None:
        yield (*path, "asked"), limit.asked
    for n, band in enumerate(limit.bands):
        yield (*path, "bands", n), band


def _written_ends(stretch: Range) -> Iterator[tuple[str, float]]:
    pairs = (("from", stretch.from_), ("above", stretch.above), ("to", stretch.to), ("below", stretch.below))
    for key, end in pairs:
        if end is not None and end != 0:
            yield key, end


def _check_once(report: Report, limits: Sequence[Limit]) -> None:
    """The same number under the same condition is limited once."""
    seen: dict[tuple[str, str], str] = {}
    for index, limit in enumerate(limits):
        if limit.ideal or limit.optional or limit.classifies is not None:
            continue
        when = limit.when.model_dump_json(exclude_defaults=True) if limit.when else ""
        key = (limit.name, f"{when} {limit.from_age}")
        if key in seen:
            report.error(
                ("limits", index),
                f'"{limit.id}" and "{seen[key]}" both limit {limit.name} under the same condition.',
                "one limit with all bands, or another `when`.",
            )
        seen.setdefault(key, limit.id)


def _check_sexes(report: Report, own: Sequence[Limit], all_limits: Sequence[Limit], known: Known) -> None:
    """A limit for one sex only, where nothing is said of the other, is often a forgotten one."""
    for index, limit in enumerate(own):
        sex = limit.when.sex if limit.when else None
        if sex is None or any(known.points[name].only_sex for name in limit.measures if name in known.points):
            continue
        other = "female" if sex == "male" else "male"
        judging = [entry for entry in all_limits if entry.classifies is None]
        same = [entry for entry in judging if entry.name == limit.name and entry is not limit]
        sexes = [entry.when.sex if entry.when else None for entry in same]
        if None not in sexes and other not in sexes and not limit.reading:  # a reading says why
            report.warn(
                ("limits", index, "when"),
                f"{limit.name} is limited for the {sex} only; the {other} has no limit.",
                f'a limit with when = {{ sex = "{other}" }}, or no sex in `when` if it holds for both.',
            )


def check_walk(report: Report, own: EditionFile, known: Known) -> None:
    """The points the walk asks, offers and leaves out; what the edition is silent on."""
    walk: WalkPlan = own.walk
    for key in ("measures", "offer"):
        names: tuple[str, ...] = getattr(walk, key)
        report.unique(((("walk", key, n), name) for n, name in enumerate(names)), "measurement")
        for n, name in enumerate(names):
            path: Path = ("walk", key, n)
            if name in known.points and name not in known.measures:
                what = f'"{name}" is not measured: {known.points[name].kind} points are asked in any case.'
                report.error(path, what, "the line left out; leave_out takes a point away.")
            else:
                report.expect(path, name, known.measures, "measurement")
            if key == "offer" and name in walk.measures:
                report.error(path, f'"{name}" is in measures as well.', "one of the two.")
    for n, name in enumerate(walk.leave_out):
        report.expect(("walk", "leave_out", n), name, known.points, "point")
        if name in walk.measures:
            what = f'"{name}" is asked (measures) and left out.'
            report.error(("walk", "leave_out", n), what, "one of the two.")
    _check_asked_of_some(report, own, known)
    for index, silence in enumerate(own.silent):
        for n, name in enumerate(silence.points):
            where: Path = ("silent", index, "points", n)
            report.expect(where, name, known.points, "point")
            if name in walk.measures:
                what = f'the edition is silent on "{name}", yet the walk asks it.'
                report.error(where, what, f'"{name}" out of [walk] measures, or this entry left out.')


def _check_asked_of_some(report: Report, own: EditionFile, known: Known) -> None:
    """Points that are asked of some dogs only must be asked at all."""
    walk, silent = own.walk, {name for silence in own.silent for name in silence.points}
    for name in walk.when:
        path: Path = ("walk", "when", name)
        if not report.expect(path, name, known.points, "point"):
            continue
        away = name in walk.leave_out or (name in silent and name not in walk.offer)
        if away or (name in known.measures and name not in (*walk.measures, *walk.offer)):
            what = f'"{name}" is asked of no dog, so a condition on it says nothing.'
            asked = f'"{name}" in [walk] measures' if name in known.measures else "no leave_out or [[silent]]"
            report.error(path, what, f"{asked}, or no condition.")
