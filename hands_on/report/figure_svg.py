"""A drawn dog as SVG: for a page, for print, for a reader that speaks.

    svg(ruleset, figure, title="Fenja")                               the dog from the side
    svg(ruleset, figure, title=..., views=("side", "front", "rear"))  three views beside each other
    svg(ruleset, figure, title=..., over=asked, over_title="as the edition asks")
    svg(ruleset, one, title="Brumo", over=other, over_title="Fenja", heavy=parts, one_height=True)

`figure` comes from `hands_on.figure.drawn`: `dog_figure(ruleset, evaluation)` for a dog, `ideal(ruleset)` for
what an edition asks, `departing(ruleset, [Departure(fault, degree)])` for a single departure;
`hands_on.figure.asked.asked_figure(ruleset, evaluation).figure` is the same dog as its edition asks.
`heavy` are parts of the outline drawn heavier, such as those of real differences
(`figure.parts.parts_of_point`).
"""

from __future__ import annotations

import hashlib
import textwrap
from collections.abc import Collection, Iterator, Mapping, Sequence
from itertools import groupby
from xml.sax.saxutils import escape, quoteattr

from hands_on.figure.curves import Piece
from hands_on.figure.drawn import Figure, Line
from hands_on.figure.shapes import Drawing, Shape, ViewName
from hands_on.plain_text import one_line
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.figure import description, lines_words, size_words

__all__ = ["legend_rows", "svg"]

_MARGIN = 14.0
_GAP = 30.0
_TEXT = 11
_ROW = 15
_LINES: dict[Line, str] = {
    "full": 'stroke="#000" stroke-width="2.4"',
    "middle": 'stroke="#222" stroke-width="1.4"',
    "light": 'stroke="#555" stroke-width="1" stroke-dasharray="3 2.5"',
}
_HEAVY = 'stroke="#000" stroke-width="3.6"'
_OVER = 'stroke="#1f4e8c" stroke-width="1.4" stroke-dasharray="9 3 2 3"'
_OVER_HEAVY = 'stroke="#1f4e8c" stroke-width="3.4" stroke-dasharray="9 3 2 3"'
_BONE = 'fill="none" stroke="#667" stroke-width="0.9" stroke-dasharray="1.5 2.5"'


def svg(
    ruleset: Ruleset,
    figure: Figure,
    *,
    title: str,
    views: Sequence[ViewName] = ("side",),
    over: Figure | None = None,
    over_title: str = "",
    heavy: Collection[str] = (),
    one_height: bool = False,
    marks: Mapping[str, str] | None = None,
    legend: bool = True,
    width: int = 640,
) -> str:
    """One `<svg>` element with title and description, to be put into HTML as it is or kept as a file.

    `over` lies over the figure in chain lines; with `one_height` it is brought to the same height, else both
    are to one scale. `marks` names landmarks to be shown, by id, with the words for them. The texts may hold
    anything: they are escaped, and never more than text.
    """
    title, over_title = one_line(title), one_line(over_title)
    factor = figure.height / over.height if over is not None and one_height else 1.0
    drawings = [figure.view(view) for view in views]
    others = [over.view(view).scaled(factor) for view in views] if over is not None else []
    extents = [_extent(one, others[n] if others else None) for n, one in enumerate(drawings)]
    tall = max(top - bottom for _, _, bottom, top in extents)
    wide = sum(right - left for left, right, _, _ in extents)
    room = width - 2 * _MARGIN - _GAP * (len(views) - 1)
    scale = room / wide if marks is None else 0.72 * room / wide
    ground = _MARGIN + tall * scale
    body: list[str] = []
    place = _MARGIN if marks is None else _MARGIN + 0.14 * room
    for n, drawing in enumerate(drawings):
        left, right, _, _ = extents[n]
        shift = place - left * scale
        end = place + (right - left) * scale + 6
        body.append(f'<line x1="{place - 6:.1f}" y1="{ground:.1f}" x2="{end:.1f}" '
                    f'y2="{ground:.1f}" stroke="#999" stroke-width="0.8"/>')  # fmt: skip
        body.append(f'<g transform="translate({shift:.2f} {ground:.2f}) scale({scale:.5f})">')
        body += _drawn(drawing, figure, heavy, marks is None)
        if others:
            body += _laid_over(others[n], heavy)
        body.append("</g>")
        if marks:
            body += _marked(drawing, marks, shift, ground, scale, width)
        place += (right - left) * scale + _GAP
    rows: list[str] = []
    if legend:
        said = legend_rows(ruleset, figure, title, over, over_title, heavy=bool(heavy), one_height=one_height)
        rows = [line for row in said for line in textwrap.wrap(row, max(20, int(width / (0.56 * _TEXT))))]
    height = ground + 10 + _ROW * len(rows) + 4
    for n, row in enumerate(rows):
        y = ground + 10 + _ROW * (n + 0.8)
        body.append(f'<text x="{_MARGIN:g}" y="{y:.1f}" font-size="{_TEXT}" fill="#222">{escape(row)}</text>')
    told = description(ruleset, figure, views)
    if over is not None:
        told += f" Over it, in chain lines: {over_title}. {description(ruleset, over, views)}"
    key = hashlib.sha256("\0".join((title, told, *body)).encode("utf-8", "replace")).hexdigest()[:10]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="t{key} d{key}" '
        f'viewBox="0 0 {width} {height:.0f}" width="{width}" height="{height:.0f}" '
        f'font-family="sans-serif" stroke-linecap="round" stroke-linejoin="round">'
        f'<title id="t{key}">{escape(title)}</title><desc id="d{key}">{escape(one_line(told))}</desc>'
        + "".join(body)
        + "</svg>"
    )


