"""Who examined which dog: the sessions of a seminar laid out by dog and evaluator."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import timedelta
from functools import cached_property
from typing import Literal

from hands_on.compare.agreement.precision import Cells
from hands_on.compare.answer import Answer, plain_answer
from hands_on.compare.examined import Examined
from hands_on.exam.round import place_of
from hands_on.exam.walk import progress, stops
from hands_on.frozen import dataclass

__all__ = ["FEW_DOGS", "AgreementRemark", "Board", "Standing", "board_of", "dog_key"]

Standing = Literal["signed", "not-signed", "unfinished"]
"""How far an examination is: signed, all answered but not signed, points still open."""

FEW_DOGS = 5
"""Fewer dogs say next to nothing of other dogs (common practice asks for ten and more)."""


WEEK = timedelta(days=7)
"""Sessions farther apart than this may find another dog: it grows, it gains or loses (a choice)."""


@dataclass(frozen=True)
class AgreementRemark:
    """What must be borne in mind of the agreement."""

    kind: Literal[
        "examined-twice", "copies", "one-evaluator", "few-dogs", "missing", "different-editions", "not-signed"
    ]
    evaluator: str = ""
    dog: str = ""
    count: int = 0
    """Dogs, or examinations that are missing or not signed; of copies how many answers differ in number."""
    of: int = 0
    """Examinations there should be, or there are."""
    named: tuple[tuple[str, str], ...] = ()
    """Dog and evaluator of the examinations that are missing or not signed."""


@dataclass(frozen=True)
class Board:
    """Who examined which dog: sessions by dog and evaluator, one of each."""

    dogs: tuple[str, ...]
    evaluators: tuple[str, ...]
    cells: Mapping[tuple[int, int], Examined]
    again: Mapping[tuple[int, int], tuple[Examined, ...]]
    """All sessions of that dog by that evaluator within a week of the one that counts, the earliest first."""

    @cached_property
    def _standings(self) -> dict[tuple[int, int], Standing]:
        return {cell: _standing(one) for cell, one in self.cells.items()}

    def standing(self, dog: int, evaluator: int) -> Standing | None:
        """How far one examination is; None where there is none."""
        return self._standings.get((dog, evaluator))

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
    """What tells the dogs of a group of sessions apart.

    Its chip, tattoo or registration; else its number in the round, for names may be alike or hidden; else
    its name.
    """
    dog = one.session.dog
    marked = dog.chip or dog.tattoo or dog.registration
    if marked:
        return marked.casefold()
    place = place_of(one.session)
    if place is not None and place.dog:
        return f"{place.round}/{place.same_dog}"
    return one.identity or one.name


def _standing(one: Examined) -> Standing:
    if one.session.signature is not None:
        return "signed"
    regions = progress(stops(one.ruleset, one.session), one.session)
    return "not-signed" if all(region.done for region in regions) else "unfinished"


def _weight(one: Examined) -> tuple[bool, int]:
    """Which of two copies says more: the signed one, else the one with more answers."""
    session = one.session
    return session.signature is not None, _size(one)


def _size(one: Examined) -> int:
    session = one.session
    return len(session.takes) + len(session.grades) + len(session.choices) + len(session.skips)


def _without_copies(sessions: Sequence[Examined]) -> tuple[list[Examined], list[tuple[Examined, Examined]]]:
    """One session for each examination, and the copies left out beside the one that counts.

    Two files tell of one examination when dog, evaluator and the moment of its start are the same: a copy
    made by hand, or by a synchronised folder.
    """
    kept: dict[object, Examined] = {}
    left: list[tuple[Examined, Examined]] = []
    for one in sessions:
        started = one.session.examination.started
        key = (dog_key(one), one.evaluator.casefold(), started) if started is not None else id(one)
        before = kept.get(key)
        if before is None:
            kept[key] = one
        elif _weight(one) > _weight(before):
            kept[key] = one
            left.append((before, one))
        else:
            left.append((one, before))
    return list(kept.values()), left


def board_of(given: Sequence[Examined]) -> tuple[Board, list[AgreementRemark]]:
    """Sessions by dog and evaluator; the latest counts where somebody examined a dog twice."""
    remarks: list[AgreementRemark] = []
    names: dict[str, str] = {}
    evaluators: dict[str, str] = {}
    cells: dict[tuple[str, str], Examined] = {}
    every: dict[tuple[str, str], list[Examined]] = {}
    sessions, copies = _without_copies(given)
    for copy, counts in copies:
        differ = abs(_size(copy) - _size(counts))
        remarks.append(AgreementRemark("copies", counts.evaluator, counts.dog, differ))
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
    labels = tuple(names.values())
    if len(set(labels)) < len(labels):
        labels = tuple(f"{label} ({key})" for key, label in names.items())
    board = Board(labels, tuple(evaluators.values()), placed, again)
    every_cell = [(d, e) for d in range(len(dogs)) for e in range(len(people))]
    missing = tuple((labels[d], board.evaluators[e]) for d, e in every_cell if (d, e) not in placed)
    if missing:
        remarks.append(AgreementRemark("missing", count=len(missing), of=len(every_cell), named=missing))
    rough = tuple(
        (labels[d], board.evaluators[e])
        for d, e in every_cell
        if board.standing(d, e) in ("not-signed", "unfinished")
    )
    if rough:
        remarks.append(AgreementRemark("not-signed", count=len(rough), of=len(placed), named=rough))
    return board, remarks


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
