"""Files put together: regions in order, points under their regions, an edition on what it builds on."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from typing import Any

from hands_on.ruleset.as_asked import with_answer_asked
from hands_on.ruleset.files import FORMAT, CommonFile, EditionFile
from hands_on.ruleset.points import ChoicePoint, Fault, MeasurePoint, Point
from hands_on.ruleset.rules import Outcome
from hands_on.ruleset.ruleset import Common, Ruleset
from hands_on.ruleset.seen import with_meaning
from hands_on.toml_text.formats import format_problem
from hands_on.toml_text.parse import validate
from hands_on.toml_text.problems import BadText
from hands_on.toml_text.tables import parse_tables

__all__ = ["assemble", "assemble_common", "read_common_file", "read_edition_file"]


def read_common_file(text: str, file: str) -> CommonFile:
    """One file of `common/`. Raises BadText."""
    return validate(CommonFile, _checked_format(parse_tables(text, file), text, file), text, file)


@lru_cache(maxsize=100)
def read_edition_file(text: str, file: str) -> EditionFile:
    """An edition's file, alone; of one text read once. Raises BadText."""
    return validate(EditionFile, _checked_format(parse_tables(text, file), text, file), text, file)


def _checked_format(tables: dict[str, Any], text: str, file: str) -> dict[str, Any]:
    unread = format_problem(tables, FORMAT, text, file)
    if unread is not None:
        raise BadText([unread])
    return tables


def assemble_common(files: Iterable[CommonFile]) -> Common:
    """Put the common files together, in the order that one of them gives.

    Raises ValueError when no file gives the order, or a region is missing from it.
    """
    files = list(files)
    order = next((file.order for file in files if file.order), None)
    if order is None:
        raise ValueError("no common file gives the order of the regions")
    by_region = {file.region.id: file for file in files if file.region is not None}
    missing = [name for name in order if name not in by_region]
    extra = [name for name in by_region if name not in order]
    if missing or extra:
        raise ValueError(f"regions without a file: {missing}; files outside the order: {extra}")
    points: dict[str, Point] = {}
    faults: dict[str, Fault] = {}
    for name in order:
        for point in by_region[name].points:
            points[point.id] = point.model_copy(update={"region": point.region or name})
        for fault, words in by_region[name].faults.items():
            faults[fault] = words.model_copy(update={"region": name})
    return Common(
        regions=tuple(region for name in order if (region := by_region[name].region) is not None),
        points=points,
        faults=faults,
        derived={entry.id: entry for file in files for entry in file.derived},
        closures=tuple(entry for file in files for entry in file.closures),
        fences=tuple(entry for file in files for entry in file.fences),
        sources={key: text for file in files for key, text in file.sources.items()},
        outcome_sets={name: rows for file in files for name, rows in file.outcome_sets.items()},
        walks={entry.id: entry for file in files for entry in file.walks},
        landmarks={entry.id: entry for file in files for entry in file.landmarks},
        harder=tuple(entry for file in files for entry in file.harder),
        standing=tuple(entry for file in files for entry in file.standing),
        figure=next((file.figure for file in files if file.figure is not None), None),
        opposites=tuple(pair for file in files for pair in file.opposites),
        way=next((file.walk for file in files if file.walk), ()),
        together={entry.id: entry for file in files for entry in file.together},
    )


