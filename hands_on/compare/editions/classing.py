"""How two editions class the same fault: read from the rulings alone, without a dog."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from hands_on.compare.editions.rows import Difference, Row, Section, paired
from hands_on.ruleset.base import DEGREES, Degree, When
from hands_on.ruleset.rules import Ruling, TeethRule
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.edition import class_words, condition_words, missing_words

DISQUALIFIES = "disqualifies"
"""Classes that disqualify count as one, whatever each edition calls them."""

SILENT = "the standard is silent on it"
_CLAUSE = "general clause"

_OFF = "none"
"""What a ruling gives while its switch is not chosen."""


def class_key(ruleset: Ruleset, name: str) -> str:
    """A class as it is told from another edition's: by its id, or as one that disqualifies."""
    known = ruleset.classes.get(name)
    return DISQUALIFIES if known is not None and known.disqualifies else name


@dataclass(frozen=True)
class Case:
    """The class of a fault by degree, the lightest first, under one condition."""

    when: str
    """In words; empty for what holds otherwise."""
    condition: str
    """The condition as the file has it, to tell it from another."""
    classes: tuple[str | None, ...]
    """None at a degree that this case says nothing of."""
    unruled: str = ""
    """Where no ruling names the fault: what decides, in words."""


@dataclass(frozen=True)
class Profile:
    """All that an edition says of a fault's class; the last case is the one without a condition."""

    cases: tuple[Case, ...]
    source: tuple[str, ...]

    @property
    def named(self) -> bool:
        """Does any ruling name the fault?"""
        return len(self.cases) > 1 or not self.cases[-1].unruled

    def key(self, ruleset: Ruleset) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """What makes this profile the same as another edition's."""
        return tuple(
            (case.condition, tuple("" if name is None else class_key(ruleset, name) for name in case.classes))
            for case in self.cases
        )

    def words(self, ruleset: Ruleset) -> str:
        """`long-haired: no fault; otherwise slight no fault, from moderate Fault`."""
        parts = []
        for case in self.cases:
            text = _steps(ruleset, case.classes)
            if case.unruled:
                text += f" ({case.unruled})"
            if case.when:
                text = f"{case.when}: {text}"
            elif len(self.cases) > 1:
                text = f"otherwise {text}"
            parts.append(text)
        return "; ".join(parts)


def profile(ruleset: Ruleset, fault: str, detail: str | None = None) -> Profile:
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
            condition = when.model_dump_json(exclude_defaults=True)
            cases.append(Case(condition_words(ruleset, when), condition, tuple(found)))
            off = off or _only_switch(when)
    rest, words = (_OFF, "") if off else _unruled(ruleset, fault)
    clause = ruleset.edition.general_clause
    if clause is not None and words == _CLAUSE:
        sources += [key for key in clause.source if key not in sources]
    final = tuple(name or rest for name in decided)
    return Profile((*cases, Case("", "", final, "" if any(decided) else words)), tuple(sources))


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


def _unruled(ruleset: Ruleset, fault: str) -> tuple[str, str]:
    """The class of what no ruling names, as `evaluate.classes` has it, and what decides it."""
    if fault not in ruleset.faults:
        return "unclassed", "a fault that this edition does not know"
    points = ruleset.points_of_fault.get(fault, ())
    silent = {point for silence in ruleset.edition.silent for point in silence.points}
    if points and silent.issuperset(points):
        return "observation", SILENT
    clause = ruleset.edition.general_clause
    return (clause.class_, _CLAUSE) if clause is not None else ("unclassed", "in no list, no general clause")


def _steps(ruleset: Ruleset, classes: tuple[str | None, ...]) -> str:
    """Classes by degree in words; a degree of the same class as the lighter one is not repeated."""
    steps: list[tuple[Degree, str]] = []
    for degree, name in zip(DEGREES, classes, strict=True):
        if name is not None and (not steps or steps[-1][1] != name):
            steps.append((degree, name))
    if len(steps) == 1 and classes[0] is not None:
        return class_words(ruleset, steps[0][1])
    parts = [
        f"{degree if n == 0 and degree == DEGREES[0] else f'from {degree}'} {class_words(ruleset, name)}"
        for n, (degree, name) in enumerate(steps)
    ]
    return ", ".join(parts)


# --- sections ------------------------------------------------------------------------------------------


def rulings(a: Ruleset, b: Ruleset) -> Section:
    """The class of each fault that a ruling of either edition names, in the order of the examination."""
    rows: list[Row] = []
    same = 0
    for fault in dict.fromkeys([*a.faults, *b.faults]):
        for detail in _details(a, b, fault):
            first, second = profile(a, fault, detail), profile(b, fault, detail)
            if not first.named and not second.named:
                continue
            if first.key(a) == second.key(b):
                same += 1
                continue
            rows.append(
                Row(
                    "ruling",
                    fault,
                    (a if fault in a.faults else b).label(fault),
                    detail or "",
                    first.words(a),
                    second.words(b),
                    _how(first, second, a, b),
                    ", ".join(first.source),
                    ", ".join(second.source),
                )
            )
    return Section("rulings", "Classes of faults", tuple(rows), same)


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


def _how(first: Profile, second: Profile, a: Ruleset, b: Ruleset) -> tuple[Difference, ...]:
    found: list[Difference] = []
    if [case.condition for case in first.cases] != [case.condition for case in second.cases]:
        found.append("condition")
    if first.key(a)[-1] != second.key(b)[-1] or not found:
        found.insert(0, "class")
    return tuple(found)


