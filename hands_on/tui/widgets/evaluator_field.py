"""The line of a form that asks who examines: a name typed, or the number of somebody known here."""

from __future__ import annotations

from collections.abc import Sequence

from textual.widgets import Input

from hands_on.plain_text import one_line
from hands_on.tui.widgets.field import Reading, TextField


class EvaluatorField(TextField):
    """Empty until somebody has said who examines; typing replaces what stands in it."""

    def __init__(self, name: str, label: str, examiner: str, known: Sequence[str]) -> None:
        """`examiner`: who has said so already; `known`: those who may be named by their number."""
        self.known = tuple(one_line(one) for one in known)
        listed = ", ".join(f"{n} {one}" for n, one in enumerate(self.known, 1))
        told = f"Known here, by number: {listed}." if listed and not examiner else ""
        super().__init__(name, label, examiner, told, self._understood)

    def on_mount(self) -> None:
        """What stands there is marked when one comes to it, so that typing replaces it."""
        super().on_mount()
        self.query_one(Input).select_on_focus = True

    def _named(self, text: str) -> str | None:
        if text.isascii() and text.isdigit() and 1 <= int(text) <= len(self.known):
            return self.known[int(text) - 1]
        return None

    def _understood(self, _: str) -> Reading:
        named = self._named(super().value)
        return Reading(told=named) if named else Reading()

    @property
    def value(self) -> str:
        """The name; of a number whose it is."""
        typed = super().value
        return self._named(typed) or typed
