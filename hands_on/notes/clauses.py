"""A note as segments, between breaks, `and`, `or` and words of contrast, with what was found in each."""

from dataclasses import dataclass, field
from typing import Any, Final

from hands_on.notes.lexicon import SMALL_DROP, Lexicon
from hands_on.notes.matching import Match, choose, edges, find
from hands_on.notes.slips import Edge
from hands_on.notes.telling import (
    behind_it,
    compares,
    denies_alone,
    has_its_of,
    inside_degrees,
    is_in_the,
    is_inflected,
    is_inside_name,
    joins_two,
    no_doubt,
    stress_checked,
    without_inner_idioms,
    without_right,
)
from hands_on.notes.tokens import COMMA, STOP, Tokens

__all__ = ["STATUS_KINDS", "Item", "Parsed", "Segment", "Talk", "parse"]

_WORTH: Final = {"F": 0.3, "Q": 0.05, "P": 0.0, "N": 0.45, "I": 1.0, "talk": 0.01}
_LONGEST_SEGMENT: Final = 40
_STATUS_LIMIT: Final = 0.24
_WRITTEN_OUT: Final = frozenset({"people", "others", "then"})
"""Talk that no slip stands for: `idk` is no kid, a `littel` no litter."""
_EXACT: Final = 0.1
_CLOSE: Final = 0.31
_COLOUR: Final = frozenset({"colour", "color"})
_EYE: Final = "eye"
_EYES: Final = "eyes"
STATUS_KINDS: Final = frozenset(
    {
        "absent_before", "absent_after", "unsure_before", "unsure_after", "neutral", "double",
        "double_unsure", "except", "contrast",
    }
)  # fmt: skip


@dataclass(slots=True)
class Item:
    """A part, a quality or a named fault in the note; one word may be both part and quality."""

    start: int
    end: int
    used: tuple[int, ...]
    faults: tuple[tuple[str, float], ...] = ()
    parts: tuple[tuple[str, float], ...] = ()
    qualities: tuple[tuple[str, float], ...] = ()
    late_faults: tuple[tuple[str, float], ...] = ()
    inner_parts: tuple[tuple[str, float], ...] = ()
    inner_qualities: tuple[tuple[str, float], ...] = ()
    inner_quality_first: bool = False
    composed: bool = False
    bound: bool = False


@dataclass(slots=True)
class Talk:
    """A word or phrase of talk: a degree, a side, a negation, doubt, praise."""

    start: int
    end: int
    kind: str
    value: Any


@dataclass(frozen=True, slots=True)
class Right:
    """A state that is right as it stands, `well let down hocks`, with the parts it names."""

    start: int
    end: int
    parts: tuple[tuple[str, tuple[int, ...]], ...]
    """Each part with its words."""


@dataclass(slots=True)
class Segment:
    """One stretch of the note. `sep` is what stands before it: start, stop, comma, and, or, contrast."""

    start: int
    end: int
    sep: str
    lead: int = 0
    items: list[Item] = field(default_factory=list)
    talk: list[Talk] = field(default_factory=list)
    words: set[int] = field(default_factory=set)
    right: list[Right] = field(default_factory=list)
    corrects: bool = False


@dataclass(slots=True)
class Parsed:
    """A note, or a stretch of one, cut and matched, before anything is decided."""

    tokens: Tokens
    steps: list[tuple[Edge, ...]]
    segments: list[Segment]
    talk: list[Match]
    places: list[Talk]
    negations: frozenset[tuple[int, int]]
    praised: frozenset[int]

    @property
    def span(self) -> range:
        """The words it holds."""
        return range(self.segments[0].lead, self.segments[-1].end) if self.segments else range(0)


