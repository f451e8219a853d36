"""Two examinations drawn over each other, and the parts at which they really differ."""

from __future__ import annotations

from collections.abc import Mapping

from hands_on.compare.dogs.side_by_side import SideBySide
from hands_on.compare.examined import Examined
from hands_on.figure.drawn import Figure, dog_figure
from hands_on.figure.parts import parts_of_point
from hands_on.figure.shapes import ViewName
from hands_on.report.blocks import Drawing
from hands_on.report.figure_svg import legend_rows, svg
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.figure import rests_on

__all__ = ["drawn", "drawn_over", "really_differ"]

_VIEWS: tuple[ViewName, ...] = ("side", "front", "rear")


def really_differ(compared: SideBySide) -> Mapping[tuple[int, int], frozenset[str]]:
    """By the places of two dogs, the parts at which a difference between them is real."""
    found: dict[tuple[int, int], set[str]] = {}
    for row in compared.rows:
        parts = parts_of_point(compared.sessions[0].ruleset, row.id)
        for one in row.differences:
            if one.verdict in ("real", "disagree"):
                found.setdefault((one.first, one.second), set()).update(parts)
    return {pair: frozenset(parts) for pair, parts in found.items()}


def drawn_over(
    one: Examined, other: Examined, titles: tuple[str, str], heavy: frozenset[str] = frozenset()
) -> Drawing:
    """The first dog, the second over it in chain lines, both to one scale."""
    first, second = dog_figure(one.ruleset, one.evaluation), dog_figure(other.ruleset, other.evaluation)
    made = drawn(one.ruleset, first, titles[0], second, titles[1], heavy)
    rows = [f"{titles[1]}: {row}" for row in rests_on(other.ruleset, second)]
    return Drawing(made.svg, "\n".join((made.words, *rows)))


def drawn(
    ruleset: Ruleset,
    figure: Figure,
    title: str,
    over: Figure,
    over_title: str,
    heavy: frozenset[str] = frozenset(),
) -> Drawing:
    """A dog from three sides with another over it; the legend stands below, in letters of the page."""
    picture = svg(
        ruleset, figure, title=f"{title}, from the side, from in front and from behind", views=_VIEWS,
        over=over, over_title=over_title, heavy=heavy, legend=False,
    )  # fmt: skip
    rows = legend_rows(ruleset, figure, title, over, over_title, heavy=bool(heavy))
    return Drawing(picture, "\n".join((*rows, *rests_on(ruleset, figure))))
