"""Words of a note put as they are meant, before anything is looked up.

`to` for too, `n` and `&` for and, two denials that are one (`hasn't got no forechest`), amounts that praise
nothing (`a good handful`), and wishes that put the part between: `a longer neck would add elegance`, `were
the pasterns stronger`. The phrases of qualities hold wish and quality side by side (`could be longer`); where
a sentence opens with the state that is missed and says afterwards that it would help, its first word is read
as `wish`.
"""

from collections.abc import Callable, Collection
from typing import Any, Final

from hands_on.notes.lexicon import END, Lexicon
from hands_on.notes.run_on import blank_general, part_remarks
from hands_on.notes.stems import is_comparative, stem
from hands_on.notes.tokens import COMMA, NONE, STOP, Tokens

__all__ = ["as_meant"]

_OPENING: Final = frozenset({"a", "an", "some", "were", "slightly", "somewhat"})
_HELPING: Final = frozenset({
    "add", "help", "improve", "suit", "give", "balance", "make", "complete", "finish", "enhance",
    "be", "have", "lend", "do", "look", "put", "better",
})  # fmt: skip
_REACH: Final = 5
_VIEW: Final = 3
"""Words that go before the back where it is only looked from."""
_OF_HIS: Final = frozenset({"is", "are", "his", "her", "the", "has", "its"})
_OF_IT: Final = (
    ["is", "that"], ["is", "this"], ["are", "those"], ["is", "it"], ["does", "that"], ["would", "that"],
)  # fmt: skip
"""They open a question about what was just said."""
_MIGHTILY: Final = frozenset({"super", "crazy", "mega", "hella"})
_WISHING: Final = frozenset({"wish", "like", "want", "prefer", "wanted", "liked", "wished", "have"})
_WISHED: Final = frozenset({"with", "be", "being", "use", "like", "want", "wants", "have", "wish", "ask"})
_SOME: Final = frozenset({"good", "some", "decent", "fair", "full"})
_BITS: Final = frozenset({"bit", "fraction", "finger", "hand"})
_SHOWN: Final = frozenset({"see", "feel", "notice", "hear"})
_GONE: Final = frozenset({"missing", "gone", "absent", "lacking", "lost"})
_TAG: Final = frozenset({"not", "he", "she", "it", "they", "you", "that"})
_SHORT: Final = 5
_SUBJECTS: Final = frozenset({"it", "he", "she", "they", "there"})
_VERBS: Final = frozenset(
    {"is", "are", "has", "have", "will", "would", "does", "do", "can", "could", "needs"}
)
_LEADS: Final = frozenset({
    "when", "where", "as", "if", "that", "because", "than", "how", "what", "which", "so", "but", "and", "or",
    "like", "while", "whether", "once", "until", "till", "before", "after", "cos", "why", "then", "is", "are",
    "although", "though", "not", "no", "think", "say", "said", "see", "way", "place", "in", "of", "with",
    "off", "away", "me", "up", "you",
})  # fmt: skip
_HAVING: Final = frozenset({"got", "have", "having", "had", "has", "show", "showing"})


def as_meant(tokens: Tokens, lexicon: Lexicon) -> None:
    """Put the words of a note as they are meant; their places in the text stay."""
    words = set(tokens.text)
    if not words.isdisjoint(("n", "&")):
        _each(tokens, ("n", "&"), lambda t, at: _joins(t, at, lexicon), "and")
    if "to" in words:
        _each(tokens, ("to",), lambda t, at: _too(t, at, lexicon), "too")
    if "not" in words and "no" in words:
        _each(tokens, ("not",), _denied_again, "has")
    if "good" in words:
        _each(tokens, ("good",), lambda t, at: _tells_amount(t, at, lexicon), "some")
    if "no" in words:
        _each(tokens, ("no",), _denies_gap, "nil")
    if "back" in words:
        _each(tokens, ("back",), lambda t, at: _is_view(t, at, lexicon), "behind")
    if not words.isdisjoint(_WISHED):
        _drop_amounts(tokens, lexicon)
    if "missing" in words:
        _miss_parts(tokens)
    if "not" in words and "there" in words:
        _miss_named(tokens, lexicon)
    if "anything" in words and "but" in words:
        _part_remarks(tokens)
    if not words.isdisjoint(_MIGHTILY):
        _each(tokens, _MIGHTILY, lambda t, at: _stresses(t, at, lexicon), "very")
    if len(tokens) > _SHORT and not any(tokens.brk[1 : len(tokens)]):
        _part_clauses(tokens)
    if "spots" in words:  # `pink spots on it` are not spot on
        _each(tokens, ("spots",), lambda t, at: t.text[at + 1 : at + 2] == ["on"], "patches")
    part_remarks(tokens, lexicon)
    blank_general(tokens, lexicon)
    if any(tokens.query_after):
        _drop_tags(tokens, lexicon)
    if any(tokens.number) or not words.isdisjoint(lexicon.number_words):
        _each(tokens, ("perhaps", "maybe", "possibly"), lambda t, at: _before_number(t, at, lexicon), "about")
    if not words.isdisjoint(("would", "should")):
        _each(tokens, _OPENING, _wished, "wish")
    if not words.isdisjoint(lexicon.sets.short_of):
        _put_part_first(tokens, lexicon)
    if not words.isdisjoint(_WISHING):
        _put_wished_first(tokens, lexicon)
    if "you" in words:
        _drop_showing(tokens)
    if not words.isdisjoint(("one", "side")):
        _part_sides(tokens, lexicon)


