"""Finding the lexicon's phrases in a note: all readings, then the best set that does not overlap."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from hands_on.notes.lexicon import END, Lexicon, Node
from hands_on.notes.slips import Edge
from hands_on.notes.tokens import Tokens

__all__ = ["Match", "choose", "edges", "find"]

_MAX_SKIPS: Final = 3
_MAX_STEPS: Final = 600
_MAX_COST: Final = 1.05


@dataclass(slots=True)
class Match:
    """A phrase found: words `start` to `end`, the words it really used, its meanings with their costs."""

    start: int
    end: int
    used: tuple[int, ...]
    meanings: list[tuple[str, Any, float]]

    @property
    def cost(self) -> float:
        """Cost of the most believable meaning."""
        return min(m[2] for m in self.meanings)


def edges(tokens: Tokens, lexicon: Lexicon, masked: frozenset[int] = frozenset()) -> list[tuple[Edge, ...]]:
    """The readings from each word on, pairs of words included. Masked words have none."""
    slips = lexicon.slips
    out: list[tuple[Edge, ...]] = []
    last = len(tokens) - 1
    for i, word in enumerate(tokens.text):
        if i in masked:
            out.append(())
            continue
        blocked = word in lexicon.blocked
        if blocked and (i == 0 or tokens.text[i - 1] not in lexicon.sets.keeps_trade):
            out.append(((1, ("=" + word,), 0.0),))
            continue
        if tokens.number[i] or _tells_age(tokens, i, lexicon):
            out.append(((1, ("=" + word,), 0.0),))
            continue
        found = slips.readings(word)
        if i < last and not tokens.brk[i + 1] and not tokens.number[i + 1]:
            pair = slips.pair(word, tokens.text[i + 1])
            if tokens.text[i + 1] == "he" and (i + 2 > last + 1 or (i + 2 <= last and not tokens.brk[i + 2])):
                pair = ()
            if pair:
                found = found + pair
        out.append((*found, (1, ("=" + word,), 0.0)) if blocked else found)
    return out


def _tells_age(tokens: Tokens, i: int, lexicon: Lexicon) -> bool:
    """The `year` of `five year old` and of `4 years`: no ear misheard."""
    if tokens.text[i] not in lexicon.sets.ages:
        return False
    before = (
        i > 0 and not tokens.brk[i] and (tokens.number[i - 1] or tokens.text[i - 1] in lexicon.number_words)
    )
    return before or (i + 1 < len(tokens) and tokens.text[i + 1] in ("old", "of"))


def find(
    trie: Node,
    tokens: Tokens,
    steps: Sequence[tuple[Edge, ...]],
    skip: Sequence[int],
    classes: Sequence[Sequence[tuple[int, str, float]]] | None,
) -> list[Match]:
    """All matches of the trie. `skip[i]`: how many words from i may be passed over inside a phrase."""
    found: dict[tuple[int, int], Match] = {}
    brk = tokens.brk
    count = len(tokens)
    for start in range(count):
        stack: list[tuple[Node, int, tuple[int, ...], float, int]] = [(trie, start, (), 0.0, 0)]
        budget = _MAX_STEPS
        while stack and budget:
            budget -= 1
            node, at, used, cost, skips = stack.pop()
            if used and END in node and not _preposition(tokens, steps, used):
                end = used[-1] + 1
                match = found.get((start, end))
                if match is None:
                    found[start, end] = match = Match(start, end, used, [])
                for kind, value in node[END]:
                    _note(match, kind, value, cost, used)
            if at >= count or (used and brk[at]):
                continue
            for length, symbols, price in steps[at]:
                total = cost + price
                if total > _MAX_COST:
                    continue
                child: Node | None = node
                for symbol in symbols:
                    child = child.get(symbol) if child is not None else None
                if child is not None:
                    stack.append((child, at + length, used + tuple(range(at, at + length)), total, skips))
            if classes is not None:
                for end, name, price in classes[at]:
                    child = node.get(name)
                    if child is not None and cost + price <= _MAX_COST:
                        stack.append((child, end, used + tuple(range(at, end)), cost + price, skips))
            if used and skip[at] and skips < _MAX_SKIPS:
                stack.append((node, at + skip[at], used, cost, skips + 1))
    return list(found.values())


def _preposition(tokens: Tokens, steps: Sequence[tuple[Edge, ...]], used: tuple[int, ...]) -> bool:
    """`roll in his gait`, `toes in frnt`: an `in` before a noun does not close a phrase like `roll in`."""
    last = used[-1]
    if (
        len(used) == 1
        or tokens.text[last] not in ("in", "on")
        or last + 1 >= len(tokens)
        or tokens.brk[last + 1]
    ):
        return False
    after = tokens.text[last + 2] if last + 2 < len(tokens) else ""
    if tokens.text[last + 1] == "a":
        return after not in ("little", "bit", "touch", "tad", "shade", "lot", "fraction", "trifle")
    place = any(symbols[0] in ("front", "rear") for _, symbols, cost in steps[last + 1] if cost < 0.4)
    return place or tokens.text[last + 1] in ("the", "his", "her", "its", "this", "my")


def _note(match: Match, kind: str, value: Any, cost: float, used: tuple[int, ...]) -> None:
    for i, (k, v, c) in enumerate(match.meanings):
        if k == kind and v == value:
            if cost < c:
                match.meanings[i] = (kind, value, cost)
                match.used = used
            elif cost == c and len(used) > len(match.used):
                match.used = used
            return
    if not match.meanings or cost < match.cost:
        match.used = used
    match.meanings.append((kind, value, cost))


def choose(matches: list[Match], small: Sequence[int], worth: Mapping[str, float]) -> list[Match]:
    """The set of matches that do not overlap and explain most of the note (weighted interval scheduling).

    `small[i]` marks words that say little alone: `in`, `to`.
    """
    count = len(small)
    by_end: list[list[tuple[Match, float]]] = [[] for _ in range(count + 1)]
    for match in matches:
        n = len(match.used)
        best = max(worth.get(kind, 0.0) - cost for kind, _, cost in match.meanings)
        if n == 1 and small[match.start]:
            best -= 1.0
        by_end[match.end].append((match, n + 0.12 * (n - 1) + best - 0.04 * (match.end - match.start - n)))
    score = [0.0] * (count + 1)
    take: list[Match | None] = [None] * (count + 1)
    for at in range(1, count + 1):
        score[at] = score[at - 1]
        for match, value in by_end[at]:
            total = score[match.start] + value
            if total > score[at] + 1e-9:
                score[at] = total
                take[at] = match
    chosen: list[Match] = []
    at = count
    while at > 0:
        best_match = take[at]
        if best_match is None:
            at -= 1
        else:
            chosen.append(best_match)
            at = best_match.start
    chosen.reverse()
    return chosen
