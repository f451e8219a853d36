"""Two editions compared rule by rule: what differs, each edition's source beside it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from hands_on.compare.editions.classing import (
    classes,
    combinations,
    lacking_one,
    rulings,
    teeth,
    unnamed,
)
from hands_on.compare.editions.limits import lack, limits
from hands_on.compare.editions.rule_pair import (
    Comparison,
    Difference,
    Kind,
    RulePair,
    Said,
    Section,
    Text,
    Walked,
)
from hands_on.frozen import dataclass
from hands_on.ruleset.base import When
from hands_on.ruleset.rules import Cap
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["HEAD", "compare_editions"]

HEAD = ("breed", "body", "number", "edition", "published", "unit", "size_class", "confidence")
"""What of an edition's head is compared."""


def compare_editions(a: Ruleset, b: Ruleset) -> Comparison:
    """All that `a` and `b` do not say alike. They may be of two breeds; then little is alike.

    The same rules in the same order give the same comparison, whatever their comments and layout.
    """
    found = [
        _editions(a, b),
        classes(a, b),
        unnamed(a, b),
        limits(a, b),
        teeth(a, b),
        rulings(a, b),
        combinations(a, b),
        _follows(a, b),
        _asked(a, b),
        _silences(a, b),
        _measured(a, b),
        _attributes(a, b),
        _switches(a, b),
        _outcomes(a, b),
    ]
    return Comparison(a, b, tuple(section for section in found if section.pairs or section.same))


@dataclass(frozen=True)
class _Side:
    """What an edition says, what makes it the same as another's, and the keys of its sources."""

    said: Said
    key: object
    source: tuple[str, ...] = ()


def _paired(
    kind: Kind,
    a: Mapping[str, _Side],
    b: Mapping[str, _Side],
    order: Iterable[str],
    difference: Difference = "words",
    lacking: tuple[Ruleset, Ruleset] | None = None,
) -> tuple[tuple[RulePair, ...], int]:
    """Pairs of what differs, and how many say the same; of `lacking` editions it is told why they lack it."""
    pairs: list[RulePair] = []
    same = 0
    for name in order:
        first, second = a.get(name), b.get(name)
        if first is not None and second is not None and first.key == second.key:
            same += 1
        elif first is not None or second is not None:
            said_a, said_b = (
                side.said if side is not None else lack(lacking[n], name) if lacking is not None else None
                for n, side in enumerate((first, second))
            )
            how = lacking_one(first, second) or (difference,)
            source_a, source_b = (side.source if side is not None else () for side in (first, second))
            pairs.append(RulePair(kind, name, said_a, said_b, how, source_a, source_b))
    return tuple(pairs), same


def _editions(a: Ruleset, b: Ruleset) -> Section:
    def said(ruleset: Ruleset) -> dict[str, _Side]:
        given = {name: getattr(ruleset.edition, name) for name in HEAD}
        return {
            name: _Side(Text(str(value)), str(value))
            for name, value in given.items()
            if value not in (None, "")
        }

    pairs, same = _paired("edition", said(a), said(b), HEAD)
    return Section("editions", pairs, same)


def _asked(a: Ruleset, b: Ruleset) -> Section:
    """What is asked for at each point, in the order of the examination."""

    def said(ruleset: Ruleset) -> dict[str, _Side]:
        return {name: _Side(one, one.text, one.source) for name, one in ruleset.edition.asked.items()}

    pairs, same = _paired("asked", said(a), said(b), _points(a, b), lacking=(a, b))
    return Section("asked", pairs, same)


def _silences(a: Ruleset, b: Ruleset) -> Section:
    """Points that one edition is silent on and the other is not; silences that name no point."""

    def said(ruleset: Ruleset) -> dict[str, _Side]:
        found: dict[str, _Side] = {}
        for silence in ruleset.edition.silent:
            for name in silence.points:
                found[name] = _Side(lack(ruleset, name), None, silence.source)
            if not silence.points:
                found[silence.about] = _Side(silence, None, silence.source)
        return found

    sides = said(a), said(b)
    pairs: list[RulePair] = []
    same = 0
    for name in dict.fromkeys([*_points(a, b), *sides[0], *sides[1]]):
        first, second = sides[0].get(name), sides[1].get(name)
        if first and second:
            same += 1
        elif first or second:
            said_a, said_b = (
                side.said if side else _says(rules, name) for side, rules in ((first, a), (second, b))
            )
            source_a, source_b = (side.source if side else () for side in (first, second))
            how = lacking_one(first, second)
            pairs.append(RulePair("silence", name, said_a, said_b, how, source_a, source_b))
    return Section("silences", tuple(pairs), same)


