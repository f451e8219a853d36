"""What the walk and the review share: an opened sheet, saving that failed, leaving."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from hands_on.exam.dialogue import Line
from hands_on.plain_text import one_line
from hands_on.store.errors import NotSaved
from hands_on.toml_text.problems import BadText
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.frame import Frame
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.typed import TypedScreen

RETRY = 15.0
"""Seconds after which saving is tried again by itself."""


class SessionScreen(Frame[None]):
    """A screen on an opened session."""

    def __init__(self, sheet: CurrentExamination) -> None:
        super().__init__()
        self.sheet = sheet

    def on_mount(self) -> None:
        """Try again to save, as long as it has failed."""
        self.set_interval(RETRY, self._retry)

    def show(self) -> None:
        """Show the session as it is now."""
        raise NotImplementedError

    def say_here(self, text: str) -> None:
        """Tell something on this screen."""
        raise NotImplementedError

    def reload(self) -> None:
        """The session was read anew from its file."""
        self.show()

    def can_write(self) -> bool:
        """Says so where the session can only be read."""
        if self.sheet.read_only:
            self.say_here(self.sheet.saved_state())
            return False
        return True

    def action_try_again(self) -> None:
        """F5: save again, or take over a session that somebody else held."""
        was_read_only = self.sheet.read_only
        try:
            done = self.sheet.try_again()
        except BadText as error:
            self.program.say("The session can't be read any more", str(error))
            return
        if was_read_only and done:
            self.reload()
            self.say_here("Nobody else holds it now: you can go on.")
        else:
            self.say_here("Saved." if done else self.sheet.saved_state())

    def action_save_elsewhere(self) -> None:
        """F6: ask for another place."""
        if self.sheet.read_only:
            self.say_here(self.sheet.saved_state())
            return
        ask = "Where to? A file or a folder; the examination goes on there."
        screen = TypedScreen("Save elsewhere", ask, str(self.sheet.offered_path), wrong=self._save_to)
        self.app.push_screen(
            screen, lambda path: self.say_here(f"Saved to {self.sheet.path}.") if path else None
        )

    def _save_to(self, text: str) -> str:
        """Save there; what is wrong, or nothing."""
        if not text:
            return "Type a file or a folder."
        try:
            self.sheet.save_elsewhere(Path(text))
        except NotSaved as error:
            return str(error)
        return ""

    def action_leave(self) -> None:
        """Leave; where something is only in memory, ask first."""
        if not self.sheet.unsaved:
            self._leave_saved()
            return
        lines = (
            Line("1", "stay here"),
            Line("2", "try again to save (F5)"),
            Line("3", "save to another place (F6)"),
            Line("4", "leave; what is not saved is lost"),
        )
        ask = "The newest answers are only in memory. What now?"
        screen = NumberedScreen("Not saved", ask, lines, message=self.sheet.saved_state())
        self.app.push_screen(screen, self._leave_unsaved)

    def _leave_saved(self) -> None:
        if not self.sheet.draft.waits:
            self.program.leave_session(self.sheet)
            return
        lines = (
            Line("1", "stay here: n in the walk takes it up again"),
            Line("2", "leave without the note"),
        )
        ask = f"Put aside and not recorded: “{one_line(self.sheet.draft.text)[:60]}”. What now?"
        self.app.push_screen(NumberedScreen("A note is waiting", ask, lines), self._leave_note)

    def _leave_note(self, answer: str | None) -> None:
        if answer == "2":
            self.program.leave_session(self.sheet)

    def _leave_unsaved(self, answer: str | None) -> None:
        if answer == "2":
            self.action_try_again()
        elif answer == "3":
            self.action_save_elsewhere()
        elif answer == "4":
            self.program.leave_session(self.sheet)

    def with_reason(self, then: Callable[[str], None], otherwise: Callable[[], None]) -> None:
        """Ask why a signed session is changed, and go on with the reason; `otherwise` without one."""
        ask = "This examination is signed. The change is kept as an amendment beside what was signed. Why?"

        def answered(reason: str | None) -> None:
            if reason:
                then(reason)
            else:
                otherwise()

        self.app.push_screen(TypedScreen("A change after signing", ask), answered)

    def _retry(self) -> None:
        if (
            self.sheet.unsaved
            and not self.sheet.read_only
            and self.app.screen is self
            and self.sheet.try_again()
        ):
            self.say_here("Saved now.")
