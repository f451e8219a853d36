"""The dialogue that fits a point."""

from __future__ import annotations

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue.base import Dialogue
from hands_on.exam.dialogue.choice import ChoiceDialogue
from hands_on.exam.dialogue.grade import GradeDialogue, ScaleDialogue
from hands_on.exam.dialogue.measure import MeasureDialogue
from hands_on.exam.dialogue.teeth import TeethDialogue
from hands_on.exam.likely import Likely
from hands_on.ruleset.base import Sex, UnitName
from hands_on.ruleset.points import ChoicePoint, GradePoint, MeasurePoint, Point, ScalePoint
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["dialogue_for"]


def dialogue_for(
    point: Point,
    ruleset: Ruleset,
    answers: Answers,
    length_unit: UnitName | None = None,
    sex: Sex | None = None,
    likely: Likely | None = None,
) -> Dialogue:
    """Start the dialogue at `point`, given what is recorded there.

    `length_unit` is the unit lengths are first asked in; None takes the edition's. Departures of the
    other `sex` are not offered; a reading beyond the `likely` ones is asked about.
    """
    if isinstance(point, MeasurePoint):
        return MeasureDialogue(point, answers, length_unit or ruleset.edition.unit, likely)
    if isinstance(point, GradePoint):
        return GradeDialogue(point, ruleset, answers, sex)
    if isinstance(point, ScalePoint):
        return ScaleDialogue(point, ruleset, answers)
    if isinstance(point, ChoicePoint):
        return ChoiceDialogue(point, ruleset, answers, sex)
    return TeethDialogue(point, answers)
