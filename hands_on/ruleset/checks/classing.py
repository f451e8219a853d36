"""Classes, rulings, combinations, teeth and outcomes: all exist, all are used, all are reached."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from itertools import pairwise

from hands_on.ruleset.base import DEGREES, NO_CLASS, When
from hands_on.ruleset.checks.conditions import check_of_dog
from hands_on.ruleset.checks.known import Known
from hands_on.ruleset.dentition import known_names
from hands_on.ruleset.files import EditionFile
from hands_on.ruleset.points import ChoicePoint, Point
from hands_on.ruleset.rules import Asked, Cap, Outcome, Ruling, TeethRule
from hands_on.toml_text.lines import Path
from hands_on.toml_text.report import Report

__all__ = [
    "check_classes",
    "check_follows",
    "check_named_points",
    "check_outcome_sets",
    "check_outcomes",
    "check_placing",
    "check_rulings",
    "check_teeth",
]


def check_classes(report: Report, own: EditionFile, edition: EditionFile) -> None:
    """Every class is defined once and used somewhere."""
    report.unique(((("classes", n, "id"), entry.id) for n, entry in enumerate(own.classes)), "class")
    used = set(_classes_used(edition))
    for n, entry in enumerate(own.classes):
        if entry.id in NO_CLASS:
            report.error(("classes", n, "id"), f'"{entry.id}" is a word of the format.', "another name.")
        elif entry.id not in used:
            report.error(
                ("classes", n, "id"),
                f'no rule uses the class "{entry.id}".',
                "a ruling, limit or general clause with this class, or the class left out.",
            )
    if not edition.classes:
        report.error((), "the edition has no classes.", "at least one [[classes]] entry, the lightest first.")


def _classes_used(edition: EditionFile) -> Iterator[str]:
    if edition.general_clause:
        yield edition.general_clause.class_
    for limit in edition.limits:
        yield from (band.class_ for band in limit.bands if band.class_)
    for ruling in edition.rulings:
        yield from ([ruling.class_] if ruling.class_ else ruling.by_degree.values())
    yield from (entry.class_ for entry in edition.follows if entry.class_)
    yield from (entry.class_ for entry in edition.combinations)
    if edition.teeth:
        yield from (rule.class_ for rule in edition.teeth.rules)


def check_rulings(report: Report, own: EditionFile, edition: EditionFile, known: Known) -> None:
    """Rulings, combinations and the general clause."""
    classes = [entry.id for entry in edition.classes]
    if own.general_clause is not None:
        path: Path = ("general_clause", "class")
        report.expect(path, own.general_clause.class_, [*classes, *NO_CLASS], "class")
    for index, ruling in enumerate(own.rulings):
        path = ("rulings", index)
        _check_faults(report, path, ruling.faults, known)
        if ruling.class_ is not None:
            report.expect((*path, "class"), ruling.class_, [*classes, *NO_CLASS], "class")
        for degree, name in ruling.by_degree.items():
            report.expect((*path, "by_degree", degree), name, [*classes, *NO_CLASS], "class")
        _check_rising(report, path, ruling, edition)
    _check_reached(report, own.rulings)
    for index, combination in enumerate(own.combinations):
        path = ("combinations", index)
        report.expect((*path, "class"), combination.class_, [*classes, *NO_CLASS], "class")
        for n, together in enumerate(combination.all):
            report.expect((*path, "all", n), together.fault, known.faults, "fault")
        report.unique((((*path, "all", n), entry.fault) for n, entry in enumerate(combination.all)), "fault")


def _check_faults(report: Report, path: Path, faults: tuple[str, ...], known: Known) -> None:
    for n, fault in enumerate(faults):
        where = (*path, "faults", n) if len(faults) > 1 else (*path, "faults")
        report.expect(where, fault, known.faults, "fault")


def _check_rising(report: Report, path: Path, ruling: Ruling, edition: EditionFile) -> None:
    """A heavier degree in a lighter class is a slip."""
    ladder = [*NO_CLASS, *(entry.id for entry in edition.classes if entry.ladder)]
    steps = [(degree, ruling.by_degree[degree]) for degree in DEGREES if degree in ruling.by_degree]
    for (lighter, low), (heavier, high) in pairwise(steps):
        if low in ladder and high in ladder and ladder.index(high) < ladder.index(low):
            report.warn(
                (*path, "by_degree", heavier),
                f'{heavier} is "{high}", lighter than {lighter}, which is "{low}".',
                "the heavier class for the heavier degree.",
            )


def _check_reached(report: Report, rulings: Iterable[Ruling]) -> None:
    """The first ruling that fits counts: one behind a ruling without condition is never reached."""
    covered: dict[str, list[tuple[int, str]]] = {}
    for index, ruling in enumerate(rulings):
        condition = _canonical(ruling.when)
        for fault in ruling.faults:
            earlier = next((n for n, text in covered.get(fault, []) if text in ("", condition)), None)
            if earlier is not None:
                always = (earlier, "") in covered[fault]
                report.error(
                    ("rulings", index),
                    f'this ruling is never reached for "{fault}": rulings[{earlier + 1}] comes first and '
                    f"holds {'always' if always else 'under the same condition'}.",
                    "the special ruling before the general one, or the fault in one of them only.",
                )
        if ruling.class_ is not None or DEGREES[0] in ruling.by_degree:
            for fault in ruling.faults:
                covered.setdefault(fault, []).append((index, condition))


def _canonical(when: When | None) -> str:
    return when.model_dump_json(exclude_defaults=True) if when is not None else ""


def check_teeth(report: Report, own: EditionFile, edition: EditionFile) -> None:
    """Names of teeth and the classes of their rules."""
    if own.teeth is None:
        return
    classes = [entry.id for entry in edition.classes]
    _check_names(report, ("teeth", "exempt"), own.teeth.exempt)
    for index, rule in enumerate(own.teeth.rules):
        path: Path = ("teeth", "rules", index)
        report.expect((*path, "class"), rule.class_, [*classes, *NO_CLASS], "class")
        _check_names(report, (*path, "of"), rule.of)
        _check_names(report, (*path, "not_of"), rule.not_of)
        _check_counts(report, path, rule)


def _check_names(report: Report, path: Path, names: tuple[str, ...]) -> None:
    for n, name in enumerate(names):
        hint = 'a name (I1 to M3), a group (I, C, P, M) or a modified Triadan number such as "105".'
        where = (*path, n)
        if name.upper().startswith("PM") and name[1:].upper().replace("PM", "P") in known_names():
            report.error(where, f'there is no tooth "{name}".', f'"P{name[2:]}".')
        else:
            report.expect(where, name, known_names(), "tooth", hint)


def _check_counts(report: Report, path: Path, rule: TeethRule) -> None:
    if rule.of and rule.not_of:
        report.error((*path, "not_of"), "both of and not_of.", "one of them.")
    if rule.at_most is not None and rule.at_most < rule.at_least:
        report.error(
            (*path, "at_most"),
            f"no number is at least {rule.at_least} and at most {rule.at_most}.",
            "the larger number in at_most.",
        )
    for key, given in (("others_at_least", rule.others_at_least), ("others_at_most", rule.others_at_most)):
        if given is not None and key in rule.model_fields_set and not rule.of:
            report.error((*path, key), "others than which teeth?", 'of = ["P3"] beside it.')
    if rule.others_at_most is not None and rule.others_at_most < rule.others_at_least:
        report.error(
            (*path, "others_at_most"),
            f"no number is at least {rule.others_at_least} and at most {rule.others_at_most}.",
            "the larger number in others_at_most.",
        )


def check_follows(report: Report, own: EditionFile, edition: EditionFile, known: Known) -> None:
    """Faults that follow from the dog alone."""
    classes = [*(entry.id for entry in edition.classes), *NO_CLASS]
    for index, rule in enumerate(own.follows):
        path: Path = ("follows", index)
        report.expect((*path, "fault"), rule.fault, known.faults, "fault")
        if rule.class_ is not None:
            report.expect((*path, "class"), rule.class_, classes, "class")
        if rule.detail is not None:
            details = known.details([rule.fault])
            report.expect((*path, "detail"), rule.detail, details, f"detail of {rule.fault}")


def check_outcome_sets(report: Report, sets: Mapping[str, Sequence[Outcome]]) -> None:
    """Grades that editions share: the conditions know no edition's attributes and switches."""
    for name, rows in sets.items():
        path: Path = ("outcome_sets", name)
        report.unique((((*path, n, "id"), entry.id) for n, entry in enumerate(rows)), "outcome")
        for n, entry in enumerate(rows):
            if entry.when is None:
                continue
            check_of_dog(report, (*path, n, "when"), entry.when)
            for key in (*entry.when.attributes, *(["switch"] if entry.when.switch else [])):
                what = f"`{key}` is declared by an edition, and these outcomes are for all."
                report.error((*path, n, "when", key), what, "sex, age_from, age_below, country or purpose.")


