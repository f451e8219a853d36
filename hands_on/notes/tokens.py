"""A note cut into words, numbers and breaks, each with its place in the text as typed."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from hands_on.notes.stems import is_comparative, plain

__all__ = ["COMMA", "MAX_TOKENS", "NONE", "STOP", "Tokens", "tokenise"]

NONE, COMMA, STOP = 0, 1, 2

_PIECE = re.compile(
    r"(?P<ordinal>\b(?:1st|2nd|3rd)\b)"
    r"|(?P<number>\d+[ -]\d/\d(?!\d)|\d/\d(?!\d)|\d+(?:[.,·]\d+)?[½¼¾]?)"
    r"|(?P<slash>[^\W\d_]{1,2}/[^\W\d_]{1,5}(?![^\W_])|[^\W\d_]/[^\W\d_]{6,10}(?![^\W_])|w/)"
    r"|(?P<dotted>\b(?:[^\W\d_]\.){2,}(?!\w))"
    r"|(?P<tooth>\b(?:pm|[pmic])\ds?\b)"
    r"|(?P<clipped>\b(?:wi|i|o|th|an)['’](?=\s)|\bt['’](?=[^\W\d_]))"
    r"|(?P<word>[^\W\d_]+(?:['’‘][^\W\d_]+)*)"
    r"|(?P<plus>\++)"
    r"|(?P<mark>\S)",
    re.IGNORECASE,
)
_ORDINALS = {"1st": "first", "2nd": "second", "3rd": "third"}
_CLIPPED = {"wi": "with", "i": "in", "o": "of", "th": "the", "an": "and", "t": "the"}
_TAILS = {"n't": "not", "'d": "would", "'ll": "will", "'ve": "have", "'re": "are", "'m": "am"}
_DOTTED: dict[str, tuple[str, ...]] = {"of": ("off", "fore"), "oh": ("off", "hind"), "ie": (), "eg": ()}
"""What without its full stops is an ordinary word, `O.F.`, or says nothing, `i.e.`."""
_LONGEST_WORD = 40
MAX_TOKENS = 2000


@dataclass(slots=True)
class Tokens:
    """Parallel lists over the words of a note. `brk[i]` is the break before word i; one more ends it."""

    text: list[str]
    start: list[int]
    end: list[int]
    number: list[bool]
    brk: list[int]
    query_after: list[bool]
    query_before: list[bool]

    def __len__(self) -> int:
        return len(self.text)

    def sentence(self, start: int, end: int | None = None) -> range:
        """The words of the sentence, or sentences, that the words `start` to `end` stand in."""
        end = start if end is None else end
        while start > 0 and self.brk[start] != STOP:
            start -= 1
        while end < len(self) and self.brk[end] != STOP:
            end += 1
        return range(start, end)


def tokenise(
    note: str,
    contractions: Mapping[str, tuple[str, ...]],
    shorthand: Mapping[str, tuple[str, ...]],
    spoken: Mapping[tuple[str, ...], str],
    abbreviations: frozenset[str] = frozenset(),
) -> Tokens:
    """Cut the note. Contractions and shorthand are written out (the parts share a place in the text).

    A full stop behind an abbreviation ends no sentence where a small letter or a figure follows.
    """
    text: list[str] = []
    start: list[int] = []
    end: list[int] = []
    number: list[bool] = []
    query_after: list[bool] = []
    query_before: list[bool] = []
    brk: list[int] = [NONE]
    query_next = False

    def add(word: str, at: int, to: int, is_number: bool = False) -> None:
        nonlocal query_next
        text.append(word)
        start.append(at)
        end.append(to)
        number.append(is_number)
        query_after.append(False)
        query_before.append(query_next)
        query_next = False
        brk.append(NONE)

    lowered = plain(note) if note.isascii() else note
    length = len(note)
    for match in _PIECE.finditer(lowered):
        if len(text) >= MAX_TOKENS:
            break
        kind, at, to = match.lastgroup, match.start(), match.end()
        piece = match.group()
        if kind == "word":
            word = plain(piece[:_LONGEST_WORD])
            if word in contractions:
                for part in contractions[word]:
                    add(part, at, to)
                continue
            if "'" in word and (known := _without_apostrophe(word, shorthand)):
                word = known  # `sh'ldrs`, `t'line`
            elif "'" in word:
                for tail, whole in _TAILS.items():
                    if word.endswith(tail) and len(word) > len(tail):
                        head = word[: -len(tail)]
                        add({"ca": "can", "wo": "will", "sha": "shall"}.get(head, head), at, to)
                        add(whole, at, to)
                        break
                else:
                    if word.endswith("'s") and word != "i's":
                        add(word[:-2], at, to)
                        if word[:-2] in ("he", "she", "it", "that", "there", "what"):
                            add("is", at, to)
                    elif word.endswith("'n") and is_comparative(word[:-2]):
                        add(word[:-2], at, to)
                        add("than", at, to)  # `lighter'n I'd like`
                    else:
                        add(word, at, to)
                continue
            if word in shorthand:
                for part in shorthand[word]:
                    add(part, at, to)
                continue
            add(word, at, to)
        elif kind == "ordinal":
            add(_ORDINALS[piece.lower()], at, to)
        elif kind == "number":
            add(piece, at, to, True)
        elif kind == "dotted":  # `b.o.s.`
            word = plain(piece.replace(".", ""))
            for part in _DOTTED.get(word) or shorthand.get(word, (word,)):
                add(part, at, to)
        elif kind == "tooth":
            add(plain(piece).rstrip("s"), at, to)
        elif kind == "clipped":
            add(_CLIPPED[plain(piece)[:-1]], at, to)
        elif kind == "slash":
            word = plain(piece)
            if word in shorthand:
                for part in shorthand[word]:
                    add(part, at, to)
            elif len(word) == 3 or word in ("n/s", "o/s"):
                add(word, at, to)
            else:
                cut = word.index("/")
                for part in shorthand.get(word[: cut + 1], (word[:cut],)):
                    add(part, at, at + cut)
                if word[cut + 1 :]:
                    add(word[cut + 1 :], at + cut + 1, to)
        elif kind == "plus" and _joins(note, at, to):
            add("and", at, to)
        elif kind == "plus":
            add(piece[:3], at, to)
        else:
            if piece == "&":
                add("&", at, to)
            elif piece in "<>" and (sides := _one_side_more(note, at)):
                add(sides, at, to)
            elif piece in "→➔⇒" or (piece == ">" and note[at - 1 : at] == "-"):
                add("to", at, to)
            elif piece == ">":
                add("over", at, to)
            elif piece == "<":
                add("under", at, to)
            elif piece in "\"'°º”″’′½¼¾%#²":
                add(piece, at, to)
            elif piece == "?":
                led = note[:at].rstrip()[-1:]
                alone = led in ",;:.(" and to < length
                if text and not alone and (not note[at - 1].isspace() or to >= length or note[to].isspace()):
                    query_after[-1] = True
                    brk[-1] = STOP
                else:
                    query_next = True
                    brk[-1] = max(brk[-1], COMMA)
            elif piece == "." and _abbreviated(note, at, abbreviations):
                continue
            elif piece in ".;!…。；！" or piece in "|•":
                brk[-1] = STOP
            elif piece in ",:()[]/~=*—–、，：":
                brk[-1] = max(brk[-1], COMMA)
            elif piece == "-":
                spaced = (at == 0 or note[at - 1].isspace()) or (to >= length or note[to].isspace())
                if spaced:
                    brk[-1] = max(brk[-1], COMMA)
    _complete_pairs(text)
    for index in range(1, len(text)):
        if brk[index] < STOP and "\n" in note[end[index - 1] : start[index]]:
            brk[index] = STOP
    tokens = Tokens(text, start, end, number, brk, query_after, query_before)
    return _without_spoken_breaks(tokens, spoken) if spoken else tokens


def _without_apostrophe(word: str, shorthand: Mapping[str, tuple[str, ...]]) -> str:
    """The shorthand that an apostrophe stands in for letters of, or no word."""
    joined = word.replace("'", "")
    if joined in shorthand and not word.endswith("'s"):
        return joined
    return next((w for w in (word.replace("'", "/"), word) if w in shorthand), "")


_SIDES_COMPARED = re.compile(r"(?:^|[^a-z])[lr] ?[<>] ?[lr](?![a-z])", re.IGNORECASE)


def _one_side_more(note: str, at: int) -> str:
    """`R>L`: both, the right more; no word where other than two sides are compared."""
    return "bilateral" if _SIDES_COMPARED.search(note[max(0, at - 3) : at + 3]) else ""


def _joins(note: str, at: int, to: int) -> bool:
    """`coat harsh + dense`, `leggy+narrow`: a plus between two words; `steep ++ and short` stresses."""
    before, after = note[:at].rstrip(" "), note[to:].lstrip(" ")
    spaced = len(before) == at, len(after) == len(note) - to
    between = bool(before and after) and before[-1].isalpha() and after[0].isalpha()
    return between and to - at == 1 and (spaced[0] == spaced[1])


def _abbreviated(note: str, at: int, abbreviations: frozenset[str]) -> bool:
    """Whether the full stop closes an abbreviation in mid-sentence: `Sl. steep`, `mod. shallow`."""
    begin = at
    while begin > 0 and note[begin - 1].isalpha() and at - begin < 8:
        begin -= 1
    if begin == at or plain(note[begin:at]) not in abbreviations:
        return False
    following = note[at + 1 : at + 4].lstrip(" ")[:1]
    return following.islower() or following.isdigit()


def _complete_pairs(text: list[str]) -> None:
    """`over or undershot`: the first word gets the end that it shares with the second."""
    for i in range(len(text) - 2):
        if text[i] in ("over", "under") and text[i + 1] in ("or", "nor", "and"):
            for other in ("over", "under"):
                if text[i + 2].startswith(other) and other != text[i] and len(text[i + 2]) > len(other) + 2:
                    text[i] += text[i + 2][len(other) :]
                    break


def _without_spoken_breaks(tokens: Tokens, spoken: Mapping[tuple[str, ...], str]) -> Tokens:
    """`comma` and `full stop` said aloud are breaks, not words."""
    first_words = {words[0] for words in spoken}
    if first_words.isdisjoint(tokens.text):
        return tokens
    keep: list[int] = []
    brk: list[int] = []
    pending = NONE
    index = 0
    count = len(tokens)
    while index < count:
        pending = max(pending, tokens.brk[index])
        if tokens.text[index] in first_words:
            for words, sign in spoken.items():
                if tuple(tokens.text[index : index + len(words)]) == words:
                    if sign == "?" and keep:
                        tokens.query_after[keep[-1]] = True
                    pending = max(pending, COMMA if sign == "," else STOP)
                    index += len(words)
                    break
            else:
                words = ()
            if words:
                continue
        keep.append(index)
        brk.append(pending)
        pending = NONE
        index += 1
    brk.append(max(pending, tokens.brk[count]))
    return Tokens(
        [tokens.text[i] for i in keep],
        [tokens.start[i] for i in keep],
        [tokens.end[i] for i in keep],
        [tokens.number[i] for i in keep],
        brk,
        [tokens.query_after[i] for i in keep],
        [tokens.query_before[i] for i in keep],
    )