def _each(tokens: Tokens, written: Collection[str], holds: Callable[[Tokens, int], bool], meant: str) -> None:
    for at, word in enumerate(tokens.text):
        if word in written and holds(tokens, at):
            tokens.text[at] = meant


def _joins(tokens: Tokens, at: int, lexicon: Lexicon) -> bool:
    """Between two words: `front n back`; not the `n side`, the near one."""
    if not 0 < at < len(tokens) - 1 or tokens.brk[at] or tokens.brk[at + 1]:
        return False
    between = not (tokens.number[at - 1] or tokens.number[at + 1])
    return tokens.text[at] == "&" or (between and tokens.text[at + 1] not in lexicon.sets.side_nouns)


def _too(tokens: Tokens, at: int, lexicon: Lexicon) -> bool:
    """`far to short`, `slopes to much`, `eye to light`, `feet turned out to.`: a state follows, or nothing.

    The word behind is one that nobody is told to do (`no_verb`), or the one before leaves no other way.
    """
    sets = lexicon.sets
    before = tokens.text[at - 1] if at and not tokens.brk[at] else ""
    if at + 1 >= len(tokens) or tokens.brk[at + 1] != NONE:
        return bool(before) and before not in sets.before_verb and _is_state(before, lexicon)
    word = tokens.text[at + 1]
    if word == "much" or (before in sets.far_to and _is_state(word, lexicon)):
        return True
    if word not in sets.no_verb or before in sets.before_verb:
        return False
    ends = at + 2 >= len(tokens) or tokens.brk[at + 2] != NONE or tokens.text[at + 2] in sets.behind_state
    return ends or not before


def _part_clauses(tokens: Tokens) -> None:
    """`coat soft it will not turn rain`: without any mark a subject with its verb opens a clause."""
    text = tokens.text
    for at in range(2, len(tokens) - 2):
        opens = text[at] in _SUBJECTS and text[at + 1] in _VERBS and text[at - 1] not in _LEADS
        if opens and not tokens.number[at - 1]:
            tokens.brk[at] = COMMA


def _is_state(word: str, lexicon: Lexicon) -> bool:
    return any(kind in ("Q", "F") for kind, _ in lexicon.main.get(stem(word), {}).get(END, ()))


def _denied_again(tokens: Tokens, at: int) -> bool:
    """`ain't got no forechest`: denied once, said twice."""
    text = tokens.text
    return text[at + 1 : at + 2] != [] and text[at + 1] in _HAVING and text[at + 2 : at + 3] == ["no"]


def _tells_amount(tokens: Tokens, at: int, lexicon: Lexicon) -> bool:
    """`a good handful of loose skin`, `a good two fingers`: how much, no praise."""
    if tokens.text[at - 1 : at] != ["a"] or at + 1 >= len(tokens) or tokens.brk[at + 1]:
        return False
    word = tokens.text[at + 1]
    known = (lexicon.sets.amounts, lexicon.units, lexicon.number_words)
    return tokens.number[at + 1] or any(word in words for words in known)


