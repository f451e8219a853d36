"""What can be done at a point beside answering it: skip, take back, jump, explain."""

from __future__ import annotations

from typing import Protocol

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue import Dialogue, Line
from hands_on.exam.dialogue.measure import MeasureDialogue
from hands_on.exam.session import Note, Skip
from hands_on.exam.walk import Stop
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.parts.moving import REASONS, Moving
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.reading import Paragraph, ReadingScreen
from hands_on.tui.questions.typed import TypedScreen
from hands_on.tui.session_screen import SessionScreen
from hands_on.wording.point import explanation


class Walking(Protocol):
    """What the menu needs of the walk."""

    dialogue: Dialogue
    moving: Moving

    @property
    def stop(self) -> Stop:
        """Where the walk stands."""

    def record(self, answers: Answers, *, go_on: bool) -> None:
        """Save answers at this point."""

    def start_dialogue(self, message: str = "") -> None:
        """Begin anew at this point."""


class PointMenu:
    """The walk's menus; what they record is saved like any answer."""

    def __init__(self, screen: SessionScreen, walk: Walking) -> None:
        self.screen, self.walk = screen, walk

    @property
    def sheet(self) -> CurrentExamination:
        """The examination on the screen."""
        return self.screen.sheet

    # --- skip and the rest of the menu

    def more(self) -> None:
        """The menu."""
        region = self.walk.stop.region.label
        lines = [
            Line("0", "explain this point"),
            *self._skips(),
            Line("7", f"skip the whole region {region}"),
            Line("8", "take back what is recorded here"),
        ]
        if self.sheet.session.notes and not self.sheet.signed:
            lines.append(
                Line("9", f"take back the newest note: {note_words(self.sheet.session.notes[-1])[:60]}")
            )
        screen = NumberedScreen(self.walk.stop.point.label, "What about this point?", lines)
        self.screen.app.push_screen(screen, self._more)

    @property
    def hidden(self) -> bool:
        """Are the readings at this point hidden?"""
        here = self.walk.dialogue
        return isinstance(here, MeasureDialogue) and here.hidden

    def hide(self) -> None:
        """Hide the readings here for a repeat that cannot lean on them, or show them again."""
        here = self.walk.dialogue
        if isinstance(here, MeasureDialogue):
            here.hide()
            self.screen.show()
        else:
            self.screen.say_here("Only readings of a measurement can be hidden.")

    def stand_anew(self) -> None:
        """The dog was stood anew between two readings here."""
        here = self.walk.dialogue
        if isinstance(here, MeasureDialogue) and self.screen.can_write():
            here.stand_anew()
            self.screen.show()

    @property
    def _restless(self) -> bool:
        return self.sheet.session.examination.restless

    def _still(self) -> None:
        """Note that the dog does not stand still, or that it does."""
        if not self.screen.can_write():
            return
        session, restless = self.sheet.session, not self._restless
        examination = session.examination.model_copy(update={"restless": restless})
        self.sheet.put(session.model_copy(update={"examination": examination}))
        told = "It does not stand still: every measurement counts as less sure."
        self.screen.say_here(told if restless else "It stands still: measurements are as sure as ever.")

    @property
    def _taken(self) -> bool:
        """Are there readings here, so that the point is not to be skipped but may be taken again?"""
        here = self.walk.dialogue
        return isinstance(here, MeasureDialogue) and here.answers.given

    def _skips(self) -> list[Line]:
        if self._taken:
            still = "the dog stands still again" if self._restless else "the dog does not stand still"
            return [
                Line("1", "show the readings" if self.hidden else "measure again, readings hidden"),
                Line("2", "the dog was stood anew: measure again"),
                Line(
                    "3",
                    still,
                    aside="every measurement is that much surer" if self._restless else "less sure",
                ),
            ]
        typed = Line("6", "skip: another reason (typed)")
        return [*(Line(key, f"skip: {why}") for key, why in REASONS.items()), typed]

    def _more(self, key: str | None) -> None:
        if key == "0":
            self.explain()
        elif key == "1" and self._taken:
            self.hide()
        elif key == "2" and self._taken:
            self.stand_anew()
        elif key == "3" and self._taken:
            self._still()
        elif key in REASONS:
            self._skip(REASONS[key])
        elif key == "6":
            self.screen.app.push_screen(
                TypedScreen(self.walk.stop.point.label, "Why is it skipped?"),
                lambda why: self._skip(why) if why else None,
            )
        elif key == "7":
            self.walk.moving.skip_region()
        elif key == "8":
            self.take_back()
        elif key == "9":
            notes = self.sheet.session.notes[:-1]
            self.sheet.put(self.sheet.session.model_copy(update={"notes": notes}))
            self.screen.say_here("The newest note is taken back.")

    def _skip(self, why: str) -> None:
        own = self.sheet.answers_at(self.walk.stop.point)
        if own.given:
            self.screen.say_here("Something is recorded here: take it back first (u), then skip.")
            return
        skip = Skip(point=self.walk.stop.point.id, reason=why)
        self.walk.dialogue.message = f"Skipped: {why}."
        self.walk.record(Answers(takes=own.takes, skip=skip), go_on=True)

    def take_back(self) -> None:
        """What is recorded at this point, or the skip of it."""
        if not self.screen.can_write():
            return
        own = self.sheet.answers_at(self.walk.stop.point)
        if not own.given and own.skip is not None and not own.skip.point:
            self.sheet.unskip_region(self.walk.stop.region.id)
            self.walk.start_dialogue(f"{self.walk.stop.region.label}: no longer skipped.")
            return
        if not own.given and own.skip is None:
            self.screen.say_here("Nothing is recorded here.")
            return
        if not own.given:
            self.walk.dialogue.message = "No longer skipped."
            self.walk.record(Answers(takes=own.takes), go_on=False)
            return
        recorded = self.walk.dialogue.recorded()
        if len(recorded) < 2:
            self._take_back(0 if recorded else None)
            return
        lines = [Line(str(n), row.words) for n, row in enumerate(recorded, 1)]
        if not own.takes:
            lines.append(Line("0", "all of it"))
        screen = NumberedScreen(self.walk.stop.point.label, "What is taken back?", lines)

        def chosen(key: str | None) -> None:
            if key is not None:
                self._take_back(int(key) - 1 if key != "0" else None)

        self.screen.app.push_screen(screen, chosen)

    def _take_back(self, number: int | None) -> None:
        step = self.walk.dialogue.take_back(number)
        if step.answers is not None:
            self.walk.record(step.answers, go_on=False)
        else:
            self.screen.show()

    def explain(self) -> None:
        """Everything known of this point."""
        point = self.walk.stop.point
        paragraphs = [
            Paragraph(
                entry.text + (f"  [{entry.source}]" if entry.source else ""),
                section.title if not number else "",
                entry.note,
            )
            for section in explanation(self.sheet.ruleset, point)
            for number, entry in enumerate(section.entries)
        ]
        self.screen.app.push_screen(
            ReadingScreen(f"{self.walk.stop.region.label}: {point.label}", paragraphs)
        )


def note_words(note: Note) -> str:
    """A note in a few words: as typed, or the fault that was picked."""
    if note.text:
        return note.text
    return "; ".join(
        ", ".join(part for part in (row.fault, row.degree or "", row.side or "") if part)
        for row in note.findings
    )
