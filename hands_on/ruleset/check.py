"""Is a ruleset sound? Texts in, problems out; each says where, what is wrong and what would be right."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from functools import lru_cache
from pathlib import PurePath

from hands_on.ruleset.assemble import assemble, read_common_file, read_edition_file
from hands_on.ruleset.checks.classing import (
    check_classes,
    check_follows,
    check_named_points,
    check_outcome_sets,
    check_outcomes,
    check_placing,
    check_rulings,
    check_teeth,
)
from hands_on.ruleset.checks.conditions import check_conditions, check_switches
from hands_on.ruleset.checks.figure import check_figure, check_settings
from hands_on.ruleset.checks.known import Known
from hands_on.ruleset.checks.landmarks import check_landmarks
from hands_on.ruleset.checks.languages import check_languages
from hands_on.ruleset.checks.limits import check_limits, check_walk
from hands_on.ruleset.checks.points import check_faults, check_points, check_seen
from hands_on.ruleset.checks.sources import check_one_meaning, check_sources
from hands_on.ruleset.checks.together import check_together
from hands_on.ruleset.checks.values import check_closures, check_derived, check_fences
from hands_on.ruleset.checks.walks import check_walks
from hands_on.ruleset.checks.wording import Wordings
from hands_on.ruleset.files import CommonFile, EditionFile
from hands_on.ruleset.points import Point
from hands_on.ruleset.ruleset import Common
from hands_on.ruleset.walks import WalksFile
from hands_on.toml_text.parse import validate
from hands_on.toml_text.problems import BadText, Problem
from hands_on.toml_text.report import Report
from hands_on.toml_text.tables import parse_tables

__all__ = ["check_common", "check_edition", "check_own_walks"]

COMMON = "common"
"""What an edition builds on when it builds on no other edition."""

_UNASKED = "not asked for"
"""Instead of a digest, which no check looks at."""

Resolve = Callable[[str], EditionFile | None]
"""Gives the edition of an id, None when it is not here; may raise BadText when it can't be read."""


def check_edition(text: str, file: str, common: Common, resolve: Resolve) -> list[Problem]:
    """All that is wrong in an edition's file, in the order of the file."""
    try:
        own = read_edition_file(text, file)
    except BadText as bad:
        return bad.problems
    report = Report(file, text)
    stem = PurePath(file).stem
    if own.id != stem:
        report.error(
            ("id",),
            f'the id is "{own.id}", the file is called {stem}.',
            f'id = "{stem}", or the file called {own.id}.toml.',
        )
    chain = _chain(report, own, resolve)
    if chain is None:
        return report.sorted()
    rules = assemble(chain, common, _UNASKED)
    older = assemble(chain[:-1], common, _UNASKED) if len(chain) > 1 else None
    known = Known.of(rules)
    edition = rules.edition
    foreign = {**common.sources}
    keys = {key for entry in chain for key in entry.sources}
    check_sources(report, own, keys, foreign)
    check_one_meaning(report, own.sources, {"the common files": foreign})
    report.unique(((("points", n, "id"), point.id) for n, point in enumerate(own.points)), "point")
    check_points(report, own.points, None, known)
    check_faults(report, own.faults, known)
    check_seen(report, own.seen, known)
    check_landmarks(report, own.landmarks, own.points, known)
    check_settings(report, own.figure, rules.figure)
    check_derived(report, own.derived, known)
    check_together(report, own.together, known)
    check_walk(report, own, known)
    check_walks(report, own.walks, known)
    check_classes(report, own, edition)
    check_limits(report, own, edition, known)
    check_rulings(report, own, edition, known)
    check_follows(report, own, edition, known)
    check_placing(report, own, edition)
    check_teeth(report, own, edition)
    check_outcomes(report, own, edition, known, common.outcome_sets)
    check_named_points(report, own, edition, known)
    check_conditions(report, own, edition, known)
    check_languages(report, own, edition, known)
    check_switches(report, own, edition)
    _check_dropped(report, own, chain)
    before = Known.of(older) if older else known_of(common)
    wordings = Wordings(before, "the files it builds on")
    wordings.check_file(report, own.points, own.faults, own.wording, known)
    return report.sorted()


def check_own_walks(text: str, file: str, common: Common, points: Iterable[Point]) -> list[Problem]:
    """All that is wrong in a file of the user's own walks; `points` are those of editions, beside common's.

    Raises BadText for a file that cannot be read as one.
    """
    own = validate(WalksFile, parse_tables(text, file), text, file)
    report = Report(file, text)
    known = known_of(common)
    known = replace(known, points={**known.points, **{point.id: point for point in points}})
    check_walks(report, own.walks, known)
    check_sources(report, own, set(own.sources), common.sources)
    return report.sorted()


def _chain(report: Report, own: EditionFile, resolve: Resolve) -> list[EditionFile] | None:
    """The edition and all it builds on, the oldest first; None, and a problem, when that fails."""
    chain = [own]
    while chain[0].builds_on != COMMON:
        wanted = chain[0].builds_on
        path = [entry.id for entry in reversed(chain)]
        if wanted in path:
            ring = " builds on ".join([*path[path.index(wanted) :], wanted])
            what = f"the edition builds on itself: {ring}."
            report.error(
                ("builds_on",), what, 'builds_on = "common", or an edition that does not need this one.'
            )
            return None
        try:
            older = resolve(wanted)
        except BadText as bad:
            what = f'"{wanted}" cannot be read: {bad.problems[0]}'
            report.error(("builds_on",), what, "that file mended first.")
            return None
        if older is None:
            report.error(
                ("builds_on",),
                f'there is no edition "{wanted}" here.',
                'builds_on = "common", or the id of an edition in the same folder.',
            )
            return None
        chain.insert(0, older)
    return chain


