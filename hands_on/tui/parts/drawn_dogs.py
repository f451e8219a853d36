"""Examinations as drawn dogs, and which parts of two of them really differ."""

from __future__ import annotations

from collections.abc import Mapping

from hands_on.compare.dogs.side_by_side import SideBySide
from hands_on.compare.examined import Examined
from hands_on.figure.drawn import dog_figure
from hands_on.figure.parts import parts_of_point
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.widgets.figure import Drawn


def drawn_of(one: Examined, label: str) -> Drawn:
    """The dog of an examination."""
    return Drawn(label, one.ruleset, dog_figure(one.ruleset, one.evaluation))


def really_differ(compared: SideBySide) -> Mapping[tuple[int, int], frozenset[str]]:
    """By the places of two dogs, the parts at which a difference between them is real."""
    found: dict[tuple[int, int], set[str]] = {}
    for row in compared.rows:
        parts = parts_of_point(compared.sessions[0].ruleset, row.id)
        for one in row.differences:
            if one.verdict in ("real", "disagree"):
                found.setdefault((one.first, one.second), set()).update(parts)
    return {pair: frozenset(parts) for pair, parts in found.items()}


def then_drawn(sheet: CurrentExamination, at: str = "") -> Drawn | None:
    """The dog as it was at the earlier examination of a re-check, as far as it was answered anew.

    What is still to be answered stays hidden, and `at`, which is being taken: it would lean on the hand.
    """
    if sheet.earlier is None:
        return None
    answered = {
        name for name, point in sheet.ruleset.points.items() if sheet.answers_at(point).given and name != at
    }
    earlier = sheet.earlier
    figure = dog_figure(earlier.ruleset, earlier.evaluation, answered)
    return Drawn("as it was then, where answered anew", earlier.ruleset, figure)
