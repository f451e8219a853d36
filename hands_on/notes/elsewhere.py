"""What is said of another dog or of another day: `his sire had a gay tail`, `cow-hocked as a pup`."""

from collections.abc import Set
from typing import Final

from hands_on.notes.context import Context
from hands_on.notes.degrees_sides import Judged
from hands_on.notes.language import WordSets
from hands_on.notes.lexicon import Lexicon
from hands_on.notes.tokens import STOP, Tokens

__all__ = ["another_dog", "of_another_day", "of_another_dog"]

_JOINING: Final = frozenset({"but", "and", "in", "while", "whereas"})
_STILL: Final = frozenset({"still", "now", "today", "nowadays", "remains", "yet"})


def of_another_dog(context: Context, at: int) -> bool:
    """Whether a relative or another dog is spoken of before a word; but not in `like his sire`."""
    return another_dog(context.parsed.tokens, context.lexicon, context.others, at)


def another_dog(tokens: Tokens, lexicon: Lexicon, others: Set[int], at: int) -> bool:
    """As `of_another_dog`; `others` are the words at which another dog is named (`the last dog`)."""
    sets = lexicon.sets
    text, start = tokens.text, tokens.sentence(max(at - 1, 0)).start
    kin = was = False
    for i in range(start, at):
        opens = i == start or tokens.brk[i] or text[i - 1] in _JOINING
        if kin and opens and (text[i] == "this" or (text[i] in sets.the_dog and text[i] != "him")):
            kin = False  # `her sister had the better head, but this one ...`
        if was and tokens.brk[i] and text[i] in sets.dog_does:
            kin = False
        was = kin and (was or text[i] in sets.kin_was)
        led = i - 2 if i > start and text[i - 1] in sets.own else i - 1
        if text[i] in sets.kin or i in others:
            kin = not (led >= start and text[led] in sets.not_kin_after)
    return kin and not _so_is_he(tokens, sets, at)


def _so_is_he(tokens: Tokens, sets: WordSets, at: int) -> bool:
    """`his dam was thin in the coat. So is he.`: what was said of a relative is said of the dog too."""
    text = tokens.text
    end = next((i for i in range(at, len(text)) if tokens.brk[i] == STOP), len(text))
    said = [w for w in text[end : end + 4] if w != "and"]
    same = said[:1] == ["so"] and said[1:2] != [] and said[1] in sets.auxiliary
    return same and said[2:3] != [] and (said[2] in sets.the_dog or said[2] == "this")


def of_another_day(context: Context, j: Judged) -> bool:
    """Whether a finding was there once: the clause says when, and no verb in it speaks of today.

    `cow-hocked as a pup`, `at six months he was all legs`, `limped some weeks, that is two years ago`; but
    not `lame since last week`, nor `still shy, as he was a year ago`.
    """
    if j.status != "present" or not context.then:
        return False
    parsed, sets = context.parsed, context.lexicon.sets
    text, segments, number = parsed.tokens.text, parsed.segments, j.candidate.segment
    own = segments[number]
    words = text[own.lead : own.end]
    if not _STILL.isdisjoint(words):
        return False
    moves = j.candidate.faults[0].startswith("movement.")
    past = not sets.kin_was.isdisjoint(words) or (
        moves and any(text[i].endswith("ed") for i in j.candidate.words)
    )
    sentence = context.sentence(number)
    for at in range(max(number - 1, sentence.start), min(number + 2, sentence.stop)):
        segment = segments[at]
        marks = [i for i in context.then if segment.lead <= i < segment.end]
        if (
            not marks
            or "since" in text[segment.lead : segment.end]
            or "than" in text[max(0, marks[0] - 2) : marks[0]]
        ):
            continue
        if at == number:
            before = text[own.lead : max(j.candidate.anchor.start, own.lead)]
            if past or sets.today.isdisjoint(before):
                return True
        elif past and segments[max(at, number)].sep == "comma":
            return True
    return False
