"""Who examined which dog: the sessions of a seminar laid out by dog and evaluator."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import timedelta
from typing import Literal

from hands_on.compare.agreement.precision import Cells
from hands_on.compare.answer import Answer, plain_answer
from hands_on.compare.examined import Examined
from hands_on.exam.round import place_of

__all__ = ["FEW_DOGS", "AgreementRemark", "Board", "board_of", "dog_key"]

FEW_DOGS = 5
"""Fewer dogs say next to nothing of other dogs (common practice asks for ten and more)."""


WEEK = timedelta(days=7)
"""Sessions farther apart than this may find another dog: it grows, it gains or loses (a choice)."""


@dataclass(frozen=True)
class AgreementRemark:
    """What must be borne in mind of the agreement."""

    kind: Literal["examined-twice", "one-evaluator", "few-dogs", "missing", "different-editions"]
    evaluator: str = ""
    dog: str = ""
    count: int = 0
    """Dogs, or examinations that are missing."""
    of: int = 0
    """Examinations there should be."""


@dataclass(frozen=True)
class Board:
    """Who examined which dog: sessions by dog and evaluator, one of each."""

    dogs: tuple[str, ...]
    evaluators: tuple[str, ...]
    cells: Mapping[tuple[int, int], Examined]
    again: Mapping[tuple[int, int], tuple[Examined, ...]]
    """All sessions of that dog by that evaluator within a week of the one that counts, the earliest first."""

    def answers(self, point: str) -> list[list[Answer | None]]:
        """A row a dog, a column an evaluator; None where there is no answer to compare."""
        rows: list[list[Answer | None]] = []
        for dog in range(len(self.dogs)):
            row: list[Answer | None] = []
            for evaluator in range(len(self.evaluators)):
                one = self.cells.get((dog, evaluator))
                at = one.ruleset.points.get(point) if one is not None else None
                answer = plain_answer(one, at) if one is not None and at is not None else None
                row.append(answer if answer is not None and answer.given else None)
            rows.append(row)
        return rows

    def readings(self, point: str) -> Cells:
        """What was measured at a point: a row a dog, a column an evaluator, each session's mean in a cell."""
        return [
            [
                [
                    answer.value
                    for one in self.again.get((dog, evaluator), ())
                    if (at := one.ruleset.points.get(point)) is not None
                    and (answer := plain_answer(one, at)).given
                    and answer.value is not None
                ]
                for evaluator in range(len(self.evaluators))
            ]
            for dog in range(len(self.dogs))
        ]


def dog_key(one: Examined) -> str:
    """What tells the dogs of a group of sessions apart: its identity, else its number in the round."""
    if one.identity:
        return one.identity
    place = place_of(one.session)
    return f"{place.round}/{place.dog}" if place is not None and place.dog else one.name


def board_of(sessions: Sequence[Examined]) -> tuple[Board, list[AgreementRemark]]:
    """Sessions by dog and evaluator; the latest counts where somebody examined a dog twice."""
    remarks: list[AgreementRemark] = []
    names: dict[str, str] = {}
    evaluators: dict[str, str] = {}
    cells: dict[tuple[str, str], Examined] = {}
    every: dict[tuple[str, str], list[Examined]] = {}
    for one in sessions:
        key = dog_key(one)
        place = place_of(one.session)
        known = one.session.dog.call_name or one.session.dog.registered_name
        names.setdefault(key, known or (f"no. {place.dog}" if place else one.name))
        who = one.evaluator.casefold() or one.name
        evaluators.setdefault(who, one.evaluator or f"not named ({one.name})")
        every.setdefault((key, who), []).append(one)
        before = cells.get((key, who))
        if before is not None:
            remarks.append(AgreementRemark("examined-twice", evaluators[who], names[key]))
            if one.day < before.day:
                continue
        cells[key, who] = one
    dogs, people = list(names), list(evaluators)
    placed = {(dogs.index(key), people.index(who)): one for (key, who), one in cells.items()}
    again = {
        (dogs.index(key), people.index(who)): tuple(_of_one_week(sessions, cells[key, who]))
        for (key, who), sessions in every.items()
    }
    if len(people) < 2:
        remarks.append(AgreementRemark("one-evaluator"))
    if len(dogs) < FEW_DOGS:
        remarks.append(AgreementRemark("few-dogs", count=len(dogs)))
    missing = len(dogs) * len(people) - len(placed)
    if missing:
        remarks.append(AgreementRemark("missing", count=missing, of=len(dogs) * len(people)))
    labels = tuple(names.values())
    if len(set(labels)) < len(labels):
        labels = tuple(f"{label} ({key})" for key, label in names.items())
    return Board(labels, tuple(evaluators.values()), placed, again), remarks


def _of_one_week(sessions: Sequence[Examined], counted: Examined) -> Iterator[Examined]:
    """Those close enough in time to have found the same dog; sessions without a date alone."""
    for one in sorted(sessions, key=lambda one: one.order_key):
        near = (
            one.held is not None
            and counted.held is not None
            and abs(counted.held.date() - one.held.date()) <= WEEK
        )
        if one is counted or near:
            yield one
