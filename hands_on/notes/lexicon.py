"""The lexicon: wording and language data made ready for reading notes. Built once, shared, never changed.

Two tries over word stems (tries.py): `small` for the words of talk (degrees, sides, negation, ...), `main`
for faults, parts and qualities. Two more hold what measurements are called (`measure`) and the points that a
length runs between (`landmarks`).
"""

from collections.abc import Mapping
from dataclasses import dataclass

from hands_on.notes.hearing import Hearing
from hands_on.notes.language import Affirming, Language, Seen, WordSets
from hands_on.notes.lessons import CLASS, lessons
from hands_on.notes.likeness import Likeness, learn
from hands_on.notes.phrase_trie import (
    DEGREES,
    END,
    SMALL_DROP,
    Builder,
    Gives,
    Node,
    add_faults,
    add_parts_and_qualities,
    add_small_talk,
    joined,
)
from hands_on.notes.slips import Slips
from hands_on.notes.source import MeasureWords, PointWords, WordingSource
from hands_on.notes.spelling import Spelling
from hands_on.notes.stems import plain, stem
from hands_on.notes.tokens import Tokens, tokenise

__all__ = ["END", "SMALL_DROP", "Gives", "Lexicon", "Node", "build_lexicon"]


@dataclass(frozen=True, slots=True)
class SideWords:
    """Words that are a side only beside a part, and those beside which `left` and `right` are none."""

    left_if_part: frozenset[str]
    right_if_part: frozenset[str]
    not_left_before: frozenset[str]
    not_right_before: frozenset[str]
    not_right_after: frozenset[str]


@dataclass(frozen=True, slots=True)
class Lexicon:
    """Everything the reader looks words up in. Made by `build_lexicon`."""

    small: Node
    main: Node
    measure: Node
    landmarks: Node
    slips: Slips
    spelling: Spelling
    hearing: Hearing
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
    sided: frozenset[str]
    """Faults that may hold on one side of the dog alone."""
    filler: frozenset[str]
    contractions: Mapping[str, tuple[str, ...]]
    shorthand: Mapping[str, tuple[str, ...]]
    spoken: Mapping[tuple[str, ...], str]
    abbreviations: frozenset[str]
    wide_not: frozenset[str]
    setting: frozenset[str]
    well_before: frozenset[str]
    blocked: frozenset[str]
    nods: frozenset[str]
    absence: frozenset[str]
    not_there: frozenset[str]
    degree_words: frozenset[str]
    subordinate: frozenset[str]
    askable: frozenset[str]
    pictures: frozenset[str]
    sides: SideWords
    number_words: Mapping[str, float]
    fractions: Mapping[str, float]
    not_measure_before: frozenset[str]
    units: Mapping[str, str]
    unit_quantity: Mapping[str, str]
    default_measure: Mapping[str, Mapping[str, str]]
    any_measure: Mapping[str, str]
    fault_measure: Mapping[str, str]
    gaps: frozenset[str]
    bare_measure: Mapping[str, str]
    scales: frozenset[str]
    dimensions: Mapping[str, str]
    between: Mapping[frozenset[str], tuple[str, ...]]
    affirm: Node
    affirm_classes: Node
    affirms: Mapping[str, Affirming]
    seen: Mapping[str, Seen]
    points: Mapping[str, PointWords]
    points_of_fault: Mapping[str, tuple[str, ...]]
    affirmed_by_part: Mapping[str, tuple[str, ...]]
    sets: WordSets
    moving: Mapping[str, str]
    confidence: Mapping[str, float]
    affirming: Mapping[str, float]

    def tokens(self, text: str, region: str | None = None) -> Tokens:
        """A text cut into words: shorthand written out, slips in small words and misheard ones put right."""
        tokens = tokenise(text, self.contractions, self.shorthand, self.spoken, self.abbreviations)
        tokens.text[:] = map(self.spelling.meant, tokens.text)
        self.hearing.put_right(tokens, region)
        return tokens