def _check_dropped(report: Report, own: EditionFile, chain: list[EditionFile]) -> None:
    older = [limit.id for entry in chain[:-1] for limit in entry.limits]
    for n, name in enumerate(own.drop.limits):
        report.expect(("drop", "limits", n), name, older, "limit in what this edition builds on")


@lru_cache(maxsize=4)
def known_of(common: Common) -> Known:
    """What common alone knows."""
    regions = tuple(region.id for region in common.regions)
    return Known(regions, common.points, common.faults, frozenset(common.derived), common.landmarks)


def check_common(texts: Mapping[str, str]) -> list[Problem]:
    """All that is wrong in the files of `common/`, given as name -> text."""
    files: dict[str, CommonFile] = {}
    problems: list[Problem] = []
    for name, text in texts.items():
        try:
            files[name] = read_common_file(text, name)
        except BadText as bad:
            problems += bad.problems
    reports = {name: Report(name, texts[name]) for name in files}
    _check_order(files, reports, complete=not problems)
    _check_once(files, reports)
    if problems:  # what a broken file holds is unknown, so nothing may be called unknown
        return problems + [found for report in reports.values() for found in report.sorted()]
    known = Known(
        tuple(file.region.id for file in files.values() if file.region),
        {point.id: point for file in files.values() for point in file.points},
        {fault: words for file in files.values() for fault, words in file.faults.items()},
        frozenset(entry.id for file in files.values() for entry in file.derived),
        {entry.id: entry for file in files.values() for entry in file.landmarks},
    )
    wordings = Wordings()
    for name, file in files.items():
        report = reports[name]
        region = file.region.id if file.region else None
        others = {other: entry.sources for other, entry in files.items() if other != name}
        foreign = {key for table in others.values() for key in table}
        check_sources(report, file, file.sources, foreign)
        check_one_meaning(report, file.sources, others)
        check_points(report, file.points, region, known)
        check_faults(report, file.faults, known)
        check_landmarks(report, file.landmarks, file.points, known)
        if file.figure is not None:
            check_figure(report, file.figure, known)
        check_derived(report, file.derived, known)
        check_closures(report, file.closures, known)
        check_fences(report, file.fences, known)
        check_together(report, file.together, known)
        check_walks(report, file.walks, known)
        check_outcome_sets(report, file.outcome_sets)
        _check_way(report, file, known)
        wordings.check_file(report, file.points, file.faults, {}, known)
    return [found for report in reports.values() for found in report.sorted()]


def _check_order(files: Mapping[str, CommonFile], reports: Mapping[str, Report], *, complete: bool) -> None:
    """One file gives the order of the regions, and each region in it has a file."""
    ordering = [name for name, file in files.items() if file.order]
    if not ordering:
        if complete and files:
            name = next(iter(files))
            reports[name].error(
                (), "no common file gives the order of the regions.", "order.toml: order = [...]."
            )
        return
    for extra in ordering[1:]:
        reports[extra].error(("order",), f"{ordering[0]} gives the order already.", "one order.")
    order = files[ordering[0]].order
    reports[ordering[0]].unique(((("order", n), region) for n, region in enumerate(order)), "region")
    have = [file.region.id for file in files.values() if file.region]
    if complete:
        for n, region in enumerate(order):
            hint = f'a file with [region] id = "{region}", or the region left out of the order.'
            reports[ordering[0]].expect(("order", n), region, have, "file for the region", hint)
    for name, file in files.items():
        if file.region and file.region.id not in order:
            what = f'the region "{file.region.id}" is not in the order of the examination.'
            reports[name].error(("region", "id"), what, f'"{file.region.id}" in order, in {ordering[0]}.')


def _check_way(report: Report, file: CommonFile, known: Known) -> None:
    """The way of the hands names points and regions that are there, each once, and no region is forgotten."""
    report.unique(((("walk", n), name) for n, name in enumerate(file.walk)), "point or region")
    for n, name in enumerate(file.walk):
        report.expect(("walk", n), name, [*known.points, *known.regions], "point or region")
    for region in known.regions if file.walk else ():
        if region not in file.walk:
            report.error(("walk",), f'the region "{region}" is not on the way.', f'"{region}" in walk.')
    for n, (one, other) in enumerate(file.opposites):
        if one == other:
            report.error(("opposites", n), f'"{one}" is not its own opposite.', "two words.")


def _check_once(files: Mapping[str, CommonFile], reports: Mapping[str, Report]) -> None:
    """Points, faults and computed values are declared once, over all files."""
    seen: dict[tuple[str, str], str] = {}
    for name, file in files.items():
        report = reports[name]
        rows = [
            *((("points", n, "id"), "point", point.id) for n, point in enumerate(file.points)),
            *((("faults", fault), "fault", fault) for fault in file.faults),
            *((("derived", n, "id"), "computed value", entry.id) for n, entry in enumerate(file.derived)),
            *((("closures", n, "id"), "closure", entry.id) for n, entry in enumerate(file.closures)),
            *((("fences", n, "derived"), "fence of", entry.derived) for n, entry in enumerate(file.fences)),
            *((("together", n, "id"), "question", entry.id) for n, entry in enumerate(file.together)),
            *((("landmarks", n, "id"), "landmark", entry.id) for n, entry in enumerate(file.landmarks)),
            *((("outcome_sets", key), "set of outcomes", key) for key in file.outcome_sets),
            *([(("region", "id"), "region", file.region.id)] if file.region else []),
            *([(("figure",), "figure", "figure")] if file.figure else []),
        ]
        for path, thing, found in rows:
            other = seen.setdefault((thing, found), name)
            if other != name:
                report.error(path, f'the {thing} "{found}" is declared in {other} already.', "another id.")
        report.unique(((path, found) for path, thing, found in rows if thing == "point"), "point")