def parse(
    tokens: Tokens, lexicon: Lexicon, masked: frozenset[int] = frozenset(), region: str | None = None
) -> Parsed:
    """Match the note against the lexicon and cut it into segments. Masked words are numbers with units."""
    count = len(tokens)
    steps = edges(tokens, lexicon, masked)
    no_skip = [1 if word in SMALL_DROP else 0 for word in tokens.text]
    small = find(lexicon.small, tokens, steps, no_skip, None)
    skip = [1 if word in lexicon.skip else 0 for word in tokens.text]
    classes: list[list[tuple[int, str, float]]] = [[] for _ in range(count + 1)]
    talk: list[Match] = []
    covered = inside_degrees(small)
    for match in small:
        kinds = {kind for kind, _, _ in match.meanings}
        for kind, value, cost in match.meanings:
            if kind == "class" and (match.start, match.end) not in covered and not compares(match, tokens):
                classes[match.start].append((match.end, value, cost))
        kinds = {kind for kind, _, _ in match.meanings}
        near = "side?" in kinds and not lexicon.sets.paired.isdisjoint(tokens.text[match.end : match.end + 1])
        if "degree" in kinds or "side" in kinds or near:
            skip[match.start] = max(skip[match.start], match.end - match.start)
        if (
            match.cost == 0
            and len(match.used) == 1
            and "degree" in kinds
            and is_inflected(tokens.text[match.start], lexicon)
        ):
            match.meanings = [m for m in match.meanings if m[0] != "degree"]
            kinds.discard("degree")
        if tokens.text[match.start - 1 : match.end] == ["the", "touch"]:  # `harsh to the touch`
            match.meanings = [m for m in match.meanings if m[0] != "degree"]
            kinds.discard("degree")
        match.meanings = [
            m
            for m in match.meanings
            if m[0] not in STATUS_KINDS or (m[2] < _STATUS_LIMIT and has_its_of(m[1], match, tokens))
        ]
        if no_doubt(match, tokens):
            match.meanings = [m for m in match.meanings if m[0] != "unsure_before"]
        match.meanings = [m for m in match.meanings if m[0] not in _WRITTEN_OUT or m[2] < _EXACT]
        if not match.meanings:
            continue
        kinds = {kind for kind, _, _ in match.meanings}
        limit = _STATUS_LIMIT if kinds & STATUS_KINDS else 0.29 if "side" in kinds else 0.4
        if kinds - {"class"} and match.cost < limit:
            talk.append(match)
    corrections = _corrections(tokens, talk, lexicon)
    if corrections:
        talk = [m for m in talk if not any(a <= m.start < b for a, b in corrections)]
    all_main = find(lexicon.main, tokens, steps, skip, classes)
    blocking = [
        Match(m.start, m.end, m.used, [("talk", None, m.cost)])
        for m in talk
        if len(m.used) >= 2
        and any(
            kind in STATUS_KINDS or (kind == "verdict" and c < 0.1 and not value.startswith("as "))
            for kind, value, c in m.meanings
        )
        and not is_inside_name(m, all_main)
    ]
    blocking += [Match(a, b, tuple(range(a, b)), [("I", None, 0.0)]) for a, b in corrections if tokens.brk[a]]
    all_main = [stress_checked(without_right(m, tokens, lexicon), tokens, lexicon) for m in all_main]
    all_main = [m for m in all_main if m.meanings and not is_in_the(m, tokens) and not behind_it(m, tokens)]
    all_main = [m for m in all_main if not (joins_two(m, all_main, talk, tokens) or denies_alone(m, tokens))]
    all_main = without_inner_idioms(all_main)
    no_value = [1 if word in lexicon.drop else 0 for word in tokens.text]
    for start, end in covered:
        if end - start == 1:
            no_value[start] = 1
    chosen = choose(all_main + blocking, no_value, _WORTH)
    chosen = [m for m in chosen if (m.start, m.end) not in covered]  # the `tiny` of `a tiny bit`
    items = [_item(m, all_main, lexicon) for m in chosen if m.meanings[0][0] not in ("talk", "N", "I")]
    segments = _segments(tokens, items, talk, count, corrections)
    places = [
        Talk(m.start, m.end, kind, value)
        for m in talk
        for kind, value, _ in m.meanings
        if kind == "place" and not behind_it(m, tokens)
    ]
    negations = frozenset(
        (m.start, m.end) for m in talk if any(k == "absent_before" for k, _, _ in m.meanings)
    )
    praised = frozenset(m.start for m in talk if any(k == "praise" for k, _, _ in m.meanings))
    right = [_right(m, all_main) for m in chosen if m.meanings[0][0] == "N"]
    at = 0
    for segment in segments:
        while at < len(right) and right[at].start < segment.end:
            segment.right.append(right[at])
            at += 1
        segment.words = {i for item in segment.items for i in item.used}
    _lend_colour(segments, tokens, lexicon, region)
    return Parsed(tokens, steps, segments, talk, places, negations, praised)


