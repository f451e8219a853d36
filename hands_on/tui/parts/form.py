"""A form that takes minutes: left only after a question, kept on the disk while it is filled in."""

from __future__ import annotations

from collections.abc import Mapping

from hands_on.exam.dialogue import Line
from hands_on.store.drafts import FormDraft
from hands_on.tui.frame import Frame
from hands_on.tui.questions.numbered import NumberedScreen

KEEP = 0.5
"""Seconds between two looks at whether what is filled in has changed."""

FOUND = "What was being filled in when the program ended is here again. Esc, then 2, drops it."


class Form(Frame[None]):
    """Lines by name; `take_up` is called once they stand there."""

    FORM = ""
    """What the form is called on the disk."""
    NOTHING_YET = ""
    """What has not been begun, for the question on leaving."""

    _draft: FormDraft | None = None
    _at_first: Mapping[str, str] = {}

    def values(self) -> dict[str, str]:
        """What stands in the lines, by name."""
        raise NotImplementedError

    def fill(self, found: Mapping[str, str]) -> None:
        """Put in what was filled in before."""
        raise NotImplementedError

    def tell(self, text: str) -> None:
        """Tell something above the footer."""
        raise NotImplementedError

    def take_up(self) -> None:
        """What stands there is what may be left unasked; what an ended program left is put in."""
        self._at_first = self.values()
        self._draft = FormDraft(self.program.sessions, self.FORM, self.program.now())
        if self._draft.found:
            self.fill(self._draft.found)
            self.tell(FOUND)
        self.set_interval(KEEP, self.keep_typed)

    def keep_typed(self) -> None:
        """Put what is filled in on the disk."""
        if self._draft is not None and self.is_mounted:
            self._draft.keep(self.values() if self.would_lose() else {})

    def taken(self) -> None:
        """What was filled in stands elsewhere now, or is not wanted."""
        if self._draft is not None:
            self._draft.keep({})
            self._draft.close()
            self._draft = None

    def on_unmount(self) -> None:
        """Another may take up what is left."""
        if self._draft is not None:
            self._draft.close()

    def would_lose(self) -> bool:
        """Is anything filled in that was not there at first?"""
        return self.values() != self._at_first

    def action_back(self) -> None:
        """Ask before what was filled in is thrown away."""
        if not self.would_lose():
            self.taken()
            self.dismiss(None)
            return
        lines = (Line("1", "go on filling in"), Line("2", "leave; what was typed here is dropped"))
        self.app.push_screen(NumberedScreen("Leave?", self.NOTHING_YET, lines), self._leave)

    def _leave(self, answer: str | None) -> None:
        if answer == "2":
            self.taken()
            self.dismiss(None)
