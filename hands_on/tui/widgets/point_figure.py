"""A point drawn: where hand or stick goes, and beside it what each answer looks like."""

from __future__ import annotations

from collections.abc import Sequence

from hands_on.figure.looks import Look, look_at_point, unseen_at_point
from hands_on.ruleset.base import Sex
from hands_on.ruleset.points import Point
from hands_on.ruleset.ruleset import Ruleset
from hands_on.tui.drawing import Picture, figure_rows
from hands_on.tui.show import fitted, plain, wrapped
from hands_on.tui.widgets.pictures import FigureRows, PicturedText
from hands_on.wording.figure import VIEWS, exaggerated_words

LEAST_ROWS = 10
"""Lines of one row of pictures, its heads included."""

LEAST_WIDTH = 18
"""Cells of a picture: three stand side by side in a window of 60."""

GAP = 2
"""Cells between two pictures."""

NAMED_FROM = 34
"""Cells from which landmarks are named in a picture, and not only marked."""


class PointFigure(PicturedText):
    """Drawn again only where point or room are others than before."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._of: tuple[Ruleset, Point, Sex | None] | None = None
        self._first: int | None = None
        self._drawn: tuple[object, ...] = ()

    def show(self, ruleset: Ruleset, point: Point, sex: Sex | None, first: int | None = None) -> None:
        """`first`: the departure to begin with, on a screen of its own."""
        self._of, self._first = (ruleset, point, sex), first
        self._draw()

    def on_resize(self) -> None:
        """Fit again."""
        self._draw()

    def _draw(self) -> None:
        if self._of is None:
            return
        ruleset, point, sex = self._of
        size = self.content_size
        wanted = (ruleset.id, ruleset.digest, point.id, sex, size, self._first, self.easel)
        if wanted == self._drawn:
            return
        self._drawn = wanted
        self.put(
            lambda rows: [
                plain(row)
                for row in point_rows(ruleset, point, sex, size.width, size.height, self._first, rows)
            ]
        )


def point_rows(
    ruleset: Ruleset,
    point: Point,
    sex: Sex | None,
    width: int,
    height: int,
    first: int | None = None,
    drawn: FigureRows = figure_rows,
) -> list[str]:
    """The pictures in `width` x `height` cells; nothing where there is no room for one row of them.

    `first` is the departure to begin with on a screen of its own, where one goes on to the others; `drawn`
    draws a picture.
    """
    if height < LEAST_ROWS or width < 3 * LEAST_WIDTH + 2 * GAP:
        return []
    looks = look_at_point(ruleset, point, sex)
    if not looks:
        told = unseen_at_point(ruleset, point)
        return wrapped(next(iter(told.values())), width) if told else []
    if not looks[0].fault:
        return _stick_rows(ruleset, looks[0], width, height, drawn)
    fit = max(1, min(len(looks), (height - 1) // LEAST_ROWS))
    left = len(looks) - fit
    more = f" {left} more: k shows them large." if left and first is None else ""
    below = wrapped(f"◉ felt here. {exaggerated_words(ruleset)}{more}", width)
    room = height - len(below)
    first = (first or 0) % len(looks)
    shown = [*looks[first:], *looks[:first]][:fit]
    rows: list[str] = []
    for look in shown:
        rows += _row(ruleset, look, width, room // fit, drawn)
    return [*rows, *below]


def _names(ruleset: Ruleset, look: Look, width: int) -> dict[str, str]:
    named = width >= NAMED_FROM
    return {
        name: ruleset.landmarks[name].label if named else ""
        for name in look.landmarks
        if name in ruleset.landmarks
    }


def _row(ruleset: Ruleset, look: Look, width: int, height: int, drawn: FigureRows) -> list[str]:
    """As asked, then the departure at its degrees."""
    title = f"{ruleset.label(look.fault)}, {VIEWS[look.view]}"
    aside = max(LEAST_WIDTH, (width - 2 * GAP) * 3 // 10)
    widths = [width - 2 * GAP - 2 * aside, aside, aside]
    heads = ["as asked", *(degree for degree, _ in look.degrees)]
    figures = [look.asked, *(figure for _, figure in look.degrees)]
    pictures: list[Sequence[str]] = []
    for n, (figure, wide) in enumerate(zip(figures, widths, strict=True)):
        marks = _names(ruleset, look, wide) if n == 0 else None
        pictures.append(drawn(Picture(figure, look.view, window=look.window, marks=marks), wide, height - 2))
    lines = [
        (" " * GAP).join(text[:wide].ljust(wide) for text, wide in zip(row, widths, strict=True)).rstrip()
        for row in (heads, *zip(*pictures, strict=True))
    ]
    return [fitted(title, width, 1), *lines]


def _stick_rows(ruleset: Ruleset, look: Look, width: int, height: int, drawn: FigureRows) -> list[str]:
    """One picture, the stick in it."""
    words = "◉ found by hand; the chain of blocks: stick, tape or arms of the goniometer."
    marks = _names(ruleset, look, width)
    picture = Picture(look.asked, look.view, window=look.window, marks=marks, stick=look.stick)
    told = fitted(words if look.landmarks else "Where it is taken.", width, 1)
    return [*drawn(picture, width, height - 1), told]
