"""What the likeness is shown: phrases and labelled notes, each with the fault or the point it speaks of."""

import re
from collections.abc import Iterator, Mapping
from typing import Final

from hands_on.notes.likeness import NEITHER, NOTHING, RIGHT, Sample
from hands_on.notes.phrase_trie import Builder
from hands_on.notes.source import WordingSource
from hands_on.notes.stems import stem
from hands_on.notes.tokens import tokenise

__all__ = ["CLASS", "lessons"]

CLASS: Final = re.compile(r"\{(\w+)\}")
"""The name of a class in a phrase: `{right} shoulder`."""
_OF_CLASS: Final = 3
"""So many words of each class are shown."""
_PARTS: Final = 2
"""So many of the parts that a state may be said of are shown with it."""


def lessons(b: Builder, source: WordingSource, shorthand: Mapping[str, tuple[str, ...]]) -> Iterator[Sample]:
    """Every phrase for a fault, every one for what is right, and the examples of those that are known.

    A note without a fault that several points are called right in tells only that it has no fault.
    """

    def stems(text: str) -> tuple[str, ...]:
        tokens = tokenise(text, b.contractions, shorthand, {})
        read = zip(tokens.text, tokens.number, strict=True)
        return tuple(stem(w) for w, number in read if not number and w not in b.drop)

    for fault, words in source.faults.items():
        for phrase in words.wording:
            yield Sample(
                tuple(stem(w.strip("{}")) for w in b.split(phrase) if w not in b.drop), words.region, fault
            )
    language = source.language
    for point, said in language.affirms.items():
        region = point.split(".", 1)[0]
        named = [language.parts[p].words[0] for p in (*said.of, *said.parts)[:_PARTS] if p in language.parts]
        for phrase in (*said.phrases, *(f"{part} {state}" for state in said.states for part in named)):
            for told in _with_classes(phrase, language.classes):
                yield Sample(stems(told), region, RIGHT + point)
    for example in source.examples:
        if example.fault is None or example.fault in source.faults:
            said_so = stems(example.note)
            yield Sample(said_so, example.region, example.fault or NOTHING)
            if example.right is not None and len(example.right) <= 1:
                meant = RIGHT + example.right[0] if example.right else NEITHER
                yield Sample(said_so, example.region, meant)


def _with_classes(phrase: str, classes: Mapping[str, tuple[str, ...]]) -> Iterator[str]:
    """A phrase with the first few words of each of its classes: `{right} shoulder`."""
    named = CLASS.findall(phrase)
    for k in range(_OF_CLASS if named else 1):
        told = phrase
        for name in named:
            words = classes.get(name) or (name,)
            told = told.replace("{" + name + "}", words[k % len(words)], 1)
        yield told
