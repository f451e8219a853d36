"""What a point and a region's sheet share: dog and progress above, regions and findings beside or below."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.events import Key
from textual.geometry import Size
from textual.widget import Widget
from textual.widgets import Static

from hands_on.exam.dialogue import Dialogue, Step
from hands_on.exam.dialogue.stray import StrayNumber
from hands_on.exam.walk import Stop
from hands_on.tui.asks import DogDrawn, Review
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.keys.dialogue import FIGURES, dialogue_key
from hands_on.tui.parts.fault_picker import FaultPicker
from hands_on.tui.parts.measure_picker import MeasurePicker
from hands_on.tui.parts.moving import Moving
from hands_on.tui.parts.point_view import progress_words, who_words
from hands_on.tui.session_screen import SessionScreen
from hands_on.tui.show import plain
from hands_on.tui.widgets.findings import FindingList
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.tui.widgets.region_list import RegionList, RegionStrip


class WalkFrame(SessionScreen):
    """Keys go to the dialogue first; letters are commands as long as nothing is being typed."""

    AUTO_FOCUS = ""
    dialogue: Dialogue

    def __init__(self, sheet: CurrentExamination) -> None:
        super().__init__(sheet)
        self._stray = StrayNumber()
        self._told_of = ""
        self.moving = Moving(self, self)
        self.picker = FaultPicker(self, self)
        self.measures = MeasurePicker(self, self)

    @property
    def stop(self) -> Stop:
        """Where the walk stands."""
        raise NotImplementedError

    def middle(self) -> ComposeResult:
        """What stands between the frame."""
        raise NotImplementedError

    def follow(self, step: Step) -> None:
        """Do what a key at the dialogue leads to."""
        raise NotImplementedError

    def go_to(self, index: int, message: str = "") -> None:
        """Show a stop of the walk, or the sheet it stands on."""
        raise NotImplementedError

    def open_point(self, index: int, message: str) -> None:
        """Show the point itself, from a sheet too."""
        raise NotImplementedError

    def action_other_way(self) -> None:
        """From single points to the region's sheet, and back."""
        raise NotImplementedError

    def compose(self) -> ComposeResult:
        """Dog and progress above, findings beside or below, the point or the sheet in the middle."""
        yield TitleLine("")
        with Horizontal(id="state"):
            yield Static("", id="progress", markup=False)
            yield Static("", id="saved", markup=False)
        yield RegionStrip()
        with Horizontal(id="body"):
            with VerticalScroll(id="regions", can_focus=False):
                yield RegionList()
            with Vertical(id="point"):
                yield from self.middle()
            with VerticalScroll(id="beside", can_focus=False):
                yield FindingList()
        yield FindingList(id="below")
        yield FooterLine(self.NAME)

    def on_resize(self) -> None:
        """What is shown is fitted to the room."""
        if self.stands:
            self.show()

    @property
    def stands(self) -> bool:
        """Are the widgets there? What waits for a refresh may come when another screen is shown."""
        return self.is_mounted and self.is_attached and bool(self.query(FooterLine))

    def would_lose(self) -> bool:
        """Answers in memory only, words that are not recorded, or an answer half typed?"""
        return self._half_typed != "" or super().would_lose()

    def ask_to_leave(self) -> None:
        """An answer half typed is dropped by the second key only."""
        if self._half_typed not in ("", self._told_of):
            self._told_of = self._half_typed
            self.say_here(f"{self._half_typed} is not taken yet: Enter takes it. Ctrl+Q once more drops it.")
        elif super().would_lose():
            super().ask_to_leave()
        else:
            self.program.leave_session(self.sheet)

    @property
    def _half_typed(self) -> str:
        prompt = self.dialogue.prompt()
        return prompt.typed if prompt.typing else ""

    async def on_key(self, event: Key) -> None:
        """Commands run from here, not from the bindings, so that keys pressed fast keep their order."""
        if self.focused is not None or self.app.screen is not self:
            return
        key = dialogue_key(event)
        if key is not None and self._stray.takes(key):
            event.stop()
            self.say_here(self._stray.told)
            return
        if key is not None and self._is_answer(key):
            event.stop()
            step = self.dialogue.press(key)
            self._stray.pressed(refused=self.dialogue.refused)
            self.follow(step)
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

    def show_frame(self, *, hidden: bool = False) -> None:
        """Everything around the middle as it is now; `hidden` keeps the findings to themselves."""
        sheet, region = self.sheet, self.stop.region.id
        self.query_one(TitleLine).say(who_words(sheet))
        self.query_one("#progress", Static).update(progress_words(sheet))
        trouble = bool(sheet.unsaved or sheet.read_only)
        saved = self.query_one("#saved", Static)
        saved.update(plain(sheet.saved_state()))
        saved.set_class(trouble, "-trouble")
        self.query_one("#state").set_class(trouble, "-trouble")
        rows = sheet.progress()
        self.query_one(RegionList).show(rows, region)
        self.query_one(RegionStrip).show(rows, region)
        for place, in_short in (("#beside FindingList", False), ("#below", True)):
            findings = self.query_one(place, FindingList)
            findings.show(sheet.ruleset, sheet.evaluation, in_short=in_short)
            findings.visible = not hidden

    # --- what can be done on both

    def action_jump(self) -> None:
        """The regions by number."""
        self.moving.jump()

    def action_next_open(self) -> None:
        """The next point without an answer."""
        self.moving.next_open()

    def action_measures(self) -> None:
        """All measures of this region that can be taken."""
        self.measures.pick()

    def action_fault(self) -> None:
        """Pick a fault from the list of all."""
        self.picker.pick(self.stop.region.id)

    def action_figure(self) -> None:
        """The dog drawn over what the edition asks."""
        self.program.go(DogDrawn(self.sheet, self.stop.point.id))

    def action_review(self) -> None:
        """What was found."""
        self.program.go(Review(self.sheet))


def lines_of(widget: Widget, inside: Size, window: Size) -> int:
    """Lines that a text takes; one that has only just come, or has no room, is not laid out."""
    if not widget.display:
        return 0
    return widget.get_content_height(inside, window, inside.width) + widget.styles.margin.height
