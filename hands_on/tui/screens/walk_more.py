"""What can be done at a point beside answering it: skip, take back, jump, explain, note, pick a fault."""

from __future__ import annotations

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue import Dialogue, Line
from hands_on.exam.heard.note import Draft, Heard
from hands_on.exam.session import Note, NoteFinding, Skip
from hands_on.exam.walk import Stop
from hands_on.plain_text import one_line
from hands_on.ruleset.base import DEGREES, Degree, Side
from hands_on.tui.heard_rows import in_few_words
from hands_on.tui.screens.numbered import NumberedScreen
from hands_on.tui.screens.reading import Paragraph, ReadingScreen
from hands_on.tui.screens.scribing import Scribing
from hands_on.tui.screens.typed import TypedScreen
from hands_on.tui.widgets.lines import FooterLine
from hands_on.tui.widgets.region_list import how_far
from hands_on.wording.point import explanation

REASONS = {
    "1": "the dog would not allow it",
    "2": "the coat hides it",
    "3": "no instrument",
    "4": "not needed today",
    "5": "dog in pain or upset: stopped",
}
"""Why a point is skipped, by the number that says so."""

SIDES: tuple[Side, ...] = ("left", "right", "both")


class WalkMore(Scribing):
    """The walk's menus; what they record is saved like any answer."""

    dialogue: Dialogue

    @property
    def stop(self) -> Stop:
        """Where the walk stands."""
        raise NotImplementedError

    def go_to(self, index: int) -> None:
        """Show another point."""
        raise NotImplementedError

    def record(self, answers: Answers, *, go_on: bool) -> None:
        """Save answers at this point."""
        raise NotImplementedError

    def start_dialogue(self, message: str = "") -> None:
        """Begin anew at this point."""
        raise NotImplementedError

    # --- skip and the rest of the menu

    def action_more(self) -> None:
        """The menu."""
        region = self.stop.region.label
        lines = [
            Line("0", "explain this point"),
            *(Line(key, f"skip: {why}") for key, why in REASONS.items()),
            Line("6", "skip: another reason (typed)"),
            Line("7", f"skip the whole region {region}"),
            Line("8", "take back what is recorded here"),
        ]
        if self.sheet.session.notes and not self.sheet.signed:
            lines.append(
                Line("9", f"take back the newest note: {note_words(self.sheet.session.notes[-1])[:60]}")
            )
        screen = NumberedScreen(self.stop.point.label, "What about this point?", lines)
        self.app.push_screen(screen, self._more)

    def _more(self, key: str | None) -> None:
        if key == "0":
            self.action_explain()
        elif key in REASONS:
            self._skip(REASONS[key])
        elif key == "6":
            self.app.push_screen(
                TypedScreen(self.stop.point.label, "Why is it skipped?"),
                lambda why: self._skip(why) if why else None,
            )
        elif key == "7":
            self._ask_region()
        elif key == "8":
            self.action_take_back()
        elif key == "9":
            notes = self.sheet.session.notes[:-1]
            self.sheet.put(self.sheet.session.model_copy(update={"notes": notes}))
            self.say_here("The newest note is taken back.")

    def _skip(self, why: str) -> None:
        own = self.sheet.answers_at(self.stop.point)
        if own.given:
            self.say_here("Something is recorded here: take it back first (u), then skip.")
            return
        skip = Skip(point=self.stop.point.id, reason=why)
        self.dialogue.message = f"Skipped: {why}."
        self.record(Answers(takes=own.takes, skip=skip), go_on=True)

    def _ask_region(self) -> None:
        if self.sheet.signed:
            self.say_here("After the signature a region is no longer skipped as a whole; skip its points.")
            return
        lines = [*(Line(key, why) for key, why in REASONS.items()), Line("6", "another reason (typed)")]
        region = self.stop.region.label
        screen = NumberedScreen(f"Skip {region}", "Why? Answers already given there stay.", lines)

        def chosen(key: str | None) -> None:
            if key in REASONS:
                self._skip_region(REASONS[key])
            elif key == "6":
                typed = TypedScreen(f"Skip {region}", "Why is it skipped?")
                self.app.push_screen(typed, lambda why: self._skip_region(why) if why else None)

        self.app.push_screen(screen, chosen)

    def _skip_region(self, why: str) -> None:
        region = self.stop.region
        if not self.can_write():
            return
        self.sheet.skip_region(region.id, why)
        later = [stop.index for stop in self.sheet.stops[self.stop.index :] if stop.region.id != region.id]
        self.go_to(later[0] if later else self.stop.index)
        self.say_here(f"{region.label}: skipped, {why}.")

    def action_take_back(self) -> None:
        """What is recorded at this point, or the skip of it."""
        if not self.can_write():
            return
        own = self.sheet.answers_at(self.stop.point)
        if not own.given and own.skip is not None and not own.skip.point:
            self.sheet.unskip_region(self.stop.region.id)
            self.start_dialogue(f"{self.stop.region.label}: no longer skipped.")
            return
        if not own.given and own.skip is None:
            self.say_here("Nothing is recorded here.")
            return
        step = self.dialogue.take_back() if own.given else None
        if step is None:
            self.dialogue.message = "No longer skipped."
            self.record(Answers(takes=own.takes), go_on=False)
        elif step.answers is not None:
            self.record(step.answers, go_on=False)
        else:
            self.show()

    # --- moving

    def action_jump(self) -> None:
        """The regions by number."""
        rows = self.sheet.progress()
        lines = [Line(str(row.number), row.region.label, aside=how_far(row)) for row in rows]
        title = "Jump: which region? (answered/asked, -skipped)"
        self.app.push_screen(NumberedScreen(title, "", lines), self._jump)

    def _jump(self, key: str | None) -> None:
        row = next((row for row in self.sheet.progress() if str(row.number) == key), None)
        if row is None:
            return
        inside = [stop.index for stop in self.sheet.stops if stop.region.id == row.region.id]
        nearest = self.sheet.first_open(row.first - 1)
        self.go_to(nearest if nearest in inside else row.first)

    def action_next_open(self) -> None:
        """The next point without an answer."""
        index = self.sheet.first_open(self.stop.index)
        if index is None:
            self.say_here("Nothing is open any more: r for the review.")
        else:
            self.go_to(index)

    def action_explain(self) -> None:
        """Everything known of this point."""
        point = self.stop.point
        paragraphs = [
            Paragraph(
                entry.text + (f"  [{entry.source}]" if entry.source else ""),
                section.title if not number else "",
                entry.note,
            )
            for section in explanation(self.sheet.ruleset, point)
            for number, entry in enumerate(section.entries)
        ]
        self.app.push_screen(ReadingScreen(f"{self.stop.region.label}: {point.label}", paragraphs))

    # --- notes and faults

    def action_note(self) -> None:
        """Open the note line; what it hears belongs to this region and point."""
        if self.can_write():
            self.set_class(True, "-noting")
            self.query_one(FooterLine).tell("note")
            self.note_line.open(self.sheet.draft)

    def context(self) -> tuple[str | None, str | None]:
        """Where the walk stands."""
        return self.stop.region.id, self.stop.point.id

    def put_aside(self) -> None:
        """The text waits for the next time."""
        self._close_note()
        self.say_here("The note is put aside: n takes it up again." if self.sheet.draft.waits else "")

    def recorded(self, heard: Heard, *, saved: bool) -> None:
        """Close the line and tell what came of it."""
        self.note_line.fill(Draft())
        self._close_note()
        self.reason = ""
        if any(take.point == self.stop.point.id for take in heard.takes()):
            self.start_dialogue()
        told = f"Recorded: {one_line(heard.text)[:60]}\n= {in_few_words(heard, self.sheet.ruleset)}"
        self.say_here(told if saved else self.sheet.saved_state())

    def _close_note(self) -> None:
        self.set_class(False, "-noting")
        self.query_one(FooterLine).tell(self.NAME)
        self.note_line.close()

    def action_scribe(self) -> None:
        """The scribe's line, for the whole dog."""
        if self.can_write():
            from hands_on.tui.screens.scribe import ScribeScreen

            self.app.push_screen(ScribeScreen(self.sheet, self.unit_meant()), lambda _: self.start_dialogue())

    def action_fault(self) -> None:
        """Pick a fault, then its degree and side."""
        if self.can_write():
            from hands_on.tui.screens.fault import FaultScreen

            self.app.push_screen(FaultScreen(self.sheet.ruleset, self.stop.region.id), self._fault)

    def _fault(self, name: str | None) -> None:
        if name is None:
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
                self.app.push_screen(screen, lambda side: self._put_fault(name, degree, side))
            else:
                self._put_fault(name, degree, "0")

        self.app.push_screen(NumberedScreen(fault.label, "How far does it go?", lines), degree_chosen)

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
            self.say_here(f"Recorded: {words.splitlines()[0][:60]}" if saved else self.sheet.saved_state())

        if self.sheet.signed:
            self.with_reason(put, lambda: self.say_here("Not recorded."))
        else:
            put()


def note_words(note: Note) -> str:
    """A note in a few words: as typed, or the fault that was picked."""
    if note.text:
        return note.text
    return "; ".join(
        ", ".join(part for part in (row.fault, row.degree or "", row.side or "") if part)
        for row in note.findings
    )
