"""Clauses, and the sentences made of them; each knows the answers it rests on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from hands_on.frozen import dataclass
from hands_on.wording.critique.language import Language, fill

__all__ = [
    "Clause", "Critique", "Sentence", "joined", "linked", "listed", "sentences", "stopped", "subject_of",
    "together",
]  # fmt: skip


@dataclass(frozen=True)
class Clause:
    """A main clause, without capital and full stop."""

    text: str
    answers: tuple[str, ...]
    fault: bool = False
    whole: bool = False
    """Long or punctuated enough to stand alone."""
    last: str = ""
    """The last of several clauses, as it was before it was joined; empty where there is one."""


@dataclass(frozen=True)
class Sentence:
    """A whole sentence and the ids of the answers it rests on: points, `dog.sex`, `summary.outcome` ..."""

    text: str
    answers: tuple[str, ...]
    last: str = ""
    """Its last clause, of several."""


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
    text = fill(template, a=first.text, b=_without_subject(language, first.last or first.text, second.text))
    return Clause(text, _unique((*first.answers, *second.answers)), whole=True, last=second.text)


def together(language: Language, clauses: Sequence[Clause]) -> Clause:
    """Several clauses as one list of them."""
    texts, before = [], ""
    for one in clauses:
        texts.append(_without_subject(language, before, one.text) if before else one.text)
        before = one.text
    answers = _unique(answer for one in clauses for answer in one.answers)
    return Clause(fill(language.joints[0], a=", ".join(texts[:-1]), b=texts[-1]), answers, last=before)


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
    """A paragraph's sentences; one that begins with the subject of the clause before takes a pronoun."""
    before = ""
    for one in told:
        text = _small(one.text)
        told_again = _without_subject(language, before, text) if before else text
        before = one.last or text
        yield one if told_again == text else Sentence(_capital(told_again), one.answers)


def stopped(clause: Clause) -> Sentence:
    """A clause as a sentence."""
    text = _capital(clause.text)
    return Sentence(text if text.endswith(".") else f"{text}.", clause.answers, clause.last)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _small(text: str) -> str:
    return text[:1].lower() + text[1:]


def listed(language: Language, words: Iterable[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    said = list(words)
    if len(said) < 2:
        return "".join(said)
    joint = f" {language.words.and_} "
    if any(joint in word for word in said):
        joint = language.words.and_last
    return f"{', '.join(said[:-1])}{joint}{said[-1]}"


def _joint(language: Language, pair: Sequence[Clause], turn: int) -> str:
    """The joints in turn; clauses that are joined within themselves by the last, which is a semicolon."""
    inner = f", {language.words.and_} "
    busy = any(inner in one.text or one.text.count(f" {language.words.and_} ") > 1 for one in pair)
    return language.joints[-1] if busy else language.joints[turn % len(language.joints)]


def _without_subject(language: Language, before: str, text: str) -> str:
    """The second of two clauses, with a pronoun for the subject that both begin with, unless the first speaks
    of another that the pronoun could stand for; and with a noun for the dog where its pronoun could be taken
    for the subject of the first.
    """
    for pronoun, subjects in language.subjects.items():
        for subject in subjects:
            head = f"{subject} "
            if not before.startswith(head):
                continue
            if text.startswith(head):
                others = (f" {other} " in before[len(head) - 1 :] for other in subjects if other != subject)
                return text if any(others) else f"{pronoun} {text[len(head) :]}"
            if text.startswith(f"{pronoun} ") and pronoun in language.dogs:
                return f"{language.dogs[pronoun]} {text[len(pronoun) + 1 :]}"
    return text


def subject_of(language: Language, text: str) -> str:
    """The subject that a clause begins with; empty where the language does not know it."""
    known = (subject for subjects in language.subjects.values() for subject in subjects)
    return next((subject for subject in known if text.startswith(f"{subject} ")), "")


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
