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

from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations
from typing import Literal

from hands_on.compare.agreement.alpha import alpha
from hands_on.compare.agreement.board import AgreementRemark, Board, board_of
from hands_on.compare.agreement.concordance import concordance
from hands_on.compare.agreement.estimate import Estimate, pairs
from hands_on.compare.agreement.gwet import gwet, in_use
from hands_on.compare.agreement.icc import icc
from hands_on.compare.agreement.kappa import quadratic, weighted_kappa
from hands_on.compare.agreement.lean import Lean, leans, strictness
from hands_on.compare.agreement.precision import Precision, precision
from hands_on.compare.answer import Answer, scale_of
from hands_on.compare.dogs.class_rank import ClassRanking
from hands_on.compare.examined import Examined, one_edition
from hands_on.frozen import dataclass
from hands_on.measure.change import sdc
from hands_on.ruleset.points import GradePoint, MeasurePoint, Point

__all__ = ["Agreement", "AgreementRemark", "PointAgreement", "agreement"]

Level = Literal["measurement", "ordinal", "nominal", "order"]


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
    """For an order: how likely chance alone gives as much, counted out or drawn."""
    unit: str = ""
    """Of a measurement."""
    precision: Precision | None = None
    """For a measurement: how far one hand and several scatter."""


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

    def listed(self, *, only_different: bool, worst_first: bool) -> list[PointAgreement]:
        """The points, on wish only those with different answers; as the walk goes, or the worst first."""
        rows = [one for one in self.points if one.unequal > 0 or not only_different]
        if not worst_first:
            return rows
        worst = [one for one in self.most_apart if one in rows]
        return [*worst, *(one for one in rows if one not in worst)]


def agreement(sessions: Sequence[Examined]) -> Agreement:
    """Compare what several evaluators say of the same dogs; what cannot be computed has its reason."""
    board, remarks = board_of(sessions)
    known = {point.id: point for one in sessions for point in one.ruleset.points.values()}
    points: list[PointAgreement] = []
    tables: dict[str, tuple[Point, list[list[Answer | None]]]] = {}
    for name, point in known.items():
        table = board.answers(name)
        compared = pairs([[0.0 if answer else None for answer in row] for row in table])
        if not compared:
            continue
        found = _point(point, table, _one_scale(board, name))
        if isinstance(point, MeasurePoint):
            found = replace(found, unit=point.unit, precision=precision(board.readings(name)))
        points.append(found)
        if found.level in ("measurement", "ordinal"):
            tables[name] = (point, table)

    def label(fault: str) -> str:
        return next((one.ruleset.label(fault) for one in sessions if fault in one.ruleset.faults), fault)

    if not one_edition(sessions):
        remarks.append(AgreementRemark("different-editions"))
    return Agreement(
        board,
        tuple(points),
        _order(board, sessions),
        leans(board.evaluators, tables, label),
        strictness(board.evaluators, {n: t for n, t in tables.items() if isinstance(t[0], GradePoint)}),
        tuple(remarks),
    )


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


def _point(point: Point, table: list[list[Answer | None]], one_scale: bool) -> PointAgreement:
    if isinstance(point, MeasurePoint):
        return _measurement(point, table)
    scale = scale_of(point) if one_scale else None
    answers = [answer for row in table for answer in row if answer is not None]
    if scale is not None and all(answer.position is not None for answer in answers):
        places = [
            [None if a is None or a.position is None else float(a.position) for a in row] for row in table
        ]
        steps = [float(step) for step in scale]
        estimate = _ordinal(places, steps)
        unequal, apart = _shares(places, 1.0), _shares(places, 2.0)
        used = in_use(places, steps)
        beside = gwet(places, used, weights=quadratic(len(used)))
        return PointAgreement(
            point.id, point.label, point.region, "ordinal", estimate, unequal, apart, beside
        )
    codes = {code: float(n) for n, code in enumerate(dict.fromkeys(a.category or "" for a in answers))}
    coded = [[None if a is None else codes[a.category or ""] for a in row] for row in table]
    options = [float(n) for n in range(max(len(codes), 2))]
    apart = _shares(coded, 0.5)
    return PointAgreement(
        point.id,
        point.label,
        point.region,
        "nominal",
        alpha(coded, "nominal"),
        apart,
        apart,
        gwet(coded, options),
    )


def _measurement(point: MeasurePoint, table: list[list[Answer | None]]) -> PointAgreement:
    values = [[None if a is None else a.value for a in row] for row in table]
    estimate = icc(values)
    if estimate.n < 2 and len(table) > 1:
        estimate = alpha(values, "interval")
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


def _ordinal(places: list[list[float | None]], steps: list[float]) -> Estimate:
    """Kappa for two evaluators who both graded, alpha for more and for gaps that leave kappa nothing."""
    if len(places[0]) == 2:
        found = weighted_kappa(places, steps)
        if found.n >= 2:
            return found
    return alpha(places, "ordinal")


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
    ranks = {cell: ranking.place(ranking.of(one.evaluation)) for cell, one in board.cells.items()}
    place = {rank: float(n) for n, rank in enumerate(sorted(set(ranks.values())))}
    for dog in range(len(board.dogs)):
        row = [ranks.get((dog, evaluator)) for evaluator in range(len(board.evaluators))]
        ranked.append([None if rank is None else place[rank] for rank in row])
    found = concordance(ranked)
    return PointAgreement("order", "", "", "order", found.estimate, 0.0, 0.0, p_chance=found.p)
