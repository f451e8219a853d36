"""How two editions class the same fault: read from the rulings alone, without a dog."""

from __future__ import annotations

from typing import Literal

from hands_on.compare.editions.rule_pair import (
    Case,
    Difference,
    FaultClasses,
    Ladder,
    RulePair,
    Section,
    Unruled,
)
from hands_on.ruleset.base import DEGREES, Degree, When
from hands_on.ruleset.rules import Combination, Ruling, TeethRule
from hands_on.ruleset.ruleset import Ruleset

__all__ = [
    "class_key",
    "classes",
    "classes_key",
    "combinations",
    "fault_classes",
    "lacking_one",
    "rulings",
    "teeth",
    "unnamed",
]

_DISQUALIFIES = "disqualifies"
"""Classes that disqualify count as one, whatever each edition calls them."""

_OFF = "none"
"""What a ruling gives while its switch is not chosen."""


def class_key(ruleset: Ruleset, name: str) -> str:
    """A class as it is told from another edition's: by its id, or as one that disqualifies."""
    known = ruleset.classes.get(name)
    return _DISQUALIFIES if known is not None and known.disqualifies else name


def classes_key(found: FaultClasses, ruleset: Ruleset) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """What makes the classes of a fault the same as another edition's."""
    return tuple(
        (case.condition, tuple("" if name is None else class_key(ruleset, name) for name in case.classes))
        for case in found.cases
    )


def fault_classes(ruleset: Ruleset, fault: str, detail: str | None = None) -> FaultClasses:
    """What the rulings say of a fault; of one recorded with this detail, or with none of those named."""
    cases: list[Case] = []
    decided: list[str | None] = [None] * len(DEGREES)
    off = False
    sources: list[str] = []
    for ruling in ruleset.edition.rulings:
        if fault not in ruling.faults or ruling.optional:
            continue
        when = ruling.when
        if when is not None and when.detail is not None:
            if detail not in when.detail:
                continue
            when = _without_detail(when)
        found = [
            _class_at(ruling, degree) if decided[n] is None else None for n, degree in enumerate(DEGREES)
        ]
        if not any(found):
            continue
        sources += [key for key in ruling.source if key not in sources]
        if when is None:
            decided = [old or new for old, new in zip(decided, found, strict=True)]
        else:
            cases.append(Case(when, tuple(found)))
            off = off or _only_switch(when)
    rest, unruled = (_OFF, None) if off else _unruled(ruleset, fault)
    clause = ruleset.edition.general_clause
    if clause is not None and unruled == "general-clause":
        sources += [key for key in clause.source if key not in sources]
    final = tuple(name or rest for name in decided)
    return FaultClasses((*cases, Case(None, final, None if any(decided) else unruled)), tuple(sources))


def _without_detail(when: When) -> When | None:
    rest = when.model_copy(update={"detail": None})
    return None if rest == When() else rest


def _only_switch(when: When) -> bool:
    return when.switch is not None and When(switch=when.switch) == when


def _class_at(ruling: Ruling, degree: Degree) -> str | None:
    if ruling.class_ is not None:
        return ruling.class_
    reached = [name for name in DEGREES[: DEGREES.index(degree) + 1] if name in ruling.by_degree]
    return ruling.by_degree[reached[-1]] if reached else None


def _unruled(ruleset: Ruleset, fault: str) -> tuple[str, Unruled]:
    """The class of what no ruling names, as `evaluate.classes` has it, and what decides it."""
    if fault not in ruleset.faults:
        return "unclassed", "unknown-fault"
    points = ruleset.points_of_fault.get(fault, ())
    silent = {point for silence in ruleset.edition.silent for point in silence.points}
    if points and silent.issuperset(points):
        return "observation", "silent"
    clause = ruleset.edition.general_clause
    return (clause.class_, "general-clause") if clause is not None else ("unclassed", "in-no-list")


# --- sections ------------------------------------------------------------------------------------------


def rulings(a: Ruleset, b: Ruleset) -> Section:
    """The class of each fault that a ruling of either edition names, in the order of the examination."""
    pairs: list[RulePair] = []
    same = 0
    for fault in dict.fromkeys([*a.faults, *b.faults]):
        for detail in _details(a, b, fault):
            first, second = fault_classes(a, fault, detail), fault_classes(b, fault, detail)
            if not first.named and not second.named:
                continue
            keys = classes_key(first, a), classes_key(second, b)
            if keys[0] == keys[1]:
                same += 1
                continue
            how = _how(first, second, other_class=keys[0][-1] != keys[1][-1])
            pairs.append(
                RulePair("ruling", fault, first, second, how, first.source, second.source, detail=detail)
            )
    return Section("rulings", tuple(pairs), same)


def _details(a: Ruleset, b: Ruleset, fault: str) -> list[str | None]:
    """The details that either edition tells apart, and none of them."""
    details: list[str | None] = [
        detail
        for ruleset in (a, b)
        for ruling in ruleset.edition.rulings
        if fault in ruling.faults and ruling.when is not None
        for detail in ruling.when.detail or ()
    ]
    return list(dict.fromkeys([*details, None]))


