"""Which teeth a note names: `P1 missing upper right`, `lower left M3`, as modified Triadan numbers.

A number is quadrant and place: 1 upper right, 2 upper left, 3 lower left, 4 lower right; 01-03 incisors,
04 the canine, 05-08 premolars, 09-11 molars. Source: modified Triadan system (Floyd, Journal of Veterinary
Dentistry 8(4):18-19, 1991; from memory).
"""

from collections.abc import Sequence
from typing import Final

from hands_on.notes.tokens import Tokens

__all__ = ["named_teeth", "names_a_kind"]

_FIRST: Final = {"i": 0, "c": 3, "p": 4, "pm": 4, "m": 8}
_LAST: Final = {"i": 3, "c": 1, "p": 4, "pm": 4, "m": 3}
_KINDS: Final = {
    **dict.fromkeys(("incisor", "incisors"), 0),
    **dict.fromkeys(("premolar", "premolars"), 4),
    **dict.fromkeys(("molar", "molars"), 8),
}
_ORDINALS: Final = {"first": 1, "second": 2, "third": 3, "fourth": 4, "central": 1, "centre": 1, "corner": 3}
_LOWER_MOLARS: Final = 3
_UPPER_MOLARS: Final = 2
_NAMED: Final = {"canine": 4, "canines": 4}
_UPPER: Final = frozenset({"upper", "top", "maxillary", "above", "upr", "uppr"})
_LOWER: Final = frozenset({"lower", "bottom", "mandibular", "below", "under", "lwr", "lowr"})
_SIDES: Final = {"left": "left", "right": "right", "near": "left", "off": "right", "l": "left", "r": "right"}
_SIDE_OF_TOOTH: Final = frozenset({"near", "off", "l", "r"})
"""A side only where a jaw is named right beside them, or a tooth."""
_BOTH: Final = frozenset({"both", "bilateral", "bilaterally"})


def named_teeth(tokens: Tokens, start: int, end: int) -> tuple[tuple[int, ...], set[int]]:
    """The teeth named in the sentence around words `start` to `end`, and the words that name and place them.

    A tooth whose jaw or side is not said has no number. Jaw and side are said of the teeth beside them;
    either said again begins another group.
    """
    groups: list[tuple[list[tuple[int, int]], dict[int, str]]] = [([], {})]
    for i in tokens.sentence(start, end):
        word = tokens.text[i]
        tooth = _place_at(tokens.text, i)
        teeth, where = groups[-1]
        if tooth is not None:
            if teeth and where and min(where) > teeth[0][0]:
                groups.append(([], {}))  # `P1 upper right, P2`
            groups[-1][0].append((i, tooth))
        elif (kind := _kind(tokens.text, i)) is not None:
            if teeth and kind in (_kind(tokens.text, k) for k in where):
                groups.append(([], {}))  # `upper right P1 and lower`
            groups[-1][1][i] = _SIDES.get(word, word)
    numbers: list[int] = []
    words: set[int] = set()
    for teeth, where in groups:
        if teeth:
            words.update(where, (i for i, _ in teeth))
            numbers += _numbers([place for _, place in teeth], set(where.values()))
    return tuple(dict.fromkeys(numbers)), words


def names_a_kind(text: str) -> bool:
    """Whether words speak of some teeth and not of all: `no premolar missing`."""
    words = [w.strip(".,;:") for w in text.lower().split()]
    return any(_place(w) is not None or w in _KINDS for w in words)


def _kind(text: Sequence[str], at: int) -> str | None:
    word = text[at]
    if word in _UPPER or word in _LOWER:
        return "jaw"
    if word in _SIDE_OF_TOOTH:
        near = (*text[max(0, at - 1) : at], *text[at + 1 : at + 2])
        told = any(w in _UPPER or w in _LOWER or w == "side" or _place(w) is not None for w in near)
        return "side" if told else None
    return "side" if word in _SIDES or word in _BOTH else None


def _place_at(text: Sequence[str], at: int) -> int | None:
    """`P1`, `canine`, and `first premolar`, `second lower molar`."""
    first = _KINDS.get(text[at])
    if first is None:
        return _place(text[at])
    said = [_ORDINALS[w] for w in text[max(0, at - 3) : at] if w in _ORDINALS]
    kind = next(k for k, start in _FIRST.items() if start == first)
    return first + said[-1] if said and said[-1] <= _LAST[kind] else None


def _place(word: str) -> int | None:
    """The place in its quadrant: P1 is 5."""
    if word in _NAMED:
        return _NAMED[word]
    kind, digit = word.rstrip("0123456789"), word[len(word.rstrip("0123456789")) :]
    if kind not in _FIRST or len(digit) != 1 or not 0 < int(digit) <= _LAST[kind]:
        return None
    return _FIRST[kind] + int(digit)


def _numbers(places: list[int], where: set[str]) -> list[int]:
    jaws = [jaw for jaw, said in (("upper", _UPPER), ("lower", _LOWER)) if where & said]
    sides = ["left", "right"] if where & _BOTH else [side for side in ("left", "right") if side in where]
    quadrants = {("upper", "right"): 1, ("upper", "left"): 2, ("lower", "left"): 3, ("lower", "right"): 4}
    return [
        quadrants[jaw, side] * 100 + place
        for place in places
        for jaw in jaws
        for side in sides
        if place - _FIRST["m"] <= (_UPPER_MOLARS if jaw == "upper" else _LOWER_MOLARS)
    ]
