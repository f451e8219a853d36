"""What a report is made of, whatever it is shown as: facts, paragraphs, lists, tables, drawings."""

from __future__ import annotations

from collections.abc import Sequence

from hands_on.frozen import dataclass
from hands_on.report.statement import Statement

__all__ = ["Block", "Drawing", "Facts", "Part", "Report", "Rows", "Table", "Text", "shown"]


@dataclass(frozen=True)
class Facts:
    """Names with their values."""

    pairs: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Text:
    """Paragraphs; a line break within one stays."""

    paragraphs: tuple[str, ...]
    note: str = ""
    """Said small above them."""
    lang: str = ""
    """Where it is in another language than the report."""


@dataclass(frozen=True)
class Rows:
    """Statements one below the other."""

    statements: tuple[Statement, ...]


@dataclass(frozen=True)
class Table:
    """A table whose first column names the row."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numbers: tuple[int, ...] = ()
    """Columns of figures, set to the right."""


@dataclass(frozen=True)
class Drawing:
    """An SVG element that was made here, its texts escaped, and the same in words."""

    svg: str
    words: str


Block = Facts | Text | Rows | Table | Drawing


@dataclass(frozen=True)
class Part:
    """A titled part of a report."""

    id: str
    title: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True)
class Report:
    """A report: its title, what is said under it, and its parts."""

    title: str
    subtitle: str
    parts: tuple[Part, ...]


def shown(parts: Sequence[Part]) -> tuple[Part, ...]:
    """Without the parts in which there is nothing to say."""
    return tuple(part for part in parts if any(_full(block) for block in part.blocks))


def _full(block: Block) -> bool:
    match block:
        case Facts(pairs):
            return bool(pairs)
        case Text(paragraphs):
            return bool(paragraphs)
        case Rows(statements):
            return bool(statements)
        case Table(rows=rows):
            return bool(rows)
        case Drawing(svg):
            return bool(svg)
