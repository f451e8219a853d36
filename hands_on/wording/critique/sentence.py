"""Clauses, and the sentences made of them; each knows the answers it rests on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from hands_on.wording.critique.language import Language, fill

__all__ = ["Clause", "Critique", "Sentence", "joined", "linked", "listed", "sentences", "stopped"]


@dataclass(frozen=True)
class Clause:
    """A main clause, without capital and full stop."""

    text: str
    answers: tuple[str, ...]
    fault: bool = False
    whole: bool = False
    """Long or punctuated enough to stand alone."""


@dataclass(frozen=True)
class Sentence:
    """A whole sentence and the ids of the answers it rests on: points, `dog.sex`, `summary.outcome` ..."""

    text: str
    answers: tuple[str, ...]


@dataclass(frozen=True)
class Critique:
    """A critique of one length in one language, paragraph by paragraph."""

    language: str
    length: str
    paragraphs: tuple[tuple[Sentence, ...], ...]

    @property
    def text(self) -> str:
        """The whole of it; a blank line between paragraphs, of a catalogue's three lines a line break."""
        gap = "\n" if self.length == "catalogue" else "\n\n"
        return gap.join(" ".join(one.text for one in paragraph) for paragraph in self.paragraphs)


def joined(language: Language, template: str, first: Clause, second: Clause) -> Clause:
    """Two clauses as one."""
    text = fill(template, a=first.text, b=_without_subject(language, first.text, second.text))
    return Clause(text, _unique((*first.answers, *second.answers)), whole=True)


def sentences(language: Language, clauses: Sequence[Clause], turn: int = 0) -> Iterator[Sentence]:
    """Right and wrong in pairs: what is right first, the last of it joined to the first fault by `but`."""
    rights = [one for one in clauses if not one.fault]
    faults = [one for one in clauses if one.fault]
    bridge: list[Clause] = []
    if rights and faults and not faults[0].whole:
        bridge = [joined(language, language.words.but, rights.pop(), faults.pop(0))]
    for number, pair in enumerate([*_pairs(rights), *([one] for one in bridge), *_pairs(faults)]):
        if len(pair) == 2:
            template = _joint(language, pair, turn + number)
            yield stopped(joined(language, template, *pair))
        else:
            yield stopped(pair[0])


def linked(language: Language, told: Iterable[Sentence]) -> Iterator[Sentence]:
    """A paragraph's sentences; one that begins with the subject of the one before takes a pronoun for it."""
    before = ""
    for one in told:
        text = one.text[:1].lower() + one.text[1:]
        told_again = _without_subject(language, before[:1].lower() + before[1:], text)
        before = one.text
        yield one if told_again == text else Sentence(told_again[:1].upper() + told_again[1:], one.answers)


def stopped(clause: Clause) -> Sentence:
    """A clause as a sentence."""
    text = clause.text[:1].upper() + clause.text[1:]
    return Sentence(text if text.endswith(".") else f"{text}.", clause.answers)


def listed(language: Language, words: Iterable[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    said = list(words)
    if len(said) < 2:
        return "".join(said)
    return f"{', '.join(said[:-1])} {language.words.and_} {said[-1]}"


def _joint(language: Language, pair: Sequence[Clause], turn: int) -> str:
    """The joints in turn; clauses that are joined within themselves by the last, which is a semicolon."""
    inner = f", {language.words.and_} "
    busy = any(inner in one.text or one.text.count(f" {language.words.and_} ") > 1 for one in pair)
    return language.joints[-1] if busy else language.joints[turn % len(language.joints)]


def _without_subject(language: Language, before: str, text: str) -> str:
    """The second of two clauses, with a pronoun for the subject that both begin with."""
    for pronoun, subjects in language.subjects.items():
        for subject in subjects:
            head = f"{subject} "
            if text.startswith(head) and before.startswith(head):
                return f"{pronoun} {text[len(head) :]}"
    return text


def _pairs(clauses: Sequence[Clause]) -> Iterator[list[Clause]]:
    """Two and two; one that stands alone is left alone."""
    waiting: list[Clause] = []
    for one in clauses:
        if one.whole:
            if waiting:
                yield waiting
            yield [one]
            waiting = []
            continue
        waiting.append(one)
        if len(waiting) == 2:
            yield waiting
            waiting = []
    if waiting:
        yield waiting


def _unique(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(words))
