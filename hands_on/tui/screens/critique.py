"""The critique: drafted, edited in the evaluator's own words, kept with the examination."""

from __future__ import annotations

from collections.abc import Callable

from textual.app import ComposeResult
from textual.widgets import Static, TextArea

from hands_on.exam.answers import edited_critique
from hands_on.exam.session import CritiqueText
from hands_on.plain_text import visible
from hands_on.report.one_dog import Written
from hands_on.store.critiques import critique_language, critique_languages, critique_plan
from hands_on.store.errors import StoreError, reason_of
from hands_on.toml_text.problems import BadText
from hands_on.tui import keys
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.parts.report_page import write_page
from hands_on.tui.session_screen import SessionScreen
from hands_on.tui.show import dotted, plain
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.wording.critique.draft import LENGTHS, draft
from hands_on.wording.critique.sentence import Critique, Sentence
from hands_on.wording.rules import point_label

_LENGTHS = {"catalogue": "three lines for a catalogue", "paragraph": "a paragraph", "page": "a page"}
_OTHERS = {
    "dog.name": "the dog's name",
    "dog.sex": "the dog's sex",
    "dog.born": "the date of birth",
    "dog": "what was entered of the dog",
    "summary.outcome": "the outcome given",
}


class CritiqueScreen(SessionScreen):
    """One text; below it what the sentence under the cursor rests on. Leaving keeps what was changed."""

    NAME = "critique"
    CSS_PATH = "critique.tcss"
    BINDINGS = keys.bindings("critique")

    def __init__(self, sheet: CurrentExamination) -> None:
        super().__init__(sheet)
        self.length = LENGTHS[-1]
        self.language = "en"
        self.drafted: Critique | None = None
        self.kept = ""
        """The text as it is kept, or as it was drafted."""

    def compose(self) -> ComposeResult:
        """Title, what it is, the text, what it rests on."""
        dog = self.sheet.session.dog
        yield TitleLine(dotted("Critique", dog.call_name or dog.registered_name))
        yield Static("", id="about", markup=False)
        yield TextArea(soft_wrap=True, show_line_numbers=False, tab_behavior="focus")
        yield Static("", id="rests", markup=False)
        yield Static("", id="message", classes="message", markup=False)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """The page, drafted or as it was edited."""
        self.query_one("#message").display = False
        waits = self.sheet.critique_draft
        if waits is not None and waits.language in critique_languages(self.program.library):
            self.language, self.length = waits.language, waits.length
        self.show()
        if waits is not None and (waits.language, waits.length) == (self.language, self.length):
            self.query_one(TextArea).text = visible(waits.text, keep="\n")
        self.query_one(TextArea).focus()

    # --- the text

    def show(self) -> None:
        """The text of this length and language, edited where it was."""
        library = self.program.library
        words, plan = critique_language(library, self.language), critique_plan(library)
        self.drafted = draft(self.sheet.session, self.sheet.evaluation, words, plan, self.length)
        edited = edited_critique(self.sheet.session, self.language, self.length)
        self.kept = visible(edited.text if edited is not None else self.drafted.text, keep="\n")
        area = self.query_one(TextArea)
        area.read_only = self.sheet.read_only
        area.text = self.kept
        state = (
            "edited by the evaluator" if edited is not None else "a draft from the answers; edit it freely"
        )
        about = dotted(words.name, _LENGTHS[self.length], state)
        self.query_one("#about", Static).update(plain(about))
        self._tell_rests()

    def say_here(self, text: str) -> None:
        """Tell something above the footer."""
        message = self.query_one("#message", Static)
        message.update(plain(text))
        message.display = bool(text)

    def on_text_area_changed(self, event: TextArea.Changed) -> None:
        """What is being edited is kept on the disk beside the examination until it is recorded."""
        text = event.text_area.text
        changed = CritiqueText(language=self.language, length=self.length, text=text)
        self.sheet.critique_draft = changed if self._changed and not self.sheet.read_only else None

    def would_lose(self) -> bool:
        """Changed words, until they are kept; or answers in memory only."""
        return self._changed or super().would_lose()

    def ask_to_leave(self) -> None:
        """As by the key for going back: what was changed is kept."""
        self.action_back()

    @property
    def _changed(self) -> bool:
        return bool(self.query(TextArea)) and self.query_one(TextArea).text != self.kept

    # --- what a sentence rests on

    def on_text_area_selection_changed(self) -> None:
        """The cursor moved."""
        self._tell_rests()

    def _tell_rests(self) -> None:
        one = self._sentence()
        told = "Not one of the drafted sentences: your own words." if one is None else self._rests(one)
        self.query_one("#rests", Static).update(plain(told))

    def _rests(self, one: Sentence) -> str:
        ruleset = self.sheet.ruleset
        names = [
            point_label(self.sheet.evaluation, answer)
            if answer in ruleset.points
            else _OTHERS.get(answer, answer)
            for answer in one.answers
        ]
        return f"Rests on: {', '.join(dict.fromkeys(names))}"

    def _sentence(self) -> Sentence | None:
        """The drafted sentence under the cursor, where it still stands as it was drafted."""
        area = self.query_one(TextArea)
        row, column = area.cursor_location
        lines = area.text.split("\n")
        at = sum(len(line) + 1 for line in lines[:row]) + column
        for paragraph in self.drafted.paragraphs if self.drafted is not None else ():
            for one in paragraph:
                text = visible(one.text)
                start = area.text.find(text)
                if start >= 0 and start <= at <= start + len(text):
                    return one
        return None

    # --- keys

    def action_length(self) -> None:
        """The next length."""
        self._keep_then(self._next_length)

    def _next_length(self) -> None:
        self.length = LENGTHS[(LENGTHS.index(self.length) + 1) % len(LENGTHS)]
        self.show()

    def action_language(self) -> None:
        """The next language."""
        self._keep_then(self._next_language)

    def _next_language(self) -> None:
        known = critique_languages(self.program.library)
        self.language = known[(known.index(self.language) + 1) % len(known)]
        self.show()

    def action_draft(self) -> None:
        """The draft again in place of the text; it is kept, as any change, with the key for going back."""
        if self.sheet.read_only:
            self.say_here(self.sheet.saved_state())
        elif self.drafted is not None:
            self.query_one(TextArea).text = visible(self.drafted.text, keep="\n")
            self.say_here("The draft again. Ctrl+Z brings your words back.")

    def action_report(self) -> None:
        """Keep what was changed, then write the report of the examination with this critique."""
        self._keep_then(self._write_report)

    def _write_report(self) -> None:
        text = self.query_one(TextArea).text
        drafted = visible(self.drafted.text, keep="\n") if self.drafted is not None else ""
        paragraphs = tuple(part for part in text.split("\n\n") if part.strip())
        try:
            path = write_page(
                self.sheet, self.program.library, Written(paragraphs, self.language, text != drafted)
            )
        except (StoreError, BadText) as error:
            self.say_here(f"Not written: {error}")
        except OSError as error:
            self.say_here(f"Not written: {reason_of(error)}.")
        else:
            self.say_here(f"Written: {path}. A browser shows it, and prints it as PDF.")

    def action_back(self) -> None:
        """Keep what was changed and go back."""
        self._keep_then(lambda: self.dismiss(None))

    def _keep_then(self, then: Callable[[], object]) -> None:
        """Keep what was changed, then go on; a signed examination asks for the reason."""
        if not self._changed or self.sheet.read_only:
            then()
            return
        text = self.query_one(TextArea).text
        drafted = visible(self.drafted.text, keep="\n") if self.drafted is not None else ""
        new = CritiqueText(language=self.language, length=self.length, text="" if text == drafted else text)

        def put(reason: str = "") -> None:
            if self.sheet.put_critique(new, reason):
                self.kept, self.sheet.critique_draft = text, None
                then()
            else:
                self.say_here(self.sheet.saved_state())

        if self.sheet.signed:
            self.with_reason(
                put, lambda: self.say_here("Not kept: without a reason nothing signed is changed.")
            )
        else:
            put()
