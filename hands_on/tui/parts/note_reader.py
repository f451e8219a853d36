"""Reading what is typed into a note line, asking what is odd, recording."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from textual.worker import Worker, WorkerState

from hands_on.exam.dialogue import Line
from hands_on.exam.dialogue.measure import shown
from hands_on.exam.heard.hands import Draft
from hands_on.exam.heard.note import Heard, HeardFault, HeardMeasure, hear, settled, unit_in_use
from hands_on.exam.heard.own import put_right_by_hand
from hands_on.exam.heard.right import HeardRight, as_it_stands, still_open
from hands_on.exam.session import Note
from hands_on.notes import OwnWords, Reading, Vocabulary, read_note, vocabulary
from hands_on.plain_text import one_line
from hands_on.ruleset.base import UnitName
from hands_on.store.errors import StoreError
from hands_on.store.own_words_file import OwnWordsFile
from hands_on.store.places import own_words_path
from hands_on.store.wording import lexicon
from hands_on.toml_text.problems import BadText
from hands_on.tui.asks import Help, OwnWordsList
from hands_on.tui.questions.fault import FaultScreen
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.session_screen import SessionScreen
from hands_on.tui.widgets.note_line import NoteLine

WORDING = "wording"
"""Group of the worker that makes the edition's wording ready."""