def build_lexicon(source: WordingSource) -> Lexicon:
    """Make the lexicon from the wording. Unknown fault ids in the language file are left out."""
    language = source.language
    b = Builder(language)
    small: Node = {}
    main: Node = {}
    measure: Node = {}
    landmarks: Node = {}
    talk, sides, numbers = language.talk, language.sides, language.numbers
    filler = talk.filler | frozenset(stem(w) for w in talk.filler)
    add_small_talk(b, small, language)
    known = add_parts_and_qualities(b, main, language, source.faults)
    add_faults(b, main, small, source, known.bare, known.lone, source.ordinary | filler)
    for phrase in talk.right:
        b.add(main, phrase, ("N", phrase), b.drop)
    for phrase in talk.idioms:
        if len(b.symbols(phrase, b.drop)) > 1:
            b.add(main, phrase, ("I", phrase), b.drop)
    scales = {
        name: MeasureWords(name, phrases, "scale", "", "general")
        for name, phrases in language.measures.scales.items()
    }
    measures = {**source.measures, **scales}
    for name, words in measures.items():
        for phrase in words.wording:
            b.add(measure, phrase, ("M", name), b.drop)
    for name, phrases in language.measures.landmarks.items():
        for phrase in phrases:
            b.add(landmarks, phrase, ("L", name), b.drop)
    affirm: Node = {}
    named: set[str] = set()
    for point, said in language.affirms.items():
        for kind, phrases in (("phrase", said.phrases), ("state", said.states)):
            for phrase in phrases:
                b.add(affirm, phrase, (kind, point), b.drop)
                named.update(CLASS.findall(phrase))
    affirm_classes: Node = {}
    for name in sorted(named & language.classes.keys()):
        for phrase in language.classes[name]:
            b.add(affirm_classes, phrase, ("class", "{" + name + "}"), b.drop)
    for point in source.seen & language.seen.keys():
        for option, phrases in language.seen[point].options.items():
            for phrase in phrases:
                b.add(affirm, phrase, ("seen", f"{point} {option}"), b.drop)
    shorthand = {plain(k): tuple(plain(v).split()) for k, v in language.shorthand.items() if v}
    sounds = {plain(k): tuple(plain(v).split()) for k, v in language.sounds.items() if v}
    side_words = frozenset(
        word
        for phrases in (sides.left, sides.right, sides.both, sides.left_if_part, sides.right_if_part)
        for phrase in phrases
        for word in phrase.split()
    )
    slips = Slips(
        b.surfaces,
        source.ordinary | filler | frozenset(numbers.words),
        sounds,
        joined(main),
        b.skip | side_words,
        filler,
    )
    degree_words = frozenset(w for d in DEGREES for p in getattr(language.degrees, d) for w in p.split())
    small_words = degree_words | side_words | b.skip | talk.filler | _told(language, slips)
    return Lexicon(
        small=small,
        main=main,
        measure=measure,
        landmarks=landmarks,
        slips=slips,
        hearing=Hearing(language.heard),
        spelling=Spelling(small_words, slips),
        likeness=learn(lessons(b, source, shorthand), main),
        gives=known.gives,
        bare=known.bare,
        region_parts={name: screen.parts for name, screen in language.regions.items()},
        lone=known.lone,
        part_region={name: part.region for name, part in language.parts.items()},
        part_measures={name: part.measures for name, part in language.parts.items()},
        location_regions={k: frozenset(place.regions) for k, place in language.locations.items()},
        location_parts={k: place.parts for k, place in language.locations.items()},
        regions={fault: words.region for fault, words in source.faults.items()},
        sided=frozenset(fault for fault, words in source.faults.items() if words.sides),
        measures=measures,
        skip=b.skip,
        drop=b.drop,
        filler=filler,
        contractions=b.contractions,
        shorthand=shorthand,
        spoken={tuple(k.split()): v for k, v in language.words.spoken_breaks.items()},
        abbreviations=language.words.abbreviations | frozenset(shorthand),
        wide_not=language.words.wide_not,
        well_before=talk.well_before,
        setting=talk.setting,
        blocked=talk.blocked,
        nods=talk.nods,
        absence=language.status.absence,
        not_there=language.status.not_there,
        degree_words=degree_words,
        askable=talk.askable,
        pictures=talk.pictures,
        subordinate=language.subordinate.words,
        sides=SideWords(
            left_if_part=frozenset(sides.left_if_part),
            right_if_part=frozenset(sides.right_if_part),
            not_left_before=sides.not_left_before,
            not_right_before=sides.not_right_before,
            not_right_after=sides.not_right_after,
        ),
        number_words=numbers.words,
        fractions=numbers.fractions,
        not_measure_before=numbers.not_before,
        units={plain(w): unit for unit, ws in language.units.names().items() for w in ws},
        unit_quantity=language.units.quantities,
        default_measure=language.measures.default,
        dimensions={w: d for d, ws in language.measures.dimensions.items() for w in ws},
        between={
            frozenset(points.split()): tuple(ids.split()) for points, ids in language.measures.between.items()
        },
        any_measure=language.measures.any,
        fault_measure=language.measures.by_fault,
        gaps=language.measures.gaps,
        bare_measure=language.measures.bare,
        scales=frozenset(scales),
        affirm=affirm,
        affirm_classes=affirm_classes,
        affirms=language.affirms,
        seen=language.seen,
        points=source.points,
        points_of_fault=_inverted({p: w.departures for p, w in source.points.items()}),
        affirmed_by_part=_inverted({p: w.parts for p, w in language.affirms.items()}),
        sets=language.sets,
        moving=language.moving,
        confidence=language.confidence,
        affirming=language.affirming,
    )


def _inverted(names: Mapping[str, tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
    out: dict[str, tuple[str, ...]] = {}
    for name, members in names.items():
        for member in members:
            out[member] = (*out.get(member, ()), name)
    return out


def _told(language: Language, slips: Slips) -> frozenset[str]:
    """The common words of denial, doubt and praise."""
    status, talk = language.status, language.talk
    phrases = (
        *status.absent_before, *status.absent_after, *status.unsure_before, *status.contrast, *talk.praise,
    )  # fmt: skip
    words = {word for phrase in phrases for word in phrase.split()}
    return frozenset(w for w in words if slips.is_ordinary(w))
