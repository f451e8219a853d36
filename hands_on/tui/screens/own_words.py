"""The evaluator's own words, each with what it means. Every change is on the disk at once."""

from __future__ import annotations

from collections.abc import Callable

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from hands_on.exam.dialogue import Line
from hands_on.notes import OwnWords
from hands_on.notes.own_words import LONGEST, in_words
from hands_on.plain_text import one_line
from hands_on.ruleset.ruleset import Ruleset
from hands_on.store.errors import StoreError
from hands_on.store.own_words_file import OwnWordsFile
from hands_on.toml_text.problems import BadText
from hands_on.tui import keys
from hands_on.tui.frame import Frame
from hands_on.tui.questions.fault import FaultScreen
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.typed import TypedScreen
from hands_on.tui.show import plain
from hands_on.tui.widgets.lines import FooterLine, TitleLine

NOTHING = (
    "None yet. Put a reading right in the note line (^O another fault, ^T drop, ^G add one for words "
    "not understood), and your words are remembered here."
)


class OwnWordsScreen(Frame[None]):
    """A list of phrases."""

    NAME = "own-words"
    CSS_PATH = "own_words.tcss"
    BINDINGS = keys.bindings("own-words")

    def __init__(self, file: OwnWordsFile, words: tuple[OwnWords, ...], ruleset: Ruleset) -> None:
        """`ruleset` names the faults."""
        super().__init__()
        self.file, self.words, self.ruleset = file, words, ruleset

    def compose(self) -> ComposeResult:
        """List and message."""
        yield TitleLine("Your own words: what you mean by them")
        yield OptionList()
        yield Static("", id="message", classes="message", markup=False)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """The list, the newest first."""
        self.query_one(OptionList).focus()
        self._show()

    def _show(self, message: str = "") -> None:
        listed = self.query_one(OptionList)
        at = listed.highlighted or 0
        listed.clear_options()
        listed.add_options([Option(self._row(one)) for one in reversed(self.words)])
        listed.highlighted = min(at, len(self.words) - 1) if self.words else None
        where = f"Kept in {one_line(str(self.file.path))}" if self.words else NOTHING
        self.query_one("#message", Static).update(plain(message or where))

    def _row(self, one: OwnWords) -> Content:
        where = f" (at {one_line(one.region)})" if one.region else ""
        told = in_words(one, lambda name: one_line(self.ruleset.label(name)))
        return Content.assemble(plain(f"“{one_line(one.said)}”", "bold"), plain(f"{where}  {told}"))

    @property
    def marked(self) -> OwnWords | None:
        """The phrase of the marked row."""
        at = self.query_one(OptionList).highlighted
        return None if at is None or at >= len(self.words) else self.words[-1 - at]

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Enter on a row changes its words."""
        event.stop()
        self.action_words()

    def action_words(self) -> None:
        """Change the words."""
        one = self.marked
        if one is None:
            return

        def typed(text: str | None) -> None:
            if text is not None and text != one.said:
                self._put(one, one.model_copy(update={"said": text}))

        ask = "The words as you say them. Articles, degrees and sides do not count."
        self.app.push_screen(TypedScreen("Your words", ask, one.said, wrong=_too_long), typed)

    def action_meaning(self) -> None:
        """Change the meaning: another fault, or none where something had been read."""
        one = self.marked
        if one is None:
            return
        if not one.read_as or not one.means:
            self._pick(one)
            return
        lines = (Line("1", "another fault"), Line("2", "no fault at all"))

        def chosen(key: str | None) -> None:
            if key == "1":
                self._pick(one)
            elif key == "2":
                self._put(one, one.model_copy(update={"means": ""}))

        self.app.push_screen(NumberedScreen("Meaning", f"“{one_line(one.said)}” means:", lines), chosen)

    def _pick(self, one: OwnWords) -> None:
        known = self.ruleset.faults.get(one.means or one.read_as)
        first = tuple(name for name in (one.means,) if name)

        def picked(name: str | None) -> None:
            if name is None:
                return
            if name == one.read_as:
                self._show("That is what was read anyway: take the phrase out instead.")
            else:
                self._put(one, one.model_copy(update={"means": name}))

        self.app.push_screen(FaultScreen(self.ruleset, known.region if known else "", first), picked)

    def action_remove(self) -> None:
        """Take the phrase out, once that is confirmed."""
        one = self.marked
        if one is None:
            return
        lines = (Line("1", "yes, take it out"), Line("0", "no, keep it"))

        def chosen(key: str | None) -> None:
            if key == "1":
                self._change(lambda: self.file.remove(one))

        ask = f"Take “{one_line(one.said)}” out? Notes are then read as before it."
        self.app.push_screen(NumberedScreen("Your own words", ask, lines, at=1), chosen)

    def _put(self, old: OwnWords, new: OwnWords) -> None:
        self._change(lambda: self.file.replace(old, new))

    def _change(self, how: Callable[[], tuple[OwnWords, ...]]) -> None:
        try:
            self.words = how()
        except (StoreError, BadText) as error:
            self._show(str(error))
        else:
            self._show()


def _too_long(text: str) -> str:
    if not text:
        return "Something must be typed here."
    return "" if len(text) <= LONGEST else f"Too long: a phrase has at most {LONGEST} characters."
