"""For a room: one point at a time in large letters, first the question, then the answers."""

from __future__ import annotations

from dataclasses import dataclass

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from hands_on.compare.dogs.side_by_side import ComparedTrait, SideBySide
from hands_on.measure.units import format_value
from hands_on.plain_text import one_line
from hands_on.report.drawn_dogs import really_differ
from hands_on.tui import keys
from hands_on.tui.asked_scale import asked_scale
from hands_on.tui.asks import DogsDrawn
from hands_on.tui.big_letters import big_lines
from hands_on.tui.drawing import no_blocks
from hands_on.tui.frame import Frame
from hands_on.tui.parts.drawn_dogs import drawn_of
from hands_on.tui.show import dotted, plain, wrapped
from hands_on.tui.side_rows import mark_words
from hands_on.tui.widgets.lines import FooterLine, TitleLine
from hands_on.tui.widgets.side_table import row_lines
from hands_on.wording.ages import too_young_words
from hands_on.wording.asked_beside import asked_beside, beside_sentence
from hands_on.wording.differences import difference_sentence
from hands_on.wording.dogs import cell_words
from hands_on.wording.labels import label_words

TALL = 36
"""Lines from which a region's title is drawn larger."""

_SIZES = (
    (4, 2, True),
    (3, 2, True),
    (2, 2, True),
    (2, 1, True),
    (2, 1, False),
    (1, 1, True),
    (1, 1, False),
    (1, 0, True),
    (1, 0, False),
    (0, 0, True),
    (0, 0, False),
)
"""Scale of the answers, scale of label and verdict, and whether what is drawn is written too: the first that
fits is taken."""

HIDDEN = "?"
"""In the place of an answer that is not shown yet."""


@dataclass(frozen=True)
class Slide:
    """What is shown at once."""

    region: str
    title: str
    rows: tuple[ComparedTrait, ...]


