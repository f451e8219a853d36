"""What `hands-on read` prints: a reading by region, and the steps that led to it."""

from __future__ import annotations

from collections.abc import Iterator

from hands_on.notes import FoundAffirmed, FoundFault, FoundMeasure, Reading, Steps, WordingSource
from hands_on.plain_text import one_line
from hands_on.ruleset.dentition import place_name
from hands_on.wording.dogs import chance

__all__ = ["reading_text", "steps_text"]

_EVIDENCE = 8
"""So much of the evidence for a finding is shown, the heaviest first."""
_STATUS = {"absent": "ruled out", "unsure": "unsure"}


def reading_text(reading: Reading, source: WordingSource) -> str:
    """A note with what was read of it: region by region findings, measures, points called right; then the
    words that were not read."""
    rows = [f"> {one_line(reading.note)}"]
    for region, told in _by_region(reading, source):
        rows.append(f"  {region or 'the dog'}")
        rows += [f"    {one}" for one in told]
    unread = [reading.note[start:end].strip() for start, end in reading.unread]
    if any(unread):
        rows.append("  not read: " + "; ".join(one_line(piece) for piece in unread if piece))
    return "\n".join(rows)


def _by_region(reading: Reading, source: WordingSource) -> Iterator[tuple[str, list[str]]]:
    order = {name: at for at, name in enumerate(source.language.regions)}
    found: dict[str, list[tuple[int, tuple[int, int], str]]] = {}

    def put(region: str, kind: int, span: tuple[int, int], told: str) -> None:
        found.setdefault(region, []).append((kind, span, told))

    for fault in reading.faults:
        known = source.faults.get(fault.id)
        put(known.region if known else "", 0, fault.span, _fault(fault, source))
    for measure in reading.measures:
        words = source.measures.get(measure.id)
        put(words.region if words else "", 1, measure.span, _measure(measure, source))
    for right in reading.affirmed:
        point = source.points.get(right.point)
        put(point.region if point else right.point.partition(".")[0], 2, right.span, _right(right))
    for region in sorted(found, key=lambda name: (order.get(name, len(order)), name)):
        yield region, [told for _, _, told in sorted(found[region])]


def _label(name: str, source: WordingSource) -> str:
    words = source.faults.get(name) or source.measures.get(name)
    return words.label if words else name


def _fault(fault: FoundFault, source: WordingSource) -> str:
    worse = f"more on the {fault.worse}" if fault.worse else None
    words = [fault.degree, fault.side, worse, _STATUS.get(fault.status), *map(place_name, fault.teeth)]
    said = "".join(f", {word}" for word in words if word)
    sure = "taken" if fault.accepted else f"to be confirmed, {chance(fault.confidence)}"
    own = ", by your own words" if fault.own else ""
    others = ", ".join(_label(name, source) for name in fault.alternatives)
    return f"{_label(fault.id, source)} ({fault.id}){said}: {sure}{own}" + (
        f"; or {others}" if others else ""
    )


def _measure(measure: FoundMeasure, source: WordingSource) -> str:
    unit = f" {measure.unit}" if measure.unit else ""
    return f"{_label(measure.id, source)} ({measure.id}): {measure.value:g}{unit}"


def _right(right: FoundAffirmed) -> str:
    sure = "as asked" if right.accepted else f"as asked, to be confirmed, {chance(right.confidence)}"
    return f"{right.point}{f' {right.option}' if right.option else ''}: {sure}"


def steps_text(steps: Steps) -> str:
    """The steps of one reading, each under its heading; a step that found nothing is left out."""
    reading = steps.reading
    limits = f"offered from {chance(steps.floor)}, taken from {chance(steps.accept)}"
    blocks = {
        "slips -> as the likeness hears them": [
            f"{one_line(typed)} -> {one_line(stems)}" for typed, stems in steps.heard
        ],
        "clauses -> parts and qualities": list(_clauses(steps)),
        f"status, degree, side -> findings ({limits})": list(_weighed(steps)),
        "numbers -> measures": [
            f"{m.id} {m.value:g} {m.unit or 'without a unit'} ({_words(reading, m.span)})"
            for m in reading.measures
        ],
        "affirmations, where nothing is found": [
            f"{_right(a)}: {chance(a.confidence)} ({_words(reading, a.span)})" for a in reading.affirmed
        ],
    }
    return "\n".join(
        row for head, rows in blocks.items() if rows for row in (head, *(f"  {one}" for one in rows))
    )


def _words(reading: Reading, span: tuple[int, int]) -> str:
    return one_line(reading.note[span[0] : span[1]])


def _clauses(steps: Steps) -> Iterator[str]:
    for clause in steps.clauses:
        known = {
            "part": clause.parts,
            "quality": clause.qualities,
            "named": clause.named,
            "talk": clause.talk,
        }
        told = "; ".join(f"{name} {', '.join(found)}" for name, found in known.items() if found)
        yield f"{clause.join:8} {one_line(clause.words)}" + (f"  [{told}]" if told else "")


def _weighed(steps: Steps) -> Iterator[str]:
    for found in steps.weighed:
        said = ", ".join(w for w in (found.status, found.degree, found.side) if w)
        kept = "" if found.confidence >= steps.floor else ", not offered"
        sure = f"{chance(found.confidence)}{kept}"
        yield f"{found.fault}, {said}, by {found.origin}: {sure} ({one_line(found.words)})"
        yield "  " + ", ".join(f"{name} {weight:+.1f}" for name, weight in found.evidence[:_EVIDENCE])
