"""A dog comes back: what to look at again and why, before its new examination begins."""

from __future__ import annotations

from pathlib import Path

from textual.app import ComposeResult
from textual.widgets import Static

from hands_on.compare.dogs.recheck import PlanItem, new_session_from, plan_over
from hands_on.compare.examined import Examined
from hands_on.exam.dialogue import Line
from hands_on.exam.left_out import NOT_IN_RECHECK, all_but
from hands_on.exam.walk import stops
from hands_on.measure.age import age_months
from hands_on.plain_text import one_line
from hands_on.tui import keys
from hands_on.tui.asks import GoOn, History, WhoExamines
from hands_on.tui.earlier import baseline_name, before_that
from hands_on.tui.frame import Frame
from hands_on.tui.opening import new_sheet
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.show import dotted, plain
from hands_on.tui.side_rows import Column, Part, TableRow
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.tui.widgets.side_table import SideTable
from hands_on.wording.ages import age_text, age_words
from hands_on.wording.recheck import BLIND_TOLD, plan_words


class RecheckScreen(Frame[None]):
    """Nothing here gives an earlier answer away."""

    NAME = "recheck"
    CSS_PATH = "recheck.tcss"
    BINDINGS = keys.bindings("recheck")

    def __init__(self, path: Path, earlier: Examined) -> None:
        super().__init__()
        self.path, self.earlier = path, earlier

    def compose(self) -> ComposeResult:
        """Who it is, the list, how to begin."""
        earlier = self.earlier
        self.today = self.program.now().date()
        self.before = before_that(self.path, earlier, self.program.library)
        self.plan = plan_over((earlier, *reversed(self.before)), on=self.today, blind=True)
        yield TitleLine(dotted("Re-check", earlier.dog, earlier.ruleset.edition.title))
        yield Static(plain("\n".join(self._about())), id="about", markup=False)
        yield SideTable((Column("Why it is looked at again"),), shares=(1,), mark=0)
        yield Static(plain(self._ways()), id="ways", classes="message", markup=False)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """The list."""
        table = self.query_one(SideTable)
        first = self._first
        others = [item for item in self.plan.items if not item.first and not item.left_open]
        left_open = [item for item in self.plan.items if item.left_open]
        parts = [
            Part("first", "To look at first", self._rows(first), empty="nothing"),
            Part("others", "If there is time: as asked then, but it may have moved", self._rows(others)),
        ]
        parts.append(Part("open", "Left open then", self._rows(left_open)))
        if self.plan.dropped:
            rows = tuple(TableRow("", text=one_line(label)) for label in self.plan.dropped)
            parts.append(Part("dropped", "Not asked for any more", rows))
        table.show([part for part in parts if part.rows or part.id == "first"])
        table.query_one("#rows").focus()

    @property
    def _first(self) -> list[PlanItem]:
        return [item for item in self.plan.items if item.first and not item.left_open]

    def _rows(self, items: list[PlanItem]) -> tuple[TableRow, ...]:
        regions = {region.id: region.label for region in self.earlier.ruleset.regions}
        return tuple(
            TableRow(item.label, (dotted(regions.get(item.region, ""), plan_words(item)),)) for item in items
        )

    def _about(self) -> list[str]:
        earlier, born = self.earlier, self.earlier.session.dog.born
        now = f"today {age_text(age_months(born, self.today))}" if born and born <= self.today else ""
        by = f"by {earlier.evaluator}" if earlier.evaluator else ""
        then = f"then {age_words(earlier.age)}"
        before = ", ".join(one.day or "a day not known" for one in reversed(self.before))
        rows = [
            dotted(" ".join(filter(None, ("Examined", earlier.day, by))), then, now),
            *([f"And before that: {before}; each is held against the new answers too."] if before else []),
            "What was found then stays hidden at each point until you have answered it anew.",
            *([BLIND_TOLD] if any(item.blind for item in self.plan.items) else []),
        ]
        if earlier.day and earlier.day > self.today.isoformat():
            rows.append(
                f"! This computer's date, {self.today}, is before that examination: set it right first."
            )
        if earlier.session.signature is None:
            rows.append("! The earlier examination is not signed: it may still be changed.")
        return rows

    def _ways(self) -> str:
        walk = len(stops(self.earlier.ruleset, self.earlier.session))
        first, listed = len(self._first), len(self.plan.items)
        return f"1  the {first} to look at first   2  all {listed} listed   3  the whole walk ({walk})"

    # --- keys

    def action_begin(self, what: str) -> None:
        """Ask who examines, and begin."""
        if what != "walk" and not self.plan.items:
            self.query_one("#ways", Static).update("Nothing is listed: 3 goes through the whole walk.")
            return
        title = f"Re-check of {self.earlier.dog}"
        self.program.go(WhoExamines(lambda name: self._begin(what, name), title))

    def _begin(self, what: str, evaluator: str) -> None:
        app, ruleset = self.program, self.earlier.ruleset
        baseline = baseline_name(self.path, app.sessions)
        session = new_session_from(self.earlier.session, baseline, ruleset, evaluator)
        started = session.examination.model_copy(update={"started": app.now()})
        session = session.model_copy(update={"examination": started})
        if what != "walk":
            listed = {item.point for item in self.plan.items}
            asked = {item.point for item in self._first} if what == "first" else listed
            skips = all_but(stops(ruleset, session), asked or listed, NOT_IN_RECHECK)
            session = session.model_copy(update={"skips": skips})
        sheet = new_sheet(app.sessions, session, ruleset, app.library, app.now)
        app.go(GoOn(sheet))

    def action_history(self) -> None:
        """Over all its examinations, once it is clear that this shows what was found."""

        def answered(key: str | None) -> None:
            if key == "2":
                self.program.go(History(self.path))

        ask = "The history shows what was found before, and that would lean on your hand."
        lines = (Line("1", "no, examine first"), Line("2", "show it"))
        self.app.push_screen(NumberedScreen("History", ask, lines), answered)