def check_outcomes(
    report: Report, own: EditionFile, edition: EditionFile, known: Known, shared: Collection[str]
) -> None:
    """Outcomes and what rules them out; `shared` are the sets of common."""
    if own.outcomes_from is not None:
        report.expect(("outcomes_from",), own.outcomes_from, shared, "set of outcomes")
        if own.outcomes:
            right = "outcomes_from alone, or [[outcomes]] alone."
            report.error(("outcomes_from",), "outcomes stand here and are taken from common.", right)
    report.unique(((("outcomes", n, "id"), entry.id) for n, entry in enumerate(own.outcomes)), "outcome")
    outcomes = [entry.id for entry in edition.outcomes]
    for index, cap in enumerate(own.caps):
        path: Path = ("caps", index)
        report.expect((*path, "at_most"), cap.at_most, outcomes, "outcome")
        _check_cap(report, path, cap, edition, known)


def _check_cap(report: Report, path: Path, cap: Cap, edition: EditionFile, known: Known) -> None:
    given = [
        key for key, value in (("class", cap.class_), ("faults", cap.faults), ("limit", cap.limit)) if value
    ]
    if len(given) != 1:
        found = " and ".join(given) or "none of them"
        what = f"what rules the outcome out is one of class, faults or limit; here stands {found}."
        report.error(path, what, 'class = "disqualifying", or faults = [...], or limit = "height-male".')
    if cap.class_ is not None:
        report.expect((*path, "class"), cap.class_, [entry.id for entry in edition.classes], "class")
    _check_faults(report, path, cap.faults, known)
    if cap.limit is not None:
        report.expect((*path, "limit"), cap.limit, [entry.id for entry in edition.limits], "limit")
        if cap.from_degree is not None:
            report.error(
                (*path, "from_degree"),
                "a limit has no degree: it is kept or not.",
                "class or faults instead of limit, or no from_degree.",
            )