def _is_view(tokens: Tokens, at: int, lexicon: Lexicon) -> bool:
    """`straight from the back`: as seen from there; the back itself in `tail comes from the back`."""
    text = tokens.text
    if text[max(0, at - 2) : at] != ["from", "the"] or at < _VIEW or tokens.brk[at - 2]:
        return False
    ends = at + 1 >= len(text) or bool(tokens.brk[at + 1]) or text[at + 1] in lexicon.sets.behind_state
    return ends and (
        text[at - 3] in ("seen", "viewed", "looking", "looks") or _is_state(text[at - 3], lexicon)
    )


def _drop_amounts(tokens: Tokens, lexicon: Lexicon) -> None:
    """`could do with a good inch more neck`, `a good bit longer would be better`: by how much is left out."""
    text, brk = tokens.text, tokens.brk
    for at in range(1, len(text) - 2):
        if text[at] != "a" or brk[at] or text[at - 1] not in _WISHED:
            continue
        last = at + 2 if text[at + 1] in _SOME else at + 1
        if last + 1 >= len(text) or any(brk[at + 1 : last + 2]):
            continue
        amount = text[last] in lexicon.sets.amounts or text[last] in _BITS
        if amount and (text[last + 1] == "more" or is_comparative(text[last + 1])):
            text[at : last + 1] = ["a"] * (last + 1 - at)


def _miss_parts(tokens: Tokens) -> None:
    """`it's the width I'm missing`: it lacks width. The word before the part says so then."""
    text = tokens.text
    for at in range(_VIEW, len(text)):
        mine = text[at] == "missing" and text[at - 1] in ("i'm", "im", "am")
        first = at - (3 if text[at - 1] == "am" else 2)
        if mine and first > 0 and text[first - 1] in ("the", "his", "her") and not tokens.brk[at]:
            text[first - 1], text[at] = "lacks", "indeed"


def _miss_named(tokens: Tokens, lexicon: Lexicon) -> None:
    """`the tuck-up, it is not there`: it lacks tuck-up."""
    text, brk = tokens.text, tokens.brk
    for at in range(2, len(text) - 3):
        said = text[at] in ("it", "they") and text[at + 1] in ("is", "are")
        if not said or text[at + 2 : at + 4] != ["not", "there"] or brk[at] != COMMA:
            continue
        first = at - 1
        while first > 0 and not brk[first] and text[first] != "the":
            first -= 1
        if (
            text[first] == "the"
            and at - first <= _VIEW
            and _names_part(" ".join(text[first + 1 : at]), lexicon)
        ):
            text[first], text[at : at + 4] = "lacks", ["indeed"] * 4


def _part_remarks(tokens: Tokens) -> None:
    """The `but` of `no reaction to anything but well angulated` begins another remark."""
    text = tokens.text
    for at in range(2, len(text)):
        if text[at - 1 : at + 1] == ["anything", "but"] and text[at - 2] in ("to", "at", "in", "of"):
            tokens.brk[at] = max(tokens.brk[at], COMMA)


def _stresses(tokens: Tokens, at: int, lexicon: Lexicon) -> bool:
    """`super narrow`, `crazy long`: very; not the `super` of `super head`."""
    after = tokens.text[at + 1 : at + 2]
    return after != [] and not tokens.brk[at + 1] and _is_state(after[0], lexicon)


def _denies_gap(tokens: Tokens, at: int) -> bool:
    """`no P1 missing`: no gap, where `no P1` is one."""
    tooth, gone = tokens.text[at + 1 : at + 2], tokens.text[at + 2 : at + 3]
    return bool(tooth and gone) and tooth[0][-1].isdigit() and not tokens.number[at + 1] and gone[0] in _GONE


def _drop_tags(tokens: Tokens, lexicon: Lexicon) -> None:
    """`masculine, isn't he?`, `and why?`, `eyes bulge, is that normal?`: what is said before stays said."""
    for last, asked in enumerate(tokens.query_after):
        first = last
        while first > 0 and not tokens.brk[first]:
            first -= 1
        if asked and "where" in tokens.text[first:last]:
            _missed_part(tokens, tokens.text.index("where", first), last)
            continue
        said = [w for w in tokens.text[first : last + 1] if w not in ("and", "so", "but")]
        if asked and first and tokens.brk[first] and said[:2] in _OF_IT and len(said) > 2:
            tokens.query_after[last] = False
            tokens.text[first : last + 1] = ["indeed"] * (last + 1 - first)
            continue
        tag = len(said) in (2, 3) and said[0] in lexicon.sets.auxiliary and set(said[1:]) <= _TAG
        if asked and first and (tag or " ".join(said) in lexicon.nods):
            tokens.query_after[last] = False
            for i in range(first, last + 1):
                tokens.text[i] = "indeed"


