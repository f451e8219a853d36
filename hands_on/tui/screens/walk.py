"""The walk: point by point through the dog, every answer saved before the next point shows."""

from __future__ import annotations

from functools import partial

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static
from textual.worker import Worker

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue import Dialogue, Step, dialogue_for
from hands_on.exam.dialogue.measure import MeasureDialogue
from hands_on.exam.dialogue.teeth import TeethDialogue
from hands_on.exam.heard.hands import Draft
from hands_on.exam.heard.note import Heard
from hands_on.exam.likely import likely_range
from hands_on.exam.walk import Stop
from hands_on.figure.drawn import sex_of
from hands_on.plain_text import one_line
from hands_on.ruleset.base import UnitName
from hands_on.ruleset.points import MeasurePoint
from hands_on.tui import keys
from hands_on.tui.asks import PointDrawn, Scribe, Sheet
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.earlier import further_back, then_and_now, verdict_text
from hands_on.tui.heard_rows import in_few_words
from hands_on.tui.parts.note_reader import NoteReader
from hands_on.tui.parts.point_menu import PointMenu
from hands_on.tui.parts.point_view import contradictions, guidance, place_words, raised, result_rows
from hands_on.tui.show import fitted, plain, wrapped
from hands_on.tui.walk_frame import WalkFrame, lines_of
from hands_on.tui.widgets.answers import AnswerPane
from hands_on.tui.widgets.lines import FooterLine
from hands_on.tui.widgets.note_line import NoteLine
from hands_on.tui.widgets.point_figure import PointFigure
from hands_on.tui.widgets.point_head import PointHead
from hands_on.tui.widgets.tooth_chart import ToothChart

NOTE_HEAD = "Note as called out · ^P ^N mark one · Enter records · Esc puts aside"

LEAST_GUIDANCE = 3
"""Lines of guidance that stay however little room there is; the others are scrolled to."""

LEAST_QUESTION = 6
"""Lines that question, answers and keys keep beside what came of the answers."""

TALLEST_VERDICT = (8, 12)
"""Lines of what came of the answers, in a usual window and in a tall one."""


