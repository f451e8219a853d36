"""Two editions held against each other, rule by rule: what differs, each edition's source beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from hands_on.compare.edition_classing import classes, combinations, present, rulings, teeth, unnamed
from hands_on.compare.edition_limits import limits
from hands_on.compare.edition_rows import Comparison, Difference, Kind, Row, Section
from hands_on.report.edition import cap_words
from hands_on.ruleset.points import MeasurePoint
from hands_on.ruleset.ruleset import Ruleset

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
    sides: list[dict[str, _Side]] = []
    for rules in (a, b):
        given = {name: getattr(rules.edition, name) for name in labels}
        sides.append({name: (str(value), ()) for name, value in given.items() if value not in (None, "")})
    rows, same = _side_by_side("edition", *sides, labels, labels.__getitem__)
    return Section("editions", "The editions", rows, same)


def _asked(a: Ruleset, b: Ruleset) -> Section:
    """What is asked for at each point, in the order of the examination."""
    sides: list[dict[str, _Side]] = [
        {point: (asked.text, asked.source) for point, asked in rules.edition.asked.items()}
        for rules in (a, b)
    ]
    rows, same = _side_by_side(
        "asked", *sides, _points(a, b), lambda point: _label(a, b, point), lacking=(_lack(a), _lack(b))
    )
    return Section("asked", "Asked for", rows, same)


def _silences(a: Ruleset, b: Ruleset) -> Section:
    """Points that one edition is silent on and the other is not; silences that name no point."""
    sides: list[dict[str, _Side]] = []
    for rules in (a, b):
        said: dict[str, _Side] = {}
        for silence in rules.edition.silent:
            text = f"silent: {silence.about}"
            for name in silence.points or (silence.about,):
                said[name] = (text if silence.points else silence.note or "silent", silence.source)
        sides.append(said)
    order = [*_points(a, b), *(name for side in sides for name in side if name not in a.points)]
    rows: list[Row] = []
    same = 0
    for name in dict.fromkeys(order):
        first, second = sides[0].get(name), sides[1].get(name)
        if first and second:
            same += 1
        elif first or second:
            texts = [side[0] if side else _says(rules, name) for side, rules in ((first, a), (second, b))]
            sources = [", ".join(side[1]) if side else "" for side in (first, second)]
            rows.append(
                Row("silence", name, _label(a, b, name), "", *texts, present((first, second)), *sources)
            )
    return Section("silences", "What one of them is silent on", tuple(rows), same)


def _says(ruleset: Ruleset, point: str) -> str:
    """What an edition that is not silent on a point has to say of it."""
    if point not in ruleset.points:
        return ""
    if any(point in limit.measures for limit in ruleset.edition.limits):
        return "limited"
    if point in ruleset.edition.asked:
        return f"asked: {ruleset.edition.asked[point].text}"
    return _lack(ruleset)(point)


def _lack(ruleset: Ruleset) -> Callable[[str], str]:
    silent = {point: one.about for one in ruleset.edition.silent for point in one.points}
    walk = {point.id for point in ruleset.walk_points}

    def words(point: str) -> str:
        if point in silent:
            return f"silent: {silent[point]}"
        return "nothing of its own" if point in walk else "not asked"

    return words


def _measured(a: Ruleset, b: Ruleset) -> Section:
    """Measurements that belong to one walk only, or are judged in one and only recorded in the other."""
    sides: list[dict[str, _Side]] = []
    for rules in (a, b):
        plan = rules.edition.walk
        said: dict[str, _Side] = {name: ("recorded, never judged", ()) for name in plan.offer}
        said |= {name: ("measured", ()) for name in plan.measures}
        sides.append(said)
    points = [
        name for name in _points(a, b) if isinstance(a.points.get(name, b.points.get(name)), MeasurePoint)
    ]
    rows, same = _side_by_side(
        "measured", *sides, points, lambda name: _label(a, b, name), lacking=(_lack(a), _lack(b))
    )
    return Section("measured", "What is measured", rows, same)


def _attributes(a: Ruleset, b: Ruleset) -> Section:
    sides: list[dict[str, _Side]] = [
        {
            name: (f"{one.label}: {', '.join(one.options.values())}", one.source)
            for name, one in rules.edition.attributes.items()
        }
        for rules in (a, b)
    ]
    rows, same = _side_by_side("attribute", *sides, _keys(*sides), str)
    return Section("attributes", "Asked of the dog", rows, same)


def _switches(a: Ruleset, b: Ruleset) -> Section:
    sides: list[dict[str, _Side]] = [
        {name: (f"{one.label}. {one.caution}", ()) for name, one in rules.edition.switches.items()}
        for rules in (a, b)
    ]
    rows, same = _side_by_side("switch", *sides, _keys(*sides), str)
    return Section("switches", "Off until chosen", rows, same)


def _outcomes(a: Ruleset, b: Ruleset) -> Section:
    """Outcomes by name, and each statement of what rules one out."""
    sides: list[dict[str, _Side]] = [
        {one.id: (one.label, one.source) for one in rules.edition.outcomes} for rules in (a, b)
    ]
    rows, same = _side_by_side("outcome", *sides, _keys(*sides), str)
    caps: list[dict[str, _Side]] = [
        {words: (words, cap.source) for cap in rules.edition.caps if (words := cap_words(rules, cap))}
        for rules in (a, b)
    ]
    more, also = _side_by_side("cap", *caps, _keys(*caps), lambda words: words.split(":")[0])
    return Section("outcomes", "Outcomes", (*rows, *more), same + also)


def _keys(a: Mapping[str, _Side], b: Mapping[str, _Side]) -> list[str]:
    return list(dict.fromkeys([*a, *b]))


def _points(a: Ruleset, b: Ruleset) -> list[str]:
    return list(dict.fromkeys([*a.points, *b.points]))


def _label(a: Ruleset, b: Ruleset, point: str) -> str:
    known = a.points.get(point) or b.points.get(point)
    return known.label if known is not None else point
