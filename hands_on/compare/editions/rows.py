"""What a comparison of two editions holds: rows of what each says, with what differs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any, Literal

from hands_on.ruleset.ruleset import Ruleset

Kind = Literal[
    "edition",  # a head line: unit, confidence, size class
    "class",
    "general-clause",
    "limit",
    "ruling",  # the class of one fault
    "combination",
    "follow",  # a fault that follows from the dog alone
    "teeth",
    "asked",
    "silence",
    "measured",  # whether a measurement belongs to the walk
    "attribute",
    "switch",
    "outcome",
    "cap",
]

Difference = Literal[
    "only-a",  # the second edition has no such rule
    "only-b",
    "figures",
    "ends",  # the same figures, but an end belongs to another stretch
    "unit",  # the same quantity in another unit
    "class",
    "fault",  # another fault is named for the same stretch
    "condition",
    "words",
]


@dataclass(frozen=True)
class Stretch:
    """A stretch of values on which two editions do not say the same."""

    low: float | None
    """None: without end. In `unit`, the first edition's."""
    high: float | None
    low_open: bool
    """The end itself does not belong."""
    high_open: bool
    unit: str
    """Empty for a share."""
    text: str
    """The stretch in words, in both units where they differ."""
    a: str
    b: str


@dataclass(frozen=True)
class Row:
    """One rule in both editions; an empty side says nothing of it."""

    kind: Kind
    id: str
    """The limit's value, the fault, the point, or what else the row is of."""
    label: str
    when: str
    """The condition or the detail under which the row holds, in words; empty: always."""
    a: str
    b: str
    differs: tuple[Difference, ...]
    source_a: str = ""
    """Keys of the edition's sources."""
    source_b: str = ""
    stretches: tuple[Stretch, ...] = ()


def paired(
    kind: Kind,
    name: str,
    label: str,
    when: str,
    texts: Sequence[str],
    differs: tuple[Difference, ...],
    sources: Sequence[str] = ("", ""),
) -> Row:
    """A row of two texts and their two sources, the first edition's first."""
    return Row(kind, name, label, when, texts[0], texts[1], differs, sources[0], sources[1])


@dataclass(frozen=True)
class Section:
    """Rows of one kind; `same` rules of it say the same in both editions."""

    key: str
    title: str
    rows: tuple[Row, ...]
    same: int = 0


@dataclass(frozen=True)
class Comparison:
    """Two editions rule by rule: what differs, and how many rules do not."""

    a: Ruleset
    b: Ruleset
    sections: tuple[Section, ...]

    def row(self, kind: Kind, name: str, when: str = "") -> Row | None:
        """The row of this kind, id and condition; None where the editions do not differ in it."""
        rows = (row for section in self.sections for row in section.rows)
        return next((row for row in rows if (row.kind, row.id, row.when) == (kind, name, when)), None)

    def as_json(self) -> dict[str, Any]:
        """The comparison as `hands-on rulesets ID --against ID --json` prints it."""
        return {
            "a": _head(self.a),
            "b": _head(self.b),
            "sections": [
                {
                    "key": section.key,
                    "title": section.title,
                    "rows": [asdict(row) for row in section.rows],
                    "same": section.same,
                }
                for section in self.sections
            ],
        }


def _head(ruleset: Ruleset) -> dict[str, str]:
    edition = ruleset.edition
    return {
        "id": edition.id,
        "title": edition.title,
        "breed": edition.breed,
        "edition": edition.edition,
        "digest": ruleset.digest,
    }
