"""The order of dogs by their edition's classes, and how far it holds when every answer may have been a
little otherwise. What varies, and by how much, stands in `compare.dogs.chances`.

Places are told with how often each one comes out (ranks under uncertainty: Goldstein and Spiegelhalter
1996, J. R. Stat. Soc. A 159: 385-443); there is no score. Dogs that tie in a draw share its places evenly.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from operator import and_
from typing import Any, Literal, Protocol

from hands_on.compare.dogs.chances import Hands, Varying, draw
from hands_on.compare.dogs.class_rank import ClassRanking, Rank
from hands_on.compare.examined import Examined, labels, one_edition, same_dog

__all__ = [
    "SURE",
    "DecidingAnswer",
    "NoOrder",
    "Order",
    "OrderRemark",
    "Placed",
    "Places",
    "order",
    "places_of",
]

DRAWS = 2000
SEED = "20240601"

SURE = 0.95
"""From this probability on one dog is said to stand before another."""

MATTERS = 0.01
"""An answer is named when holding it moves the chance of the order by so much."""

MANY_GAPS = 5
"""From so many points on that only others were examined at, the order is remarked on."""

NoOrder = Literal["too-few", "different-editions", "one-dog", "dog-twice"]
"""Why sessions cannot be put in order."""


@dataclass(frozen=True)
class OrderRemark:
    """What makes an order unfair to one of the dogs, or to all."""

    kind: Literal["not-examined", "too-young", "different-evaluators"]
    dog: str = ""
    count: int = 0
    """Points not examined, or findings not counted."""


@dataclass(frozen=True)
class Placed:
    """One dog in the order."""

    index: int
    """Its place among the sessions as given."""
    dog: str
    place: int
    """Place as recorded, from 1; dogs that tie have the same."""
    tied: bool
    p_place: tuple[float, ...]
    """How often each place comes out, from the first."""
    counts: tuple[tuple[str, int], ...]
    """Findings counted, by class, the heaviest first."""
    unsure: int
    """Findings that are unsure and not counted."""
    p_before_next: float | None
    """How often it stands before the dog listed next; None for the last."""


@dataclass(frozen=True)
class DecidingAnswer:
    """An answer that the order depends on."""

    index: int
    dog: str
    label: str
    point: str
    p_if_held: float
    """How often the order holds where this answer is as recorded."""
    p_otherwise: float
    """How often where it is not."""
    p_changes: float
    """How often it comes out otherwise."""


@dataclass(frozen=True)
class Order:
    """The order as recorded and how far it holds; where there is none, why."""

    dogs: tuple[Placed, ...] = ()
    p_order: float | None = None
    """How often every dog recorded before another stays before it; None where all tie."""
    p_first: float | None = None
    """How often a dog recorded first stands first, shared or not."""
    p_none_overlooked: float | None = None
    """As `p_order`, were nothing overlooked at points as asked."""
    depends_on: tuple[DecidingAnswer, ...] = ()
    remarks: tuple[OrderRemark, ...] = ()
    no_order: NoOrder | None = None
    draws: int = DRAWS

    @property
    def settled(self) -> bool:
        """Does the whole order hold often enough to be said?"""
        return self.p_order is not None and self.p_order >= SURE


@dataclass(frozen=True)
class Places:
    """What draws of several dogs' ranks give; a smaller rank is better."""

    shares: tuple[tuple[float, ...], ...]
    """For each dog how often it has each place."""
    before: tuple[tuple[float, ...], ...]
    """For each dog how often it stands before each other; ties count half."""


class Ordered(Protocol):
    """What can be compared with its like: a number, a rank."""

    def __lt__(self, other: Any, /) -> bool: ...


def places_of(drawn: Sequence[Sequence[Ordered]]) -> Places:
    """Places in draws: a row a dog, a column a draw. Dogs that tie share their places evenly."""
    k, n = len(drawn), len(drawn[0])
    shares = [[0.0] * k for _ in drawn]
    before = [[0.0] * k for _ in drawn]
    dogs = range(k)
    for column in zip(*drawn, strict=True):
        for dog in dogs:
            mine = column[dog]
            better = equal = 0
            for other in dogs:
                if column[other] < mine:
                    better += 1
                elif column[other] == mine:
                    equal += 1
                    before[dog][other] += 0.5
                else:
                    before[dog][other] += 1.0
            for place in range(better, better + equal):
                shares[dog][place] += 1.0 / equal
    return Places(
        tuple(tuple(x / n for x in row) for row in shares), tuple(tuple(x / n for x in row) for row in before)
    )


