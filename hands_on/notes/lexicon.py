"""The lexicon: wording and language data made ready for reading notes. Built once, shared, never changed.

Two tries over word stems (tries.py): `small` for the words of talk (degrees, sides, negation, ...), `main`
for faults, parts and qualities. Two more hold what measurements are called (`measure`) and the points that a
length runs between (`landmarks`).
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from hands_on.notes.likeness import NOTHING, Likeness, Sample, learn
from hands_on.notes.slips import Slips
from hands_on.notes.source import MeasureWords, WordingSource
from hands_on.notes.tokens import tokenise
from hands_on.notes.tries import (
    DEGREES,
    END,
    SMALL_DROP,
    Builder,
    Gives,
    Node,
    add_faults,
    add_parts_and_qualities,
    add_small_talk,
    items,
    joined,
)
from hands_on.notes.words import plain, stem

__all__ = ["END", "SMALL_DROP", "Gives", "Lexicon", "Node", "build_lexicon"]


@dataclass(frozen=True, slots=True)
class Lexicon:
    """Everything the reader looks words up in. Made by `build_lexicon`."""

    small: Node
    main: Node
    measure: Node
    landmarks: Node
    slips: Slips
    likeness: Likeness
    gives: Mapping[tuple[str, str], Gives]
    bare: Mapping[tuple[str, str], Gives]
    region_parts: Mapping[str, tuple[str, ...]]
    lone: Mapping[str, Gives]
    part_region: Mapping[str, str]
    part_measures: Mapping[str, tuple[str, ...]]
    location_regions: Mapping[str, frozenset[str]]
    location_parts: Mapping[str, tuple[str, ...]]
    regions: Mapping[str, str]
    measures: Mapping[str, MeasureWords]
    skip: frozenset[str]
    drop: frozenset[str]
    filler: frozenset[str]
    contractions: Mapping[str, tuple[str, ...]]
    shorthand: Mapping[str, tuple[str, ...]]
    spoken: Mapping[tuple[str, ...], str]
    abbreviations: frozenset[str]
    wide_not: frozenset[str]
    setting: frozenset[str]
    well_before: frozenset[str]
    blocked: frozenset[str]
    absence: frozenset[str]
    not_there: frozenset[str]
    degree_words: frozenset[str]
    subordinate: frozenset[str]
    askable: frozenset[str]
    side_words: Mapping[str, frozenset[str]]
    number_words: Mapping[str, float]
    fractions: Mapping[str, float]
    not_measure_before: frozenset[str]
    units: Mapping[str, str]
    unit_quantity: Mapping[str, str]
    default_measure: Mapping[str, Mapping[str, str]]
    any_measure: Mapping[str, str]
    fault_measure: Mapping[str, str]
    bare_measure: Mapping[str, str]
    dimensions: Mapping[str, str]
    between: Mapping[frozenset[str], tuple[str, ...]]
    sets: Mapping[str, frozenset[str]] = field(default_factory=dict)
    confidence: Mapping[str, float] = field(default_factory=dict)
    version: str = ""

    def words(self, name: str) -> frozenset[str]:
        """A set of words from [sets]; empty when the language has none of that name."""
        return self.sets.get(name, frozenset())


def build_lexicon(source: WordingSource) -> Lexicon:
    """Make the lexicon from the wording. Unknown fault ids in the language file are left out."""
    b = Builder(source)
    small: Node = {}
    main: Node = {}
    measure: Node = {}
    landmarks: Node = {}
    measures_table = b.table("measures")
    words_table = b.table("words")
    ordinary = frozenset(str(b.table("ordinary").get("words", "")).split())
    talk = b.table("talk")
    filler = frozenset(str(talk.get("filler", "")).split())
    filler |= frozenset(stem(w) for w in filler)
    add_small_talk(b, small)
    gives, bare, region_parts, lone, part_region, part_measures = add_parts_and_qualities(b, main, source)
    add_faults(b, main, small, source, bare, lone, ordinary | filler)
    for kind, name in (("N", "right"), ("I", "idioms")):
        for phrase in talk.get(name, ()):
            if kind == "N" or len(b.symbols(phrase, b.drop)) > 1:
                b.add(main, phrase, (kind, phrase), b.drop)
    for name, words in source.measures.items():
        for phrase in words.wording:
            b.add(measure, phrase, ("M", name), b.drop)
    for name, phrases in items(measures_table.get("landmarks")):
        for phrase in phrases:
            b.add(landmarks, phrase, ("L", name), b.drop)
    shorthand = {plain(k): tuple(plain(v).split()) for k, v in items(b.table("shorthand")) if v}
    sounds = {plain(k): tuple(plain(v).split()) for k, v in items(b.table("sounds")) if v}
    numbers = b.table("numbers")
    side_words = frozenset(
        word
        for name in ("left", "right", "both", "left_if_part", "right_if_part")
        for phrase in b.table("sides").get(name, ())
        for word in phrase.split()
    )
    slips = Slips(
        b.surfaces,
        ordinary | filler | frozenset(numbers.get("words", {})),
        sounds,
        joined(main),
        b.skip | side_words,
        filler,
    )
    units_table = b.table("units")
    locations = b.table("locations")
    sides = b.table("sides")
    return Lexicon(
        small=small,
        main=main,
        measure=measure,
        landmarks=landmarks,
        slips=slips,
        likeness=learn(_samples(b, source, shorthand), main),
        gives=gives,
        bare=bare,
        region_parts=region_parts,
        lone=lone,
        part_region=part_region,
        part_measures=part_measures,
        location_regions={k: frozenset(v.get("regions", ())) for k, v in items(locations)},
        location_parts={k: tuple(v.get("parts", ())) for k, v in items(locations)},
        regions={fault: words.region for fault, words in source.faults.items()},
        measures=source.measures,
        skip=b.skip,
        drop=b.drop,
        filler=filler,
        contractions=b.contractions,
        shorthand=shorthand,
        spoken={tuple(k.split()): v for k, v in items(words_table.get("spoken_breaks"))},
        abbreviations=frozenset(str(words_table.get("abbreviations", "")).split()) | frozenset(shorthand),
        wide_not=frozenset(words_table.get("wide_not", ())),
        well_before=frozenset(talk.get("well_before", ())),
        setting=frozenset(str(talk.get("setting", "")).split()),
        blocked=frozenset(talk.get("blocked", ())),
        absence=frozenset(b.table("status").get("absence", ())),
        not_there=frozenset(b.table("status").get("not_there", ())),
        degree_words=frozenset(w for d in DEGREES for p in b.table("degrees").get(d, ()) for w in p.split()),
        askable=frozenset(talk.get("askable", ())),
        subordinate=frozenset(b.table("subordinate").get("words", ())),
        side_words={
            k: frozenset(sides.get(k, ()))
            for k in (
                "left_if_part",
                "right_if_part",
                "not_left_before",
                "not_right_before",
                "not_right_after",
            )
        },
        number_words={k: float(v) for k, v in items(numbers.get("words"))},
        fractions={k: float(v) for k, v in items(numbers.get("fractions"))},
        not_measure_before=frozenset(numbers.get("not_before", ())),
        units={plain(w): unit for unit, ws in items(units_table) if unit != "quantities" for w in ws},
        unit_quantity=dict(items(units_table.get("quantities"))),
        default_measure={k: dict(v) for k, v in items(measures_table.get("default"))},
        dimensions={w: d for d, ws in items(measures_table.get("dimensions")) for w in ws.split()},
        between={
            frozenset(points.split()): tuple(ids.split())
            for points, ids in items(measures_table.get("between"))
        },
        any_measure=dict(items(measures_table.get("any"))),
        fault_measure=dict(items(measures_table.get("by_fault"))),
        bare_measure=dict(items(measures_table.get("bare"))),
        sets={k: frozenset(str(v).split()) for k, v in items(b.table("sets"))},
        confidence={k: float(v) for k, v in items(b.table("confidence"))},
    )


def _samples(b: Builder, source: WordingSource, shorthand: Mapping[str, tuple[str, ...]]) -> Iterator[Sample]:
    """The wording of every fault, and the examples of those that are known."""
    for fault, words in source.faults.items():
        for phrase in words.wording:
            stems = tuple(stem(w.strip("{}")) for w in b.split(phrase) if w not in b.drop)
            yield Sample(stems, words.region, fault)
    for example in source.examples:
        if example.fault is not None and example.fault not in source.faults:
            continue
        tokens = tokenise(example.note, b.contractions, shorthand, {})
        yield Sample(
            tuple(
                stem(w) for w, n in zip(tokens.text, tokens.number, strict=True) if not n and w not in b.drop
            ),
            example.region,
            example.fault or NOTHING,
        )
