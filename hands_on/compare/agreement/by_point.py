"""How well evaluators agree on the same dogs: for each point the statistic of its level, with an interval.

| level | statistic |
|---|---|
| `measurement` | ICC(2,1) of the dogs that all measured; with gaps that leave fewer than two, alpha |
| `ordinal`: grades and scales | quadratic-weighted kappa (two evaluators), ordinal alpha (more, or gaps) |
| `nominal`: choices, the tooth chart, grades off their scale | nominal alpha |
| `order`: the dogs' order by the edition's classes | Kendall's W |

Beside them stands how many pairs of answers differ, and differ by more than hand error, which needs no
assumption and is what points are sorted by; and for judged points Gwet's AC1 or AC2, which is defined where
nearly every dog got the same answer and kappa and alpha break down.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

from hands_on.compare.agreement.alpha import SEED, alpha
from hands_on.compare.agreement.concordance import concordance
from hands_on.compare.agreement.estimate import Estimate, pairs
from hands_on.compare.agreement.gwet import gwet
from hands_on.compare.agreement.icc import icc
from hands_on.compare.agreement.kappa import quadratic, weighted_kappa
from hands_on.compare.agreement.lean import Lean, leans, strictness
from hands_on.compare.answer import Answer, plain_answer, scale_of
from hands_on.compare.dogs.class_rank import ClassRanking
from hands_on.compare.examined import Examined, one_edition
from hands_on.exam.round import place_of
from hands_on.measure.change import sdc
from hands_on.ruleset.points import ChoicePoint, GradePoint, MeasurePoint, Point

__all__ = ["Agreement", "AgreementRemark", "Board", "PointAgreement", "agreement", "dog_key"]

Level = Literal["measurement", "ordinal", "nominal", "order"]

FEW_DOGS = 5
"""Fewer dogs say next to nothing of other dogs (common practice asks for ten and more)."""


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
class PointAgreement:
    """One point."""

    id: str
    label: str
    """Empty for the order of the dogs."""
    region: str
    level: Level
    estimate: Estimate
    unequal: float
    """Share of pairs of answers to the same dog that are not the same."""
    apart: float
    """Share that differ by more than hand error: measurements beyond the smallest detectable change, grades
    by two steps or more, choices at all."""
    beside: Estimate | None = None
    """Gwet's AC1 or AC2."""
    p_chance: float | None = None
    """For an order: how likely chance alone gives as much."""


@dataclass(frozen=True)
class Board:
    """Who examined which dog: sessions by dog and evaluator, one of each."""

    dogs: tuple[str, ...]
    evaluators: tuple[str, ...]
    cells: Mapping[tuple[int, int], Examined]

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


@dataclass(frozen=True)
class Agreement:
    """The agreement of several evaluators over several dogs."""

    board: Board
    points: tuple[PointAgreement, ...]
    """In the order of the walk."""
    order: PointAgreement | None
    """Of the dogs' order; None where the sessions were held under different editions."""
    lean: tuple[Lean, ...]
    strictness: tuple[Lean, ...]
    """Each evaluator over all graded points, in degrees from as asked; point is empty."""
    remarks: tuple[AgreementRemark, ...]

    @property
    def most_apart(self) -> tuple[PointAgreement, ...]:
        """Points where the group disagrees, the worst first."""

        def unlike(one: PointAgreement) -> float:
            # That two readings are not the same to the last digit says nothing.
            return 0.0 if one.level == "measurement" else one.unequal

        found = [one for one in self.points if one.apart or unlike(one)]
        return tuple(sorted(found, key=lambda one: (-one.apart, -unlike(one))))


def dog_key(one: Examined) -> str:
    """What tells the dogs of a group of sessions apart: its identity, else its number in the round."""
    if one.identity:
        return one.identity
    place = place_of(one.session)
    return f"{place.round}/{place.dog}" if place is not None and place.dog else one.name


def agreement(sessions: Sequence[Examined], *, seed: int = SEED) -> Agreement:
    """Compare what several evaluators say of the same dogs; what cannot be computed has its reason."""
    board, remarks = _board(sessions)
    known = {point.id: point for one in sessions for point in one.ruleset.points.values()}
    points: list[PointAgreement] = []
    tables: dict[str, tuple[Point, list[list[Answer | None]]]] = {}
    for name, point in known.items():
        table = board.answers(name)
        compared = pairs([[0.0 if answer else None for answer in row] for row in table])
        if not compared:
            continue
        found = _point(point, table, _one_scale(board, name), seed)
        points.append(found)
        if found.level in ("measurement", "ordinal"):
            tables[name] = (point, table)
    if not one_edition(sessions):
        remarks.append(AgreementRemark("different-editions"))
    return Agreement(
        board,
        tuple(points),
        _order(board, sessions),
        leans(board.evaluators, tables),
        strictness(board.evaluators, {n: t for n, t in tables.items() if isinstance(t[0], GradePoint)}),
        tuple(remarks),
    )


