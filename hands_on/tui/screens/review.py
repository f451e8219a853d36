"""The review: what was found and what it costs, the evaluator's decisions, summary, outcome, signature."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from hands_on.exam.dialogue import Line
from hands_on.tui import keys
from hands_on.tui.asks import Critique, DogDrawn, Scribe, UnderAnother, Walk
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.parts.closing import Closing
from hands_on.tui.parts.deciding import Deciding
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.sign import SignScreen
from hands_on.tui.review_rows import ReviewRow, rows_of
from hands_on.tui.session_screen import SessionScreen
from hands_on.tui.show import dotted, plain
from hands_on.tui.widgets.lines import FooterLine, TitleLine


class ReviewScreen(SessionScreen):
    """A list with what is told of the marked line beside or below it."""

    NAME = "review"
    CSS_PATH = "review.tcss"
    BINDINGS = keys.bindings("review")

    def __init__(self, sheet: CurrentExamination, then: str = "") -> None:
        super().__init__(sheet)
        self._then = then
        """An action that is done as soon as the screen stands."""
        self.deciding = Deciding(self, self.can_change)
        self.closing = Closing(self, self.can_change)

    def compose(self) -> ComposeResult:
        """State, list, detail."""
        dog = self.sheet.session.dog
        yield TitleLine(
            f"Review · {dog.call_name or dog.registered_name} · {self.sheet.ruleset.edition.title}"
        )
        yield Static("", id="saved", markup=False)
        with Horizontal(id="body"):
            yield OptionList(id="rows")
            with VerticalScroll(id="detail", can_focus=False):
                yield Static("", id="told", markup=False)
        yield Static("", id="message", classes="message", markup=False)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """Show all rows."""
        self.rows: tuple[ReviewRow, ...] = ()
        self.query_one("#message").display = False
        self.show()
        self.query_one(OptionList).focus()
        if self._then == "decide":
            self._mark_a_finding()
        elif self._then:
            getattr(self, f"action_{self._then}")()
        self._then = ""

    def _mark_a_finding(self) -> None:
        """Stand on the heaviest finding, ready to decide."""
        first = next((n for n, row in enumerate(self.rows) if row.finding is not None), None)
        if first is None:
            self.say_here("There is no finding to decide on.")
            return
        self.query_one(OptionList).highlighted = first
        self.say_here("Mark a finding with the arrows (8 and 2); d or + decides.")

    def action_move(self, step: int) -> None:
        """Up and down on a keypad."""
        rows = self.query_one(OptionList)
        if step > 0:
            rows.action_cursor_down()
        else:
            rows.action_cursor_up()

    def action_more(self) -> None:
        """What can be done here, by number, for a keypad."""
        names = (
            "walk",
            "decide",
            "summary",
            "outcome",
            "sign",
            "figure",
            "under_another",
            "critique",
            "leave",
        )
        told = {key.action: key.tells for key in keys.KEYS[self.NAME]}
        lines = [Line(str(n), told[name].rstrip(".")) for n, name in enumerate(names, 1)]

        def chosen(key: str | None) -> None:
            if key is not None:
                getattr(self, f"action_{names[int(key) - 1]}")()

        self.app.push_screen(NumberedScreen("Review", "What now?", lines), chosen)

    def show(self) -> None:
        """Everything as it is now; the marked line stays marked."""
        options = self.query_one(OptionList)
        old, at = self.rows, options.highlighted
        self.rows = rows_of(self.sheet)
        marked = self.sheet.review_row if at is None else same_row(old[at], self.rows, at)
        options.clear_options()
        options.add_options(
            [
                Option(plain(row.text, "bold" if row.heading else ""), disabled=row.heading)
                for row in self.rows
            ]
        )
        if self.rows:
            options.highlighted = min(marked or 0, len(self.rows) - 1)
        saved = self.query_one("#saved", Static)
        saved.update(plain(dotted(self.sheet.saved_state(), str(self.sheet.path))))
        saved.set_class(bool(self.sheet.unsaved or self.sheet.read_only), "-trouble")

    def say_here(self, text: str) -> None:
        """Tell something above the footer."""
        message = self.query_one("#message", Static)
        message.update(plain(text))
        message.display = bool(text)
        self.show()

    @property
    def marked(self) -> ReviewRow | None:
        """The marked line."""
        at = self.query_one(OptionList).highlighted
        return None if at is None else self.rows[at]

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        """Tell what belongs to the line."""
        row = self.rows[event.option_index] if event.option_index < len(self.rows) else None
        leads = ""
        if row is not None and row.points:
            leads = (
                "Enter goes to this point."
                if self._stop_of(row) is not None
                else "This edition does not ask this point."
            )
        lines = [*(row.detail if row else ()), leads]
        self.query_one("#told", Static).update(Content("\n").join(plain(line) for line in lines if line))

    def on_option_list_option_selected(self) -> None:
        """Go to the line's point."""
        row = self.marked
        stop = self._stop_of(row) if row is not None else None
        if stop is None:
            self.say_here("This line belongs to no single point of the walk.")
            return
        self.action_walk(stop)

    def action_walk(self, at: int | None = None) -> None:
        """Back to the walk, or to a point of it."""
        self.sheet.review_row = self.query_one(OptionList).highlighted
        self.program.go(Walk(self.sheet, at))

    def _stop_of(self, row: ReviewRow) -> int | None:
        return next(
            (stop.index for name in row.points for stop in self.sheet.stops if stop.point.id == name), None
        )

    def can_change(self, *, after_signature: bool = False) -> bool:
        """Says so where nothing can be changed here."""
        if self.sheet.read_only:
            self.say_here(self.sheet.saved_state())
            return False
        if self.sheet.signed and not after_signature:
            self.say_here(
                "This was settled with the signature; a later change is made at its point in the walk."
            )
            return False
        return True

    def action_figure(self) -> None:
        """The dog drawn over what the edition asks."""
        self.program.go(DogDrawn(self.sheet))

    def action_critique(self) -> None:
        """The critique, drafted and edited."""
        self.program.go(Critique(self.sheet, self.show))

    def action_under_another(self) -> None:
        """What the examination would give under another edition; nothing is stored."""
        self.program.go(UnderAnother(self.sheet))

    def action_decide(self) -> None:
        """Uphold or dismiss the marked finding; where another line is marked, first stand on the heaviest."""
        if self.marked is None or self.marked.finding is None:
            self._mark_a_finding()
        else:
            self.deciding.decide(self.marked, self.marked.finding)

    # --- calls

    def action_scribe(self) -> None:
        """The scribe's line, for the whole dog."""
        if self.can_change(after_signature=True):
            self.program.go(Scribe(self.sheet, self.show))

    # --- summary and outcome

    def action_summary(self) -> None:
        """Write the summary."""
        self.closing.summary()

    def action_outcome(self) -> None:
        """Choose the outcome among those that the dog's age leaves."""
        self.closing.outcome()

    # --- signature

    def action_sign(self) -> None:
        """Sign, once it is clear what is still open."""
        if self.sheet.signed:
            self.say_here("This examination is signed already.")
            return
        if not self.can_change():
            return
        if self.sheet.unsaved:
            self.say_here(self.sheet.saved_state())
            return
        self.app.push_screen(SignScreen(self.sheet), self._signed)

    def _signed(self, name: str | None) -> None:
        if name:
            saved = self.sheet.sign(name)
            self.say_here(f"Signed by {name}." if saved else self.sheet.saved_state())


def same_row(old: ReviewRow, rows: tuple[ReviewRow, ...], at: int) -> int:
    """Where a line stands now: the same finding or the same text, else as far down as before."""
    if old.finding is not None:
        wanted = (old.finding.id, old.finding.side)
        for place, row in enumerate(rows):
            if row.finding is not None and (row.finding.id, row.finding.side) == wanted:
                return place
    return next((place for place, row in enumerate(rows) if row.text == old.text), min(at, len(rows) - 1))
