"""Examinations as drawn dogs."""

from __future__ import annotations

from hands_on.compare.examined import Examined
from hands_on.figure.drawn import dog_figure
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.widgets.figure import Drawn


def drawn_of(one: Examined, label: str) -> Drawn:
    """The dog of an examination."""
    return Drawn(label, one.ruleset, dog_figure(one.ruleset, one.evaluation))


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
