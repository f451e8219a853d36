"""One word at a time: its stem, its sound, its consonants. Everything here is a pure function of the word."""

import re
import unicodedata
from functools import lru_cache

__all__ = ["consonants", "is_comparative", "is_subsequence", "plain", "shorter_stems", "sound", "stem"]

_VOWELS = frozenset("aeiouy")


def plain(text: str) -> str:
    """Lower case without accents; typographic apostrophes become plain ones."""
    if text.isascii():
        return text.lower()
    decomposed = unicodedata.normalize("NFKD", text.casefold())
    return "".join("'" if c in "’‘ʼ`´" else c for c in decomposed if not unicodedata.combining(c))


@lru_cache(maxsize=16384)
def stem(word: str) -> str:
    """The word without -s, -ed, -ing, a final e and doubled letters: `hocks`, `hocked` -> `hock`.

    Only a key under which forms of a word meet; it need not be a word itself.
    """
    w = word
    if len(w) <= 3:
        return w
    if w in ("butt", "butts"):
        return "butt"  # never the conjunction
    if w in ("noted", "noting"):
        return "note"  # never the denial
    if w.endswith("'s"):
        w = w[:-2]
    if w.endswith("ies") and len(w) > 4:
        w = w[:-3] + "y"
    elif w.endswith(("ches", "shes", "xes", "sses")):
        w = w[:-2]
    elif w.endswith("s") and not w.endswith(("ss", "us", "is")) and len(w) > 3:
        w = w[:-1]
    if w.endswith("ied") and len(w) > 4:
        w = w[:-3] + "y"
    elif w.endswith("oed"):
        w = w[:-1]
    elif w.endswith("ed") and not w.endswith("eed") and len(w) >= 5 and _has_vowel(w[:-2]):
        w = w[:-2]
    elif w.endswith("ing") and len(w) >= 6 and _has_vowel(w[:-3]):
        w = w[:-3]
    if len(w) > 4 and w.endswith("e"):
        w = w[:-1]
    if len(w) > 3 and w[-1] == w[-2] and w[-1] not in _VOWELS:
        w = w[:-1]
    return w


_NO_COMPARATIVE = frozenset({
    "after", "other", "another", "either", "neither", "whether", "rather", "together", "under",
    "over", "never", "ever", "upper", "lower", "outer", "inner", "shoulder", "wither", "proper",
    "leather", "handler", "owner", "breeder", "taper", "feather", "quarter", "scissor", "water",
    "number", "order", "finger", "centre", "center", "corner", "power", "silver", "amber", "super",
    "tender", "slender", "character", "further", "litter", "sister", "winter", "summer", "mover",
    "terrier", "carrier", "pointer", "setter", "cover", "bitter", "consider", "remember", "matter",
    "per", "her", "however", "forever",
})  # fmt: skip


def is_comparative(word: str) -> bool:
    """`longer`, `better`, `drier`; not `shoulder`."""
    return len(word) > 4 and word.endswith("er") and word not in _NO_COMPARATIVE


def _has_vowel(text: str) -> bool:
    return any(c in _VOWELS for c in text)


_SUFFIXES = (
    "iest",
    "ier",
    "est",
    "er",
    "ish",
    "ily",
    "ly",
    "iness",
    "ness",
    "edly",
    "y",
    "e",
    "s",
    "ment",
    "al",
    "ity",
)


@lru_cache(maxsize=4096)
def shorter_stems(word: str) -> tuple[str, ...]:
    """Stems with a comparative or adverb ending taken off: `steeper`, `steeply`, `steepness` -> `steep`."""
    found: list[str] = []
    for suffix in _SUFFIXES:
        if word.endswith(suffix) and len(word) - len(suffix) >= 3:
            root = word[: -len(suffix)]
            if suffix in ("iest", "ier", "ily", "iness"):
                found.append(stem(root + "y"))
            found.append(stem(root))
    return tuple(dict.fromkeys(found))


# English spelling to sound, for ears that hear no r before a consonant; at each place the first that fits.
_SOUNDS: tuple[tuple[str, str], ...] = (
    (r"'", ""),
    (r"\A[kg]n", "n"),
    (r"\Awr", "r"),
    (r"\Awh", "w"),
    (r"\Aps", "s"),
    (r"augh|ough", "of"),
    (r"eigh|igh", "i"),
    (r"ph|th", "f"),
    (r"tch", "C"),
    (r"sch", "sk"),
    (r"ch", "C"),
    (r"sh|ti(?=on)|ci(?=an)", "S"),
    (r"sc(?=[eiy])", "s"),
    (r"c(?=[eiy])", "s"),
    (r"dg(?=e)", "j"),
    (r"ck|c|q", "k"),
    (r"x", "ks"),
    (r"z", "s"),
    (r"gh", "g"),
    (r"mb\Z", "m"),
    (r"alm", "am"),
    (r"[eiu]r(?![aeiouy])", "a"),
    (r"a[lu](?=[kt])|a[uw]|oar|oor|ore|our|or|oa|oe|ow|ou|oo|ew|ue|u|o", "o"),
    (r"ai(?:r(?![aeiouy]))?|ay|ei|ey(?=.)|a(?=[^aeiouyr]e\Z)", "a"),
    (r"ea(?![r](?![aeiouy]))|ee|ie(?!s?\Z)", "i"),
    (r"(?<=[aeiouyw])ed\Z", "d"),
    (r"es?\Z", "s"),
    (r"[aeiouy]r(?:e\Z|(?![aeiouy]))|ear(?![aeiouy])", "a"),
    (r"[eiy]+", "i"),
    (r"a+", "a"),
    (r"h(?![aeiouy])", ""),
)
_SOUND_AT = re.compile("|".join(f"({pattern})" for pattern, _ in _SOUNDS))
_SOUND_OF = tuple(to for _, to in _SOUNDS)
_DOUBLE = re.compile(r"(.)\1+")


def _sound_of(match: re.Match[str]) -> str:
    found = _SOUND_OF[(match.lastindex or 1) - 1]
    return "" if match.group() == "e" and found == "s" else found


@lru_cache(maxsize=8192)
def sound(word: str) -> str:
    """A rough key of how the word sounds: `hawks` and `hocks`, `week` and `weak` share one."""
    return _DOUBLE.sub(r"\1", _SOUND_AT.sub(_sound_of, word))


@lru_cache(maxsize=8192)
def consonants(word: str) -> str:
    """First letter and the consonants after it, doubles once: `shoulder` -> `shldr`."""
    out = word[:1]
    for c in word[1:]:
        if c.isalpha() and c not in "aeiou" and out[-1] != c:
            out += c
    return out


def is_subsequence(small: str, large: str) -> bool:
    """Whether the letters of `small` stand in `large` in the same order."""
    rest = iter(large)
    return all(c in rest for c in small)
