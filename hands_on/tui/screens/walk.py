"""The walk: point by point through the dog, every answer saved before the next point shows."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.events import Key
from textual.widgets import Static
from textual.worker import Worker

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue import Dialogue, Step, dialogue_for
from hands_on.exam.dialogue.measure import MeasureDialogue
from hands_on.exam.dialogue.stray import TOLD, StrayNumber
from hands_on.exam.dialogue.teeth import TeethDialogue
from hands_on.exam.heard.note import Draft, Heard
from hands_on.exam.left_out import left_out
from hands_on.exam.walk import Stop
from hands_on.plain_text import one_line
from hands_on.ruleset.base import UnitName
from hands_on.tui import keys
from hands_on.tui.asks import Outline, Review, Scribe
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.earlier import then_and_now, verdict_text
from hands_on.tui.heard_rows import in_few_words
from hands_on.tui.keys.dialogue import FIGURES, dialogue_key
from hands_on.tui.parts.fault_picker import FaultPicker
from hands_on.tui.parts.note_reader import NoteReader
from hands_on.tui.parts.point_menu import PointMenu
from hands_on.tui.parts.point_view import head_texts, place_words, progress_words, result_rows, who_words
from hands_on.tui.session_screen import SessionScreen
from hands_on.tui.show import plain
from hands_on.tui.widgets.answers import AnswerPane
from hands_on.tui.widgets.findings import FindingList
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.tui.widgets.note_line import NoteLine
from hands_on.tui.widgets.point_head import PointHead
from hands_on.tui.widgets.region_list import RegionList, RegionStrip
from hands_on.tui.widgets.tooth_chart import ToothChart

TALL = 36
"""Lines from which there is room for everything said of a point."""

NOTE_HEAD = "Note as called out · ↑ ↓ mark a finding · Enter records · Esc puts aside"

CHART_WIDTH = 78
"""Columns that the tooth chart needs; in a narrower window the marks are only listed."""


class WalkScreen(SessionScreen):
    """One point at a time; keys go to the dialogue at it first."""

    NAME = "walk"
    CSS_PATH = "walk.tcss"
    BINDINGS = keys.bindings("walk")
    AUTO_FOCUS = ""

    def __init__(self, sheet: CurrentExamination, at: int | None = None) -> None:
        super().__init__(sheet)
        self.index = min(sheet.place if at is None else at, len(sheet.stops) - 1)
        self._unit: UnitName | None = None
        """The unit lengths are asked in, once it was changed at a point."""
        self._reason = ""
        """Why this point of a signed session is changed."""
        self._answered_before = self.sheet.answers_at(self.stop.point).given
        """Was the point answered when the walk came to it? Only then a re-check shows the earlier answer."""
        self.dialogue: Dialogue = self._dialogue()
        self._stray = StrayNumber()
        self.menu = PointMenu(self, self)
        self.picker = FaultPicker(self)
        self.notes = NoteReader(
            self,
            recorded=self.recorded,
            put_aside=self.put_aside,
            context=lambda: (self.stop.region.id, self.stop.point.id),
            unit=self._unit_here,
        )

    @property
    def stop(self) -> Stop:
        """Where the walk stands."""
        return self.sheet.stops[self.index]

    def compose(self) -> ComposeResult:
        """Dog and progress above, findings beside or below, the point in the middle."""
        yield TitleLine("")
        with Horizontal(id="state"):
            yield Static("", id="progress", markup=False)
            yield Static("", id="saved", markup=False)
        yield RegionStrip()
        with Horizontal(id="body"):
            with VerticalScroll(id="regions", can_focus=False):
                yield RegionList()
            with Vertical(id="point"):
                yield PointHead()
                yield ToothChart()
                yield AnswerPane()
                yield Static("", id="verdict", markup=False)
                yield NoteLine(self.sheet.ruleset, "note", NOTE_HEAD, self.notes)
            with VerticalScroll(id="beside", can_focus=False):
                yield FindingList()
        yield FindingList()
        yield FooterLine(self.NAME)

    def _unit_here(self) -> UnitName | None:
        """The unit asked in at this point, or chosen at one before."""
        asked = self.dialogue.unit if isinstance(self.dialogue, MeasureDialogue) else None
        return asked if asked in ("cm", "in") else self._unit

    def opened(self) -> None:
        """Show the first point."""
        self.notes.begin()
        self.notes.line.display = False
        self.show()

    def on_resize(self) -> None:
        """Head and verdict are fitted to the room."""
        if self.is_mounted:
            self.show()

    # --- keys

    async def on_key(self, event: Key) -> None:
        """To the dialogue; letters are commands as long as nothing is being typed.

        Commands run from here, not from the bindings, so that keys pressed fast keep their order.
        """
        if self.focused is not None or self.app.screen is not self:
            return
        key = dialogue_key(event)
        if key is not None and self._stray.takes(key):
            event.stop()
            self.say_here(TOLD if self._stray.going_on else "")
            return
        if key is not None and self._is_answer(key):
            event.stop()
            dialogue = self.dialogue
            step = dialogue.press(key)
            self._stray.pressed(refused=dialogue.refused)
            self._follow(step)
            return
        bound = self._bindings.key_to_bindings.get(event.key)
        if bound:
            event.stop()
            await self.run_action(bound[0].action)

    def _is_answer(self, key: str) -> bool:
        """Does the key belong to the dialogue rather than to the commands?"""
        if len(key) > 1 or key in FIGURES:
            return True
        if self.dialogue.busy and self.dialogue.prompt().typing:
            return True
        return not (key.isalpha() or key in "? ")

    def action_step(self, follow: str) -> None:
        """Back, skip, jump by letter."""
        if follow == "back":
            self._follow(Step("back"))
        elif follow == "skip":
            self.action_more()
        else:
            self.action_jump()

    def _follow(self, step: Step) -> None:
        match step.follow:
            case "record" if step.answers is not None:
                self.record(step.answers, go_on=step.go_on)
            case "next":
                self._next()
            case "back":
                before = self._beside(-1)
                if before is not None:
                    self.go_to(before)
                else:
                    self.say_here("This is the first point.")
            case "skip":
                self.action_more()
            case "jump":
                self.action_jump()
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
        point = self.stop.point
        saved = self.sheet.put_answers(point, answers, self._reason)
        self.dialogue.answers = self.sheet.answers_at(point)
        if saved and go_on:
            self._next(f"{point.label}: {lowered(self.dialogue.message)}")
        else:
            self.show()

    def _next(self, message: str = "") -> None:
        """The next point; behind the last one the review is offered."""
        message = self._then_and_now() or message
        after = self._beside(1)
        if after is not None:
            self.go_to(after, message)
            return
        self.say_here(message)
        self.menu.end(message)

    def _beside(self, way: int) -> int | None:
        """The next stop, or the one before, that this examination asks for; None where there is none."""
        index = self.index + way
        while 0 <= index < len(self.sheet.stops):
            if not left_out(self.sheet.session, self.sheet.stops[index].point):
                return index
            index += way
        return None

    def _then_and_now(self) -> str:
        """In a re-check, on leaving a point: both answers with the verdict; empty without a new answer."""
        found = then_and_now(self.sheet, self.stop.point) if self.sheet.earlier is not None else None
        return "" if found is None else verdict_text(found)

    def go_to(self, index: int, message: str = "") -> None:
        """Show another point."""
        if isinstance(self.dialogue, MeasureDialogue) and self.dialogue.unit in ("cm", "in"):
            self._unit = self.dialogue.unit
        self.index = self.sheet.place = index
        self._answered_before = self.sheet.answers_at(self.stop.point).given
        self._reason = ""
        self.start_dialogue(message)

    def start_dialogue(self, message: str = "") -> None:
        """Begin anew at this point."""
        self.dialogue = self._dialogue()
        self.dialogue.message = message
        self.show()

    def _dialogue(self) -> Dialogue:
        point = self.stop.point
        sheet = self.sheet
        answers = sheet.answers_at(point)
        return dialogue_for(point, sheet.ruleset, answers, self._unit, sheet.session.dog.sex)

    def reload(self) -> None:
        """The session was read anew."""
        self.index = min(self.index, len(self.sheet.stops) - 1)
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

    def action_jump(self) -> None:
        """The regions by number."""
        self.menu.jump()

    def action_next_open(self) -> None:
        """The next point without an answer."""
        self.menu.next_open()

    def action_explain(self) -> None:
        """Everything known of this point."""
        self.menu.explain()

    def action_fault(self) -> None:
        """Pick a fault from the list of all."""
        self.picker.pick(self.stop.region.id)

    def action_outline(self) -> None:
        """The dog's outline over what the edition asks."""
        self.program.go(Outline(self.sheet))

    def action_review(self) -> None:
        """What was found."""
        self.program.go(Review(self.sheet))

    # --- notes

    def action_scribe(self) -> None:
        """The scribe's line, for the whole dog."""
        if self.can_write():
            self.program.go(Scribe(self.sheet, self.start_dialogue, self.notes.unit_meant()))

    def action_note(self) -> None:
        """Open the note line; what it hears belongs to this region and point."""
        if self.can_write():
            self.set_class(True, "-noting")
            self.query_one(FooterLine).tell("note")
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
        self._show_state()
        rows = sheet.progress()
        self.query_one(RegionList).show(rows, stop.region.id)
        self.query_one(RegionStrip).show(rows, stop.region.id)
        teeth, tall = isinstance(self.dialogue, TeethDialogue), self.size.height >= TALL
        texts = head_texts(sheet, stop, teeth=teeth, tall=tall)
        self.query_one(PointHead).show(stop.point.label, place_words(sheet, stop), texts, 6 if tall else 2)
        chart = self.query_one(ToothChart)
        chart.display = teeth and self.size.width >= CHART_WIDTH
        if isinstance(self.dialogue, TeethDialogue):
            chart.show(self.dialogue)
        self.query_one(AnswerPane).show(self.dialogue.prompt())
        before = self._then_and_now() if self._answered_before else ""
        hidden = self.menu.hidden  # what the readings gave would give them away
        results = [] if hidden else result_rows(sheet, stop, self.dialogue, before)
        verdict = self.query_one("#verdict", Static)
        verdict.update(Content("\n").join(results))
        verdict.display = bool(results)
        for place, in_short in (("#beside FindingList", False), ("WalkScreen > FindingList", True)):
            findings = self.query_one(place, FindingList)
            findings.show(sheet.ruleset, sheet.evaluation, in_short=in_short)
            findings.visible = not hidden

    def _show_state(self) -> None:
        sheet = self.sheet
        self.query_one(TitleLine).say(who_words(sheet))
        self.query_one("#progress", Static).update(progress_words(sheet))
        saved = self.query_one("#saved", Static)
        saved.update(plain(sheet.saved_state()))
        saved.set_class(bool(sheet.unsaved or sheet.read_only), "-trouble")
        self.query_one("#state").set_class(bool(sheet.unsaved or sheet.read_only), "-trouble")


def lowered(text: str) -> str:
    """The text with a small first letter, for going on after a colon."""
    return text[:1].lower() + text[1:]
