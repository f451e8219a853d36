"""What the reader of notes is built from: words for faults and measurements, and the language's own data."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from hands_on.notes.language import Language

__all__ = [
    "Example",
    "FaultWords",
    "MeasureWords",
    "PointWords",
    "WordingSource",
    "examples_from_notes",
    "ordinary_words",
    "wording_from_documents",
]


@dataclass(frozen=True, slots=True)
class FaultWords:
    """The words for one fault: its label and meaning, the phrases people use, and where it belongs.

    `sides` tells whether it may hold on one side of the dog alone.
    """

    label: str
    meaning: str
    wording: tuple[str, ...]
    region: str
    sides: bool = False


@dataclass(frozen=True, slots=True)
class MeasureWords:
    """The words for one measurement; `quantity` is length, angle, mass, count or share."""

    label: str
    wording: tuple[str, ...]
    quantity: str
    unit: str
    region: str


@dataclass(frozen=True, slots=True)
class PointWords:
    """A graded point, a choice or the tooth chart: the faults it can name, and what the edition asks of it.

    `right_option` is the one answer of a choice that is no fault, where there is but one.
    """

    kind: str
    region: str
    departures: tuple[str, ...]
    asked: str = ""
    right_option: str | None = None


@dataclass(frozen=True, slots=True)
class Example:
    """A note as somebody wrote it, the region on screen, and the one fault meant; None: no fault.

    `right` are the points that a note without a fault calls right; None where nobody has told.
    """

    note: str
    region: str | None
    fault: str | None
    right: tuple[str, ...] | None = None


@dataclass(frozen=True, slots=True)
class WordingSource:
    """All wording a lexicon is made of. `ordinary`: common words that are never a slip of a trade word.

    `seen`: points at which one edition asks for what is seen alone.
    """

    faults: Mapping[str, FaultWords] = field(default_factory=dict)
    measures: Mapping[str, MeasureWords] = field(default_factory=dict)
    points: Mapping[str, PointWords] = field(default_factory=dict)
    language: Language = field(default_factory=Language)
    ordinary: frozenset[str] = frozenset()
    examples: tuple[Example, ...] = ()
    seen: frozenset[str] = frozenset()


def examples_from_notes(notes: Iterable[Mapping[str, Any]]) -> tuple[Example, ...]:
    """Of labelled notes those that speak of one fault, or of nothing at all (form: rulesets/README.md).

    One that has not that form teaches nothing and is passed over.
    """
    out: list[Example] = []
    for note in notes:
        faults, text = note.get("faults"), _text(note.get("note"))
        if not isinstance(faults, list) or not text:
            continue
        named = [_text(f.get("id")) for f in faults if isinstance(f, Mapping)]
        if len(faults) == 1 and named and named[0]:
            out.append(Example(text, _text(note.get("region")) or None, named[0]))
        elif not faults and not note.get("measures"):
            affirmed = note.get("affirmed")
            right = tuple(map(_text, affirmed)) if isinstance(affirmed, list) else None
            out.append(Example(text, _text(note.get("region")) or None, None, right))
    return tuple(out)


def ordinary_words(text: str) -> frozenset[str]:
    """The words of `ordinary-words.txt`: blanks or line ends between them, `#` opens a remark."""
    return frozenset(w for line in text.splitlines() for w in line.partition("#")[0].split())


def wording_from_documents(
    documents: Iterable[Mapping[str, Any]],
    language: Language,
    ordinary: frozenset[str] = frozenset(),
    examples: Iterable[Mapping[str, Any]] = (),
    asked: Mapping[str, str] | None = None,
    seen: Iterable[str] = (),
) -> WordingSource:
    """Collect the wording from parsed rules files, common ones first, editions after.

    A fault or measurement named again gains wording; an edition's `[wording]` adds to what is known.
    `examples` are labelled notes; `asked` is what one edition asks for, by point; `seen` are the
    points at which it asks for what is seen.
    """
    faults: dict[str, FaultWords] = {}
    measures: dict[str, MeasureWords] = {}
    points: dict[str, PointWords] = {}
    extra: dict[str, list[str]] = {}
    for document in documents:
        region = _text(_table(document.get("region")).get("id"))
        for fault, entry in _table(document.get("faults")).items():
            known = faults.get(fault)
            faults[fault] = FaultWords(
                label=_text(entry.get("label")) or (known.label if known else ""),
                meaning=_text(entry.get("meaning")) or (known.meaning if known else ""),
                wording=_merged(known.wording if known else (), entry.get("wording", ())),
                region=fault.split(".", 1)[0] if "." in fault else region,
                sides=bool(entry.get("sides", known.sides if known else False)),
            )
        for point in document.get("points", ()):
            if point.get("kind") != "measure":
                found = _point(point, region, asked or {})
                points[_text(point.get("id"))] = found
                continue
            name = _text(point.get("id"))
            before = measures.get(name)
            measures[name] = MeasureWords(
                label=_text(point.get("label")) or (before.label if before else ""),
                wording=_merged(before.wording if before else (), point.get("wording", ())),
                quantity=_text(point.get("quantity")) or "length",
                unit=_text(point.get("unit")),
                region=_text(point.get("region")) or region,
            )
        for name, phrases in _table(document.get("wording")).items():
            extra.setdefault(name, []).extend(phrases)
    for name, phrases in extra.items():
        if name in faults:
            f = faults[name]
            faults[name] = FaultWords(f.label, f.meaning, _merged(f.wording, phrases), f.region, f.sides)
        elif name in measures:
            m = measures[name]
            measures[name] = MeasureWords(m.label, _merged(m.wording, phrases), m.quantity, m.unit, m.region)
    return WordingSource(
        faults, measures, points, language, ordinary, examples_from_notes(examples), frozenset(seen)
    )


def _point(point: Mapping[str, Any], region: str, asked: Mapping[str, str]) -> PointWords:
    options = [o for o in point.get("options", ()) if isinstance(o, Mapping)]
    right = [_text(o.get("id")) for o in options if not o.get("fault")]
    named = [f for key in ("less", "more", "other") for f in point.get(key, ())]
    named += [_text(o.get("fault")) for o in (*options, *point.get("steps", ())) if o.get("fault")]
    name = _text(point.get("id"))
    return PointWords(
        kind=_text(point.get("kind")),
        region=_text(point.get("region")) or region,
        departures=tuple(dict.fromkeys(named)),
        asked=asked.get(name, ""),
        right_option=right[0] if len(right) == 1 else None,
    )


def _table(value: Any) -> Mapping[str, Any]:
    return value if isinstance(value, Mapping) else {}


def _text(value: Any) -> str:
    return value if isinstance(value, str) else ""


def _merged(first: Iterable[str], second: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys([*first, *second]))