def _put_wished_first(tokens: Tokens, lexicon: Lexicon) -> None:
    """`could wish the ears longer`: could wish longer the ears."""
    text = tokens.text
    for at in range(len(text) - 3):
        if text[at] in _WISHING and text[at + 1] in lexicon.sets.articles | lexicon.sets.own:
            part, state = text[at + 2 : at + 4]
            if is_comparative(state) and _names_part(part, lexicon) and not any(tokens.brk[at + 1 : at + 4]):
                text[at + 2], text[at + 3] = state, part


def _put_part_first(tokens: Tokens, lexicon: Lexicon) -> None:
    """`length of the tail insufficient`: tail of the length insufficient."""
    text, sets = tokens.text, lexicon.sets
    for at in range(len(text) - 3):
        if text[at] not in sets.dimensions or text[at + 1] != "of" or any(tokens.brk[at + 1 : at + 4]):
            continue
        part = at + (3 if text[at + 2] in sets.articles | sets.own else 2)
        behind = [w for w in text[part + 1 : part + 4] if w not in lexicon.drop and w not in sets.near_stress]
        if behind and behind[0] in sets.short_of and _names_part(text[part], lexicon):
            text[at], text[part] = text[part], text[at]


def _names_part(words: str, lexicon: Lexicon) -> bool:
    node: Any = lexicon.main
    for word in words.split():
        node = node.get(stem(word), {})
    return any(kind == "P" for kind, _ in node.get(END, ()))


def _drop_showing(tokens: Tokens) -> None:
    """`do you see how the hocks turn in?`: it is shown, not asked."""
    text = tokens.text
    for at in range(len(text) - 2):
        if text[at] in ("do", "can", "did") and text[at + 1] == "you" and text[at + 2] in _SHOWN:
            last = next((i for i in range(at, len(text)) if tokens.brk[i + 1]), len(text) - 1)
            tokens.query_after[last] = False


def _part_sides(tokens: Tokens, lexicon: Lexicon) -> None:
    """The `right one is fine` behind `left ear flies a little` begins another remark."""
    text, sides = tokens.text, ("left", "right", "near", "off", "other")
    for at in range(1, len(text) - 2):
        if text[at] in sides and text[at + 1] in ("one", "side") and text[at + 2] in lexicon.sets.auxiliary:
            led = at - 1 if text[at - 1] == "the" else at
            tokens.brk[led] = max(tokens.brk[led], COMMA)


def _missed_part(tokens: Tokens, first: int, last: int) -> None:
    """`where is his tuck-up?`: there is none."""
    opens = not first or tokens.brk[first] or tokens.text[first - 1] in ("but", "and", "so")
    if opens and tokens.text[first + 1] in _OF_HIS and last - first < _REACH + 2:
        tokens.query_after[last] = False
        tokens.text[first] = "no"


def _before_number(tokens: Tokens, at: int, lexicon: Lexicon) -> bool:
    """`by perhaps ten degrees`: about so many."""
    if at + 1 >= len(tokens) or tokens.brk[at + 1]:
        return False
    return tokens.number[at + 1] or tokens.text[at + 1] in lexicon.number_words


def _wished(tokens: Tokens, at: int) -> bool:
    return _missed(tokens.text, at) and _would_help(tokens, at)


def _missed(text: list[str], at: int) -> bool:
    """Whether a comparative follows: `longer`, `better angled`, `her pasterns a trifle stronger`."""
    near = text[at + 1 : at + 1 + (_REACH if text[at] == "were" else 2)]
    return any(w == "more" or is_comparative(w) for w in near)


def _would_help(tokens: Tokens, at: int) -> bool:
    for i in range(at + 1, len(tokens) - 1):
        if tokens.brk[i] == STOP:
            return False
        if tokens.text[i] in ("would", "should") and tokens.text[i + 1] in _HELPING:
            return "than" not in tokens.text[at:i]
    return False
