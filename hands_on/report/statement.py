"""One thing said in a report."""

from __future__ import annotations

from dataclasses import replace

from hands_on.frozen import dataclass

__all__ = ["Statement"]


@dataclass(frozen=True)
class Statement:
    """A sentence or a row, what goes below it, and what it rests on."""

    text: str
    sources: tuple[str, ...] = ()
    """Keys of the edition's sources, or sources written out where there are no keys."""
    more: tuple[str, ...] = ()
    mark: str = ""
    """The sources as numbers."""
    heading: bool = False
    """Names what follows."""

    def with_mark(self, mark: str) -> Statement:
        """The same with its sources as numbers."""
        return replace(self, mark=mark)
