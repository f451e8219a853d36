"""The examination open on the screens: its session, its edition and what the two give.

One owner of all that changes during an examination. Every change is saved before anything else follows.
Knows nothing of widgets.
"""

from __future__ import annotations

import datetime
import os
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from hands_on.evaluate import Evaluation, evaluate
from hands_on.exam import answers as at_points
from hands_on.exam.answers import Answers, Stamp
from hands_on.exam.heard.called import called
from hands_on.exam.heard.hands import Draft
from hands_on.exam.heard.note import put_heard
from hands_on.exam.heard.right import HeardRight
from hands_on.exam.left_out import left_out
from hands_on.exam.region_sheet import (
    RegionSheet,
    region_sheet,
    rest_as_asked,
    sheet_of,
    without_rest,
)
from hands_on.exam.session import CritiqueText, Decision, Note, Session, Signature, Summary, Take
from hands_on.exam.signing import digest_of
from hands_on.exam.walk import (
    RegionProgress,
    Stop,
    called_for,
    first_open,
    progress,
    state_of,
    stops,
)
from hands_on.measure.age import age_months
from hands_on.measure.hand import OwnHand
from hands_on.notes import Lexicon, Vocabulary
from hands_on.plain_text import one_line
from hands_on.ruleset.points import MeasurePoint, Point
from hands_on.ruleset.ruleset import Ruleset
from hands_on.store.drafts import DraftFile, Written
from hands_on.store.open_session import OpenSession
from hands_on.wording.ages import age_text
from hands_on.wording.documents.evaluation import evaluation_document

if TYPE_CHECKING:
    from hands_on.compare.examined import Examined