def order(sessions: Sequence[Examined], *, draws: int = DRAWS, seed: str = SEED) -> Order:
    """Put dogs in order; the same sessions, draws and seed give the same answer, however they are listed."""
    no_order = _no_order(sessions)
    if no_order is not None:
        return Order(no_order=no_order, draws=draws)
    ranking = ClassRanking(sessions[0].ruleset)
    recorded = [ranking.of(one.evaluation) for one in sessions]
    hands: Hands = {}
    seen: dict[str, int] = {}
    drawn = []
    for one in sessions:
        name = f"{seed}/{one.identity or one.dog}/{one.evaluator}/{one.day}"
        seen[name] = seen.get(name, -1) + 1
        drawn.append(draw(one, ranking, draws, f"{name}/{seen[name]}", hands))
    places = places_of([one.ranks for one in drawn])
    listed = sorted(range(len(sessions)), key=lambda i: (recorded[i], -places.shares[i][0], i))
    names = labels(sessions)
    holds = _holds(recorded, [one.ranks for one in drawn])
    first = [i for i, value in enumerate(recorded) if value == min(recorded)]
    p_order = sum(holds) / draws if len(set(recorded)) > 1 else None
    return Order(
        dogs=tuple(
            Placed(
                index=i,
                dog=names[i],
                place=1 + sum(value < recorded[i] for value in recorded),
                tied=recorded.count(recorded[i]) > 1,
                p_place=places.shares[i],
                counts=_counts(sessions[i], ranking),
                unsure=sum(f.counts and f.status == "unsure" for f in sessions[i].evaluation.findings),
                p_before_next=places.before[i][listed[row + 1]] if row + 1 < len(listed) else None,
            )
            for row, i in enumerate(listed)
        ),
        p_order=p_order,
        p_none_overlooked=(
            sum(_holds(recorded, [one.recorded_only for one in drawn])) / draws
            if p_order is not None
            else None
        ),
        p_first=_first([one.ranks for one in drawn], first) / draws,
        depends_on=(_deciding(names, [one.varying for one in drawn], holds) if p_order is not None else ()),
        remarks=_remarks(sessions),
        draws=draws,
    )


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


def _counts(one: Examined, ranking: ClassRanking) -> tuple[tuple[str, int], ...]:
    classes = one.ruleset.classes
    rows = zip(ranking.order, ranking.counts(one.evaluation), strict=True)
    named = ((", ".join(classes[c].label if c in classes else c for c in row), n) for row, n in rows if row)
    return tuple((label, n) for label, n in named if n or label != "unclassed")


def _holds(recorded: Sequence[Rank], drawn: Sequence[Sequence[Rank]]) -> tuple[bool, ...]:
    """For each draw, whether every dog recorded before another stays before it."""
    ahead = [(a, b) for a, x in enumerate(recorded) for b, y in enumerate(recorded) if x < y]
    columns = zip(*drawn, strict=True)
    return tuple(all(row[a] < row[b] for a, b in ahead) for row in columns)


def _first(drawn: Sequence[Sequence[Rank]], first: Sequence[int]) -> int:
    return sum(min(row) in [row[i] for i in first] for row in zip(*drawn, strict=True))


def _deciding(
    names: Sequence[str], varying: Sequence[Sequence[Varying]], holds: Sequence[bool]
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
            both = sum(map(and_, holds, answer.changed))
            held = (all_held - both) / (draws - changes)
            otherwise = both / changes
            if abs(held - p_all) >= MATTERS:
                row = DecidingAnswer(
                    index, names[index], answer.label, answer.point, held, otherwise, changes / draws
                )
                found.append((abs(held - p_all), row))
    found.sort(key=lambda pair: -pair[0])
    return tuple(row for _, row in found)


def _remarks(sessions: Sequence[Examined]) -> tuple[OrderRemark, ...]:
    remarks = []
    gaps = [{gap.point for gap in one.evaluation.gaps} for one in sessions]
    for one, open_, name in zip(sessions, gaps, labels(sessions), strict=True):
        others = [gap for gap in gaps if gap is not open_]
        alone = {point for point in open_ if any(point not in other for other in others)}
        if len(alone) >= MANY_GAPS:
            remarks.append(OrderRemark("not-examined", name, len(alone)))
        young = sum(finding.too_young for finding in one.evaluation.findings)
        if young:
            remarks.append(OrderRemark("too-young", name, young))
    if len({one.evaluator.casefold() for one in sessions}) > 1:
        remarks.append(OrderRemark("different-evaluators"))
    return tuple(remarks)
