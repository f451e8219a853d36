"""What a whole text says at its end, told back to each sentence: all taken at once is a sound file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any, Final

from hands_on.standard_text.proposal import Proposal, Read

__all__ = ["settled"]

_ONE_SEX: Final = "The text names it for {sex}s only."


def settled(reads: Sequence[Read]) -> list[Read]:
    """The same sentences, of which none proposes what a later one does away with.

    A ruling is proposed as it stands in the end where its class was given up; a class that nothing uses is
    left out, unless it is a heading's; a limit on one sex says so where the other has none.
    """
    everything = [one for read in reads for one in read.proposals]
    last = {(one.kind, one.key): one for one in everything}
    used = {name for one in last.values() if one.kind != "classes" for name in _classes(one.table)}
    sexes: dict[str, set[str]] = {}
    for one in last.values():
        if one.kind == "limits":
            sexes.setdefault(_on_what(one.table), set()).add(_sex(one.table))

    def as_it_stands(one: Proposal) -> Proposal:
        if one.kind == "rulings" and set(_classes(one.table)) - used:
            return replace(one, table=last[(one.kind, one.key)].table)
        if one.kind == "limits" and _sex(one.table) and len(sexes[_on_what(one.table)]) == 1:
            told = f"{one.table.get('reading', '')} {_ONE_SEX.format(sex=_sex(one.table))}".strip()
            return replace(one, table={**one.table, "reading": told})
        return one

    return [
        replace(
            read,
            proposals=tuple(
                as_it_stands(one)
                for one in read.proposals
                if one.kind != "classes" or read.sentence.heading or one.key in used
            ),
        )
        for read in reads
    ]


def _on_what(table: Mapping[str, Any]) -> str:
    return str(table.get("measure") or table.get("ratio") or table.get("difference"))


def _sex(table: Mapping[str, Any]) -> str:
    return str(table.get("when", {}).get("sex", ""))


def _classes(value: Any) -> Iterator[str]:
    """Every class that a table names, in its bands and by degree too."""
    if isinstance(value, Mapping):
        for key, inner in value.items():
            if key == "class" and isinstance(inner, str):
                yield inner
            elif key == "by_degree":
                yield from (str(one) for one in inner.values())
            else:
                yield from _classes(inner)
    elif isinstance(value, list | tuple):
        for inner in value:
            yield from _classes(inner)