def check_placing(report: Report, own: EditionFile, edition: EditionFile) -> None:
    """Every class that can count has a weight, heavier classes the heavier one."""
    if own.placing is None:
        return
    path: Path = ("placing", "weights")
    counting = [entry for entry in edition.classes if not entry.disqualifies]
    known = [*(entry.id for entry in counting), "unclassed"]
    for name in own.placing.weights:
        report.expect((*path, name), name, known, "class that does not disqualify")
    for name in known:
        if name not in own.placing.weights and (name != "unclassed" or edition.general_clause is None):
            report.error(path, f'"{name}" has no weight.', f"{name} = a number above 0.")
    ladder = [entry.id for entry in counting if entry.ladder and entry.id in own.placing.weights]
    for lighter, heavier in pairwise(ladder):
        if own.placing.weights[heavier] < own.placing.weights[lighter]:
            what = f'"{heavier}" weighs less than "{lighter}", which is the lighter class.'
            report.warn((*path, heavier), what, "the heavier weight for the heavier class.")


def check_named_points(report: Report, own: EditionFile, edition: EditionFile, known: Known) -> None:
    """Points named in asked and in remarks."""
    silent = {name for silence in edition.silent for name in silence.points}
    asked = {*edition.walk.measures, *edition.walk.offer}
    for name in own.asked:
        path: Path = ("asked", name)
        if not report.expect(path, name, known.points, "point"):
            continue
        if name in edition.walk.leave_out:
            report.error(path, f'"{name}" is left out of the walk.', "no text for it, or no leave_out.")
        elif name in silent and name not in asked:
            report.error(
                path,
                f'the edition is silent on "{name}", yet here it asks something.',
                "no text for it, or no [[silent]] entry.",
            )
        elif name in known.measures and name not in asked and name not in known.called_for:
            report.error(path, f'"{name}" is not asked in the walk.', f'"{name}" in [walk] measures.')
        _check_right(report, path, own.asked[name], known.points[name])
    for index, remark in enumerate(own.remarks):
        for n, name in enumerate(remark.points):
            report.expect(("remarks", index, "points", n), name, known.points, "point")


def _check_right(report: Report, path: Path, asked: Asked, point: Point) -> None:
    """Options named as right are options of a choice."""
    if asked.right and not isinstance(point, ChoicePoint):
        report.error(
            (*path, "right"), f'"{point.id}" is no choice.', "no right, or a point that is a choice."
        )
    elif isinstance(point, ChoicePoint):
        options = [option.id for option in point.options]
        for n, option in enumerate(asked.right):
            report.expect((*path, "right", n), option, options, "option")
