"""A measurement typed where none is asked: its figures are no answers, its point no request to skip."""

from __future__ import annotations

__all__ = ["StrayNumber"]

_FIGURES = "0123456789"
_POINTS = ".,"

TOLD = (
    "A number is being typed, and none is asked here: nothing was recorded of it. Enter or Esc begins anew."
)


class StrayNumber:
    """Watches the keys at points that are answered by a line's number.

    `68.5` at a graded point: there is no 6 and no 8, the point would open the menu and 5 there skip it. A
    point right behind figures of which one was no answer belongs to a number, and so do the figures after it.
    Behind a figure that was an answer the point opens the menu, as everywhere: a number never leads on from a
    scale, and what is answered cannot be skipped there.
    """

    def __init__(self) -> None:
        self._refused = False
        self._after_point = False

    def takes(self, key: str) -> bool:
        """Does the key belong to a number that is not asked for? It must then do nothing else."""
        if key in _POINTS and self._refused:
            self._after_point = True
            return True
        if key in _FIGURES:
            return self._after_point
        ends = self._after_point and key in ("enter", "escape")
        self._refused = self._after_point = False
        return ends

    def pressed(self, *, refused: bool) -> None:
        """A key went to the dialogue; `refused`: a figure that no line has."""
        self._refused = self._refused or refused

    @property
    def told(self) -> str:
        """What to say of such a number while it is being typed; empty where none is."""
        return TOLD if self._after_point else ""
