"""Which fault words are most like: judged by the words they share with wording and with notes read before.

The reader's grammar knows phrases, parts and qualities; people say things otherwise. This is the second
opinion: a multinomial naive Bayes classifier over words, pairs of neighbouring words, and the parts and
qualities among them, weighted by how rare they are (tf-idf), all faults equally likely beforehand. Source:
Manning, Raghavan, Schütze, Introduction to Information Retrieval, Cambridge University Press 2008, chapters
6.2 (tf-idf) and 13.2 (naive Bayes).
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import log, sqrt
from typing import Final

from hands_on.notes.phrase_trie import END, Node

__all__ = ["NEITHER", "NOTHING", "RIGHT", "Likeness", "Sample", "learn"]

NOTHING: Final = ""
"""Stands where a fault would: the words speak of none."""
RIGHT: Final = "="
"""Stands before a point where a fault would: the words say that it is right."""
NEITHER: Final = RIGHT
"""The words speak of no fault and call no point right."""
_SMOOTHING: Final = 0.15
_LONGEST_NAME: Final = 4


@dataclass(frozen=True, slots=True)
class Sample:
    """Stems of a phrase or note, the region it was said under, and its fault, or NOTHING."""

    stems: tuple[str, ...]
    region: str | None
    fault: str


@dataclass(frozen=True, slots=True)
class Likeness:
    """Made by `learn`; see the head of the module."""

    faults: tuple[str, ...]
    rarity: Mapping[str, float]
    floors: tuple[float, ...]
    gains: Mapping[str, tuple[tuple[int, float], ...]]
    names: Node

    def scores(self, stems: Sequence[str], region: str | None) -> dict[str, float]:
        """The log-likelihood of every fault, and of NOTHING; empty when no word was met before."""
        weights = _weights(_evidence(stems, region, self.names), self.rarity)
        if not any(not name.startswith("R:") for name in weights):
            return {}
        whole = sum(weights.values())
        scores = [whole * floor for floor in self.floors]
        for name, weight in weights.items():
            for k, gain in self.gains[name]:
                scores[k] += weight * gain
        return dict(zip(self.faults, scores, strict=True))


def learn(samples: Iterable[Sample], names: Node) -> Likeness:
    """Weigh the evidence of all samples. `names`: the trie in which parts and qualities are found.

    Two words that stood beside each other once only tell nothing of the next note and are left out.
    """
    evidence = [(sample.fault, _evidence(sample.stems, sample.region, names)) for sample in samples]
    met: dict[str, int] = {}
    for _, found in evidence:
        for name in set(found):
            met[name] = met.get(name, 0) + 1
    count = 1 + len(evidence)
    rarity = {name: log(count / (1 + n)) + 1 for name, n in met.items() if n > 1 or " " not in name}
    faults = tuple(dict.fromkeys(fault for fault, _ in evidence))
    sums: list[dict[str, float]] = [{} for _ in faults]
    number = {fault: k for k, fault in enumerate(faults)}
    for fault, found in evidence:
        mine = sums[number[fault]]
        for name, weight in _weights(found, rarity).items():
            mine[name] = mine.get(name, 0.0) + weight
    floors: list[float] = []
    gains: dict[str, list[tuple[int, float]]] = {}
    for k, mine in enumerate(sums):
        whole = log(sum(mine.values()) + _SMOOTHING * len(rarity))
        floors.append(log(_SMOOTHING) - whole)
        for name, total in mine.items():
            gains.setdefault(name, []).append((k, log(total + _SMOOTHING) - log(_SMOOTHING)))
    return Likeness(faults, rarity, tuple(floors), {n: tuple(g) for n, g in gains.items()}, names)


def _evidence(stems: Sequence[str], region: str | None, names: Node) -> list[str]:
    found = [*stems, *(f"{a} {b}" for a, b in pairwise(stems))]
    if region:
        found.append("R:" + region)
    parts: set[str] = set()
    qualities: set[str] = set()
    for at in range(len(stems)):
        node = names
        for stem in stems[at : at + _LONGEST_NAME]:
            if stem not in node:
                break
            node = node[stem]
            for kind, value in node.get(END, ()):
                if kind == "P":
                    parts.add(value)
                elif kind == "Q":
                    qualities.add(value)
    found += [f"P:{part}" for part in parts]
    found += [f"Q:{quality}" for quality in qualities]
    found += [f"P:{part} Q:{quality}" for part in parts for quality in qualities]
    return found


def _weights(evidence: Sequence[str], rarity: Mapping[str, float]) -> dict[str, float]:
    """tf-idf weights of length one; what was never met is left out."""
    weights = {name: rarity[name] for name in evidence if name in rarity}
    if len(weights) < len(evidence):
        for name, n in Counter(evidence).items():
            if n > 1 and name in weights:
                weights[name] = (1 + log(n)) * rarity[name]
    length = sqrt(sum(w * w for w in weights.values()))
    return {name: w / length for name, w in weights.items()} if length else {}
