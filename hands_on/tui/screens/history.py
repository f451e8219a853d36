"""One dog over all its examinations: every point over age, small plots beside the values."""

from __future__ import annotations

from itertools import pairwise

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from hands_on.compare.dogs.history import History, Moment, Thread
from hands_on.plain_text import one_line
from hands_on.tui import keys
from hands_on.tui.age_plot import away, large_plot, scale_ends
from hands_on.tui.asks import DogsDrawn
from hands_on.tui.dots import Dots
from hands_on.tui.drawing import no_blocks
from hands_on.tui.frame import Frame
from hands_on.tui.parts.drawn_dogs import drawn_of
from hands_on.tui.show import dotted, plain, wrapped
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.wording.ages import age_text, age_words
from hands_on.wording.answers import answer_words

PLOT = (22, 3)
"""Cells of a plot."""


class HistoryScreen(Frame[None]):
    """Values are printed; the plots only show their way."""

    NAME = "history"
    CSS_PATH = "history.tcss"
    BINDINGS = keys.bindings("history")

    def __init__(self, found: History) -> None:
        super().__init__()
        self.found = found
        self.only_moved = True
        self.at: int | None = None
        """The point shown large; None shows the list."""

    def compose(self) -> ComposeResult:
        """The examinations, then the points."""
        yield TitleLine(dotted("History", self.found.dog, f"{len(self.found.sessions)} examinations"))
        yield Static("", id="about", markup=False)
        with VerticalScroll(id="rows"):
            yield Static("", id="text", markup=False)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """What moved."""
        self.query_one("#rows").focus()
        self._show()

    def on_resize(self) -> None:
        """Fit again."""
        self._show()

    def action_figure(self) -> None:
        """The dog drawn then and now."""
        drawn = [drawn_of(one, f"{n}. {age_words(one.age)}") for n, one in enumerate(self.found.sessions, 1)]
        self.program.go(DogsDrawn(dotted("Then and now", self.found.dog), drawn[::-1], {}))

    def action_differing(self) -> None:
        """Only what moved, or everything."""
        self.only_moved, self.at = not self.only_moved, None
        self._show()

    @property
    def _threads(self) -> list[Thread]:
        """The points listed, in their order."""
        return [one for one in self.found.threads if one.moved or not self.only_moved]

    def action_large(self, way: int) -> None:
        """One point large; the next, or the one before."""
        drawable = [n for n, one in enumerate(self._threads) if len(one.drawn) > 1]
        if not drawable:
            return
        if self.at is None or self.at not in drawable:
            self.at = drawable[0]
        else:
            place = drawable.index(self.at) + way
            self.at = drawable[max(0, min(place, len(drawable) - 1))]
        self._show()

    def action_list(self) -> None:
        """Back to the list."""
        self.at = None
        self._show()

    def action_back(self) -> None:
        """From the large plot to the list, from there away."""
        if self.at is not None:
            self.action_list()
        else:
            self.dismiss(None)

    def _show_large(self, width: int) -> None:
        thread = self._threads[self.at or 0]
        height = max(6, self.size.height - 6 - len(thread.moments))
        lines = [plain(one_line(thread.label), "bold")]
        lines += [plain(row) for row in large_plot(thread, width, height)]
        lines += [plain(told(one)) for one in thread.moments]
        self.query_one("#text", Static).update(Content("\n").join(lines))
        self.query_one("#rows").scroll_home(animate=False)

    def _show(self) -> None:
        width = self.size.width - 4
        if width < 40:
            return
        sessions = [
            dotted(age_words(one.age), one.day, one.evaluator or "evaluator not named")
            for one in self.found.sessions
        ]
        about = [f"{n}. {text}" for n, text in enumerate(sessions, 1)]
        about.append("Plots: age to the right; the bar is ± the standard uncertainty. Enter draws one large.")
        self.query_one("#about", Static).update(plain("\n".join(about)) if self.at is None else "")
        if self.at is not None:
            self._show_large(width)
            return
        regions = {region.id: region.label for one in self.found.sessions for region in one.ruleset.regions}
        lines: list[Content] = []
        region = None
        for thread in self.found.threads:
            if self.only_moved and not thread.moved:
                continue
            if thread.region != region:
                region = thread.region
                lines += [
                    *([Content("")] if lines else []),
                    plain(one_line(regions.get(region, region)), "bold underline"),
                ]
            lines += self._thread(thread, width)
        if not lines:
            lines = [
                plain("Nothing was said otherwise: d shows every point." if self.only_moved else "Nothing.")
            ]
        self.query_one("#text", Static).update(Content("\n").join(lines))

    def _thread(self, thread: Thread, width: int) -> list[Content]:
        ages = [one.age for one in self.found.sessions if one.age is not None]
        drawn = plot(thread, (min(ages), max(ages))) if ages else []
        room = width - PLOT[0] - 2
        words = [part for one in thread.moments for part in wrapped(told(one), room)]
        texts = [plain(one_line(thread.label), "bold"), *(plain(text) for text in words)]
        lines = []
        for n in range(max(len(texts), len(drawn))):
            left = drawn[n] if n < len(drawn) else ""
            lines.append(
                Content.assemble(left.ljust(PLOT[0] + 2), texts[n] if n < len(texts) else Content(""))
            )
        return lines


def told(one: Moment) -> str:
    """What was said at one age."""
    age, day = one.session.age, one.session.day
    when = age_text(age) if age is not None else day or "when is not known"
    young = " (too young to judge)" if one.answer.too_young else ""
    return one_line(f"{when}: {answer_words(one.answer, one.session.ruleset)}{young}")


def plot(thread: Thread, ages: tuple[float, float]) -> list[str]:
    """The values over age, a bar of ± u at each; nothing where fewer than two can be drawn."""
    drawn = thread.drawn
    if len(drawn) < 2:
        return []
    width, height = PLOT
    dots = Dots(width, height, letters=no_blocks())
    low = min(value - u for _, value, u in drawn)
    high = max(value + u for _, value, u in drawn)
    if thread.kind != "measure":
        low, high = scale_ends(thread)
    span, years = (high - low) or 1.0, (ages[1] - ages[0]) or 1.0

    def cell(age: float, value: float) -> tuple[float, float]:
        up = away(thread, value)
        return (age - ages[0]) / years * (width - 1), (high - up) / span * (height - 0.5)

    for (age, value, _), (after, later, _) in pairwise(drawn):
        dots.line((cell(age, value), cell(after, later)), "fine", "dotted")
    for age, value, u in drawn:
        dots.line((cell(age, value - u), cell(age, value + u)), "fine")
    return dots.rows()