def _of_colour(item: Item, lexicon: Lexicon) -> bool:
    """Whether an item speaks of colour and of no part: `colour too light`, not `coat colour`."""
    parts = {name for name, _ in (*item.parts, *item.inner_parts)}
    regions = {lexicon.regions.get(f.rstrip("!~?"), "") for f, _ in (*item.faults, *item.late_faults)}
    return parts <= {"colour"} and regions <= {"colour"}


def _lend_colour(
    segments: list[Segment], tokens: Tokens, lexicon: Lexicon, region: str | None = None
) -> None:
    """`lids fit well, the colour is too light`: behind an eye in its sentence, the colour is the eye's.

    So it is where eyes are on screen.
    """
    last = region
    for segment in segments:
        last = region if segment.sep in ("start", "stop") else last
        for item in segment.items:
            said = tokens.text[item.start : item.end]
            if last == _EYES and not _COLOUR.isdisjoint(said) and _of_colour(item, lexicon):
                item.parts = ((_EYE, 0.0),)
                item.qualities = item.qualities or item.inner_qualities
                item.faults = item.late_faults = item.inner_parts = item.inner_qualities = ()
            for name, cost in (*item.parts, *item.inner_parts):
                if cost < _STATUS_LIMIT:
                    last = lexicon.part_region[name]
        for right in segment.right:
            for name, _ in right.parts:
                last = lexicon.part_region[name]


def _right(match: Match, all_main: list[Match]) -> Right:
    parts = {
        (value, other.used)
        for other in all_main
        if match.start <= other.start and other.end <= match.end
        for kind, value, cost in other.meanings
        if kind == "P" and cost < 0.1
    }
    return Right(match.start, match.end, tuple(sorted(parts)))


def _item(match: Match, all_main: list[Match], lexicon: Lexicon) -> Item:
    limit = match.cost + _CLOSE
    faults = tuple((v, c) for k, v, c in match.meanings if k == "F" and c <= match.cost + 0.05)
    item = Item(
        match.start,
        match.end,
        match.used,
        faults,
        tuple((v, c) for k, v, c in match.meanings if k == "P" and c <= limit),
        tuple((v, c) for k, v, c in match.meanings if k == "Q" and c <= limit),
    )
    if item.qualities and len(match.used) > 1:
        item.inner_qualities = tuple(
            (value, cost)
            for other in all_main
            if match.start < other.start and other.end == match.end
            for kind, value, cost in other.meanings
            if kind == "Q" and cost < 0.1
        )
    has_quality = any(c <= match.cost + 0.05 for _, c in item.qualities)
    slipped = len(match.used) == 1 and match.cost > 0.1 and bool(item.parts or item.qualities)
    if faults and (slipped or has_quality):
        item.late_faults, item.faults = faults, ()
    elif faults:
        first_part = first_quality = match.end
        covered: set[int] = set()
        parts: list[tuple[str, float]] = []
        qualities: list[tuple[str, float]] = []
        for other in all_main:
            if other.start >= match.start and other.end <= match.end:
                for kind, value, cost in other.meanings:
                    if kind in ("P", "Q") and cost < 0.5:
                        covered.update(other.used)
                    if kind == "P" and cost < 0.5:
                        parts.append((value, cost))
                        first_part = min(first_part, other.start if cost < 0.3 else match.end)
                    elif kind == "Q" and cost < 0.5:
                        qualities.append((value, cost))
                        first_quality = min(first_quality, other.start if cost < 0.3 else match.end)
        item.inner_parts = tuple(parts)
        item.inner_qualities = tuple(qualities)
        free = bool(qualities) and not any(q in lexicon.lone for q, _ in qualities)
        item.composed = bool(parts) and free and covered >= set(match.used)
        item.inner_quality_first = first_quality < first_part
        item.parts = item.qualities = ()
    return item