class WalkScreen(WalkFrame):
    """One point at a time."""

    NAME = "walk"
    CSS_PATH = ["../walk_frame.tcss", "walk.tcss"]
    BINDINGS = keys.bindings("walk")

    def __init__(
        self, sheet: CurrentExamination, at: int | None = None, message: str = "", *, in_turn: bool = False
    ) -> None:
        """`in_turn`: begun from a sheet, and the region's other open points follow."""
        super().__init__(sheet)
        self._point = sheet.stops[min(sheet.place if at is None else at, len(sheet.stops) - 1)].point.id
        self._in_turn = in_turn
        self._unit: UnitName | None = None
        """The unit lengths are asked in, once it was changed at a point."""
        self._reason = ""
        """Why this point of a signed session is changed."""
        self._answered_before = self.sheet.answers_at(self.stop.point).given
        """Was the point answered when the walk came to it? Only then a re-check shows the earlier answer."""
        self._results: list[Content] = []
        self.dialogue: Dialogue = self._dialogue()
        self.dialogue.message = message
        self.menu = PointMenu(self, self)
        self.notes = NoteReader(
            self,
            recorded=self.recorded,
            put_aside=self.put_aside,
            context=lambda: (self.stop.region.id, self.stop.point.id),
            unit=self._unit_here,
        )

    @property
    def index(self) -> int:
        """Where the walk stands; a measure that joins it moves the points behind."""
        return self.sheet.index_of(self._point)

    @property
    def stop(self) -> Stop:
        """Where the walk stands."""
        return self.sheet.stops[self.index]

    def middle(self) -> ComposeResult:
        """The point: guidance, chart, answers, what came of them, the line for notes."""
        with VerticalScroll(id="guide", can_focus=False):
            yield PointHead()
        yield ToothChart()
        yield AnswerPane()
        yield Static("", id="verdict", markup=False)
        yield PointFigure()
        yield NoteLine(self.sheet.ruleset, "note", NOTE_HEAD, self.notes)

    def _unit_here(self) -> UnitName | None:
        """The unit asked in at this point, or chosen at one before."""
        asked = self.dialogue.unit if isinstance(self.dialogue, MeasureDialogue) else None
        return asked if asked in ("cm", "in") else self._unit

    def opened(self) -> None:
        """Show the first point."""
        self.sheet.place = self.index
        self.notes.begin()
        self.notes.line.display = False
        self.show()

    # --- keys

    def action_step(self, follow: str) -> None:
        """Back, skip, jump by letter."""
        if follow == "back":
            self.follow(Step("back"))
        elif follow == "skip":
            self.action_more()
        else:
            self.action_jump()

    def follow(self, step: Step) -> None:
        """Record, move, or open a menu."""
        match step.follow:
            case "record" if step.answers is not None:
                self.record(step.answers, go_on=step.go_on)
            case "next":
                self._next()
            case "back":
                self._back()
            case "skip":
                self.action_more()
            case "jump":
                self.action_jump()
            case "measures":
                self.action_measures()
            case "explain":
                self.action_explain()
            case _:
                self.show()

    # --- recording and moving

    def record(self, answers: Answers, *, go_on: bool) -> None:
        """Save, then show what it gives; after a failure stay, so that it is seen."""
        if not self.can_write():
            self.start_dialogue(self.sheet.saved_state())
            return
        if self.sheet.signed and not self._reason:

            def give(reason: str) -> None:
                self._reason = reason
                self.record(answers, go_on=go_on)

            self.with_reason(give, lambda: self.start_dialogue("Not changed."))
            return
        point, before = self.stop.point, {stop.point.id for stop in self.sheet.stops}
        stood = contradictions(self.sheet)
        saved = self.sheet.put_answers(point, answers, self._reason)
        self.dialogue.answers = self.sheet.answers_at(point)
        for joined in (stop.point for stop in self.sheet.stops if stop.point.id not in before):
            self.dialogue.message += f" Asked next: {lowered(joined.label)}."
        if saved and go_on:
            told = f"{point.label}: {lowered(self.dialogue.message)}"
            self._next(f"{told}\n{raised(self.sheet, stood)}".strip())
        else:
            self.show()

    def _next(self, message: str = "") -> None:
        """The next point; behind the last one the review is offered. From a sheet back to it."""
        message = self._then_and_now() or message
        after = self.moving.onward(in_turn=self._in_turn)
        if isinstance(after, str):
            self.program.go(Sheet(self.sheet, after, message))
        elif after is not None:
            self.go_to(after, message)
        else:
            self.say_here(message)
            self.moving.end(message)

    def _back(self) -> None:
        if self.sheet.by_sheets:
            self.action_other_way()
            return
        before = self.moving.beside(-1)
        if before is not None:
            self.go_to(before)
        else:
            self.say_here("This is the first point.")

    def action_other_way(self) -> None:
        """All points of this region on one screen."""
        self.sheet.by_sheets = True
        self.sheet.place = self.index
        self.program.go(Sheet(self.sheet, self.sheet.sheet_of(self.stop)))

    def _then_and_now(self) -> str:
        """In a re-check, on leaving a point: both answers with the verdict; empty without a new answer."""
        found = then_and_now(self.sheet, self.stop.point) if self.sheet.earlier is not None else None
        if found is None:
            return ""
        return "\n".join([verdict_text(found), *further_back(self.sheet, self.stop.point)])

    def go_to(self, index: int, message: str = "") -> None:
        """Show another point."""
        if isinstance(self.dialogue, MeasureDialogue) and self.dialogue.unit in ("cm", "in"):
            self._unit = self.dialogue.unit
        self.sheet.place = index
        self._point = self.sheet.stops[index].point.id
        self._answered_before = self.sheet.answers_at(self.stop.point).given
        self._reason = ""
        self.start_dialogue(message)
        self.query_one("#guide").scroll_home(animate=False)

    def open_point(self, index: int, message: str) -> None:
        """Show the point itself."""
        self.go_to(index, message)

    def start_dialogue(self, message: str = "") -> None:
        """Begin anew at this point."""
        self.dialogue = self._dialogue()
        self.dialogue.message = message
        self.show()

    def _dialogue(self) -> Dialogue:
        point = self.stop.point
        sheet = self.sheet
        answers = sheet.answers_at(point)
        likely = None
        if isinstance(point, MeasurePoint):
            likely = likely_range(sheet.ruleset, sheet.session, point)
        return dialogue_for(point, sheet.ruleset, answers, self._unit, sheet.session.dog.sex, likely)

    def reload(self) -> None:
        """The session was read anew."""
        self.start_dialogue()

    # --- what else can be done at a point

    def action_more(self) -> None:
        """The menu of this point."""
        self.menu.more()

    def action_take_back(self) -> None:
        """What is recorded at this point, or the skip of it."""
        self.menu.take_back()

    def action_hide(self) -> None:
        """Hide the readings here for a repeat that cannot lean on them, or show them again."""
        self.menu.hide()

    def action_explain(self) -> None:
        """Everything known of this point."""
        self.menu.explain()

    def action_look(self) -> None:
        """The point drawn large."""
        self.program.go(PointDrawn(self.sheet.ruleset, self.stop.point, sex_of(self.sheet.evaluation)))

    def action_page(self, way: int) -> None:
        """Through the guidance, where it is longer than its room."""
        guide = self.query_one("#guide", VerticalScroll)
        guide.scroll_relative(y=way * max(1, guide.size.height - 1), animate=False)

    # --- notes

    def action_scribe(self) -> None:
        """The scribe's line, for the whole dog."""
        if self.can_write():
            before = self.sheet.called()
            done = partial(self._after_calls, before)
            self.program.go(Scribe(self.sheet, done, self.notes.unit_meant()))

    def _after_calls(self, before: frozenset[str]) -> None:
        """Go on with what is still open, where the point on the screen was called out meanwhile."""
        now = self.sheet.called()
        here = self.stop.point.id
        after = self.sheet.first_open(self.index - 1)
        if here not in now - before or after is None:
            self.start_dialogue()
            return
        count = len(now - before)
        self.go_to(
            after, f"{count} {'point was' if count == 1 else 'points were'} called out; on with what is open."
        )

    def action_note(self) -> None:
        """Open the note line; what it hears belongs to this region and point."""
        if self.can_write():
            self.set_class(True, "-noting")
            self.query_one(FooterLine).tell("note")
            self.query_one("#guide").styles.max_height = LEAST_GUIDANCE
            self.notes.line.open(self.sheet.draft)

    def put_aside(self) -> None:
        """The text waits for the next time."""
        self._close_note()
        self.say_here("The note is put aside: n takes it up again." if self.sheet.draft.waits else "")

    def recorded(self, heard: Heard, saved: bool) -> None:
        """Close the line and tell what came of it."""
        self.notes.line.fill(Draft())
        self._close_note()
        self.notes.reason = ""
        if any(take.point == self.stop.point.id for take in heard.takes()):
            self.start_dialogue()
        told = f"Recorded: {one_line(heard.text)[:60]}\n= {in_few_words(heard, self.sheet.ruleset)}"
        self.say_here(told if saved else self.sheet.saved_state())

    def _close_note(self) -> None:
        self.set_class(False, "-noting")
        self.query_one(FooterLine).tell(self.NAME)
        self.notes.line.close()

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        """The wording is ready, or can't be."""
        self.notes.worker_changed(event)

    # --- showing

    def say_here(self, text: str) -> None:
        """Tell something under the answers."""
        self.dialogue.message = text
        self.show()

    def show(self) -> None:
        """Everything as it is now."""
        sheet, stop = self.sheet, self.stop
        hidden = self.menu.hidden  # what the readings gave would give them away
        self.show_frame(hidden=hidden)
        self.query_one(PointHead).show(stop.point.label, place_words(sheet, stop), guidance(sheet, stop))
        self.query_one(AnswerPane).show(self.dialogue.prompt())
        before = self._then_and_now() if self._answered_before else ""
        results = [] if hidden else result_rows(sheet, stop, self.dialogue, before)
        self._results = results
        self.query_one("#verdict", Static).display = bool(results)
        self._show_results()
        self.query_one(PointFigure).show(sheet.ruleset, stop.point, sex_of(sheet.evaluation))
        self.call_after_refresh(self._fit)
        # Once more when all is laid out: a text that came with this point has no size before.
        self.call_after_refresh(self.call_after_refresh, self._fit)

    def _fit(self) -> None:
        """Give the guidance the room that question and answers leave."""
        if not self.stands or self.has_class("-noting"):
            return
        self._show_results()
        teeth = self.dialogue if isinstance(self.dialogue, TeethDialogue) else None
        self.query_one(ToothChart).show(teeth, self.query_one("#point").content_size)
        chart, inside = self.query_one(ToothChart), self.query_one("#point").content_size
        taken = lines_of(chart, inside, self.app.size) + lines_of(
            self.query_one("#verdict"), inside, self.app.size
        )
        pane, head = self.query_one(AnswerPane), self.query_one(PointHead)
        room = inside.height - pane.needed - taken
        most = max(LEAST_GUIDANCE, room)
        guide = self.query_one("#guide")
        guide.styles.max_height = most
        # A bar that stands takes two cells, and the text set narrower for it is what would keep it there.
        guide.styles.overflow_y = "auto" if lines_of(head, inside, self.app.size) > most else "hidden"
        head.tell_more(room)
        pane.fit(inside.height - taken - min(most, head.size.height))

    def _show_results(self) -> None:
        """What came of the answers; cut with a mark where it would push the question off the screen."""
        inside, verdict = self.query_one("#point").content_size, self.query_one("#verdict", Static)
        most = min(TALLEST_VERDICT[self.has_class("-tall")], inside.height - LEAST_GUIDANCE - LEAST_QUESTION)
        rows = [piece for row in self._results for piece in wrapped(row.plain, max(20, inside.width))]
        whole = len(rows) <= max(2, most)
        left = self._results if whole else [plain(text) for text in cut_off(rows, max(2, most), inside.width)]
        verdict.update(Content("\n").join(left))


def cut_off(rows: list[str], most: int, width: int) -> list[str]:
    """The first `most` rows, the last of them with a mark that more was said."""
    return [*rows[: most - 1], fitted(" ".join(rows[most - 1 :]), width, 1)]


def lowered(text: str) -> str:
    """The text with a small first letter, for going on after a colon."""
    return text[:1].lower() + text[1:]
