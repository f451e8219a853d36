"""A region's sheet: all its points on one screen, by number those that depart, one key for the rest."""

from __future__ import annotations

from collections.abc import Callable

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.widgets import Static

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue import Line, Step, dialogue_for
from hands_on.exam.dialogue.region import RegionDialogue
from hands_on.exam.region_sheet import RegionSheet, SheetRow
from hands_on.exam.walk import Stop
from hands_on.tui import keys
from hands_on.tui.asks import Scribe, Walk
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.parts.point_view import contradictions, raised
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.reading import Paragraph, ReadingScreen
from hands_on.tui.show import plain
from hands_on.tui.walk_frame import WalkFrame, lines_of
from hands_on.tui.widgets.answers import typed_content
from hands_on.tui.widgets.sheet_rows import SheetRows
from hands_on.wording.point import asked_in_short


class SheetScreen(WalkFrame):
    """The points under each other; a point that is opened is answered as in the walk, and leads back here."""

    NAME = "sheet"
    CSS_PATH = ["../walk_frame.tcss", "sheet.tcss"]
    BINDINGS = keys.bindings("sheet")

    def __init__(self, sheet: CurrentExamination, region: str, message: str = "") -> None:
        super().__init__(sheet)
        sheet.by_sheets = True
        self._region = region
        self._begin_anew(message)

    def _begin_anew(self, message: str = "") -> None:
        self.sheet.on_sheet = self._region
        self.dialogue: RegionDialogue = RegionDialogue(self.sheet.region_sheet(self._region), message)

    @property
    def points(self) -> RegionSheet:
        """What stands on the sheet."""
        return self.dialogue.sheet

    @property
    def stop(self) -> Stop:
        """The point stood at last, or the region's first."""
        rows = [row for row in self.points.rows if row.stop.region.id == self._region]
        last = self.sheet.place
        return next((row.stop for row in rows if row.stop.index == last), rows[0].stop)

    def middle(self) -> ComposeResult:
        """The region, its points, what is typed and told."""
        yield Static("", id="head", markup=False)
        with VerticalScroll(id="lines", can_focus=False):
            yield SheetRows()
        yield Static("", id="full", markup=False)
        yield Static("", id="typed", markup=False)
        yield Static("", id="message", classes="message", markup=False)
        yield Static("", id="hint", classes="hint", markup=False)

    def opened(self) -> None:
        """Show the sheet."""
        self.show()

    # --- keys

    def follow(self, step: Step) -> None:
        """Open points, give the rest, move, or open a menu."""
        match step.follow:
            case "open" | "in turn" if step.stop is not None:
                self._open(step.stop, in_turn=step.follow == "in turn")
            case "rest":
                self._rest()
            case "next":
                self._go_on()
            case "back":
                self._leave_for(self.moving.region_beside(-1), "This is the first region.")
            case "skip":
                self.action_more()
            case "jump":
                self.action_jump()
            case "measures":
                self.action_measures()
            case _:
                self.show()

    def open_point(self, index: int, message: str) -> None:
        """Show the point itself; behind it one comes back to its region's sheet."""
        self._open(index, message)

    def _open(self, index: int, message: str = "", *, in_turn: bool = False) -> None:
        self.program.go(Walk(self.sheet, index, message, in_turn))

    def _go_on(self, message: str = "") -> None:
        """The next region; behind the last one the review is offered."""
        after = self.moving.region_beside(1)
        if after is not None:
            self._leave_for(after, message)
        else:
            self._begin_anew(message)
            self.show()
            self.moving.end(message)

    def _leave_for(self, index: int | None, message: str) -> None:
        if index is None:
            self.say_here(message)
        else:
            self.go_to(index, message)

    def go_to(self, index: int, message: str = "") -> None:
        """The sheet of the region in which a stop lies; a single measure taken up is opened itself."""
        stop = self.sheet.stops[index]
        self.sheet.place = index
        region = self.sheet.sheet_of(stop)
        if region == self._region and stop.point.kind == "measure":
            self._open(index, message)
            return
        self._region = region
        self._begin_anew(message)
        self.show()
        self.query_one("#lines").scroll_home(animate=False)

    def _rest(self, reason: str = "") -> None:
        """Record the rest as asked; then what has to be entered by itself, or the next region."""
        points = self.points
        if not self.can_write():
            return
        if self.sheet.signed and not reason:
            self.with_reason(self._rest, lambda: self.say_here("Not changed."))
            return
        stood = contradictions(self.sheet)
        saved = self.sheet.put_rest(points, reason)
        count = len(points.rest)
        told = f"{points.region.label}: {count} point{'' if count == 1 else 's'} as asked, given by region."
        told = f"{told}\n{raised(self.sheet, stood)}".strip()
        if not saved:
            self._begin_anew()
            self.show()
        elif points.stays_open:
            self._open(points.stays_open[0].stop.index, told, in_turn=True)
        else:
            self._go_on(told)

    # --- what else can be done on a sheet

    def action_step(self, follow: str) -> None:
        """Back and the menu by letter."""
        if follow == "back":
            self.follow(Step("back"))
        else:
            self.action_more()

    def action_other_way(self) -> None:
        """Point by point, from where one stands."""
        self.sheet.by_sheets = False
        marked = self.dialogue.cursor
        rows = self.points.rows
        if marked is not None and marked < len(rows):
            self._open(rows[marked].stop.index)
            return
        stood = self.sheet.place
        here = any(row.stop.index == stood for row in rows)
        first = self.points.open or rows
        self._open(stood if here else first[0].stop.index)

    def action_page(self, way: int) -> None:
        """Through a list that is longer than its room."""
        lines = self.query_one("#lines", VerticalScroll)
        lines.scroll_relative(y=way * max(1, lines.size.height - 1), animate=False)

    def action_more(self) -> None:
        """The menu of this region."""
        region = self.points.region.label
        lines = (
            Line("0", "how these points are found"),
            Line("1", f"skip what is open of the region {region}"),
            Line("2", "take back what is recorded here"),
            Line("3", "the measures of this region"),
            Line("4", "the next region with something open"),
            Line("5", "point by point"),
            Line("6", "review: what was found"),
            Line("7", "the dog drawn"),
            Line("8", "leave; everything is saved"),
        )
        doing = {
            "0": self.action_explain,
            "1": self.moving.skip_region,
            "2": self.action_take_back,
            "3": self.action_measures,
            "4": self.action_next_open,
            "5": self.action_other_way,
            "6": self.action_review,
            "7": self.action_figure,
            "8": self.action_leave,
        }
        screen = NumberedScreen(region, "What about this region?", lines)
        self.app.push_screen(screen, lambda key: doing[key]() if key is not None else None)

    def action_explain(self) -> None:
        """How the points of the region are found, with their cautions."""
        region, ruleset = self.points.region, self.sheet.ruleset
        rows = [Paragraph(text) for text in (region.intro, region.caution) if text]
        for row in self.points.rows:
            point = row.stop.point
            told = (
                ("Caution", point.caution),
                ("Asked", asked_in_short(ruleset, point, self.sheet.session.dog.sex)),
                ("Find", point.find),
                ("Stance", point.stance),
                ("Why", point.why),
            )
            text = "\n".join(f"{word}: {words}" for word, words in told if words)
            rows.append(Paragraph(text, f"{row.number} {point.label}"))
        self.app.push_screen(ReadingScreen(region.label, rows))

    def action_scribe(self) -> None:
        """The scribe's line, for the whole dog."""
        if self.can_write():
            self.program.go(Scribe(self.sheet, self.reload))

    # --- taking back

    def action_take_back(self) -> None:
        """One point's answer, or all that was given by region."""
        if not self.can_write():
            return
        points = self.points
        given = [row for row in points.rows if row.state == "answered"]
        skips = (row.answers.skip for row in points.rows)
        if not given and any(skip is not None and skip.region == self._region for skip in skips):
            self.sheet.unskip_region(self._region)
            self._begin_anew(f"{points.region.label}: no longer skipped.")
            self.show()
            return
        if not given:
            self.say_here("Nothing is recorded here.")
            return
        lines = [Line(str(row.number), row.stop.point.label, True, "; ".join(row.recorded)) for row in given]
        if points.by_region:
            lines.append(Line("0", f"all that was given by region: {len(points.by_region)}"))
        screen = NumberedScreen(points.region.label, "What is taken back?", lines)
        self.app.push_screen(screen, self._take_back)

    def _take_back(self, key: str | None) -> None:
        points = self.points
        if key == "0":
            self._changed(lambda reason: self.sheet.drop_rest(points, reason), "What was given by region")
        elif key is not None:
            row = points.rows[int(key) - 1]
            left = self._without(row)
            if left is None:
                self._open(row.stop.index, "Several things are recorded here: u takes one of them back.")
                return
            self._changed(
                lambda reason: self.sheet.put_answers(row.stop.point, left, reason), row.stop.point.label
            )

    def _without(self, row: SheetRow) -> Answers | None:
        """The point's answers without the one thing recorded there; None where there are several."""
        session = self.sheet.session
        dialogue = dialogue_for(row.stop.point, self.sheet.ruleset, row.answers, None, session.dog.sex)
        return dialogue.take_back().answers if len(row.recorded) == 1 else None

    def _changed(self, put: Callable[[str], bool], what: str) -> None:
        """Take back, with a reason once the session is signed."""

        def done(reason: str = "") -> None:
            saved = put(reason)
            self._begin_anew(f"{what}: taken back." if saved else self.sheet.saved_state())
            self.show()

        if self.sheet.signed:
            self.with_reason(done, lambda: self.say_here("Not changed."))
        else:
            done()

    # --- showing

    def reload(self) -> None:
        """Something was recorded beside the sheet, or the session was read anew."""
        self._begin_anew()
        self.show()

    def say_here(self, text: str) -> None:
        """Tell something under the points."""
        self.dialogue.message = text
        self.show()

    def show(self) -> None:
        """Everything as it is now."""
        cursor, typed, message = self.dialogue.cursor, self.dialogue.typed, self.dialogue.message
        self.dialogue.sheet = self.sheet.region_sheet(self._region)
        self.dialogue.cursor, self.dialogue.typed, self.dialogue.message = cursor, typed, message
        self.show_frame()
        region, prompt = self.points.region, self.dialogue.prompt()
        caution = f"\nCaution: {region.caution}" if region.caution else ""
        self.query_one("#head", Static).update(plain(f"{region.label}: {prompt.ask}{caution}"))
        lines = self.query_one("#lines", VerticalScroll)
        sex = self.sheet.session.dog.sex
        asked = {
            row.stop.point.id: asked_in_short(self.sheet.ruleset, row.stop.point, sex)
            for row in self.points.rows
        }
        rows = self.query_one(SheetRows)
        rows.show(self.points, asked, prompt)
        full = self.query_one("#full", Static)
        full.update(plain(rows.marked_in_full()))
        full.display = bool(rows.marked_in_full())
        for name, text in (("#message", prompt.message), ("#hint", prompt.hint)):
            line = self.query_one(name, Static)
            line.update(plain(text))
            line.display = bool(text)
        line = self.query_one("#typed", Static)
        line.update(typed_content(prompt))
        line.display = bool(prompt.typed)
        if prompt.selected is not None:
            self.call_after_refresh(lines.scroll_to, y=rows.line_of(prompt.selected) - 1, animate=False)
        self.call_after_refresh(self._fit)

    def _fit(self) -> None:
        """In full where that fits, else a line a point."""
        if self.stands:
            inside = self.query_one("#point").content_size
            others = map(self.query_one, ("#head", "#full", "#typed", "#message", "#hint"))
            room = max(2, inside.height - sum(lines_of(one, inside, self.app.size) for one in others))
            self.query_one(SheetRows).fit(room)
            self.query_one("#lines").styles.max_height = room
