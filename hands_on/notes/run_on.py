"""Notes spoken without a pause: where one remark ends and the next begins, and remarks that find nothing.

`tail set is right it just carries on`, `good long croup only it falls off steep` are cut as a comma would
cut them. What a part is for (`that's where the lungs live`), what is said of every dog (`an ear like that is
there to turn briars`, `you take a flat-footed dog on frozen ground`) and what a standard says in general is
neither a finding nor praise of this dog: its words are put as words that say nothing.
"""

from typing import Final

from hands_on.notes.lexicon import END, Lexicon
from hands_on.notes.stems import stem
from hands_on.notes.tokens import COMMA, Tokens

__all__ = ["PUT_ASIDE", "blank_general", "part_remarks"]

PUT_ASIDE: Final = "anyway"
"""Stands for each word of what is said of no dog or of what a part is for: small talk that says nothing."""

_HERE: Final = frozenset({"this", "these", "i", "hers", "theirs", "mine"})
"""With these a speaker comes back to the dog on the table."""
_SUBJECTS: Final = frozenset({"it", "he", "she", "they"})
_TELLS: Final = frozenset({"F", "Q", "praise", "verdict"})


def part_remarks(tokens: Tokens, lexicon: Lexicon) -> None:
    """Cut before a subject that follows a judgement: `back is firm | I can't push it down`."""
    text, sets = tokens.text, lexicon.sets
    for at in range(1, len(text) - 1):
        if tokens.brk[at + 1] or tokens.number[at - 1]:
            continue
        if text[at] in sets.only_that and text[at + 1] in _SUBJECTS and at > 1:
            if text[at] == "only" or tokens.brk[at]:
                text[at] = "but"
        elif not tokens.brk[at] and _opens(text, at, lexicon) and _judges(text[at - 1], lexicon):
            tokens.brk[at] = COMMA


def _opens(text: list[str], at: int, lexicon: Lexicon) -> bool:
    """Whether a word opens a remark, if a judgement stands before it."""
    if text[at] == "i":
        return text[at + 1] in lexicon.sets.tried
    return text[at] in _SUBJECTS or (text[at] == "neither" and "nor" in text[at:])


def _judges(word: str, lexicon: Lexicon) -> bool:
    """Whether a word alone is a state or praise; `not` and its like lead on."""
    if (
        word in lexicon.drop
        or word in lexicon.subordinate
        or word in lexicon.sets.denying
        or word in lexicon.sets.particles
    ):
        return False
    ends = (*lexicon.main.get(stem(word), {}).get(END, ()), *lexicon.small.get(stem(word), {}).get(END, ()))
    return any(kind in _TELLS for kind, *_ in ends)


def blank_general(tokens: Tokens, lexicon: Lexicon) -> None:
    """Put what speaks of no dog, or of what a part is for, as words that say nothing."""
    text = tokens.text
    for at in range(len(text) - 2):
        opens = not at or tokens.brk[at] or text[at - 1] in ("and", "but", "because", "for")
        if text[at] == "for" and text[at + 1] in lexicon.sets.purposes and at:
            _blank(tokens, at, _end(tokens, at, lexicon), lexicon)  # `long enough for reaching down`
        elif text[at] == "is" and text[at + 1] == "what" and at and not tokens.brk[at]:
            _blank_made_of(tokens, at, lexicon)
        elif opens and (_is_purpose(text, at, lexicon) or _is_general(text, at, lexicon)):
            _blank(tokens, at, _end(tokens, at, lexicon), lexicon)


def _is_purpose(text: list[str], at: int, lexicon: Lexicon) -> bool:
    """`that's where the lungs live`, `that there is what reach is made of`, `so he can get down a hole`."""
    if text[at] == "so":
        can = text[at + 1] in lexicon.sets.the_dog and text[at + 2] in lexicon.sets.able
        return can and text[at + 3 : at + 4] != ["not"]
    if text[at] in ("that", "which", "it") and text[at + 1] in lexicon.sets.costing:
        return True  # `that takes the push right out of him`
    if text[at : at + 3] == ["that", "is", "like"]:
        return text[at + 3 : at + 4] != [] and text[at + 3].endswith("ing")
    after = at + 1 + (text[at + 1] == "there")
    if text[at] not in ("that", "this", "which") or text[after : after + 1] != ["is"]:
        return False
    asked = text[after + 1 : after + 2]
    if asked in (["why"], ["how"]):
        return not lexicon.sets.able.isdisjoint(text[after + 2 : after + 5])
    return asked in (["where"], ["what"])


def _is_general(text: list[str], at: int, lexicon: Lexicon) -> bool:
    """`a front like that stays together`, `you take a flat-footed dog`, `the standard says`."""
    sets = lexicon.sets
    if text[at] in ("a", "an"):
        return text[at + 2 : at + 4] in (["like", "that"], ["like", "this"]) and text[
            at + 4 : at + 5
        ] not in ([], ["one"])
    if text[at] == "you":
        return text[at + 1] in ("take", "get", "put") and text[at + 2] in ("a", "an", "any")
    return text[at] == "the" and text[at + 1] in sets.rules and text[at + 2] in sets.ruling


def _blank_made_of(tokens: Tokens, at: int, lexicon: Lexicon) -> None:
    """`a deep chest is what holds the bellows`: of every dog; `good chest, it is what he has` stays."""
    first = at
    while first and not tokens.brk[first]:
        first -= 1
    if tokens.text[first] in ("a", "an"):
        _blank(tokens, first, _end(tokens, at, lexicon), lexicon)


def _end(tokens: Tokens, at: int, lexicon: Lexicon) -> int:
    """Where a remark ends: at a mark, at `but`, or where the dog is spoken of again."""
    text, dog = tokens.text, lexicon.sets.the_dog | (lexicon.sets.own - {"the"}) | _HERE
    for i in range(at + 1, len(text)):
        back = text[i] == "and" and text[i + 1 : i + 2] != [] and text[i + 1] in dog
        if tokens.brk[i] or text[i] in ("but", "though", "only") or back:
            return i
    return len(text)


def _blank(tokens: Tokens, first: int, end: int, lexicon: Lexicon) -> None:
    """Unless a number, a judgement or what is asked for stands there: `that's where he falls down`."""
    words = tokens.text[first:end]
    if any(tokens.number[first:end]) or any(tokens.query_after[first:end]):
        return
    sure = words[0] == "the" or (len(words) > 1 and words[1] in lexicon.sets.costing)
    if not sure and not lexicon.sets.judging.isdisjoint(words):
        return
    tokens.text[first:end] = [PUT_ASIDE] * (end - first)
