"""The dog's teeth as seen from the front, by Triadan number, with a sign for each mark."""

from __future__ import annotations

from textual.content import Content
from textual.geometry import Size
from textual.widgets import Static

from hands_on.exam.dialogue.teeth import MARKS, ROWS, SIGNS, TeethDialogue
from hands_on.ruleset.dentition import TEETH
from hands_on.tui.show import plain

SOUND = "·"
"""Under a tooth that bears no mark."""

WIDE, USUAL = 98, 76
"""Cells for numbers with all three figures, and with two; in less the quarters stand under each other."""

STACKED_LINES = 26
"""Lines of the place in which four quarters under each other leave room for question and answers."""


class ToothChart(Static):
    """Upper jaw above, the dog's right on the left; where it cannot be drawn the marks are only listed."""

    def __init__(self) -> None:
        super().__init__("", markup=False)

    def show(self, dialogue: TeethDialogue | None, place: Size) -> None:
        """The chart as it is recorded, and where the arrows stand, for a place of this size."""
        self.display = dialogue is not None and (place.width >= USUAL or place.height >= STACKED_LINES)
        if dialogue is None or not self.display:
            return
        if place.width >= USUAL:
            self.update(chart(dialogue, wide=place.width >= WIDE))
        else:
            self.update(quarters(dialogue))


def chart(dialogue: TeethDialogue, *, wide: bool) -> Content:
    """Upper jaw, names, lower jaw, and what the signs mean; 76 cells, or 98 when `wide`.

    In a narrow place a tooth's number is written without its first figure, which stands at the row's ends.
    """
    cell = 4 if wide else 3
    upper, lower = ROWS
    names = tuple(TEETH[number] for number in lower)
    rows = [
        _row("1xx", [_number(dialogue, tooth, wide) for tooth in upper], cell, "2xx"),
        _row("right", [_mark(dialogue, tooth) for tooth in upper], cell, "left"),
        _row("", [(name, "dim") for name in names], cell, ""),
        _row("", [_mark(dialogue, tooth) for tooth in lower], cell, ""),
        _row("4xx", [_number(dialogue, tooth, wide) for tooth in lower], cell, "3xx"),
        _legend(dialogue),
    ]
    return Content("\n").join(rows)


def quarters(dialogue: TeethDialogue) -> Content:
    """The four quarters under each other, each from left to right as seen from the front; 56 cells."""
    rows = []
    for row, names in zip(ROWS, (("upper right", "upper left"), ("lower right", "lower left")), strict=True):
        half = len(row) // 2
        for name, teeth in zip(names, (row[:half], row[half:]), strict=True):
            numbers = [_number(dialogue, tooth, wide=True) for tooth in teeth]
            marks = [_mark(dialogue, tooth) for tooth in teeth]
            for head, cells in ((name, numbers), ("", marks)):
                parts = [Content.styled(text.rjust(4), style) for text, style in cells]
                rows.append(Content.assemble(head.ljust(12), *parts))
    return Content("\n").join([*rows, _legend(dialogue)])


def _legend(dialogue: TeethDialogue) -> Content:
    sound = "there and sound" if dialogue.answers.teeth is not None else "not recorded yet"
    return plain("  ".join([f"{SOUND} {sound}", *(f"{SIGNS[mark]} {mark}" for mark in MARKS)]))


def _row(start: str, cells: list[tuple[str, str]], cell: int, end: str) -> Content:
    """The dog's right half, a bar, its left half; a shorter upper jaw is set in the middle."""
    half = len(cells) // 2
    gap = " " * cell * (11 - half)
    parts = [Content.styled(text.rjust(cell), style) for text, style in cells]
    first = Content.assemble(gap, *parts[:half])
    # A longer word reaches into the place of the last molar, which the upper jaw does not have.
    head = start.ljust(4)
    return Content.assemble(head, first[len(head) - 4 :], " |", *parts[half:], gap, f" {end}")


def _number(dialogue: TeethDialogue, tooth: int, wide: bool) -> tuple[str, str]:
    text = str(tooth) if wide else f"{tooth % 100:02}"
    if tooth == dialogue.at:
        return f">{text}", "bold reverse"
    return text, "bold" if dialogue.marks_on(tooth) else ""


def _mark(dialogue: TeethDialogue, tooth: int) -> tuple[str, str]:
    signs = "".join(SIGNS[mark] for mark in dialogue.marks_on(tooth))
    return (signs[:2], "bold") if signs else (SOUND, "dim")
