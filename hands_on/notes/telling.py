"""Which of the phrases found in a note tell something: idioms, right states and stress decide."""

from typing import Final

from hands_on.notes.lexicon import Lexicon
from hands_on.notes.matching import Match
from hands_on.notes.tokens import COMMA, Tokens

__all__ = [
    "behind_it",
    "compares",
    "denies_alone",
    "has_its_of",
    "inside_degrees",
    "is_in_the",
    "is_inflected",
    "is_inside_name",
    "joins_two",
    "no_doubt",
    "stress_checked",
    "without_inner_idioms",
    "without_right",
]


def is_in_the(match: Match, tokens: Tokens) -> bool:
    """`long in the toe` is not `in-toed`, nor is `turned to the outside, in the stand` turned in."""
    used, text = match.used, tokens.text
    if len(used) == 2 and text[used[0]] == "in" and used[1] > used[0] + 1:
        return True
    stands = len(used) > 1 and text[match.end - 1] == "in" and text[match.end : match.end + 1] == ["the"]
    return stands and (bool(tokens.brk[match.end - 1]) or text[match.end + 1 : match.end + 2] in _WHERE)


_WHERE: Final = (["stand"], ["stack"], ["ring"], ["trot"], ["walk"], ["movement"])
_STATES: Final = frozenset({"is", "are", "was", "were", "could", "should", "might", "seems", "looks", "too"})


def joins_two(match: Match, all_main: list[Match], talk: list[Match], tokens: Tokens) -> bool:
    """The `front and rear` of `straight front and the rear is narrow`: one remark ends, the next begins.

    Something is said of the first before it, and of the second behind it, or by an article of its own.
    """
    text, start, end = tokens.text, match.start, match.end
    if "and" not in text[start:end] or not any(kind == "P" for kind, _, _ in match.meanings):
        return False
    if not start or tokens.brk[start] or end >= len(tokens) or tokens.brk[end] or text[start - 1] == "the":
        return False
    says = [m for m in (*all_main, *talk) if m.end == start or m.start == end]
    before = any(m.end == start for m in says)
    behind = text[end] in _STATES or any(
        m.start == end and any(kind in ("Q", "F", "degree") for kind, _, _ in m.meanings) for m in says
    )
    return before and (behind or text[text.index("and", start) + 1] == "the")


def denies_alone(match: Match, tokens: Tokens) -> bool:
    """The `can't feel any` of `I was told of a dewlap, I can't feel any`: a clause that denies, no lack."""
    if len(match.used) == 1 or not any(k == "Q" and v == "lack" for k, v, _ in match.meanings):
        return False
    start = match.start - (tokens.text[match.start - 1 : match.start] == ["i"])
    ends = match.end >= len(tokens) or bool(tokens.brk[match.end])
    return ends and start > 0 and bool(tokens.brk[start])


def without_inner_idioms(all_main: list[Match]) -> list[Match]:
    """The `tail end` in `tail ends a hand above the hock`: no idiom inside the name of a fault."""
    named = [m for m in all_main if any(k == "F" and c < 0.1 for k, _, c in m.meanings)]

    def inside(match: Match) -> bool:
        return any(k == "I" for k, _, _ in match.meanings) and any(
            m.start <= match.start and match.end <= m.end and len(m.used) > len(match.used) for m in named
        )

    return [m for m in all_main if not inside(m)]


def has_its_of(phrase: str, match: Match, tokens: Tokens) -> bool:
    """`clean of` rules out, `clean and strong` praises: the `of`, passed over in matching, must be there."""
    if len(match.used) > 1 or not phrase.endswith(" of"):
        return True
    return tokens.text[match.end : match.end + 1] == ["of"]


def is_inside_name(talk: Match, all_main: list[Match]) -> bool:
    """Whether the words of talk belong to the name of a fault or a quality.

    The `could be` of `could be taken for a male`, and of `tail could be set on higher`.
    """
    return any(
        talk.start in m.used
        and m.end > talk.end
        and any(
            (k == "F" and c < 0.1 and m.start == talk.start) or (k in ("F", "Q") and c == 0 and wish)
            for k, _, c in m.meanings
        )
        for wish in [any(k.startswith("unsure") for k, _, _ in talk.meanings)]
        for m in all_main
    )


