"""All measures of a region that are defined, asked by the edition or not, taken up by their number."""

from __future__ import annotations

from hands_on.exam.dialogue import Line
from hands_on.exam.walk import measures_of
from hands_on.tui.parts.moving import Walker
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.session_screen import SessionScreen


class MeasurePicker:
    """Which measure is taken next; one that the walk does not ask joins it."""

    def __init__(self, screen: SessionScreen, place: Walker) -> None:
        self.screen, self.place = screen, place

    def pick(self) -> None:
        """Ask for one of them."""
        sheet, region = self.screen.sheet, self.place.stop.region
        found = measures_of(sheet.ruleset, sheet.session, region.id)
        if not found:
            self.screen.say_here(f"{region.label}: no measure is defined for this region.")
            return
        on_walk = {stop.point.id for stop in sheet.stops}
        lines = []
        for number, point in enumerate(found, 1):
            taken = sum(not take.struck for take in sheet.answers_at(point).takes)
            takes = f"{taken} take{'' if taken == 1 else 's'}" if taken else ""
            asked = "" if point.id in on_walk else "not asked"
            tool = f"{point.instrument}, {point.unit}" if point.instrument else point.unit
            aside = "; ".join(part for part in (takes or tool, asked) if part)
            lines.append(Line(str(number), point.label, bool(taken), aside))

        def chosen(key: str | None) -> None:
            if key is not None:
                self.place.go_to(sheet.take_up(found[int(key) - 1]))

        screen = NumberedScreen(f"Measures of this region: {region.label}", "Which one is taken?", lines)
        self.screen.app.push_screen(screen, chosen)