def _says(ruleset: Ruleset, point: str) -> Said | None:
    """What an edition that is not silent on a point has to say of it."""
    if point not in ruleset.points:
        return None
    if any(point in limit.measures for limit in ruleset.edition.limits):
        return Walked("limited")
    return ruleset.edition.asked.get(point) or lack(ruleset, point)


def _measured(a: Ruleset, b: Ruleset) -> Section:
    """Measurements that belong to one walk only, or are judged in one and only recorded in the other."""

    def said(ruleset: Ruleset) -> dict[str, _Side]:
        plan = ruleset.edition.walk
        recorded = dict.fromkeys(plan.offer, _Side(Walked("recorded"), "recorded"))
        return recorded | dict.fromkeys(plan.measures, _Side(Walked("measured"), "measured"))

    pairs, same = _paired("measured", said(a), said(b), _points(a, b), lacking=(a, b))
    return Section("measured", pairs, same)


def _attributes(a: Ruleset, b: Ruleset) -> Section:
    def said(ruleset: Ruleset) -> dict[str, _Side]:
        return {
            name: _Side(one, (one.label, tuple(one.options.values())), one.source)
            for name, one in ruleset.edition.attributes.items()
        }

    pairs, same = _paired("attribute", said(a), said(b), _keys(said(a), said(b)))
    return Section("attributes", pairs, same)


def _follows(a: Ruleset, b: Ruleset) -> Section:
    """What follows from the dog alone."""

    def said(ruleset: Ruleset) -> dict[str, _Side]:
        found = {}
        for rule in ruleset.edition.follows:
            cls = _class_label(ruleset, rule.class_)
            key = str((rule.fault, rule.detail, rule.degree, _condition(rule.when), cls))
            found[key] = _Side(rule, key, rule.source)
        return found

    pairs, same = _paired("follow", said(a), said(b), _keys(said(a), said(b)))
    return Section("follows", pairs, same)


def _switches(a: Ruleset, b: Ruleset) -> Section:
    def said(ruleset: Ruleset) -> dict[str, _Side]:
        return {name: _Side(one, (one.label, one.caution)) for name, one in ruleset.edition.switches.items()}

    pairs, same = _paired("switch", said(a), said(b), _keys(said(a), said(b)))
    return Section("switches", pairs, same)


def _outcomes(a: Ruleset, b: Ruleset) -> Section:
    """Outcomes by name, and each statement of what rules one out."""

    def named(ruleset: Ruleset) -> dict[str, _Side]:
        return {
            one.id: _Side(one, (one.label, _condition(one.when)), one.source)
            for one in ruleset.edition.outcomes
        }

    def capped(ruleset: Ruleset) -> dict[str, _Side]:
        keys = [(_cap_key(ruleset, cap), cap) for cap in ruleset.edition.caps]
        return {key: _Side(cap, key, cap.source) for key, cap in keys}

    pairs, same = _paired("outcome", named(a), named(b), _keys(named(a), named(b)))
    caps = capped(a), capped(b)
    more, also = _paired("cap", *caps, _keys(*caps))
    return Section("outcomes", (*pairs, *more), same + also)


def _cap_key(ruleset: Ruleset, cap: Cap) -> str:
    labels = {entry.id: entry.label for entry in ruleset.edition.outcomes}
    rules_out = (cap.faults, _class_label(ruleset, cap.class_), cap.limit, cap.from_degree)
    return str((rules_out, _condition(cap.when), labels.get(cap.at_most, cap.at_most), cap.optional))


def _class_label(ruleset: Ruleset, name: str | None) -> str | None:
    known = ruleset.classes.get(name or "")
    return known.label if known is not None else name


def _condition(when: When | None) -> str:
    return when.model_dump_json(exclude_defaults=True) if when is not None else ""


def _keys(a: Mapping[str, _Side], b: Mapping[str, _Side]) -> list[str]:
    return list(dict.fromkeys([*a, *b]))


def _points(a: Ruleset, b: Ruleset) -> list[str]:
    return list(dict.fromkeys([*a.points, *b.points]))