def is_inflected(word: str, lexicon: Lexicon) -> bool:
    """`touched` is not the degree `touch`."""
    return (
        word not in lexicon.degree_words
        and word.endswith(("ed", "ing", "es", "s"))
        and not word.startswith("+")
    )


def inside_degrees(small: list[Match]) -> set[tuple[int, int]]:
    """Stretches inside a longer degree: `a little` is a degree, so its `little` is no lack."""
    out: set[tuple[int, int]] = set()
    for match in small:
        if match.end - match.start > 1 and any(kind == "degree" for kind, _, _ in match.meanings):
            for start in range(match.start, match.end):
                out.update((start, end) for end in range(start + 1, match.end + 1))
            out.discard((match.start, match.end))
    return out


def without_right(match: Match, tokens: Tokens, lexicon: Lexicon) -> Match:
    """A correct state counts where nothing stresses it, and keeps other meanings from its words."""
    idiom = [m for m in match.meanings if m[0] == "I" and m[2] < 0.1]
    match.meanings = idiom or [m for m in match.meanings if m[0] != "I" and (m[0] != "N" or m[2] < 0.25)]
    if idiom or not any(kind == "N" for kind, _, _ in match.meanings):
        return match
    near, compared = lexicon.sets.near_stress, lexicon.sets.compared
    denying = lexicon.sets.denying
    after = tokens.text[match.end : match.end + 6]
    plain = (
        sum(tokens.text[i] not in lexicon.drop for i in range(match.start, match.end)) <= len(match.used) + 1
        and after[:1] != ["too"]
        and not (tokens.text[match.end - 1] == "well" and after[:1] and after[0] in lexicon.well_before)
        and not any(w in compared for w in after)
        and not any(
            i >= 0 and i not in match.used and tokens.text[i] in near
            for i in range(match.start - 1, match.end)
        )
        and not any(w in denying for w in tokens.text[max(0, match.start - 3) : match.start])
    )
    if plain:
        match.meanings = [m for m in match.meanings if m[0] == "N"]
    else:
        match.meanings = [m for m in match.meanings if m[0] != "N"]
    return match


def stress_checked(match: Match, tokens: Tokens, lexicon: Lexicon) -> Match:
    """Wording with a `too` in it says nothing where the note has none: `elbows close` is as it should be."""
    if any(kind == "F" and value.endswith("!") for kind, value, _ in match.meanings) and len(match.used) > 1:
        near = lexicon.sets.near_stress
        stress = any(tokens.text[i] in near for i in range(max(0, match.start - 2), match.end))
        after = tokens.text[match.end] if match.end < len(tokens) else ""
        if not stress and after[:1] != "+" and after not in lexicon.sets.very:
            match.meanings = [m for m in match.meanings if not (m[0] == "F" and m[1].endswith("!"))]
    return match


_FOUND: Final = frozenset({
    "demonstrated", "seen", "felt", "found", "detected", "shown", "heard", "made", "confirmed", "discovered",
})  # fmt: skip


def no_doubt(match: Match, tokens: Tokens) -> bool:
    """Words of doubt that doubt nothing.

    The `is she` of `only is she too short`, for words go before it in its clause; the `could be` of `could be
    felt`; the `whether` of `none was seen, whether at rest or under load`.
    """
    text, start, end = tokens.text, match.start, match.end
    said = text[start:end]
    if said == ["could", "be"]:
        return text[end : end + 1] != [] and text[end] in _FOUND
    if said == ["whether"]:
        stop = next((i for i in range(end, len(text)) if tokens.brk[i]), len(text))
        either = "or" in text[end:stop] and text[stop - 1] != "not"
        return start > 0 and tokens.brk[start] == COMMA and either
    asks = len(said) == 2 and said[0] in ("is", "are") and said[1] in ("he", "she", "it", "they")
    return asks and start > 0 and not tokens.brk[start]


def behind_it(match: Match, tokens: Tokens) -> bool:
    """`the loin behind it`, `too broad behind it`: no hindquarters."""
    if tokens.text[match.end - 1] != "behind":
        return False
    return tokens.text[match.end : match.end + 1] in (["it"], ["them"], ["that"], ["this"])


def compares(match: Match, tokens: Tokens) -> bool:
    """The `a little more` of `a little more than I like`: no lack."""
    return tokens.text[match.end - 1] == "more" and tokens.text[match.end : match.end + 1] == ["than"]
