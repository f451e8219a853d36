"""Tries of phrases over word stems, made from the wording and the language data.

A node is a dict from a stem to the next node; under `END` it lists the meanings (kind, value) that end there.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from hands_on.notes.language import Language
from hands_on.notes.slips import is_common
from hands_on.notes.source import WordingSource
from hands_on.notes.stems import plain, stem

__all__ = [
    "DEGREES",
    "END",
    "SMALL_DROP",
    "Builder",
    "Gives",
    "Node",
    "add_faults",
    "add_parts_and_qualities",
    "add_small_talk",
    "joined",
]

END = "\0"
Node = dict[str, Any]

SMALL_DROP = frozenset({"the", "of"})
MARKS = "!~?"
DEGREES = ("slight", "moderate", "marked", "extreme")


@dataclass(frozen=True, slots=True)
class Gives:
    """What a quality means at a part: the faults it may be, and when it is one at all.

    Marks: `!` a state that is asked, a fault only with a `too` or a degree; `~` asked in small measure, no
    fault with `slightly` or `moderately`; `?` the good state, a fault where the note doubts or denies it.
    """

    faults: tuple[str, ...]
    marks: str = ""


class Builder:
    """Cuts phrases into stems and puts them into tries."""

    def __init__(self, language: Language) -> None:
        small = language.small
        self.drop = small.drop
        self.skip = small.pass_ | small.drop
        self.keep_in_after = frozenset(stem(w) for w in small.keep_in_after)
        self.contractions = {
            plain(k): tuple(plain(v).split()) for k, v in language.words.contractions.items()
        }
        self.blocked = language.talk.blocked
        self.surfaces: dict[str, tuple[str, ...]] = {}
        self._pieces: dict[str, tuple[str, ...]] = {}
        self._symbols: dict[str, str] = {}

    def split(self, phrase: str) -> list[str]:
        out: list[str] = []
        for word in plain(phrase).replace("-", " ").replace(",", " ").split():
            pieces = self._pieces.get(word)
            if pieces is None:
                pieces = self._pieces[word] = self._taken_apart(word)
            out += pieces
        return out

    def _taken_apart(self, word: str) -> tuple[str, ...]:
        """A word as it counts: `can't` is `can not`."""
        if word.startswith("{"):
            return (word,)
        if word in self.contractions:
            return self.contractions[word]
        for tail, whole in (("n't", "not"), ("'d", "would"), ("'s", "")):
            if word.endswith(tail) and len(word) > len(tail) and word != "i's":
                head = word[: -len(tail)]
                head = {"ca": "can", "wo": "will"}.get(head, head)
                return (head, whole) if whole else (head,)
        return (word,)

    def _symbol(self, word: str) -> str:
        symbol = self._symbols.get(word)
        if symbol is None:
            symbol = word if word.startswith("{") else "=" + word if word in self.blocked else stem(word)
            self._symbols[word] = symbol
        return symbol

    def symbols(self, phrase: str, drop: frozenset[str]) -> tuple[str, ...]:
        """The stems of a phrase that count, in order."""
        words = self.split(phrase)
        for word in words:
            if word not in self.surfaces and not word.startswith("{") and word not in drop:
                self.surfaces[word] = (stem(word),)
        if drop.isdisjoint(words):
            return tuple(map(self._symbol, words))
        kept: list[str] = []
        last = len(words) - 1
        for i, word in enumerate(words):
            if word in drop:
                if kept and kept[-1] in ("not", "{not}") and word not in ("a", "the", "be", "been"):
                    kept.append(word)
                    continue
                if word == "at" and kept and kept[-1] in ("in", "out", "over"):
                    kept.append(word)
                    continue
                if word in ("in", "on"):
                    after_verb = i > 0 and (
                        words[i - 1].startswith("{turn") or stem(words[i - 1]) in self.keep_in_after
                    )
                    if i in (0, last) or after_verb:
                        kept.append(word)
                elif last == 0:
                    kept.append(word)
                continue
            kept.append(self._symbol(word))
        if not kept:
            kept = [stem(w) for w in words]
        return tuple(kept)

    def add(self, trie: Node, phrase: str, meaning: tuple[str, Any], drop: frozenset[str]) -> tuple[str, ...]:
        key = self.symbols(phrase, drop)
        node = trie
        for symbol in key:
            node = node.setdefault(symbol, {})
        meanings: list[tuple[str, Any]] = node.setdefault(END, [])
        if meaning not in meanings:
            meanings.append(meaning)
        return key


def _gives(text: str) -> Gives:
    faults = text.split()
    return Gives(tuple(f.rstrip(MARKS) for f in faults), "".join(m for m in MARKS if m in text))


def add_small_talk(b: Builder, small: Node, language: Language) -> None:
    """The words of talk: classes, degrees, sides, places, status, praise."""
    drop = SMALL_DROP

    def add(phrases: Iterable[str], kind: str, value: str | None = None) -> None:
        for phrase in phrases:
            b.add(small, phrase, (kind, phrase if value is None else value), drop)

    for name, phrases in language.classes.items():
        add(phrases, "class", "{" + name + "}")
    for degree in DEGREES:
        add(getattr(language.degrees, degree), "degree", degree)
    for degree, sign in zip(("slight", "marked", "extreme"), ("+", "++", "+++"), strict=True):
        add((sign,), "degree", degree)
    sides = language.sides
    add(sides.left, "side", "left")
    add(sides.right, "side", "right")
    add(sides.both, "side", "both")
    add(sides.left_if_part, "side?", "left")
    add(sides.right_if_part, "side?", "right")
    for phrase, place in sides.compact.items():
        if place:
            side, where = place.split()
            add((phrase,), "side", side)
            add((phrase,), "place", where)
    for where, entry in language.locations.items():
        add(entry.words, "place", where)
    status, talk = language.status, language.talk
    for kind, phrases in (
        ("absent_before", status.absent_before),
        ("absent_after", status.absent_after),
        ("unsure_before", status.unsure_before),
        ("unsure_after", status.unsure_after),
        ("neutral", status.neutral),
        ("double", status.double),
        ("double_unsure", status.double_unsure),
        ("except", status.except_),
        ("contrast", status.contrast),
        ("there_after", status.there_after),
        ("beyond", status.beyond),
        ("praise", talk.praise),
        ("people", talk.people),
        ("others", talk.others),
        ("then", talk.then),
        ("verdict", talk.verdict),
        ("asked", talk.asked),
        ("correct", talk.correct),
    ):
        add(phrases, kind)
    for kind, phrases in (("and", language.words.and_), ("or", language.words.or_)):
        for phrase in phrases:
            b.add(small, phrase, (kind, phrase), frozenset())


@dataclass(slots=True)
class PartsAndQualities:
    """What parts and qualities mean together, and each where the other is not said."""

    gives: dict[tuple[str, str], Gives]
    bare: dict[tuple[str, str], Gives]
    lone: dict[str, Gives]


def add_parts_and_qualities(
    b: Builder, main: Node, language: Language, known: Mapping[str, object]
) -> PartsAndQualities:
    """Put parts and qualities into `main`; faults that are not `known` are left out (all are, if none is)."""
    gives: dict[tuple[str, str], Gives] = {}
    seen: dict[str, set[tuple[str, ...]]] = {}

    def meant(text: str) -> Gives:
        g = _gives(text)
        return Gives(tuple(f for f in g.faults if not known or f in known), g.marks)

    for part, entry in language.parts.items():
        for phrase in entry.words:
            b.add(main, phrase, ("P", part), b.drop)
        for qualities, text in entry.gives.items():
            g = meant(text)
            if not g.faults:
                continue
            for quality in qualities.split():
                gives[part, quality] = g
                seen.setdefault(quality, set()).add(g.faults)
    for quality, phrases in language.qualities.items():
        for phrase in (*phrases, *_said_otherwise(phrases)):
            b.add(main, phrase, ("Q", quality), b.drop)
    bare = {
        (region, quality): g
        for region, screen in language.regions.items()
        for quality, text in screen.bare.items()
        if (g := meant(text)).faults
    }
    lone = {
        q: Gives(next(iter(sets)))
        for q, sets in seen.items()
        if len(sets) == 1 and q not in language.talk.not_alone
    }
    return PartsAndQualities(gives, bare, lone)


_ENOUGH = re.compile(r"\{not\} (\w+) enough|\{(?:insufficiently|under)\} (\w+)")


def _said_otherwise(phrases: Iterable[str]) -> Iterator[str]:
    """Who is not long enough is also `not as long as` he should be, `not so long as`, `less long than`."""
    for phrase in phrases:
        if found := _ENOUGH.fullmatch(phrase):
            state = found[1] or found[2]
            yield f"{{not}} {state} enough"
            yield f"{{not}} as {state} as"
            yield f"{{not}} so {state} as"
            yield f"less {state} {{than}}"
            yield f"{{not}} that {state}"


def add_faults(
    b: Builder,
    main: Node,
    small: Node,
    source: WordingSource,
    bare: dict[tuple[str, str], Gives],
    lone: Mapping[str, Gives],
    ordinary: frozenset[str],
) -> None:
    """Add each fault's wording.

    A single common word that is also a quality or a part stays one, and means the fault in its region only.
    Marks behind the fault: `~` a single common word; `!` a phrase of which but one word is left beside `too`,
    and which needs a `too`, or a degree, in the note as well.
    """
    for fault, words in source.faults.items():
        plain_keys = {b.symbols(p, b.drop) for p in words.wording if "too" not in p.split()}
        for phrase in words.wording:
            key = b.symbols(phrase, b.drop)
            meanings = _at(main, key)
            qualities = [value for kind, value in meanings if kind == "Q"]
            if len(key) > 1 and qualities:
                for quality in qualities:
                    bare.setdefault((words.region, quality), Gives((fault,)))
                continue
            if len(key) == 1:
                common = is_common(key[0], ordinary) or any(q not in lone for q in qualities)
                if qualities and common:
                    for quality in qualities:
                        bare.setdefault((words.region, quality), Gives((fault,)))
                    continue
                if any(kind == "P" for kind, _ in meanings) or any(k == "degree" for k, _ in _at(small, key)):
                    continue
                if key[0] in b.drop or len(key[0]) < 3:
                    continue
                mark = "!" if "too" in phrase.split() else ""
                mark += "~" if is_common(key[0], ordinary) else ""
                b.add(main, phrase, ("F", fault + mark), b.drop)
                continue
            stressed = "too" in phrase.split() and key not in plain_keys
            b.add(main, phrase, ("F", fault + "!" if stressed else fault), b.drop)


def _at(trie: Node, key: tuple[str, ...]) -> list[tuple[str, Any]]:
    node: Node | None = trie
    for symbol in key:
        node = node.get(symbol) if node is not None else None
    return list(node.get(END, ())) if node is not None else []


def joined(main: Node) -> dict[str, tuple[str, ...]]:
    """Two-word phrases written as one word: `cowhock` -> (`cow`, `hock`)."""
    out: dict[str, tuple[str, ...]] = {}
    for first, node in main.items():
        if first == END or first.startswith("{"):
            continue
        for second, after in node.items():
            if (
                second != END
                and not second.startswith("{")
                and END in after
                and len(first) + len(second) >= 6
            ):
                out[first + second] = (first, second)
    return out