class CurrentExamination:
    """An opened session with its edition; every `put_...` saves before it returns."""

    def __init__(
        self,
        desk: OpenSession,
        ruleset: Ruleset,
        clock: Callable[[], datetime.datetime],
        hand: Mapping[str, OwnHand] | None = None,
    ) -> None:
        """`hand` is the evaluator's own repeatability by point, as the command `assess` takes it too."""
        self._desk, self.ruleset, self._clock, self._hand = desk, ruleset, clock, hand or {}
        self.saved_at: datetime.datetime | None = None
        self.by_sheets = False
        """Does the walk go by regions' sheets, rather than point by point?"""
        self.on_sheet = ""
        """The region whose sheet was shown last."""
        self._place = ""
        self._also: set[str] = set()
        """Measures taken up beside those that the walk asks."""
        self.review_row: int | None = None
        """The line of the review that was marked last."""
        self.draft = Draft()
        """A note being written, or put aside."""
        self.summary_draft: str | None = None
        """The summary as it is being written; None where nothing of it waits."""
        self.critique_draft: CritiqueText | None = None
        """The critique as it is being edited; None where nothing of it waits."""
        self.found = ""
        """Not empty: what was being written when the program last ended is here again; told once."""
        self._drafts = DraftFile(desk.path)
        self.lexicon: Lexicon | None = None
        """What notes are read with; None until it is built."""
        self.own: Vocabulary | None = None
        """The evaluator's own words, ready for that lexicon."""
        self.earlier: Examined | None = None
        """For a re-check: the earlier examination, hidden at each point until that point is answered."""
        self.before: tuple[Examined, ...] = ()
        """The dog's examinations before that one, the earliest first; their answers are hidden as long."""
        self.earlier_problem = ""
        """Not empty: why the earlier examination is not here."""
        self.again: Mapping[str, str] = {}
        """For a re-check: why a point is looked at again; it gives no earlier answer away."""
        self._refresh()

    @property
    def place(self) -> int:
        """Index of the stop that was shown last, for coming back to it."""
        return self.index_of(self._place)

    @place.setter
    def place(self, index: int) -> None:
        self._place = self.stops[index].point.id

    def index_of(self, point: str) -> int:
        """Where a point stands in the walk now; its beginning for one that is not there."""
        return next((stop.index for stop in self.stops if stop.point.id == point), 0)

    @property
    def hand(self) -> Mapping[str, OwnHand]:
        """The evaluator's own repeatability by point."""
        return self._hand

    @property
    def session(self) -> Session:
        """The answers as they are now."""
        return self._desk.session

    @property
    def path(self) -> Path:
        """The session's file."""
        return self._desk.path

    @property
    def read_only(self) -> bool:
        """Does somebody else hold the session?"""
        return self._desk.read_only

    @property
    def signed(self) -> bool:
        """Is a reason needed for every change?"""
        return self.session.signature is not None

    @property
    def unsaved(self) -> str:
        """Why the answers are only in memory; empty when they are on disk."""
        return self._desk.unsaved

    @property
    def on_disk(self) -> bool:
        """Does the file hold all answers?"""
        return not self.unsaved and os.path.isfile(self.path)

    @property
    def waiting(self) -> str:
        """What is written and not recorded, with what it is; empty where nothing is."""
        if self.draft.waits:
            return f"a note, “{one_line(self.draft.text)[:60]}”"
        if self.summary_draft is not None:
            return f"a summary, “{one_line(self.summary_draft)[:60]}”"
        if self.critique_draft is not None:
            return f"a critique, “{one_line(self.critique_draft.text)[:60]}”"
        return ""

    def keep_drafts(self) -> None:
        """Put on the disk what is being written; called again and again while it is."""
        if not self.read_only:
            draft, critique = self.draft if self.draft.waits else Draft(), self.critique_draft
            text, kind = (critique.text, f"{critique.language} {critique.length}") if critique else ("", "")
            self._drafts.keep(Written(draft.text, draft.kept, self.summary_draft or "", text, kind))

    def drop_waiting(self) -> None:
        """What `waiting` names is not wanted any more; something else may wait still."""
        if self.draft.waits:
            self.draft = Draft()
        elif self.summary_draft is not None:
            self.summary_draft = None
        else:
            self.critique_draft = None
        self.keep_drafts()

    def find_drafts(self) -> None:
        """Take up what was being written when the program last ended."""
        if self.read_only:
            return
        written, session = self._drafts.read(), self.session
        notes = [*session.notes, *(note for row in session.amendments for note in row.notes)]
        if written.note and all(note.text != written.note for note in notes[-1:]):
            self.draft = Draft.of(written.note, written.by_hand)
            self._tell_found("note that was being written", "n in the walk")
        if written.summary and written.summary != at_points.amended(session).summary.text:
            self.summary_draft = written.summary
            self._tell_found("summary that was being written", "s in the review")
        if written.critique:
            language, _, length = written.critique_as.partition(" ")
            parts = {"language": language, "length": length, "text": written.critique}
            with suppress(ValueError):  # a file written by hand
                self.critique_draft = CritiqueText.model_validate(parts)
            if self.critique_draft == at_points.edited_critique(session, language, length):
                self.critique_draft = None
            if self.critique_draft is not None:
                self._tell_found("critique that was being edited", "t in the review")

    def _tell_found(self, what: str, where: str) -> None:
        self.found = f"{self.found} The {what} is here again: {where} takes it up.".strip()

    @property
    def offered_path(self) -> Path:
        """A free name beside the file, to save to."""
        return self._desk.beside()

    def saved_state(self) -> str:
        """Whether all is saved, in a few words."""
        if self.read_only:
            return f"READ ONLY: open elsewhere ({self._desk.holder})"
        if self._desk.unsaved:
            again = (
                "F6 saves elsewhere" if self._desk.changed_on_disk else "F5 tries again, F6 saves elsewhere"
            )
            return f"NOT SAVED: {self._desk.unsaved} · {again}"
        saved = f"saved {self.saved_at:%H:%M}" if self.saved_at else "saved"
        return f"{saved} · {self._desk.warning}" if self._desk.warning else saved

    def now(self) -> datetime.datetime:
        """The time now."""
        return self._clock()

    def stamp(self) -> Stamp:
        """Who answers, and when."""
        return Stamp(at=self.now(), by=self.session.examination.evaluator)

    def answers_at(self, point: Point) -> Answers:
        """What is recorded at a point."""
        return at_points.answers_at(self.session, point)

    def put(self, session: Session) -> bool:
        """Take the session as it is to be, and save it; False when it is only in memory, or not taken."""
        if self.read_only:
            return False
        saved = self._desk.put(session)
        if saved:
            self.saved_at = self.now()
        self._refresh()
        return saved

    def put_answers(self, point: Point, answers: Answers, reason: str = "") -> bool:
        """Record answers at a point. Raises SignedSession when signed and no `reason` is given."""
        return self.put(at_points.put(self.session, point, answers, self.stamp(), reason))

    def take_up(self, point: MeasurePoint) -> int:
        """Have a measure in the walk, asked or not; its index there."""
        self._also.add(point.id)
        self._refresh()
        return self.index_of(point.id)

    def region_sheet(self, region: str) -> RegionSheet:
        """All points of a region with what stands there."""
        return region_sheet(self.ruleset, self.session, self.stops, region)

    def sheet_of(self, stop: Stop) -> str:
        """The region on whose sheet a stop stands: that shown last if it is there, else where it is asked."""
        shown = self.region_sheet(self.on_sheet).rows if self.on_sheet else ()
        if any(row.stop.index == stop.index for row in shown):
            return self.on_sheet
        return sheet_of(self.stops, self.session, stop)

    def put_rest(self, sheet: RegionSheet, reason: str = "") -> bool:
        """Record the rest of a region as asked. Raises SignedSession when signed and no `reason` is given."""
        return self.put(rest_as_asked(self.session, self.ruleset, sheet, self.stamp(), reason))

    def drop_rest(self, sheet: RegionSheet, reason: str = "") -> bool:
        """Take back what was given by region. Raises SignedSession when signed and no `reason` is given."""
        return self.put(without_rest(self.session, sheet, self.stamp(), reason))

    def put_note(self, note: Note, reason: str = "") -> bool:
        """Add a note. Raises SignedSession when signed and no `reason` is given."""
        return self.put(at_points.add_note(self.session, note, self.stamp(), reason))

    def put_heard(
        self, note: Note, takes: Sequence[Take], reason: str = "", right: Sequence[HeardRight] = ()
    ) -> bool:
        """Add a note, its readings and what it calls right.

        Raises SignedSession when signed and no `reason` is given.
        """
        return self.put(put_heard(self.session, self.ruleset, note, takes, self.stamp(), reason, right))

    def skip_region(self, region: str, why: str) -> bool:
        """Skip a whole region. Raises SignedSession."""
        return self.put(at_points.skip_region(self.session, region, why, self.stamp()))

    def unskip_region(self, region: str) -> bool:
        """Open a skipped region again."""
        return self.put(at_points.unskip_region(self.session, region))

    def put_summary(self, summary: Summary, reason: str = "") -> bool:
        """Put the summary. Raises SignedSession when signed and no `reason` is given."""
        return self.put(at_points.put_summary(self.session, summary, self.stamp(), reason))

    def put_critique(self, critique: CritiqueText, reason: str = "") -> bool:
        """Put an edited critique. Raises SignedSession when signed and no `reason` is given."""
        return self.put(at_points.put_critique(self.session, critique, self.stamp(), reason))

    def put_decision(self, decision: Decision) -> bool:
        """Put a decision in place of an earlier one on the same finding."""
        kept = tuple(
            row for row in self.session.decisions if (row.fault, row.side) != (decision.fault, decision.side)
        )
        stamped = decision.model_copy(update={"at": self.now(), "by": self.session.examination.evaluator})
        return self.put(self.session.model_copy(update={"decisions": (*kept, stamped)}))

    def drop_decision(self, decision: Decision) -> bool:
        """Take a decision back."""
        kept = tuple(row for row in self.session.decisions if row != decision)
        return self.put(self.session.model_copy(update={"decisions": kept}))

    def sign(self, name: str) -> bool:
        """Finish and sign: the digest of what is signed, and a copy of what it gives today."""
        now = self.now()
        examination = self.session.examination.model_copy(update={"finished": now})
        session = self.session.model_copy(update={"examination": examination})
        signature = Signature(
            name=name, at=now, digest=digest_of(session), evaluation=evaluation_document(self.evaluation)
        )
        return self.put(session.model_copy(update={"signature": signature}))

    def try_again(self) -> bool:
        """Try again to save, or, when read only, to take the session over. Raises BadText."""
        was_read_only = self.read_only
        done = self._desk.try_again()
        if done:
            if was_read_only:
                self.find_drafts()
            self.saved_at = self.now()
            self._refresh()
        return done

    def save_elsewhere(self, path: Path) -> None:
        """Go on in another file. Raises NotSaved."""
        old = self._drafts
        self._desk.save_elsewhere(path)
        self.saved_at = self.now()
        self._drafts = DraftFile(self.path)
        self.keep_drafts()
        old.keep(Written())

    def close(self) -> None:
        """Let others have the session; what is being written waits beside it."""
        self.keep_drafts()
        self._desk.close()

    def progress(self) -> tuple[RegionProgress, ...]:
        """Each region with how far it is."""
        return progress(self.stops, self.session, self.called())

    def counts(self) -> tuple[int, int, int]:
        """Points answered, skipped, left."""
        now = at_points.amended(self.session)
        settled = self.called()
        states = [state_of(now, stop.point, settled) for stop in self.stops if not left_out(now, stop.point)]
        return states.count("answered"), states.count("skipped"), states.count("open")

    def first_open(self, after: int = -1) -> int | None:
        """Index of the next open stop behind `after`."""
        return first_open(self.stops, self.session, after, self.called())

    def called(self) -> frozenset[str]:
        """Points that a call has settled."""
        return called(self.session, self.ruleset)

    def age_months(self) -> float | None:
        """The dog's age on the day of the examination."""
        return age_at(self.session)

    def age_words(self) -> str:
        """The dog's age in words, empty when not known."""
        months = self.age_months()
        return "" if months is None else age_text(months)

    def _refresh(self) -> None:
        if self.session.signature is None and self.session.examination.kind != "round":
            self._also |= called_for(self.ruleset, self.session)
        self.stops: tuple[Stop, ...] = stops(self.ruleset, self.session, self._also)
        asked = {point.id for point in self.ruleset.walk_points}
        # a measure that was struck keeps its place, so that the points behind it keep theirs
        self._also |= {stop.point.id for stop in self.stops} - asked
        self.evaluation: Evaluation = evaluate(
            self.ruleset, self.session, name=self.path.name, hand=self._hand
        )


def age_at(session: Session) -> float | None:
    """The dog's age in months when the examination began; None when not known."""
    born, started = session.dog.born, session.examination.started
    if born is None or started is None or started.date() < born:
        return None
    return age_months(born, started.date())