def _board(sessions: Sequence[Examined]) -> tuple[Board, list[AgreementRemark]]:
    """Sessions by dog and evaluator; the latest counts where somebody examined a dog twice."""
    remarks: list[AgreementRemark] = []
    names: dict[str, str] = {}
    evaluators: dict[str, str] = {}
    cells: dict[tuple[str, str], Examined] = {}
    for one in sessions:
        key = dog_key(one)
        place = place_of(one.session)
        known = one.session.dog.call_name or one.session.dog.registered_name
        names.setdefault(key, known or (f"no. {place.dog}" if place else one.name))
        who = one.evaluator.casefold() or one.name
        evaluators.setdefault(who, one.evaluator or f"not named ({one.name})")
        before = cells.get((key, who))
        if before is not None:
            remarks.append(AgreementRemark("examined-twice", evaluators[who], names[key]))
            if one.day < before.day:
                continue
        cells[key, who] = one
    dogs, people = list(names), list(evaluators)
    placed = {(dogs.index(key), people.index(who)): one for (key, who), one in cells.items()}
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
    return Board(labels, tuple(evaluators.values()), placed), remarks


def _one_scale(board: Board, name: str) -> bool:
    """Do all editions grade the point on one and the same scale?"""
    scales = set()
    for one in board.cells.values():
        point = one.ruleset.points.get(name)
        if isinstance(point, GradePoint):
            scales.add((point.less, point.more, scale_of(point)))
        elif point is not None:
            scales.add(((), (), scale_of(point)))
    return len(scales) == 1


def _point(point: Point, table: list[list[Answer | None]], one_scale: bool, seed: int) -> PointAgreement:
    if isinstance(point, MeasurePoint):
        return _measurement(point, table, seed)
    scale = scale_of(point) if one_scale else None
    answers = [answer for row in table for answer in row if answer is not None]
    if scale is not None and all(answer.position is not None for answer in answers):
        places = [
            [None if a is None or a.position is None else float(a.position) for a in row] for row in table
        ]
        steps = [float(step) for step in scale]
        estimate = _ordinal(places, steps, seed)
        unequal, apart = _shares(places, 1.0), _shares(places, 2.0)
        beside = gwet(places, steps, weights=quadratic(len(steps)))
        return PointAgreement(
            point.id, point.label, point.region, "ordinal", estimate, unequal, apart, beside
        )
    codes = {code: float(n) for n, code in enumerate(dict.fromkeys(a.category or "" for a in answers))}
    coded = [[None if a is None else codes[a.category or ""] for a in row] for row in table]
    least = len(point.options) if isinstance(point, ChoicePoint) else 2
    options = [float(n) for n in range(max(len(codes), least))]
    apart = _shares(coded, 0.5)
    return PointAgreement(
        point.id,
        point.label,
        point.region,
        "nominal",
        alpha(coded, "nominal", seed=seed),
        apart,
        apart,
        gwet(coded, options),
    )


def _measurement(point: MeasurePoint, table: list[list[Answer | None]], seed: int) -> PointAgreement:
    values = [[None if a is None else a.value for a in row] for row in table]
    estimate = icc(values)
    if estimate.n < 2 and len(table) > 1:
        estimate = alpha(values, "interval", seed=seed)
    unequal = beyond = total = 0
    for row in table:
        for a, b in combinations([answer for answer in row if answer is not None], 2):
            if a.value is None or b.value is None:
                continue
            total += 1
            gap = abs(a.value - b.value)
            unequal += gap > 0
            beyond += gap > sdc(a.u or 0.0, b.u or 0.0)
    share = max(total, 1)
    return PointAgreement(
        point.id, point.label, point.region, "measurement", estimate, unequal / share, beyond / share
    )


def _ordinal(places: list[list[float | None]], steps: list[float], seed: int) -> Estimate:
    """Kappa for two evaluators who both graded, alpha for more and for gaps that leave kappa nothing."""
    if len(places[0]) == 2:
        found = weighted_kappa(places, steps)
        if found.n >= 2:
            return found
    return alpha(places, "ordinal", seed=seed)


def _shares(table: Sequence[Sequence[float | None]], gap: float) -> float:
    """Share of pairs that lie `gap` or more apart."""
    wide = total = 0
    for row in table:
        for a, b in combinations([x for x in row if x is not None], 2):
            total += 1
            wide += abs(a - b) >= gap
    return wide / total if total else 0.0


def _order(board: Board, sessions: Sequence[Examined]) -> PointAgreement | None:
    if not sessions or not one_edition(sessions):
        return None
    ranking = ClassRanking(sessions[0].ruleset)
    ranked: list[list[float | None]] = []
    ranks = {cell: ranking.of(one.evaluation) for cell, one in board.cells.items()}
    place = {rank: float(n) for n, rank in enumerate(sorted(set(ranks.values())))}
    for dog in range(len(board.dogs)):
        row = [ranks.get((dog, evaluator)) for evaluator in range(len(board.evaluators))]
        ranked.append([None if rank is None else place[rank] for rank in row])
    found = concordance(ranked)
    p = found.p_f if found.p_f is not None else found.p_chi2
    return PointAgreement("order", "", "", "order", found.estimate, 0.0, 0.0, p_chance=p)