def _extent(one: Drawing, other: Drawing | None) -> tuple[float, float, float, float]:
    if other is None:
        return one.extent
    a, b = one.extent, other.extent
    return min(a[0], b[0]), max(a[1], b[1]), min(a[2], b[2]), max(a[3], b[3])


def _start(piece: Piece) -> str:
    return f"M{piece.start[0]:.2f} {-piece.start[1]:.2f}"


def _curve(pieces: Sequence[Piece]) -> str:
    corners = [(piece.first, piece.second, piece.end) for piece in pieces]
    return "".join("C" + " ".join(f"{x:.2f} {-z:.2f}" for x, z in three) for three in corners)


def _whole(shape: Shape) -> str:
    return _start(shape.pieces[0]) + _curve(shape.pieces) + ("Z" if shape.closed else "")


def _drawn(drawing: Drawing, figure: Figure, heavy: Collection[str], bones: bool) -> Iterator[str]:
    """Back to front: what is filled hides what lies behind it; each stretch in its own line."""
    for shape in drawing.shapes:
        if not shape.pieces:
            continue
        if shape.kind == "dark":
            yield f'<path d="{_whole(shape)}" fill="#000"/>'
        elif shape.kind == "bone":
            if bones or drawing.view == "side":
                yield _path(_whole(shape), _BONE)
        elif shape.kind == "far":
            yield _path(_whole(shape), 'fill="#e4e4e4" stroke="#777" stroke-width="0.9"')
        elif shape.kind == "fold":
            yield _path(_whole(shape), 'fill="none" stroke="#666" stroke-width="0.9"')
        else:
            fill = "#f1f1f1" if shape.kind == "ear" else "#fff"
            yield f'<path d="{_whole(shape)}" fill="{fill}" stroke="none"/>'
            for part, run in groupby(shape.pieces, key=lambda piece: piece.part):
                pieces = list(run)
                line = _HEAVY if part in heavy else _LINES[figure.line(part)]
                yield _path(_start(pieces[0]) + _curve(pieces), f'fill="none" {line}')


def _laid_over(drawing: Drawing, heavy: Collection[str]) -> Iterator[str]:
    for shape in drawing.shapes:
        if shape.kind in ("body", "tail", "ear") and shape.pieces:
            for part, run in groupby(shape.pieces, key=lambda piece: piece.part in heavy):
                pieces = list(run)
                yield _path(
                    _start(pieces[0]) + _curve(pieces), f'fill="none" {_OVER_HEAVY if part else _OVER}'
                )


def _path(way: str, style: str) -> str:
    return f'<path d="{way}" {style} vector-effect="non-scaling-stroke"/>'


def _marked(
    drawing: Drawing, marks: Mapping[str, str], shift: float, ground: float, scale: float, width: int
) -> Iterator[str]:
    """Landmarks as rings, their words beside the dog on the nearer side, none over another."""
    middle = shift + scale * sum(drawing.extent[:2]) / 2
    rows: dict[str, list[tuple[float, float, str]]] = {"start": [], "end": []}
    for name, words in marks.items():
        if name in drawing.marks:
            x, z = drawing.marks[name]
            px, py = shift + x * scale, ground - z * scale
            rows["end" if px < middle else "start"].append((py, px, one_line(words)))
    for anchor, found in rows.items():
        x = 4.0 if anchor == "end" else width - 4.0
        last = 0.0
        for py, px, words in sorted(found):
            y = max(py, last + _ROW)
            last = y
            yield (
                f'<circle cx="{px:.1f}" cy="{py:.1f}" r="3" fill="#fff" stroke="#000" stroke-width="1.2"/>'
                f'<text x="{x:g}" y="{y + 4:.1f}" font-size="{_TEXT}" '
                f"text-anchor={quoteattr('start' if anchor == 'end' else 'end')}>{escape(words)}</text>"
            )


def legend_rows(
    ruleset: Ruleset,
    figure: Figure,
    title: str,
    over: Figure | None = None,
    over_title: str = "",
    *,
    heavy: bool = False,
    one_height: bool = False,
) -> list[str]:
    """Who is drawn, how large, and what each kind of line stands for."""
    rows = [f"{title}: {size_words(figure)}."]
    if over is not None:
        how = "brought to one height" if one_height else "both to one scale"
        rows.append(f"Chain line: {over_title}, {size_words(over)}; {how}.")
    rows += lines_words(ruleset, figure)
    if heavy:
        rows.append("Heaviest: where the difference is real.")
    return rows