_RANK: Final = {"": 0, "comma": 1, "and": 2, "or": 3, "contrast": 4, "stop": 5}


def _corrections(tokens: Tokens, talk: list[Match], lexicon: Lexicon) -> list[tuple[int, int]]:
    """Stretches like `no, make that`, `sorry`: what follows replaces what went before."""
    count = len(tokens)
    denying = lexicon.sets.denying - lexicon.sets.no
    marks = {
        i
        for m in talk
        if any(k == "correct" for k, _, _ in m.meanings)
        and denying.isdisjoint(tokens.text[max(0, m.start - 1) : m.start])
        for i in range(m.start, m.end)
    }
    if not marks and "no" not in tokens.text:
        return []
    extent = [0] * count
    for m in talk:
        if any(k in ("degree", "side") for k, _, _ in m.meanings):
            extent[m.start] = max(extent[m.start], m.end - m.start)
    for i, word in enumerate(tokens.text):
        if word not in lexicon.sets.no or i in marks or not 0 < i < count - 1 or not tokens.brk[i]:
            continue
        after = i + 1
        while after < count and (after == i + 1 or not tokens.brk[after]):
            step = extent[after] or (1 if tokens.text[after] in lexicon.drop else 0)
            if not step:
                break
            after += step
        only_degree = after > i + 1 and (after >= count or tokens.brk[after] != 0)
        if i + 1 in marks or (only_degree and tokens.brk[i + 1] and not tokens.query_after[i - 1]):
            marks.add(i)
    out: list[tuple[int, int]] = []
    for i in sorted(marks):
        if out and out[-1][1] == i:
            out[-1] = (out[-1][0], i + 1)
        elif i:
            out.append((i, i + 1))
    return out


def _segments(
    tokens: Tokens, items: list[Item], talk: list[Match], count: int, corrections: list[tuple[int, int]]
) -> list[Segment]:
    inside = bytearray(count + 1)
    used = bytearray(count + 1)
    for item in items:
        for i in range(item.start + 1, item.end):
            inside[i] = 1
        for i in range(item.start, item.end):
            used[i] = 1
    cut: dict[int, tuple[int, str]] = {}
    busy = bytearray(count + 1)
    for match in sorted(talk, key=lambda m: m.start - m.end):
        kinds = {kind for kind, _, _ in match.meanings}
        span = range(match.start, match.end)
        if any(busy[i] for i in span):
            continue
        if kinds & STATUS_KINDS or "degree" in kinds or "side" in kinds:
            for i in span:
                busy[i] = 1
        if any(used[i] for i in span):
            continue
        name = (
            "contrast"
            if kinds & {"contrast", "except"}
            else "or"
            if "or" in kinds
            else "and"
            if "and" in kinds
            else ""
        )
        if name and (len(match.used) == 1 or name == "contrast" or name == "and"):
            cut[match.start] = (match.end, name)
    for start, end in corrections:
        if not any(used[i] for i in range(start, end)):
            cut[start] = (end, "correction")
    segments: list[Segment] = []
    current = Segment(0, 0, "start")
    at = 0
    pending = ""

    def close(to: int, sep: str) -> None:
        nonlocal current, pending
        if to > current.start:
            current.end = to
            segments.append(current)
            pending = sep
        elif _RANK[sep] > _RANK[pending]:
            pending = sep
        current = Segment(to, to, pending or "start", to, corrects=current.corrects and to <= current.start)

    while at < count:
        if tokens.brk[at] and at and not inside[at]:
            close(at, "stop" if tokens.brk[at] == STOP else "comma" if tokens.brk[at] == COMMA else "")
        if at - current.start >= _LONGEST_SEGMENT and not inside[at]:
            close(at, "comma")
        if at in cut:
            end, name = cut[at]
            close(at, "contrast" if name == "correction" else name)
            current.corrects = current.corrects or name == "correction"
            current.start = current.end = end
            at = end
            continue
        at += 1
    close(count, "stop")
    index = 0
    for segment in segments:
        while index < len(items) and items[index].start < segment.end:
            segment.items.append(items[index])
            index += 1
    return segments
