"""The dog's teeth as seen from the front, by Triadan number, with a sign for each mark."""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static

from hands_on.exam.dentition import TEETH
from hands_on.exam.entry.teeth import MARKS, ROWS, SIGNS, TeethDialogue

SOUND = "·"
"""Under a tooth that bears no mark."""

WIDE = 96
"""Cells from which numbers are written with all three figures."""


class ToothChart(Static):
    """Upper jaw above, the dog's right on the left."""

    def __init__(self) -> None:
        super().__init__("", markup=False)
        self._dialogue: TeethDialogue | None = None

    def show(self, dialogue: TeethDialogue) -> None:
        """The chart as it is recorded, and where the arrows stand."""
        self._dialogue = dialogue
        self._draw()

    def on_resize(self) -> None:
        """Fit again."""
        self._draw()

    def _draw(self) -> None:
        if self._dialogue is not None and self.size.width:
            self.update(chart(self._dialogue, wide=self.size.width >= WIDE))


def chart(dialogue: TeethDialogue, *, wide: bool) -> Content:
    """Both jaws, names between them, and what the signs mean.

    In a narrow place a tooth's number is written without its first figure, which stands at the row's end.
    """
    cell = 4 if wide else 3
    recorded = dialogue.answers.teeth is not None
    rows: list[Content] = []
    for jaw, numbers in enumerate(ROWS):
        half = len(numbers) // 2
        pad = " " * cell * (11 - half)
        names = Content("").join(_cell(TEETH[number], cell) for number in numbers[:half])
        names_left = Content("").join(_cell(TEETH[number], cell) for number in numbers[half:])
        right, left = (numbers[0] // 100, numbers[-1] // 100)
        labels = Content.assemble("      ", pad, names, " |", names_left)
        figures = Content.assemble(
            f"{right}.. > "[:6],
            pad,
            _numbers(dialogue, numbers[:half], cell, wide),
            " |",
            _numbers(dialogue, numbers[half:], cell, wide),
            pad,
            f" < {left}..",
        )
        marks = Content.assemble(
            "      ",
            pad,
            _marks(dialogue, numbers[:half], cell),
            " |",
            _marks(dialogue, numbers[half:], cell),
        )
        rows += [labels, figures, marks] if jaw == 0 else [marks, figures, labels]
        if jaw == 0:
            rows.append(
                Content.styled("right" + "-" * (11 * cell - 1) + "+" + "-" * (11 * cell + 1) + " left", "dim")
            )
    legend = "  ".join(f"{SIGNS[mark]} {mark}" for mark in MARKS)
    rows.append(
        Content.assemble(f"{SOUND} {'there and sound' if recorded else 'not recorded yet'}  {legend}")
    )
    return Content("\n").join(rows)


def _cell(text: str, width: int) -> Content:
    return Content(text.rjust(width))


def _numbers(dialogue: TeethDialogue, numbers: tuple[int, ...], cell: int, wide: bool) -> Content:
    parts = []
    for number in numbers:
        text = str(number) if wide else f"{number % 100:02}"
        if number == dialogue.at:
            parts.append(Content.assemble((f">{text}".rjust(cell), "bold reverse")))
        else:
            parts.append(Content.styled(text.rjust(cell), "bold" if dialogue.marks_on(number) else ""))
    return Content("").join(parts)


def _marks(dialogue: TeethDialogue, numbers: tuple[int, ...], cell: int) -> Content:
    parts = []
    for number in numbers:
        signs = "".join(SIGNS[mark] for mark in dialogue.marks_on(number))
        parts.append(Content.styled((signs or SOUND)[: cell - 1].rjust(cell), "bold" if signs else "dim"))
    return Content("").join(parts)
