"""What the walk and the review share: an opened sheet, saving that failed, leaving."""

from __future__ import annotations

from collections.abc import Callable

from hands_on.exam.dialogue import Line
from hands_on.store.errors import NotSaved
from hands_on.store.places import typed_path
from hands_on.toml_text.problems import BadText
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.frame import Frame
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.typed import TypedScreen

KEEP = 0.5
"""Seconds between two looks at whether what is being written has changed."""

RETRY = 15.0
"""Seconds after which saving is tried again by itself."""


class SessionScreen(Frame[None]):
    """A screen on an opened session."""

    def __init__(self, sheet: CurrentExamination) -> None:
        super().__init__()
        self.sheet = sheet

    def on_mount(self) -> None:
        """Try again to save, as long as it has failed; keep what is being written on the disk."""
        self.set_interval(RETRY, self._retry)
        self.set_interval(KEEP, self.sheet.keep_drafts)
        self.call_after_refresh(self._tell_found)

    def _tell_found(self) -> None:
        """Once, that what was being written is here again."""
        if self.sheet.found and self.app.screen is self:
            self.say_here(self.sheet.found)
            self.sheet.found = ""

    def would_lose(self) -> bool:
        """Answers in memory only, or words that are not recorded?"""
        if not self.sheet.read_only and not self.sheet.unsaved and not self.sheet.on_disk:
            self.sheet.try_again()  # somebody removed the file
        return bool(self.sheet.unsaved or self.sheet.waiting)

    def ask_to_leave(self) -> None:
        """As by the key for leaving."""
        self.action_leave()

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
            self.say_here("Saved." if done else f"Tried again. {self.sheet.saved_state()}")

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
            self.sheet.save_elsewhere(typed_path(text))
        except NotSaved as error:
            return str(error)
        return ""

    def action_leave(self) -> None:
        """Leave; where something is only in memory, ask first."""
        if not self.would_lose():
            self.program.leave_session(self.sheet)
            return
        if not self.sheet.unsaved:
            self._ask_waiting()
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

    def _ask_waiting(self) -> None:
        kind = self.sheet.waiting.partition(",")[0].removeprefix("a ")
        key = {"note": "n in the walk", "summary": "s in the review", "critique": "t in the review"}[kind]
        lines = (
            Line("1", f"stay here: {key} takes it up again"),
            Line("2", f"leave without the {kind}"),
            Line("3", f"leave; the {kind} waits until this examination is opened again"),
        )
        ask = f"Put aside and not recorded: {self.sheet.waiting}. What now?"
        self.app.push_screen(NumberedScreen(f"A {kind} is waiting", ask, lines), self._leave_waiting)

    def _leave_waiting(self, answer: str | None) -> None:
        if answer == "2":
            self.sheet.drop_waiting()
            self.action_leave()
        elif answer == "3":
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