def _how(first: FaultClasses, second: FaultClasses, *, other_class: bool) -> tuple[Difference, ...]:
    found: list[Difference] = []
    if [case.condition for case in first.cases] != [case.condition for case in second.cases]:
        found.append("condition")
    if other_class or not found:
        found.insert(0, "class")
    return tuple(found)


def unnamed(a: Ruleset, b: Ruleset) -> Section:
    """What becomes of a departure that no ruling of either edition names."""
    first, second = a.edition.general_clause, b.edition.general_clause
    keys = [
        class_key(ruleset, clause.class_) if clause is not None else "unclassed"
        for ruleset, clause in ((a, first), (b, second))
    ]
    if keys[0] == keys[1]:
        return Section("unnamed", (), 1)
    source_a, source_b = (clause.source if clause is not None else () for clause in (first, second))
    pair = RulePair("general-clause", "general-clause", first, second, ("class",), source_a, source_b)
    return Section("unnamed", (pair,))


def combinations(a: Ruleset, b: Ruleset) -> Section:
    """Faults that count otherwise together."""
    pairs: list[RulePair] = []
    same = 0
    found = [_combinations(a), _combinations(b)]
    for key in dict.fromkeys([*found[0], *found[1]]):
        first, second = found[0].get(key), found[1].get(key)
        if _class_of(a, first) == _class_of(b, second):
            same += 1
        else:
            pairs.append(_pair("combination", first, second))
    return Section("combinations", tuple(pairs), same)


def _combinations(ruleset: Ruleset) -> dict[tuple[object, ...], Combination]:
    found: dict[tuple[object, ...], Combination] = {}
    for entry in ruleset.edition.combinations:
        parts = sorted((part.fault, part.from_degree or "") for part in entry.all)
        found[(*parts, _condition(entry.when))] = entry
    return found


def _condition(when: When | None) -> str:
    return when.model_dump_json(exclude_defaults=True) if when is not None else ""


def _class_of(ruleset: Ruleset, rule: Combination | TeethRule | None) -> str | None:
    return class_key(ruleset, rule.class_) if rule is not None else None


def _pair(
    kind: Literal["combination", "teeth"],
    first: Combination | TeethRule | None,
    second: Combination | TeethRule | None,
) -> RulePair:
    """A rule that gives another class, or that one edition lacks."""
    one = first or second
    return RulePair(
        kind,
        "",
        first,
        second,
        lacking_one(first, second) or ("class",),
        first.source if first is not None else (),
        second.source if second is not None else (),
        when=one.when if one is not None else None,
    )


def teeth(a: Ruleset, b: Ruleset) -> Section:
    """What each edition says of missing teeth, rule by rule."""
    pairs: list[RulePair] = []
    same = 0
    asked = a.edition.teeth, b.edition.teeth
    first, second = (
        (rules.text, rules.exempt, rules.unseen_is_missing) if rules is not None else ("", (), False)
        for rules in asked
    )
    if first != second:
        source_a, source_b = (rules.source if rules is not None else () for rules in asked)
        pairs.append(RulePair("teeth", "teeth", *asked, ("words",), source_a, source_b))
    found = [_teeth_rules(a), _teeth_rules(b)]
    for key in dict.fromkeys([*found[0], *found[1]]):
        one, other = found[0].get(key), found[1].get(key)
        if _class_of(a, one) == _class_of(b, other):
            same += 1
        else:
            pairs.append(_pair("teeth", one, other))
    return Section("teeth", tuple(pairs), same)


def _teeth_rules(ruleset: Ruleset) -> dict[tuple[object, ...], TeethRule]:
    """The rules by which teeth they speak of, how many, and when."""
    rules = ruleset.edition.teeth.rules if ruleset.edition.teeth is not None else ()
    return {
        (
            (rule.of, rule.not_of, rule.at_least, rule.at_most),
            (rule.others_at_least, rule.others_at_most),
            _condition(rule.when),
        ): rule
        for rule in rules
    }


def classes(a: Ruleset, b: Ruleset) -> Section:
    """The ladders, lightest first, and the words beside them."""
    pairs: list[RulePair] = []
    same = 0
    for name, ordered in (("ladder", True), ("beside", False)):
        first, second = (
            Ladder(tuple(one for one in rules.edition.classes if one.ladder == ordered), ordered)
            for rules in (a, b)
        )
        if _names(first) == _names(second):
            same += bool(first.classes)
        else:
            pairs.append(
                RulePair("class", name, first, second, ("class",), _sources(first), _sources(second))
            )
    return Section("classes", tuple(pairs), same)


def _names(ladder: Ladder) -> list[tuple[str, bool]]:
    return [(one.label, one.disqualifies) for one in ladder.classes]


def _sources(ladder: Ladder) -> tuple[str, ...]:
    return tuple(dict.fromkeys(key for one in ladder.classes for key in one.source))


def lacking_one(first: object, second: object) -> tuple[Difference, ...]:
    """Which edition lacks the rule altogether; empty where both have one."""
    if second is None:
        return ("only-a",)
    return ("only-b",) if first is None else ()