def assemble(chain: Sequence[EditionFile], common: Common, digest: str = "") -> Ruleset:
    """An edition complete. `chain` starts with the edition that builds on common and ends with the wanted.

    `digest` is that of the chain, where it is known already.
    """
    edition = chain[0]
    for newer in chain[1:]:
        edition = _build_on(edition, newer)
    shared = common.outcome_sets.get(edition.outcomes_from or "", ())
    if shared:
        edition = edition.model_copy(update={"outcomes": shared})
    points = _ordered(common, edition)
    faults = {**common.faults}
    for name, words in edition.faults.items():
        faults[name] = words.model_copy(update={"region": words.region or name.split(".")[0]})
    for name, seen in edition.seen.items():
        if isinstance(known_point := points.get(name), ChoicePoint):
            points[name] = with_meaning(known_point, seen)
    for name, choice in points.items():
        if isinstance(choice, ChoicePoint) and not choice.several:
            points[name] = with_answer_asked(edition, choice)
    for name, wording in edition.wording.items():
        if name in faults:
            known = faults[name]
            faults[name] = known.model_copy(update={"wording": (*known.wording, *wording)})
        elif isinstance(point := points.get(name), MeasurePoint):
            points[name] = point.model_copy(update={"wording": (*point.wording, *wording)})
    return Ruleset(
        edition=edition,
        regions=common.regions,
        points=points,
        faults=faults,
        derived={**common.derived, **{entry.id: entry for entry in edition.derived}},
        closures=common.closures,
        fences=common.fences,
        sources={**common.sources, **edition.sources},
        digest=digest or _digest(chain, shared),
        walks={**common.walks, **{entry.id: entry for entry in edition.walks}},
        landmarks={**common.landmarks, **{entry.id: entry for entry in edition.landmarks}},
        harder=common.harder,
        standing=common.standing,
        figure=common.figure,
        opposites=common.opposites,
        way=common.way,
        together={**common.together, **{entry.id: entry for entry in edition.together}},
    )


def _ordered(common: Common, edition: EditionFile) -> dict[str, Point]:
    """Common's points with the edition's own put at the end of their regions."""
    own = {point.id: point for point in edition.points}
    points: dict[str, Point] = {}
    for region in common.regions:
        for point in common.points.values():
            if point.region == region.id and point.id not in own:
                points[point.id] = point
        for point in edition.points:
            if point.region == region.id:
                points[point.id] = point
    return points


def _build_on(older: EditionFile, newer: EditionFile) -> EditionFile:
    """What `newer` says, put over what `older` says; see rulesets/README.md."""
    drop = newer.drop
    kept_limits = [
        limit
        for limit in older.limits
        if limit.id not in drop.limits and limit.id not in {entry.id for entry in newer.limits}
    ]
    merged: dict[str, Any] = {
        "sources": {**older.sources, **newer.sources},
        "attributes": {**older.attributes, **newer.attributes},
        "switches": {**older.switches, **newer.switches},
        "general_clause": newer.general_clause or older.general_clause,
        "walk": newer.walk if "walk" in newer.model_fields_set else older.walk,
        "walks": (*older.walks, *newer.walks),
        "silent": newer.silent if "silent" in newer.model_fields_set else older.silent,
        "classes": newer.classes or older.classes,
        "asked": {**older.asked, **newer.asked},
        "languages": {**older.languages, **newer.languages},
        "seen": {**older.seen, **newer.seen},
        "limits": (*newer.limits, *kept_limits),
        "rulings": (*newer.rulings, *(() if drop.rulings else older.rulings)),
        "follows": (*newer.follows, *(() if drop.follows else older.follows)),
        "combinations": (*newer.combinations, *(() if drop.combinations else older.combinations)),
        "teeth": newer.teeth or older.teeth,
        "outcomes": newer.outcomes or (() if newer.outcomes_from else older.outcomes),
        "outcomes_from": newer.outcomes_from or (None if newer.outcomes else older.outcomes_from),
        "placing": newer.placing or (None if newer.classes else older.placing),
        "caps": newer.caps if "caps" in newer.model_fields_set else older.caps,
        "remarks": (*newer.remarks, *(() if drop.remarks else older.remarks)),
        "wording": _joined(older.wording, newer.wording),
        "points": (*newer.points, *(p for p in older.points if p.id not in {q.id for q in newer.points})),
        "faults": {**older.faults, **newer.faults},
        "derived": (*older.derived, *newer.derived),
        "together": (*older.together, *newer.together),
        "figure": (*older.figure, *newer.figure),
        "size_class": newer.size_class or older.size_class,
    }
    return newer.model_copy(update=merged)


def _joined(
    older: Mapping[str, tuple[str, ...]], newer: Mapping[str, tuple[str, ...]]
) -> dict[str, tuple[str, ...]]:
    names = {**older, **newer}
    return {name: (*older.get(name, ()), *newer.get(name, ())) for name in names}


def _digest(chain: Sequence[EditionFile], shared: Sequence[Outcome]) -> str:
    rows = [part.model_dump(mode="json", by_alias=True, exclude_defaults=True) for part in (*chain, *shared)]
    canonical = json.dumps(rows, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
    return "sha256:" + hashlib.sha256(canonical.encode()).hexdigest()
