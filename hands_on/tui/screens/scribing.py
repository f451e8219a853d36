"""What the walk's note and the scribe's line share: reading what is typed, asking what is odd, recording."""

from __future__ import annotations

from textual import work
from textual.worker import Worker, WorkerState

from hands_on.exam.dialogue import Line
from hands_on.exam.dialogue.measure import shown
from hands_on.exam.heard.note import Draft, Heard, HeardFault, HeardMeasure, hear, settled, unit_in_use
from hands_on.exam.session import Note
from hands_on.notes import Lexicon, Reading, read_note
from hands_on.ruleset.base import UnitName
from hands_on.tui.screens.numbered import NumberedScreen
from hands_on.tui.screens.saving import SheetFrame
from hands_on.tui.widgets.note_line import NoteLine

WORDING = "wording"
"""Group of the worker that makes the edition's wording ready."""


class Scribing(SheetFrame):
    """A screen with a note line."""

    reason = ""
    """Why a signed session is changed, once it was said."""
    wording_trouble = ""
    """Why notes can't be read; they are kept as typed all the same."""

    def context(self) -> tuple[str | None, str | None]:
        """Region and point on the screen, where there are any."""
        return None, None

    def unit_meant(self) -> UnitName | None:
        """The unit of lengths called out without one; None for each point's own."""
        return unit_in_use(self.sheet.session)

    def recorded(self, heard: Heard, *, saved: bool) -> None:
        """The note is in the session: show it, and empty or close the line."""
        raise NotImplementedError

    def can_write(self) -> bool:
        """Says so where the session can only be read."""
        if self.sheet.read_only:
            self.say_here(self.sheet.saved_state())
            return False
        return True

    @property
    def note_line(self) -> NoteLine:
        """The line."""
        return self.query_one(NoteLine)

    # --- the wording

    def on_mount(self) -> None:
        """Make the wording ready beside, once the screen has painted."""
        if self.sheet.lexicon is None:
            self.call_after_refresh(self._make_ready)

    @work(thread=True, exclusive=True, exit_on_error=False, group=WORDING)
    def _make_ready(self) -> Lexicon:
        from hands_on.store.wording import lexicon

        return lexicon(self.hands_on.library, self.sheet.ruleset.id)

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        """The wording is ready, or can't be."""
        if event.worker.group != WORDING:
            return
        if event.state == WorkerState.SUCCESS:
            self.sheet.lexicon = event.worker.result
        elif event.state == WorkerState.ERROR:
            self.wording_trouble = f"Notes are kept as typed; the wording can't be read: {event.worker.error}"
        else:
            return
        if self.note_line.display:
            self.note_line.show(self.wording_trouble)

    # --- the line

    def hear(self, draft: Draft) -> Heard:
        """What a text says here; the text is kept as a draft at once."""
        self.sheet.draft = draft
        region, point = self.context()
        if self.sheet.lexicon is None:
            reading = Reading(draft.text)
        else:
            reading = read_note(draft.text, self.sheet.lexicon, region=region, point=point)
        return hear(reading, draft.hands, self.sheet.ruleset, self.unit_meant())

    def keys_told(self, screen: str) -> None:
        """Help for the line."""
        from hands_on.tui.screens.help import HelpScreen

        self.app.push_screen(HelpScreen(screen))

    def pick_other(self, fault: HeardFault) -> None:
        """The searchable list, the likeliest faults first."""
        from hands_on.tui.screens.fault import FaultScreen

        known = self.sheet.ruleset.faults.get(fault.fault)
        region = known.region if known is not None else ""
        first = (*fault.read.alternatives, fault.read.id)
        screen = FaultScreen(self.sheet.ruleset, region, first)
        self.app.push_screen(
            screen, lambda name: self.note_line.other_picked(fault, name) if name is not None else None
        )

    def entered(self, heard: Heard) -> None:
        """Record, once all that is odd is settled and a signed session's reason is told."""
        if not self.can_write():
            return
        odd = heard.first_odd()
        if odd is not None:
            self._ask(odd)
        elif self.sheet.signed and not self.reason:

            def give(reason: str) -> None:
                self.reason = reason
                self.entered(self.note_line.heard)

            self.with_reason(give, lambda: self.note_line.show("Not recorded; the words stay in the line."))
        else:
            self._put(heard)

    def _ask(self, odd: HeardMeasure) -> None:
        """What was meant by a reading that can't be: nothing is recorded before that is said."""
        if odd.point is None or odd.problem is None:
            return
        meant = odd.problem.suggestions
        lines = [Line(str(number), shown(entry)) for number, entry in enumerate(meant, 1)]
        lines.append(Line("0", "no reading: it stays in the words only"))
        ask = f"“{odd.words}”: {odd.problem.message} What was meant?"
        screen = NumberedScreen(odd.point.label, ask, lines, "Esc goes back to the line", at=0)

        def chosen(key: str | None) -> None:
            if key is None:
                self.note_line.show()
                return
            entry = None if key == "0" else meant[int(key) - 1]
            self.note_line.hands = settled(self.note_line.hands, odd, entry)
            self.note_line.show()
            self.entered(self.note_line.heard)

        self.app.push_screen(screen, chosen)

    def _put(self, heard: Heard) -> None:
        region, point = self.context()
        by = self.sheet.session.examination.evaluator
        note = Note(text=heard.text, region=region or "", point=point or "", findings=heard.findings(by))
        saved = self.sheet.put_heard(note, heard.takes(), self.reason)
        self.sheet.draft = Draft()
        self.recorded(heard, saved=saved)