class NoteReader:
    """What stands behind a screen's note line."""

    def __init__(
        self,
        screen: SessionScreen,
        *,
        recorded: Callable[[Heard, bool], None],
        put_aside: Callable[[], None],
        context: Callable[[], tuple[str | None, str | None]] = lambda: (None, None),
        unit: Callable[[], UnitName | None] = lambda: None,
    ) -> None:
        """`recorded` shows a note that is in the session (and whether on disk), `put_aside` closes the line.

        `context` gives region and point on the screen, where there are any; `unit` the unit of lengths
        called out without one (None: that in use).
        """
        self._screen, self._recorded, self.put_aside = screen, recorded, put_aside
        self._context, self._unit = context, unit
        self.reason = ""
        """Why a signed session is changed, once it was said."""
        self.trouble = ""
        """Why notes can't be read; they are kept as typed all the same."""

    @property
    def line(self) -> NoteLine:
        """The line."""
        return self._screen.query_one(NoteLine)

    def unit_meant(self) -> UnitName | None:
        """The unit of lengths called out without one; None for each point's own."""
        return self._unit() or unit_in_use(self._screen.sheet.session)

    # --- the wording

    def begin(self) -> None:
        """Make the wording ready beside, once the screen has painted."""
        if self._screen.sheet.lexicon is None:
            self._screen.call_after_refresh(self._make_ready)
        else:
            self._learn(self._known())

    def _make_ready(self) -> None:
        library, edition = self._screen.program.library, self._screen.sheet.ruleset.id
        known = self._known()

        def build() -> Vocabulary:
            return vocabulary(known, lexicon(library, edition, known))

        self._screen.run_worker(build, group=WORDING, exclusive=True, thread=True, exit_on_error=False)

    def worker_changed(self, event: Worker.StateChanged) -> None:
        """The wording is ready, or can't be."""
        if event.worker.group != WORDING:
            return
        if event.state == WorkerState.SUCCESS:
            own = event.worker.result
            self._screen.sheet.own, self._screen.sheet.lexicon = own, own.lexicon if own else None
        elif event.state == WorkerState.ERROR:
            self.trouble = f"Notes are kept as typed; the wording can't be read: {event.worker.error}"
        else:
            return
        if self.line.display:
            self.line.show(self.trouble)

    # --- the line

    def hear(self, draft: Draft) -> Heard:
        """What a text says here; the text is kept as a draft at once."""
        sheet = self._screen.sheet
        sheet.draft = draft
        region, point = self._context()
        if sheet.lexicon is None:
            reading = Reading(draft.text)
        else:
            reading = read_note(draft.text, sheet.lexicon, region=region, point=point)
            if sheet.own is not None:
                reading = sheet.own.hold_against(reading, region)
        heard = hear(reading, draft.hands, sheet.ruleset, self.unit_meant(), sheet.session)
        right = (
            as_it_stands(heard.right, sheet.session, sheet.ruleset, self._note(heard)) if heard.right else ()
        )
        return replace(heard, right=right)

    def keys_told(self, screen: str) -> None:
        """Help for the line."""
        self._screen.program.go(Help(screen))

    def pick_other(self, fault: HeardFault) -> None:
        """The searchable list, the likeliest faults first."""
        ruleset = self._screen.sheet.ruleset
        known = ruleset.faults.get(fault.fault)
        region = known.region if known is not None else ""
        first = (*fault.read.alternatives, fault.read.id)
        screen = FaultScreen(ruleset, region, first, self._screen.sheet.session.dog.sex)
        self._screen.app.push_screen(
            screen, lambda name: self.line.other_picked(fault, name) if name is not None else None
        )

    def pick_added(self, heard: Heard) -> None:
        """Which words, where there are several pieces, and the fault they mean."""
        pieces = tuple(dict.fromkeys(heard.text[start:end].strip() for start, end in heard.unread))
        if len(pieces) == 1:
            self._pick_for(pieces[0])
            return
        lines = [Line(str(number), one_line(piece)) for number, piece in enumerate(pieces, 1)]

        def chosen(key: str | None) -> None:
            if key is not None:
                self._pick_for(pieces[int(key) - 1])

        self._screen.app.push_screen(NumberedScreen("Not understood", "Which words?", lines), chosen)

    def _pick_for(self, words: str) -> None:
        sheet = self._screen.sheet
        region, _ = self._context()
        screen = FaultScreen(sheet.ruleset, region or "", sex=sheet.session.dog.sex)
        self._screen.app.push_screen(
            screen, lambda name: self.line.added(name, words) if name is not None else None
        )

    # --- the evaluator's own words

    @property
    def _own_file(self) -> OwnWordsFile:
        return OwnWordsFile(own_words_path(self._screen.program.sessions))

    def _known(self) -> tuple[OwnWords, ...]:
        """The words remembered; none where their file can't be read, which is told."""
        try:
            return self._own_file.read()
        except BadText as error:
            self._screen.say_here(f"Your own words can't be read: {error}")
            return ()

    def _learn(self, words: tuple[OwnWords, ...]) -> None:
        sheet = self._screen.sheet
        sheet.own = vocabulary(words, sheet.lexicon, sheet.own) if sheet.lexicon is not None else None

    def own_words(self) -> None:
        """The list; what was changed there counts at once."""

        def done() -> None:
            self._learn(self._known())
            self.line.show()

        self._screen.program.go(OwnWordsList(self._screen.sheet.ruleset, done))

    def _remember(self, heard: Heard) -> None:
        """Keep what was put right by hand; a file that can't be written is told and stops nothing."""
        region, _ = self._context()
        more = put_right_by_hand(heard, region or "")
        if not more:
            return
        try:
            self._learn(self._own_file.remember(more))
        except (StoreError, BadText) as error:
            self._screen.say_here(f"Recorded, but your words are not remembered: {error}")
        else:
            said = ", ".join(f"“{one_line(one.said)}”" for one in more)
            self._screen.say_here(f"Remembered as your words: {said} (^L in the line lists them)")

    # --- on record

    def entered(self, heard: Heard) -> None:
        """Record, once all that is odd is settled and a signed session's reason is told."""
        if not self._screen.can_write():
            return
        odd = heard.first_odd()
        if odd is not None:
            self._ask(odd)
        elif self._screen.sheet.signed and not self.reason:

            def give(reason: str) -> None:
                self.reason = reason
                self.entered(self.line.heard)

            told = "Not recorded; the words stay in the line."
            self._screen.with_reason(give, lambda: self.line.show(told))
        else:
            self._put_asking(heard)

    def _note(self, heard: Heard) -> Note:
        region, point = self._context()
        by = self._screen.sheet.session.examination.evaluator
        return Note(text=heard.text, region=region or "", point=point or "", findings=heard.findings(by))

    def _put_asking(self, heard: Heard) -> None:
        """`full mouth` fills the tooth chart, but not before it was asked."""
        sheet = self._screen.sheet
        right = still_open(heard.right, sheet.session, sheet.ruleset, self._note(heard))
        sure = tuple(one for one in right if not one.asks)
        chart = tuple(one for one in right if one.asks)
        if not chart:
            self._put(heard, sure)
            return
        label = chart[0].point.label if chart[0].point is not None else ""
        ask = f"“{chart[0].words}”: record all teeth as seen and none marked?"
        lines = [Line("1", "yes, fill the tooth chart"), Line("0", "no, it stays in the words only")]
        screen = NumberedScreen(label, ask, lines, "Esc goes back to the line", at=0)

        def chosen(key: str | None) -> None:
            if key is None:
                self.line.show()
            else:
                self._put(heard, right if key == "1" else sure)

        self._screen.app.push_screen(screen, chosen)

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
                self.line.show()
                return
            entry = None if key == "0" else meant[int(key) - 1]
            self.line.hands = settled(self.line.hands, odd, entry)
            self.line.show()
            self.entered(self.line.heard)

        self._screen.app.push_screen(screen, chosen)

    def _put(self, heard: Heard, right: tuple[HeardRight, ...]) -> None:
        sheet = self._screen.sheet
        saved = sheet.put_heard(self._note(heard), heard.takes(), self.reason, right)
        sheet.draft = Draft()
        left = tuple(one if one in right else replace(one, taken=False) for one in heard.right)
        self._recorded(replace(heard, right=left), saved)
        self._remember(heard)
