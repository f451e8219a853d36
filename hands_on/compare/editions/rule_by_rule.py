"""Two editions held against each other, rule by rule: what differs, each edition's source beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from hands_on.compare.editions.classing import classes, combinations, present, rulings, teeth, unnamed
from hands_on.compare.editions.limits import lack, limits
from hands_on.compare.editions.rows import Comparison, Difference, Kind, Row, Section, paired
from hands_on.ruleset.points import MeasurePoint
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.edition import cap_words, condition_words, follow_words

__all__ = ["Comparison", "Difference", "Row", "Section", "compare_editions"]


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
    return Comparison(a, b, tuple(section for section in found if section.rows or section.same))


_Side = tuple[str, tuple[str, ...]]
"""What an edition says, and the keys of its sources."""


def _side_by_side(
    kind: Kind,
    a: Mapping[str, _Side],
    b: Mapping[str, _Side],
    order: Iterable[str],
    label: Callable[[str], str],
    difference: Difference = "words",
    lacking: tuple[Callable[[str], str], Callable[[str], str]] = (lambda _: "", lambda _: ""),
) -> tuple[tuple[Row, ...], int]:
    """Rows of what differs, and how many say the same; `lacking` words the side that says nothing."""
    rows: list[Row] = []
    same = 0
    for name in order:
        first, second = a.get(name), b.get(name)
        if first is not None and second is not None and first[0] == second[0]:
            same += 1
        elif first is not None or second is not None:
            how = (difference,) if first is not None and second is not None else present((first, second))
            rows.append(
                Row(
                    kind,
                    name,
                    label(name),
                    "",
                    first[0] if first else lacking[0](name),
                    second[0] if second else lacking[1](name),
                    how,
                    ", ".join(first[1]) if first else "",
                    ", ".join(second[1]) if second else "",
                )
            )
    return tuple(rows), same


def _editions(a: Ruleset, b: Ruleset) -> Section:
    labels = {
        "breed": "Breed",
        "body": "Issued by",
        "number": "Number",
        "edition": "Edition",
        "published": "Published",
        "unit": "Lengths first asked in",
        "size_class": "Size class",
        "confidence": "How sure a verdict must be",
    }

    def said(ruleset: Ruleset) -> dict[str, _Side]:
        given = {name: getattr(ruleset.edition, name) for name in labels}
        return {name: (str(value), ()) for name, value in given.items() if value not in (None, "")}

    rows, same = _side_by_side("edition", said(a), said(b), labels, labels.__getitem__)
    return Section("editions", "The editions", rows, same)


def _asked(a: Ruleset, b: Ruleset) -> Section:
    """What is asked for at each point, in the order of the examination."""

    def said(ruleset: Ruleset) -> dict[str, _Side]:
        return {point: (asked.text, asked.source) for point, asked in ruleset.edition.asked.items()}

    rows, same = _side_by_side(
        "asked",
        said(a),
        said(b),
        _points(a, b),
        lambda point: _label(a, b, point),
        lacking=(lack(a), lack(b)),
    )
    return Section("asked", "Asked for", rows, same)


def _silences(a: Ruleset, b: Ruleset) -> Section:
    """Points that one edition is silent on and the other is not; silences that name no point."""

    def said(ruleset: Ruleset) -> dict[str, _Side]:
        found: dict[str, _Side] = {}
        for silence in ruleset.edition.silent:
            for name in silence.points:
                found[name] = (f"silent: {silence.about}", silence.source)
            if not silence.points:
                found[silence.about] = (silence.note or "silent", silence.source)
        return found

    sides = said(a), said(b)
    rows: list[Row] = []
    same = 0
    for name in dict.fromkeys([*_points(a, b), *sides[0], *sides[1]]):
        first, second = sides[0].get(name), sides[1].get(name)
        if first and second:
            same += 1
        elif first or second:
            texts = [side[0] if side else _says(rules, name) for side, rules in ((first, a), (second, b))]
            sources = [", ".join(side[1]) if side else "" for side in (first, second)]
            how = present((first, second))
            rows.append(paired("silence", name, _label(a, b, name), "", texts, how, sources))
    return Section("silences", "What one of them is silent on", tuple(rows), same)


def _says(ruleset: Ruleset, point: str) -> str:
    """What an edition that is not silent on a point has to say of it."""
    if point not in ruleset.points:
        return ""
    if any(point in limit.measures for limit in ruleset.edition.limits):
        return "limited"
    if point in ruleset.edition.asked:
        return f"asked: {ruleset.edition.asked[point].text}"
    return lack(ruleset)(point)


def _measured(a: Ruleset, b: Ruleset) -> Section:
    """Measurements that belong to one walk only, or are judged in one and only recorded in the other."""

    def said(ruleset: Ruleset) -> dict[str, _Side]:
        plan = ruleset.edition.walk
        recorded: dict[str, _Side] = dict.fromkeys(plan.offer, ("recorded, never judged", ()))
        return recorded | dict.fromkeys(plan.measures, ("measured", ()))

    rows, same = _side_by_side(
        "measured",
        said(a),
        said(b),
        _points(a, b),
        lambda name: _label(a, b, name),
        lacking=(lack(a), lack(b)),
    )
    return Section("measured", "What is measured", rows, same)


def _attributes(a: Ruleset, b: Ruleset) -> Section:
    def said(ruleset: Ruleset) -> dict[str, _Side]:
        return {
            name: (f"{one.label}: {', '.join(one.options.values())}", one.source)
            for name, one in ruleset.edition.attributes.items()
        }

    rows, same = _side_by_side("attribute", said(a), said(b), _keys(said(a), said(b)), str)
    return Section("attributes", "Asked of the dog", rows, same)


def _follows(a: Ruleset, b: Ruleset) -> Section:
    """What follows from the dog alone."""

    def said(ruleset: Ruleset) -> dict[str, _Side]:
        rows = [(follow_words(ruleset, rule), rule.source) for rule in ruleset.edition.follows]
        return {words: (words, source) for words, source in rows}

    first, second = said(a), said(b)
    rows, same = _side_by_side(
        "follow", first, second, _keys(first, second), lambda words: words.split(" (")[0]
    )
    return Section("follows", "What follows from the dog alone", rows, same)


def _switches(a: Ruleset, b: Ruleset) -> Section:
    def said(ruleset: Ruleset) -> dict[str, _Side]:
        return {name: (f"{one.label}. {one.caution}", ()) for name, one in ruleset.edition.switches.items()}

    rows, same = _side_by_side("switch", said(a), said(b), _keys(said(a), said(b)), str)
    return Section("switches", "Off until chosen", rows, same)


def _outcomes(a: Ruleset, b: Ruleset) -> Section:
    """Outcomes by name, and each statement of what rules one out."""

    def named(ruleset: Ruleset) -> dict[str, _Side]:
        found: dict[str, _Side] = {}
        for one in ruleset.edition.outcomes:
            when = condition_words(ruleset, one.when)
            found[one.id] = (f"{one.label} ({when})" if when else one.label, one.source)
        return found

    def capped(ruleset: Ruleset) -> dict[str, _Side]:
        return {
            cap_words(ruleset, cap): (cap_words(ruleset, cap), cap.source) for cap in ruleset.edition.caps
        }

    rows, same = _side_by_side("outcome", named(a), named(b), _keys(named(a), named(b)), str)
    caps = capped(a), capped(b)
    more, also = _side_by_side("cap", *caps, _keys(*caps), lambda words: words.split(":")[0])
    return Section("outcomes", "Outcomes", (*rows, *more), same + also)


def _keys(a: Mapping[str, _Side], b: Mapping[str, _Side]) -> list[str]:
    return list(dict.fromkeys([*a, *b]))


def _points(a: Ruleset, b: Ruleset) -> list[str]:
    return list(dict.fromkeys([*a.points, *b.points]))


def _label(a: Ruleset, b: Ruleset, point: str) -> str:
    known = a.points.get(point) or b.points.get(point)
    if known is None:
        return point
    return known.label + (", measured" if isinstance(known, MeasurePoint) else "")
