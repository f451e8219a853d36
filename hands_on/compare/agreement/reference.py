"""Every evaluator held against one of them, whom the group takes as its reference; and against themselves."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from hands_on.compare.agreement.board import Board
from hands_on.compare.agreement.by_point import PointAgreement
from hands_on.compare.answer import Answer, plain_answer
from hands_on.compare.examined import Examined
from hands_on.frozen import dataclass
from hands_on.measure.change import sdc

__all__ = ["AgainstReference", "Nearness", "against_reference", "nearness", "own_repeats"]

Nearness = Literal["same", "near", "apart"]
"""The same; near: measured within hand error, graded one step apart; or apart."""


@dataclass(frozen=True)
class AgainstReference:
    """One evaluator's answers beside the reference's on the same dogs."""

    evaluator: str
    compared: int
    """Pairs of answers to the same point of the same dog."""
    same: int
    near: int
    apart: int
    most: tuple[tuple[str, int, int], ...]
    """Points where they lie apart most often: label, how often, of how many dogs."""


def nearness(answer: Answer, reference: Answer, level: str) -> Nearness:
    """How near an answer is to the reference's.

    A measurement is `same` within a tenth of its smallest detectable change, `near` within it, else `apart`;
    on an ordered scale one step is `near`; of choices there is only `same` and `apart`.
    """
    if level == "measurement" and answer.value is not None and reference.value is not None:
        limit = sdc(answer.u or 0.0, reference.u or 0.0)
        gap = abs(answer.value - reference.value)
        return "same" if gap <= limit / 10 else "near" if gap <= limit else "apart"
    if level == "ordinal" and answer.position is not None and reference.position is not None:
        steps = abs(answer.position - reference.position)
        return "same" if steps == 0 else "near" if steps == 1 else "apart"
    return "same" if answer.category == reference.category else "apart"


def against_reference(
    board: Board, points: Sequence[PointAgreement], reference: int
) -> tuple[AgainstReference, ...]:
    """Each other evaluator beside the one in the column `reference`, in the order of the columns.

    Only answers both gave are compared; the reference may be wrong like anybody else.
    """
    tables = {one.id: board.answers(one.id) for one in points}
    found = []
    for column, evaluator in enumerate(board.evaluators):
        if column != reference:
            pairs = [(one, row[column], row[reference]) for one in points for row in tables[one.id]]
            found.append(_counted(evaluator, pairs))
    return tuple(found)


def own_repeats(board: Board, points: Sequence[PointAgreement]) -> tuple[AgainstReference, ...]:
    """Everybody who went over a dog more than once within a week: each later answer beside the one before."""
    found = []
    for column, evaluator in enumerate(board.evaluators):
        pairs = []
        for dog in range(len(board.dogs)):
            sessions = board.again.get((dog, column), ())
            for earlier, later in pairwise(sessions):
                for one in points:
                    here, there = (_said(held, one.id) for held in (later, earlier))
                    pairs.append((one, here, there))
        if pairs:
            found.append(_counted(evaluator, pairs))
    return tuple(found)


def _said(one: Examined, point: str) -> Answer | None:
    at = one.ruleset.points.get(point)
    answer = plain_answer(one, at) if at is not None else None
    return answer if answer is not None and answer.given else None


def _counted(
    evaluator: str, pairs: Sequence[tuple[PointAgreement, Answer | None, Answer | None]]
) -> AgainstReference:
    counts: Counter[Nearness] = Counter()
    apart: Counter[str] = Counter()
    both: Counter[str] = Counter()
    for one, answer, model in pairs:
        if answer is None or model is None:
            continue
        how = nearness(answer, model, one.level)
        counts[how] += 1
        both[one.label] += 1
        apart[one.label] += how == "apart"
    most = tuple((label, n, both[label]) for label, n in apart.most_common() if n)
    return AgainstReference(
        evaluator, sum(counts.values()), counts["same"], counts["near"], counts["apart"], most
    )
