"""Departures of the same fault put together: one finding for each fault, place and side."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from hands_on.evaluate.departure import Departure
from hands_on.evaluate.reasons import Reason
from hands_on.exam.session import Status
from hands_on.frozen import dataclass
from hands_on.ruleset.base import DEGREES, Degree, Side

__all__ = ["Group", "merge", "ruled_out"]


@dataclass(frozen=True)
class Group:
    """All departures that speak of the same thing."""

    fault: str
    detail: str | None
    side: Side | None
    status: Status
    members: tuple[Departure, ...]

    @property
    def basis(self) -> tuple[Departure, ...]:
        """The members that carry the status: the sure ones where there are any."""
        sure = tuple(one for one in self.members if one.status == "present")
        return sure or self.members

    @property
    def degree(self) -> Degree | None:
        """The heaviest degree of the basis."""
        return heaviest_degree(self.basis)

    def degrees_differ(self) -> tuple[Reason, ...]:
        """How the members' degrees differ; empty when they do not."""
        each = tuple((one.origin, one.degree) for one in self.members if one.degree is not None)
        if len({degree for _, degree in each}) < 2:
            return ()
        return (Reason("degrees-differ", degrees=each),)


def heaviest_degree(rows: Iterable[Departure]) -> Degree | None:
    """The heaviest degree said; None when none was."""
    said = {row.degree for row in rows if row.degree is not None}
    return max(said, key=DEGREES.index) if said else None


def merge(departures: Sequence[Departure]) -> list[Group]:
    """Groups of the departures that are present or unsure, in the order they were first named."""
    groups: list[Group] = []
    found = _as_measured([one for one in departures if one.status != "absent"])
    for fault in dict.fromkeys(one.fault for one in found):
        rows = [one for one in found if one.fault == fault]
        for detail, members in _by_detail(rows):
            groups += _by_side(fault, detail, members)
    return groups


def ruled_out(departures: Sequence[Departure]) -> list[Group]:
    """Groups of the departures that were looked for and are not there."""
    rows: dict[tuple[str, Side | None], list[Departure]] = {}
    for one in departures:
        if one.status == "absent":
            rows.setdefault((one.fault, one.side), []).append(one)
    return [
        Group(fault, members[0].detail, side, "absent", tuple(members))
        for (fault, side), members in rows.items()
    ]


def _as_measured(rows: list[Departure]) -> list[Departure]:
    """What the eye called small and the tape surely finds large, or the other way, is one: the tape's."""
    tape = {(one.fault, detail): one.detail for one in rows if one.status == "present" for detail in one.same}
    return [
        replace(row, detail=tape.get((row.fault, row.detail), row.detail)) if row.detail else row
        for row in rows
    ]


def _by_detail(rows: list[Departure]) -> list[tuple[str | None, list[Departure]]]:
    """By place or form; what says none goes with the first that says one."""
    details = list(dict.fromkeys(row.detail for row in rows if row.detail))
    if not details:
        return [(None, rows)]
    first = details[0]
    return [(detail, [row for row in rows if (row.detail or first) == detail]) for detail in details]


def _by_side(fault: str, detail: str | None, rows: list[Departure]) -> list[Group]:
    """Left and right apart, unless they are alike; what says no side goes with what says one."""
    unsided = [row for row in rows if row.side is None]
    if len(unsided) == len(rows):
        return [_group(fault, detail, None, rows)]
    left = [row for row in rows if row.side in ("left", "both")]
    right = [row for row in rows if row.side in ("right", "both")]
    if not right:
        return [_group(fault, detail, "left", _within(rows, [*left, *unsided]))]
    if not left:
        return [_group(fault, detail, "right", _within(rows, [*right, *unsided]))]
    groups = [
        _group(fault, detail, "left", _within(rows, [*left, *unsided])),
        _group(fault, detail, "right", _within(rows, [*right, *unsided])),
    ]
    if _alike(groups[0], groups[1]):
        return [_group(fault, detail, "both", rows)]
    return groups


def _alike(first: Group, second: Group) -> bool:
    """Same degree, or none said on one side, and both equally sure: one finding on both sides."""
    same_degree = first.degree == second.degree or None in (first.degree, second.degree)
    classes = [{one.called.cls for one in group.basis if one.called is not None} for group in (first, second)]
    return same_degree and first.status == second.status and classes[0] == classes[1]


def _within(rows: list[Departure], wanted: list[Departure]) -> list[Departure]:
    """The wanted rows in the order they were given."""
    return [row for row in rows if any(row is one for one in wanted)]


def _group(fault: str, detail: str | None, side: Side | None, rows: list[Departure]) -> Group:
    status: Status = "present" if any(row.status == "present" for row in rows) else "unsure"
    return Group(fault, detail, side, status, tuple(rows))
