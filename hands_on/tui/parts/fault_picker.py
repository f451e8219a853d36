"""A fault picked from the list of all, then its degree and side: recorded as a note's finding."""

from __future__ import annotations

from typing import Protocol

from hands_on.exam.dialogue import Line
from hands_on.exam.session import Note, NoteFinding
from hands_on.ruleset.base import DEGREES, Degree, Side
from hands_on.ruleset.points import TeethPoint
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.questions.fault import FaultScreen
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.session_screen import SessionScreen

SIDES: tuple[Side, ...] = ("left", "right", "both")


class OpensPoints(Protocol):
    """Where a point can be opened."""

    def open_point(self, index: int, message: str) -> None:
        """Show the point itself, from a sheet too."""


CHART = "mouth.teeth-missing"
"""The fault that the tooth chart tells tooth by tooth."""


class FaultPicker:
    """Asks which fault, how far it goes and on which side, and records it; of missing teeth, which."""

    def __init__(self, screen: SessionScreen, place: OpensPoints) -> None:
        self.screen, self.place = screen, place

    @property
    def sheet(self) -> CurrentExamination:
        """The examination on the screen."""
        return self.screen.sheet

    def pick(self, region: str) -> None:
        """Pick a fault, then its degree and side."""
        if self.screen.can_write():
            sheet = self.sheet
            screen = FaultScreen(sheet.ruleset, region, sex=sheet.session.dog.sex)
            self.screen.app.push_screen(screen, self._fault)

    def _fault(self, name: str | None) -> None:
        if name is None:
            return
        chart = self._chart()
        if name == CHART and chart is not None:
            self._put_fault(name, None, "0")
            if self.screen.is_current:
                self.place.open_point(chart, "Missing teeth, recorded. Which? A tooth's number and Enter.")
            return
        fault = self.sheet.ruleset.faults[name]
        lines = (*(Line(str(n), word) for n, word in enumerate(DEGREES, 1)), Line("0", "degree not said"))

        def degree_chosen(key: str | None) -> None:
            if key is None:
                return
            degree = None if key == "0" else DEGREES[int(key) - 1]
            if fault.sides:
                sides = (*(Line(str(n), word) for n, word in enumerate(SIDES, 1)), Line("0", "side not said"))
                ask = "Which side? The dog's own."
                screen = NumberedScreen(fault.label, ask, sides)
                self.screen.app.push_screen(screen, lambda side: self._put_fault(name, degree, side))
            else:
                self._put_fault(name, degree, "0")

        self.screen.app.push_screen(NumberedScreen(fault.label, "How far does it go?", lines), degree_chosen)

    def _chart(self) -> int | None:
        """The stop of the tooth chart, where this edition asks it of this dog and the record is open."""
        if self.sheet.signed:
            return None
        charts = (stop.index for stop in self.sheet.stops if isinstance(stop.point, TeethPoint))
        return next(charts, None)

    def _put_fault(self, name: str, degree: Degree | None, side_key: str | None) -> None:
        if side_key is None:
            return
        side = None if side_key == "0" else SIDES[int(side_key) - 1]
        by = self.sheet.session.examination.evaluator
        finding = NoteFinding(fault=name, degree=degree, side=side, taken_by=by)
        fault = self.sheet.ruleset.faults[name]
        words = ", ".join(part for part in (fault.label, degree or "", side or "") if part)
        self._put_note(Note(text="", region=fault.region, findings=(finding,)), words)

    def _put_note(self, note: Note, words: str) -> None:
        def put(reason: str = "") -> None:
            saved = self.sheet.put_note(note, reason)
            self.screen.say_here(
                f"Recorded: {words.splitlines()[0][:60]}" if saved else self.sheet.saved_state()
            )

        if self.sheet.signed:
            self.screen.with_reason(put, lambda: self.screen.say_here("Not recorded."))
        else:
            put()
