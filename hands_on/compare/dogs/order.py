"""The order of dogs by their edition's rule, and how far it holds when every answer may have been a little
otherwise. The rule stands in `compare.dogs.class_rank`; what varies, and by how much, in
`compare.dogs.chances`.

Dogs are compared on the points answered for all of them, by departures that none of them is too young for
(`compare.dogs.basis`). Where that is less than half of what is asked there is no order. Places are told
with how often each one comes out (ranks under uncertainty: Goldstein and Spiegelhalter 1996, J. R. Stat.
Soc. A 159: 385-443); there is no score. Dogs that tie in a draw are taken in every order alike, in every
figure.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field
from operator import mul

from hands_on.compare.dogs.basis import basis_of
from hands_on.compare.dogs.chances import USUAL, Assumed, Draws, Shared, Varying, draw
from hands_on.compare.dogs.class_rank import (
    OTHER_RULES,
    UNCLASSED,
    ClassRanking,
    InCommon,
    OtherRule,
    Place,
    Rank,
)
from hands_on.compare.dogs.order_found import (
    DRAWS,
    SEED,
    Assumption,
    DecidingAnswer,
    DecidingAssumption,
    NoOrder,
    Order,
    OrderRemark,
    Placed,
)
from hands_on.compare.dogs.places import columns_of, holds, places_of
from hands_on.compare.examined import Examined, labels, one_edition, same_dog
from hands_on.frozen import dataclass

__all__ = ["KIND", "ROUGH", "SHARE", "order"]

MATTERS = 0.01
"""An answer is named when holding it moves the chance of the order by so much."""

SHARE = 0.5
"""Of the points asked; with fewer answered for all dogs there is no order (a choice)."""

ROUGH = Assumed(right=0.7, overlooked=0.05)
KIND = Assumed(right=0.9, overlooked=0.005)
"""The ends of what is assumed of a hand; the order is shown over this range (a choice, not published)."""

_WITHOUT: dict[Assumption, Assumed] = {
    "degrees": Assumed(right=1.0),
    "overlooked": Assumed(overlooked=0.0),
    "unsure": Assumed(unsure=0.0),
    "measurements": Assumed(measured=False),
}


def order(sessions: Sequence[Examined], *, draws: int = DRAWS, seed: str = SEED) -> Order:
    """Put dogs in order; the same sessions, draws and seed give the same answer, however they are listed."""
    no_order = _no_order(sessions)
    if no_order is not None:
        return Order(no_order=no_order, draws=draws, seed=seed)
    basis, common = basis_of(sessions)
    if basis.share < SHARE:
        answered = len(basis.points) + len(basis.too_young)
        why: NoOrder = "too-young" if answered >= SHARE * basis.asked else "too-little-in-common"
        return Order(no_order=why, basis=basis, draws=draws, seed=seed)
    ranking = ClassRanking(sessions[0].ruleset)
    if any(ranking.out_for(one.evaluation, common) for one in sessions):
        return Order(no_order="too-young-for-what-disqualifies", basis=basis, draws=draws, seed=seed)
    ranks = [ranking.of(one.evaluation, common) for one in sessions]
    recorded = [ranking.place(rank) for rank in ranks]
    first = [i for i, value in enumerate(recorded) if value == min(recorded)]
    runs = _Runs(sessions, ranking, common, recorded, first, draws, seed)
    usual = runs.drawn(USUAL)
    drawn = [one.places for one in usual]
    columns = columns_of(drawn)
    places = places_of(columns)
    listed = sorted(range(len(sessions)), key=lambda i: (recorded[i], -places.shares[i][0], i))
    names = labels(sessions)
    known = holds(recorded, columns)
    kept = [known[column] for column in zip(*drawn, strict=True)]
    ordered = len(set(recorded)) > 1
    ends = [runs.holds_and_first(assumed) for assumed in (ROUGH, KIND)]
    p_order = sum(kept) / draws if ordered else None
    return Order(
        dogs=tuple(
            Placed(
                index=i,
                dog=names[i],
                place=1 + sum(value < recorded[i] for value in recorded),
                tied=recorded.count(recorded[i]) > 1,
                p_place=places.shares[i],
                counts=_counts(ranks[i], ranking),
                unsure=sum(
                    f.counts and f.status == "unsure" and ranking.lies_in(f, common)
                    for f in sessions[i].evaluation.findings
                ),
                p_before_next=places.before[i][listed[row + 1]] if row + 1 < len(listed) else None,
            )
            for row, i in enumerate(listed)
        ),
        p_order=p_order,
        p_first=sum(places.shares[i][0] for i in first),
        p_order_range=(ends[0][0], ends[1][0]) if ordered else None,
        p_first_range=(ends[0][1], ends[1][1]),
        depends_on=_deciding(names, [one.varying for one in usual], kept) if ordered else (),
        assumptions=_assumptions(runs, p_order) if p_order is not None else (),
        otherwise=_otherwise(ranking, ranks, first, names),
        basis=basis,
        placing=ranking.placing,
        remarks=_remarks(sessions),
        draws=draws,
        seed=seed,
    )


@dataclass(frozen=True)
class _Runs:
    """The same draws under one assumption or another."""

    sessions: Sequence[Examined]
    ranking: ClassRanking
    common: InCommon
    recorded: Sequence[Place]
    first: Sequence[int]
    draws: int
    seed: str
    shared: Shared = field(default_factory=Shared)

    def drawn(self, assumed: Assumed) -> list[Draws]:
        """Ranks of every dog in every draw."""
        seen: dict[str, int] = {}
        found = []
        for one in self.sessions:
            name = f"{self.seed}/{one.identity or one.dog}/{one.evaluator}/{one.day}"
            seen[name] = seen.get(name, -1) + 1
            key = f"{name}/{seen[name]}"
            found.append(
                draw(one, self.ranking, self.draws, key, self.shared, common=self.common, assumed=assumed)
            )
        return found

    def holds_and_first(self, assumed: Assumed) -> tuple[float, float]:
        """How often the order holds, and the dogs recorded first stand first."""
        columns = columns_of([one.places for one in self.drawn(assumed)])
        shares = places_of(columns).shares
        kept = holds(self.recorded, columns)
        return (
            sum(kept[column] * times for column, times in columns.items()) / self.draws,
            sum(shares[i][0] for i in self.first),
        )


def _assumptions(runs: _Runs, p_order: float) -> tuple[DecidingAssumption, ...]:
    found = [DecidingAssumption(kind, runs.holds_and_first(how)[0]) for kind, how in _WITHOUT.items()]
    moved = [one for one in found if abs(one.p_without - p_order) >= MATTERS]
    return tuple(sorted(moved, key=lambda one: -abs(one.p_without - p_order)))


def _otherwise(
    ranking: ClassRanking, ranks: Sequence[Rank], first: Sequence[int], names: Sequence[str]
) -> tuple[tuple[OtherRule, tuple[str, ...]], ...]:
    """Rules that put another dog first."""
    found: list[tuple[OtherRule, tuple[str, ...]]] = []
    for rule in OTHER_RULES:
        each = [ranking.other_place(rank, rule) for rank in ranks]
        best = [i for i, place in enumerate(each) if place == min(each)]
        if set(best) != set(first):
            found.append((rule, tuple(names[i] for i in best)))
    return tuple(found)


def _no_order(sessions: Sequence[Examined]) -> NoOrder | None:
    """Why these cannot be put in order; None when they can."""
    if len(sessions) < 2:
        return "too-few"
    if not one_edition(sessions):
        return "different-editions"
    pairs = [(a, b) for n, a in enumerate(sessions) for b in sessions[:n]]
    if any(same_dog(a, b) for a, b in pairs):
        return "one-dog" if all(same_dog(a, b) for a, b in pairs) else "dog-twice"
    return None


def _counts(rank: Rank, ranking: ClassRanking) -> tuple[tuple[tuple[str, ...], int], ...]:
    rows = zip(ranking.order, ranking.counts(rank), strict=True)
    return tuple((row, n) for row, n in rows if row and (n or row != (UNCLASSED,)))


def _deciding(
    names: Sequence[str], varying: Sequence[Sequence[Varying]], holds: Sequence[float]
) -> tuple[DecidingAnswer, ...]:
    """Answers by how much more often the order holds where they stand as recorded.

    All draws are independent of each other, so those in which one answer stands are a run with it held.
    """
    draws = len(holds)
    all_held = sum(holds)
    p_all = all_held / draws
    found: list[tuple[float, DecidingAnswer]] = []
    for index, answers in enumerate(varying):
        for answer in answers:
            changes = sum(answer.changed)
            if not 0 < changes < draws:
                continue
            both = sum(map(mul, holds, answer.changed))
            held = (all_held - both) / (draws - changes)
            otherwise = both / changes
            if abs(held - p_all) >= MATTERS:
                row = DecidingAnswer(
                    index, names[index], answer.what, answer.point, held, otherwise, changes / draws
                )
                found.append((abs(held - p_all), row))
    found.sort(key=lambda pair: -pair[0])
    return tuple(row for _, row in found)


def _remarks(sessions: Sequence[Examined]) -> tuple[OrderRemark, ...]:
    remarks = []
    for one, name in zip(sessions, labels(sessions), strict=True):
        young = sum(finding.too_young for finding in one.evaluation.findings)
        if young:
            remarks.append(OrderRemark("too-young", name, young))
    if len({one.evaluator.casefold() for one in sessions}) > 1:
        remarks.append(OrderRemark("different-evaluators"))
    return tuple(remarks)
