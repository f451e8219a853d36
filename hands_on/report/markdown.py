"""A report as Markdown; whatever stands in it comes out as text."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hands_on.plain_text import one_line, visible
from hands_on.report.blocks import Block, Drawing, Facts, Report, Rows, Table, Text, shown
from hands_on.report.html import headed
from hands_on.report.statement import Statement

__all__ = ["report_markdown"]

_INLINE = re.compile(r"([\\`*_\[\]<>|~&])")
_AT_START = re.compile(r"^(\s*)([#>+=-]|\d+(?=[.)]))")


def report_markdown(report: Report) -> str:
    """The whole report (CommonMark, with tables as most renderers know them)."""
    lines = [f"# {_text(report.title)}", "", _text(report.subtitle), ""]
    for part in shown(report.parts):
        lines += [f"## {_text(part.title)}", ""]
        for block in part.blocks:
            lines += [*_block(block), ""]
    text = "\n".join(lines).rstrip() + "\n"
    return re.sub(r"\n{3,}", "\n\n", text)


def _text(text: str) -> str:
    escaped = _INLINE.sub(r"\\\1", one_line(text))
    return _AT_START.sub(lambda found: f"{found[1]}{_escaped(found[2])}", escaped)


def _escaped(start: str) -> str:
    """A sign at the start of a line that would begin a block; a number keeps its figures."""
    return f"{start}\\" if start[0].isdigit() else f"\\{start}"


def _block(block: Block) -> Iterator[str]:
    match block:
        case Facts(pairs):
            yield from (f"- **{_text(name)}**: {_lines(value)}" for name, value in pairs)
        case Text(paragraphs, note):
            if note and paragraphs:
                yield f"_{_text(note)}_"
                yield ""
            for paragraph in paragraphs:
                yield _lines(paragraph)
                yield ""
        case Rows(statements):
            for heading, rows in headed(statements):
                yield from ((f"### {_text(heading)}", "") if heading else ())
                yield from map(_row, rows)
                yield ""
        case Table(caption, head, rows):
            if rows:
                yield f"**{_text(caption)}**"
                yield ""
                yield f"| {' | '.join(map(_text, head))} |"
                yield f"|{'---|' * len(head)}"
                yield from (f"| {' | '.join(map(_text, row))} |" for row in rows)
        case Drawing(_, words):
            yield _lines(words)


def _row(one: Statement) -> str:
    more = [part for part in one.more if part]
    text = " ".join(filter(None, (_text(one.text), _text(one.mark))))
    return "\n".join([f"- {text}", *(f"  - {_text(part)}" for part in more)])


def _lines(text: str) -> str:
    """A text whose own line breaks stay."""
    return "\\\n".join(_text(line) for line in visible(text, keep="\n").split("\n"))
