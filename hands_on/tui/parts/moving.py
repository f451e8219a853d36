"""Ways through the dog: jump to a region, on to what is open, skip a region, the end of the walk."""

from __future__ import annotations

from collections.abc import Collection
from typing import Protocol

from hands_on.exam.dialogue import Line
from hands_on.exam.left_out import left_out
from hands_on.exam.region_sheet import sheets
from hands_on.exam.walk import Stop
from hands_on.tui.asks import Doing, Review
from hands_on.tui.current_examination import CurrentExamination
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.typed import TypedScreen
from hands_on.tui.session_screen import SessionScreen
from hands_on.tui.widgets.region_list import how_far

REASONS = {
    "1": "the dog would not allow it",
    "2": "the coat hides it",
    "3": "no instrument",
    "4": "not needed today",
    "5": "dog in pain or upset: stopped",
}
"""Why something is skipped, by the number that says so."""


class Walker(Protocol):
    """Where one stands and can go."""

    @property
    def stop(self) -> Stop:
        """Where the walk stands."""

    def go_to(self, index: int, message: str = "") -> None:
        """Show a stop of the walk, or the sheet it stands on."""

    def action_other_way(self) -> None:
        """From single points to the region's sheet, and back."""


class Moving:
    """The same from a point and from a sheet."""

    def __init__(self, screen: SessionScreen, place: Walker) -> None:
        self.screen, self.place = screen, place

    @property
    def sheet(self) -> CurrentExamination:
        """The examination on the screen."""
        return self.screen.sheet

    def beside(self, way: int, past: Collection[str] = ()) -> int | None:
        """The next stop, or the one before, that this examination asks for; None where there is none.

        Points in `past` are passed by.
        """
        index = self.place.stop.index + way
        while 0 <= index < len(self.sheet.stops):
            point = self.sheet.stops[index].point
            if point.id not in past and not left_out(self.sheet.session, point):
                return index
            index += way
        return None

    def onward(self, *, in_turn: bool) -> int | str | None:
        """Where a point leads when done: the index of a stop, the region whose sheet follows, or the end.

        From a sheet one comes back to it; `in_turn`, first to its other open points, and behind the last of
        them to the next region. What was called out already is not asked again.
        """
        called = self.sheet.called()
        if not self.sheet.by_sheets:
            return self.beside(1, called)
        stop = self.place.stop
        region = self.sheet.sheet_of(stop)
        if not in_turn:
            return region
        points = self.sheet.region_sheet(region)
        rows = [row.stop for row in points.open if row.stop.point.id not in called]
        later = [one.index for one in rows if one.index > stop.index]
        if later:
            return later[0]
        after = self.region_beside(1)
        return self.sheet.stops[after].region.id if after is not None else None

    def region_beside(self, way: int) -> int | None:
        """The first stop of the next region, or of the one before, of which something is asked."""
        here = self.sheet.sheet_of(self.place.stop)
        names = sheets(self.sheet.stops, self.sheet.session)
        if here not in names:
            return self.beside(way)
        at = names.index(here) + way
        if not 0 <= at < len(names):
            return None
        return next(stop.index for stop in self.sheet.stops if stop.region.id == names[at])

    def jump(self) -> None:
        """The regions by number; 0 changes between single points and the region's sheet."""
        rows = self.sheet.progress()
        lines = [Line(str(row.number), row.region.label, aside=how_far(row)) for row in rows]
        other = "by regions: all points of a region on one sheet (t)"
        lines.append(Line("0", "point by point (t)" if self.screen.NAME == "sheet" else other))
        ask = "Which region? (answered/asked, -skipped)"
        self.screen.app.push_screen(NumberedScreen("Jump", ask, lines), self._jump)

    def _jump(self, key: str | None) -> None:
        if key == "0":
            self.place.action_other_way()
            return
        row = next((row for row in self.sheet.progress() if str(row.number) == key), None)
        if row is None:
            return
        inside = [stop.index for stop in self.sheet.stops if stop.region.id == row.region.id]
        if self.sheet.by_sheets:  # what is said at the end stands on another sheet
            on = [n for n in inside if self.sheet.sheet_of(self.sheet.stops[n]) == row.region.id]
            inside = on or inside
        nearest = self.sheet.first_open(row.first - 1)
        begins = row.first if row.first in inside else inside[0]
        self.place.go_to(nearest if nearest in inside else begins)

    def next_open(self) -> None:
        """The next point without an answer."""
        index = self.sheet.first_open(self.place.stop.index)
        if index is None:
            self.screen.say_here("Nothing is open any more: r for the review.")
        else:
            self.place.go_to(index)

    # --- a whole region

    def skip_region(self) -> None:
        """Ask why the whole region is skipped."""
        if self.sheet.signed:
            self.screen.say_here(
                "After the signature a region is no longer skipped as a whole; skip its points."
            )
            return
        lines = [*(Line(key, why) for key, why in REASONS.items()), Line("6", "another reason (typed)")]
        region = self.place.stop.region.label
        screen = NumberedScreen(f"Skip {region}", "Why? Answers already given there stay.", lines)

        def chosen(key: str | None) -> None:
            if key in REASONS:
                self._skip(REASONS[key])
            elif key == "6":
                typed = TypedScreen(f"Skip {region}", "Why is it skipped?")
                self.screen.app.push_screen(typed, lambda why: self._skip(why) if why else None)

        self.screen.app.push_screen(screen, chosen)

    def _skip(self, why: str) -> None:
        stop = self.place.stop
        if not self.screen.can_write():
            return
        self.sheet.skip_region(stop.region.id, why)
        later = [one.index for one in self.sheet.stops[stop.index :] if one.region.id != stop.region.id]
        self.place.go_to(later[0] if later else stop.index)
        self.screen.say_here(f"{stop.region.label}: skipped, {why}.")

    # --- the end of the walk

    def end(self, message: str) -> None:
        """Behind the last point: what is open, and what comes after the walk."""
        left = self.sheet.counts()[2]
        told = f"This was the last point. {message}".strip()
        review: dict[str, Doing] = {"3": "summary", "4": "outcome", "5": "decide", "6": "sign"}
        lines = [
            Line("1", "review: what was found"),
            Line("2", f"go to the next open point ({left} left)" if left else "nothing is open any more"),
            Line("3", "summary in your own words"),
            Line("4", "outcome"),
            Line("5", "decide on the findings"),
            Line("6", "sign"),
            Line("7", "leave; everything is saved"),
            Line("0", "stay here"),
        ]

        def chosen(key: str | None) -> None:
            if key == "1":
                self.screen.program.go(Review(self.sheet))
            elif key == "2":
                self.next_open()
            elif key in review:
                self.screen.program.go(Review(self.sheet, review[key]))
            elif key == "7":
                self.screen.action_leave()

        screen = NumberedScreen("The end of the walk", "What now?", lines, message=told)
        self.screen.app.push_screen(screen, chosen)
