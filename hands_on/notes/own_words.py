"""The evaluator's own words: what a phrase meant when a reading of it was put right by hand.

The list is kept as TOML, made to be read and mended by hand:

    format = 1

    [[words]]
    said = "a bit of a plank"      # as it was called out
    means = "back.level"           # the fault that was meant; empty: none
    read_as = "back.soft"          # what the program had read; empty: nothing
    region = "back"                # the region on the screen; empty: any
"""

from collections.abc import Callable, Iterable, Sequence
from typing import Annotated

import tomli_w
from pydantic import BaseModel, ConfigDict, Field, StringConstraints, model_validator

from hands_on.notes.source import Example
from hands_on.toml_text.formats import format_problem
from hands_on.toml_text.parse import validate
from hands_on.toml_text.problems import BadText
from hands_on.toml_text.tables import explained, parse_tables

__all__ = [
    "LONGEST",
    "OwnWords",
    "as_examples",
    "dump_own_words",
    "in_words",
    "parse_own_words",
    "remembered",
    "without",
]

FORMAT = 1
LONGEST = 200
"""Characters of one phrase; what is longer is a paragraph and no phrase to know again."""
WEIGHT = 20
"""One example of the evaluator's own counts as so many of others (judgement)."""

_HEAD = (
    "# Your own words: how notes were put right by hand. Change a line, take one out, carry the file along.\n"
)

Phrase = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=LONGEST)]
Name = Annotated[str, StringConstraints(strip_whitespace=True, max_length=100)]


class OwnWords(BaseModel):
    """A phrase and what its evaluator means by it; `means` and `read_as` are ids of faults, or empty."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    said: Phrase
    means: Name = ""
    read_as: Name = ""
    region: Name = ""

    @model_validator(mode="after")
    def _says_something(self) -> "OwnWords":
        if self.means == self.read_as:
            told = "it means no fault and was read as none" if not self.means else "it means what was read"
            raise ValueError(f"{told}. Right: `means` names the fault meant, `read_as` the one read.")
        return self

    @property
    def key(self) -> tuple[str, str]:
        """What makes two of them the same phrase: the words without capitals, and the region."""
        return " ".join(self.said.casefold().split()), self.region


class _File(BaseModel):
    model_config = ConfigDict(extra="forbid")

    format: int = FORMAT
    words: tuple[OwnWords, ...] = Field(default=())


def parse_own_words(text: str, file: str) -> tuple[OwnWords, ...]:
    """The phrases of a file's text, oldest first. Raises BadText with the lines that are wrong."""
    with explained(file):
        tables = parse_tables(text, file)
        newer = format_problem(tables, FORMAT, text, file)
        if newer is not None:
            raise BadText([newer])
        return validate(_File, tables, text, file).words


def dump_own_words(words: Iterable[OwnWords]) -> str:
    """The text of the file."""
    rows = ({key: value for key, value in one.model_dump().items() if value} for one in words)
    return f"{_HEAD}format = {FORMAT}\n" + "".join(f"\n[[words]]\n{tomli_w.dumps(row)}" for row in rows)


def remembered(words: Sequence[OwnWords], more: Iterable[OwnWords]) -> tuple[OwnWords, ...]:
    """The list with `more` at its end; a phrase that is there already gives way to the newer one."""
    new = {one.key: one for one in more}
    return (*(one for one in words if one.key not in new), *new.values())


def without(words: Sequence[OwnWords], gone: OwnWords) -> tuple[OwnWords, ...]:
    """The list without one phrase."""
    return tuple(one for one in words if one != gone)


def in_words(own: OwnWords, label: Callable[[str], str]) -> str:
    """What a phrase means: `means Light eyes, not Round eyes`."""
    if not own.means:
        return f"does not mean {label(own.read_as)}"
    return f"means {label(own.means)}" + (f", not {label(own.read_as)}" if own.read_as else "")


def as_examples(words: Iterable[OwnWords]) -> tuple[Example, ...]:
    """What the likeness may learn: phrases of which nothing had been read, and what they meant.

    Those that put a reading right are no examples: learned, they would speak against the plain words that
    were read. They are known again to the letter alone (`own_reading`).
    """
    taught = [one for one in words if one.means and not one.read_as]
    return tuple(Example(one.said, one.region or None, one.means) for one in taught for _ in range(WEIGHT))