class ProjectorScreen(Frame[None]):
    """Steps through the regions; Enter shows the answers, and then goes on."""

    NAME = "projector"
    CSS_PATH = "projector.tcss"
    BINDINGS = keys.bindings("projector")

    def __init__(self, compared: SideBySide, at: str = "", *, only_different: bool = False) -> None:
        """`at`: the region to begin with."""
        super().__init__()
        self.compared = compared
        self.only_different, self.one_at_a_time = only_different, True
        self.slides = self._slides()
        self.at = next((n for n, slide in enumerate(self.slides) if slide.region == at), 0)
        self.open = False
        """Do the answers show?"""
        self.hidden = False
        """Are the dogs shown by number only?"""

    def compose(self) -> ComposeResult:
        """Where, what, who and what they have."""
        yield TitleLine("")
        with VerticalScroll(id="slide", can_focus=False):
            yield Static("", id="shown", markup=False)
        yield Static("", id="next", markup=False)
        yield FooterLine(self.NAME)

    def opened(self) -> None:
        """The first question."""
        self.show()

    def on_resize(self) -> None:
        """Letters as large as there is room."""
        if self.is_mounted:
            self.show()

    @property
    def slide(self) -> Slide | None:
        """What is shown; None where there is nothing to show."""
        return self.slides[self.at] if self.slides else None

    # --- keys

    def action_on(self) -> None:
        """The answers, then the next question."""
        if not self.open:
            self.open = True
        elif self.at + 1 < len(self.slides):
            self.at, self.open = self.at + 1, False
        self.show()

    def action_before(self) -> None:
        """Hide the answers, or the question before with its answers."""
        if self.open:
            self.open = False
        elif self.at:
            self.at, self.open = self.at - 1, True
        self.show()

    def action_region(self, way: int) -> None:
        """The first question of the next region, or of the one before."""
        if self.slide is None:
            return
        regions = list(dict.fromkeys(slide.region for slide in self.slides))
        place = regions.index(self.slide.region) + way
        wanted = regions[max(0, min(place, len(regions) - 1))]
        self.at = next(n for n, slide in enumerate(self.slides) if slide.region == wanted)
        self.open = False
        self.show()

    def action_differing(self) -> None:
        """Only what differs, or everything."""
        self.only_different = not self.only_different
        self._again()

    def action_many(self) -> None:
        """A point at a time, or a region."""
        self.one_at_a_time = not self.one_at_a_time
        self._again()

    def action_names(self) -> None:
        """The dogs by name, or by number only."""
        self.hidden = not self.hidden
        self.show()

    def action_figure(self) -> None:
        """The dogs drawn over each other, over the whole screen."""
        drawn = [drawn_of(one, name) for one, name in zip(self.compared.sessions, self.names, strict=True)]
        self.program.go(DogsDrawn("Dogs drawn", drawn, really_differ(self.compared)))

    def _again(self) -> None:
        """Other slides; the same point, or at least the same region."""
        old = self.slide
        self.slides = self._slides()
        names = {row.id for row in old.rows} if old is not None else set()
        self.at = next(
            (n for n, slide in enumerate(self.slides) if names & {row.id for row in slide.rows}),
            next((n for n, slide in enumerate(self.slides) if old and slide.region == old.region), 0),
        )
        self.open = False
        self.show()

    # --- showing

    def _slides(self) -> tuple[Slide, ...]:
        slides: list[Slide] = []
        parts = [(region, label, self.compared.in_region(region)) for region, label in self.compared.regions]
        parts.append(("proportions", "Proportions", list(self.compared.proportions)))
        for region, label, rows in parts:
            shown = [row for row in rows if row.given and (row.differs or not self.only_different)]
            if self.one_at_a_time:
                slides += [Slide(region, label, (row,)) for row in shown]
            elif shown:
                slides.append(Slide(region, label, tuple(shown)))
        return tuple(slides)

    def show(self) -> None:
        """The slide as it is now."""
        slide = self.slide
        filtered = "only what differs" if self.only_different else ""
        if slide is None:
            self.query_one(TitleLine).say(dotted("In large", *self.names))
            self.query_one("#shown", Static).update("Nothing differs: d shows every point.")
            self.query_one("#next", Static).update("")
            return
        label = label_words(slide.rows[0].named) if self.one_at_a_time else ""
        names = () if self.one_at_a_time else self.names  # a slide of one point has them above the answers
        self.query_one(TitleLine).say(
            dotted(slide.title, label, f"{self.at + 1} of {len(self.slides)}", filtered, *names)
        )
        rows = self._one(slide.rows[0]) if self.one_at_a_time else self._many(slide)
        self.query_one("#shown", Static).update(Content("\n").join(rows))
        self.query_one("#slide", VerticalScroll).scroll_home(animate=False)
        if not self.open:
            told = "Enter shows the answers."
        elif self.at + 1 < len(self.slides):
            after = self.slides[self.at + 1]
            title = label_words(after.rows[0].named) if self.one_at_a_time else after.title
            told = f"Enter: on to {title}."
        else:
            told = "This was the last one; Esc goes back."
        self.query_one("#next", Static).update(plain(told))

    @property
    def _width(self) -> int:
        return max(20, self.size.width - 8)  # margins, and the bar of a slide that scrolls

    @property
    def _room(self) -> int:
        """Rows that a slide has."""
        return max(4, self.size.height - 5)

    @property
    def names(self) -> tuple[str, ...]:
        """The dogs by number, with their names unless these are hidden."""
        if self.hidden:
            return tuple(f"Dog {n}" for n in range(1, len(self.compared.dogs) + 1))
        return tuple(f"{n} {name}" for n, name in enumerate(self.compared.dogs, 1))

    def _one(self, row: ComparedTrait) -> list[Content]:
        """One point as large as the room allows."""
        lines: list[Content] = []
        for values, rest, words in _SIZES:
            lines = self._sized(row, values, rest, words=words)
            if len(lines) <= self._room:
                return lines
        return lines

    def _sized(self, row: ComparedTrait, values: int, rest: int, *, words: bool) -> list[Content]:
        """One point, a block for each dog; the answers at one scale, label and verdict at another.

        With `words` what is drawn in large letters is written under them as well.
        """
        dogs = len(self.compared.dogs)
        space = [Content("")]
        lines = [*self._large(label_words(row.named), self._width, 2, rest, "bold"), *space]
        across = 3 if dogs > 4 or dogs == 3 else min(dogs, 2)
        each = self._width // across - 2
        for start in range(0, dogs, across):
            blocks = [
                self._dog(row, place, each, values, words=words)
                for place in range(start, min(start + across, dogs))
            ]
            lines += [*_beside(blocks, each + 2), *space]
        if self.open:
            scales = self._scales(row)
            lines += [*scales, *(space if scales else [])]
            lines += self._large(mark_words(row, dogs > 2), self._width, 2, rest, "bold reverse")
            head = row.headline
            if words:
                # In words too: not everybody reads the drawing, and a copy of the screen keeps them.
                told = [mark_words(row, dogs > 2)] if rest else []
                told += [difference_sentence(head)] if head is not None and row.differs else []
                lines += map(plain, wrapped(one_line("; ".join(told)), self._width))
        return lines

    def _scales(self, row: ComparedTrait) -> list[Content]:
        """What is asked for as a scale, with every dog's value on it by its number."""
        lines: list[Content] = []
        for beside in asked_beside(self.compared, row):
            of = [
                (str(place + 1), value)
                for place, _ in beside.whose
                if (value := row.answers[place].value) is not None
            ]
            if not no_blocks():
                drawn = asked_scale(beside.low, beside.high, of, min(self._width, 100), beside.unit)
                lines += map(Content, drawn)
            lines.append(plain(beside_sentence(beside, self.names)))
        return lines

    def _dog(self, row: ComparedTrait, place: int, width: int, scale: int, *, words: bool) -> list[Content]:
        answer = row.answers[place]
        head = [plain(text, "bold underline") for text in wrapped(one_line(self.names[place]), width)]
        if not self.open:
            return [*head, *self._large(HIDDEN, width, 1, scale)]
        told = cell_words(self.compared, row, place)
        short = told
        if answer.value is not None and row.unit:
            short = format_value(answer.value, row.unit, 2 if row.unit == "share" else 1)
            if not no_blocks() and big_lines(short, width, 1, 1) is None:
                # Beside two others there is room for the figure alone; the unit stands below.
                short = f"{answer.value:.{2 if row.unit == 'share' else 1}f}"
        most = 1 if answer.value is not None else 3 if len(self.compared.dogs) <= 3 else 2
        lines = [*head, *self._large(short, width, most, scale, "bold")]
        if words and (scale or short != told):
            lines += [plain(text, "dim") for text in wrapped(one_line(told), width)]
        if answer.too_young is not None:
            lines += map(plain, wrapped(one_line(too_young_words(answer.too_young)), width))
        return lines

    def _large(self, text: str, width: int, most: int, scale: int, style: str = "") -> list[Content]:
        """In letters of the largest scale up to `scale` that fits into `most` lines; otherwise as text."""
        if not no_blocks():
            for size in range(scale, 0, -1):
                drawn = big_lines(one_line(text), width, most, size)
                if drawn is not None:
                    return [*map(Content, drawn)]
        return [plain(row, style) for row in wrapped(one_line(text), width)]

    def _many(self, slide: Slide) -> list[Content]:
        """The points of a region under each other, an empty line between."""
        dogs = len(self.compared.dogs)
        label, mark = self._width // 4, self._width // 5
        each = max(8, (self._width - label - mark) // dogs - 2)
        widths = [label, *[each] * dogs, mark]
        lines = [*self._large(slide.title, self._width, 1, 2 if self.size.height >= TALL else 1, "bold")]
        lines += [Content(""), *row_lines(["", *self.names, ""], widths, "bold underline"), Content("")]
        for row in slide.rows:
            cells = [cell_words(self.compared, row, place) if self.open else HIDDEN for place in range(dogs)]
            verdict = mark_words(row, dogs > 2) if self.open else ""
            style = "bold" if self.open and row.real else ""
            lines += [*row_lines([label_words(row.named), *cells, verdict], widths, style), Content("")]
        return lines


def _beside(blocks: list[list[Content]], width: int) -> list[Content]:
    """Blocks of lines beside each other, each `width` cells wide."""
    lines = []
    for number in range(max(map(len, blocks))):
        parts: list[Content] = []
        for block in blocks:
            part = block[number] if number < len(block) else Content("")
            parts += [part, Content(" " * max(0, width - part.cell_length))]
        lines.append(Content.assemble(*parts))
    return lines
