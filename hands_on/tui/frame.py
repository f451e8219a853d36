"""What screens share: the app they belong to, help and the way back."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, cast

from textual.await_complete import AwaitComplete
from textual.events import Event, Key
from textual.screen import ModalScreen, Screen, ScreenResultType

from hands_on.tui.asks import Help

if TYPE_CHECKING:
    from hands_on.tui.program import Program

NOT_TAKEN = "What is typed here is not taken yet. Esc once more drops it."


class Frame(Screen[ScreenResultType]):
    """A screen of Hands On; its keys stand in `keys.KEYS` under `NAME`."""

    NAME: ClassVar[str] = ""

    def on_mount(self) -> None:
        """Open the screen.

        One that is closed before its widgets came (a key pressed fast, the terminal gone) is still told
        that it is mounted, and has nothing to show then.
        """
        if self.children and self in self.app.screen_stack:
            self.opened()

    def on_screen_resume(self) -> None:
        """Another may examine by now: the title tells who."""
        for title in self.query("TitleLine"):
            title.draw()  # type: ignore[attr-defined]

    def opened(self) -> None:
        """The widgets are there: what the screen does first."""

    async def on_event(self, event: Event) -> None:
        """Take an event; a key that arrives when this screen is closed already goes to the one there now."""
        if isinstance(event, Key) and not self.children:
            if self.app.screen_stack and self.app.screen is not self:
                self.app.post_message(event)
            return
        await super().on_event(event)

    @property
    def program(self) -> Program:
        """The program, as far as a screen may ask it for something."""
        return cast("Program", self.app)

    def dismiss(self, result: ScreenResultType | None = None) -> AwaitComplete:
        """Close this screen; once it is no longer on top that is done already.

        Two keys pressed fast may both ask for it, and the second would close the screen below.
        """
        if self.app.screen is not self:
            return AwaitComplete()
        return super().dismiss(result)

    def would_lose(self) -> bool:
        """Would something typed on this screen be lost if the program ended now?"""
        return False

    def keep_typed(self) -> None:
        """The program is told to end: put on the disk what would be lost."""

    def ask_to_leave(self) -> None:
        """Leave as by the screen's own key, so that what would be lost is asked about, or kept."""
        self.action_back()

    def action_help(self) -> None:
        """The keys of this screen."""
        self.program.go(Help(self.NAME))

    def action_back(self) -> None:
        """The screen before."""
        self.dismiss(None)


class Unasked(Frame[ScreenResultType]):
    """A screen with something small typed on it: the first key for leaving tells so, the second drops it."""

    start = ""
    """What stood there at first."""
    told_of: str | None = None
    """What it was said of that it is not taken."""

    def typed(self) -> str:
        """What stands there now."""
        raise NotImplementedError

    def say_typed(self, text: str) -> None:
        """Tell something on this screen."""
        raise NotImplementedError

    def would_lose(self) -> bool:
        """Is anything typed that was not there at first?"""
        return bool(self.children) and self.typed() != self.start

    def action_back(self) -> None:
        """Leave; what is typed is dropped when that is asked for twice."""
        if self.would_lose() and self.told_of != self.typed():
            self.told_of = self.typed()
            self.say_typed(NOT_TAKEN)
        else:
            super().action_back()


class Over(ModalScreen[ScreenResultType], Frame[ScreenResultType]):
    """A question over the screen that asks it; dismissed with the answer, or None."""


class Home(Frame[None]):
    """A screen to which one comes back when an examination is left."""

    def refresh_lists(self) -> None:
        """Read again what may have changed."""
        raise NotImplementedError