def unnamed(a: Ruleset, b: Ruleset) -> Section:
    """What becomes of a departure that no ruling of either edition names."""
    texts, sources = [], []
    for ruleset in (a, b):
        clause = ruleset.edition.general_clause
        if clause is None:
            texts.append("no general clause: unclassed")
        else:
            texts.append(f"{class_words(ruleset, clause.class_)}. {clause.text}")
        sources.append(", ".join(clause.source) if clause is not None else "")
    keys = [
        class_key(ruleset, clause.class_) if (clause := ruleset.edition.general_clause) else "unclassed"
        for ruleset in (a, b)
    ]
    if keys[0] == keys[1]:
        return Section("unnamed", "What no list names", (), 1)
    row = paired(
        "general-clause",
        "general-clause",
        "A departure that no ruling names",
        "",
        texts,
        ("class",),
        sources,
    )
    return Section("unnamed", "What no list names", (row,))


def combinations(a: Ruleset, b: Ruleset) -> Section:
    """Faults that count otherwise together."""
    rows: list[Row] = []
    same = 0
    found = [_combinations(a), _combinations(b)]
    for key in dict.fromkeys([*found[0], *found[1]]):
        label, when, _, _ = found[0].get(key) or found[1][key]
        classes = [table[key][2] if key in table else None for table in found]
        keys = [class_key(rules, name) if name else None for rules, name in zip((a, b), classes, strict=True)]
        if keys[0] == keys[1]:
            same += 1
            continue
        texts = [
            class_words(rules, name) if name else "" for rules, name in zip((a, b), classes, strict=True)
        ]
        sources = [table[key][3] if key in table else "" for table in found]
        rows.append(paired("combination", label, label, when, texts, present(classes), sources))
    return Section("combinations", "Counted together", tuple(rows), same)


def _combinations(ruleset: Ruleset) -> dict[tuple[object, ...], tuple[str, str, str, str]]:
    found: dict[tuple[object, ...], tuple[str, str, str, str]] = {}
    for entry in ruleset.edition.combinations:
        parts = sorted((part.fault, part.from_degree or "") for part in entry.all)
        condition = entry.when.model_dump_json(exclude_defaults=True) if entry.when else ""
        label = " and ".join(
            ruleset.label(part.fault) + (f" (from {part.from_degree})" if part.from_degree else "")
            for part in entry.all
        )
        when = condition_words(ruleset, entry.when)
        found[(*parts, condition)] = (label, when, entry.class_, ", ".join(entry.source))
    return found


def teeth(a: Ruleset, b: Ruleset) -> Section:
    """What each edition says of missing teeth, rule by rule."""
    rows: list[Row] = []
    same = 0
    words = [_teeth_words(a), _teeth_words(b)]
    if words[0] != words[1]:
        source = [", ".join(r.edition.teeth.source) if r.edition.teeth else "" for r in (a, b)]
        rows.append(paired("teeth", "teeth", "Asked for", "", words, ("words",), source))
    found = [_teeth_rules(a), _teeth_rules(b)]
    for key in dict.fromkeys([*found[0], *found[1]]):
        pair = [table.get(key) for table in found]
        keys = [class_key(rs, rule.class_) if rule else None for rs, rule in zip((a, b), pair, strict=True)]
        if keys[0] == keys[1]:
            same += 1
            continue
        label, when = key[0], key[1]
        texts = [class_words(rs, rule.class_) if rule else "" for rs, rule in zip((a, b), pair, strict=True)]
        sources = [", ".join(rule.source) if rule else "" for rule in pair]
        rows.append(paired("teeth", label, label, when, texts, present(pair), sources))
    return Section("teeth", "Teeth", tuple(rows), same)


def _teeth_words(ruleset: Ruleset) -> str:
    rules = ruleset.edition.teeth
    if rules is None:
        return ""
    exempt = f" Never counted: {', '.join(rules.exempt)}." if rules.exempt else ""
    unseen = " A tooth that cannot be seen counts as missing." if rules.unseen_is_missing else ""
    return f"{rules.text}{exempt}{unseen}"


def _teeth_rules(ruleset: Ruleset) -> dict[tuple[str, str], TeethRule]:
    rules = ruleset.edition.teeth.rules if ruleset.edition.teeth is not None else ()
    return {(missing_words(rule), condition_words(ruleset, rule.when)): rule for rule in rules}


def classes(a: Ruleset, b: Ruleset) -> Section:
    """The ladders, lightest first, and the words beside them."""
    rows: list[Row] = []
    same = 0
    for name, label, ladder in (
        ("ladder", "Classes, lightest first", True),
        ("beside", "Beside them", False),
    ):
        between = " < " if ladder else ", "
        texts = [between.join(_class_labels(rules, ladder)) for rules in (a, b)]
        if texts[0] == texts[1]:
            same += bool(texts[0])
            continue
        sources = [
            ", ".join(
                _unique(key for one in rules.edition.classes if one.ladder == ladder for key in one.source)
            )
            for rules in (a, b)
        ]
        rows.append(paired("class", name, label, "", texts, ("class",), sources))
    return Section("classes", "Classes", tuple(rows), same)


def _class_labels(ruleset: Ruleset, ladder: bool) -> Iterator[str]:
    for entry in ruleset.edition.classes:
        if entry.ladder == ladder:
            yield entry.label + (" (disqualifies)" if entry.disqualifies else "")


def present(pair: Iterable[object]) -> tuple[Difference, ...]:
    """What differs where one edition may lack the rule altogether: the class, else."""
    first, second = pair
    if second is None:
        return ("only-a",)
    return ("only-b",) if first is None else ("class",)


def _unique(words: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(words))
