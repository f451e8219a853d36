"""What is read and answered before the dog is touched."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from hands_on.exam.cautions import Caution, cautions_for, unread
from hands_on.exam.session import CautionAnswer
from hands_on.store.cautions_read import note_read, read_today
from hands_on.store.library import Library
from hands_on.tui import keys
from hands_on.tui.asks import Walk
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.questions.typed import TypedScreen
from hands_on.tui.session_screen import SessionScreen
from hands_on.tui.show import plain
from hands_on.tui.widgets.lines import FooterLine, TitleLine

EARLIER = "read in full the same day, before another dog"
"""What the session says of a caution that was not shown in full a second time."""


def all_read(sheet: CurrentExamination, library: Library) -> bool:
    """May the examination begin?"""
    return not unread(cautions_for(library.cautions(), sheet.ruleset, sheet.session), sheet.session)


class CautionsScreen(SessionScreen):
    """A short list; each is acknowledged by a key, and kept with the session."""

    NAME = "cautions"
    CSS_PATH = "cautions.tcss"
    BINDINGS = keys.bindings("cautions")

    def __init__(self, sheet: CurrentExamination) -> None:
        super().__init__(sheet)
        self.cautions: tuple[Caution, ...] = ()
        self.at = 0
        self.message = ""

    def compose(self) -> ComposeResult:
        """The list above, the marked one in full under it."""
        self.cautions = cautions_for(self.program.library.cautions(), self.sheet.ruleset, self.sheet.session)
        dog = self.sheet.session.dog
        yield TitleLine(f"Before you touch {dog.call_name or 'the dog'}")
        yield Static("", id="list", markup=False)
        with VerticalScroll(id="full", can_focus=False):
            yield Static("", id="text", markup=False)
        yield Static("", id="message", classes="message", markup=False)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """Start at the first that is not read; what this evaluator read in full today is a line only."""
        self._pass_what_was_read_today()
        left = unread(self.cautions, self.sheet.session)
        self.at = self.cautions.index(left[0]) if left else 0
        self.show()

    def _pass_what_was_read_today(self) -> None:
        sheet = self.sheet
        evaluator, day = sheet.session.examination.evaluator, sheet.now().date()
        known = read_today(evaluator, self.cautions, day)
        stamp = sheet.stamp()
        rows = tuple(
            CautionAnswer(id=row.id, answer="read", note=EARLIER, at=stamp.at, by=stamp.by)
            for row in unread(self.cautions, sheet.session)
            if row.id in known and not row.question
        )
        if rows and not sheet.read_only:
            sheet.put(sheet.session.model_copy(update={"cautions": (*sheet.session.cautions, *rows)}))
            names = "; ".join(row.label for row in self.cautions if row.id in known)
            self.message = f"Read in full by you today, before another dog: {names}."

    @property
    def marked(self) -> Caution:
        """The one shown in full."""
        return self.cautions[self.at]

    def answer_to(self, caution: Caution) -> str:
        """What was answered: `read`, `yes`, `no`, or nothing yet."""
        return next((row.answer for row in self.sheet.session.cautions if row.id == caution.id), "")

    def action_read(self) -> None:
        """Acknowledge; to a question this is no answer."""
        if not unread(self.cautions, self.sheet.session):
            self._begin()
        elif self.marked.question:
            if self.answer_to(self.marked):
                self._next()
            else:
                self.message = "This is a question: y for yes, n for no (on the keypad 1 and 2)."
                self.show()
        else:
            self._record("read")
            note_read(self.sheet.session.examination.evaluator, self.marked, self.sheet.now().date())
            self._follow("read")

    def action_answer(self, answer: str) -> None:
        """Answer a question; y also acknowledges what is no question."""
        if self.marked.question:
            self._record(answer)
            if answer == self.marked.words:
                self._ask_words(answer)
            else:
                self._follow(answer)
        elif answer == "yes":
            self.action_read()

    def action_move(self, step: int) -> None:
        """Another one."""
        self.at = (self.at + step) % len(self.cautions)
        self.message = ""
        self.show()

    def say_here(self, text: str) -> None:
        """Tell something under the list; that nothing is saved stands there by itself as long as it holds."""
        self.message = text.replace(self.sheet.saved_state(), "").strip() if self.sheet.unsaved else text
        self.show()

    def _record(self, answer: str, words: str = "") -> None:
        caution = self.marked
        stamp = self.sheet.stamp()
        row = CautionAnswer(id=caution.id, answer=answer, note=words, at=stamp.at, by=stamp.by)
        session = self.sheet.session
        kept = tuple(entry for entry in session.cautions if entry.id != caution.id)
        self.sheet.put(session.model_copy(update={"cautions": (*kept, row)}))

    def _ask_words(self, answer: str) -> None:
        """What is known, in words; Escape leaves it out."""

        def told(words: str | None) -> None:
            if words:
                self._record(answer, words)
            self._follow(answer)

        self.app.push_screen(TypedScreen(self.marked.label, "What is known? Esc leaves it out."), told)

    def _follow(self, answer: str) -> None:
        """Show what follows from an answer, and go on to the next."""
        caution = self.marked
        self.message = caution.advice(answer)
        if caution.stop and answer == caution.stop:
            self.show()
            return
        self._next()

    def _next(self) -> None:
        left = unread(self.cautions, self.sheet.session)
        if left:
            after = [caution for caution in self.cautions[self.at + 1 :] if caution in left]
            self.at = self.cautions.index((after or left)[0])
        self.show()

    def _begin(self) -> None:
        self.program.go(Walk(self.sheet))

    def show(self) -> None:
        """The list, the marked one in full, what was told."""
        rows = []
        for at, caution in enumerate(self.cautions):
            answer = self.answer_to(caution)
            mark = {"read": "[read]", "yes": "[yes] ", "no": "[no]  "}.get(answer, "[    ]")
            text = f"{'>' if at == self.at else ' '} {mark} {caution.label}{'?' if caution.question else ''}"
            rows.append(plain(text, "bold reverse" if at == self.at else ""))
        self.query_one("#list", Static).update(Content("\n").join(rows))
        marked = self.marked
        question = f"\n\n{marked.question}   y yes   n no" if marked.question else ""
        self.query_one("#text", Static).update(
            Content.assemble(plain(marked.label, "bold"), "\n", plain(marked.text), plain(question, "bold"))
        )
        ready = not unread(self.cautions, self.sheet.session)
        end = "All is read. Enter begins the examination." if ready else ""
        saved = self.sheet.saved_state() if self.sheet.unsaved else ""
        text = "\n".join(part for part in (self.message, end, saved) if part)
        message = self.query_one("#message", Static)
        message.update(plain(text))
        message.display = bool(text)
