"""Blocks of the wizard answered by numbers: sizes, weights, proportions, angles, one figure after another."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from hands_on.exam.dialogue import Line
from hands_on.standard_text import (
    ANGLES,
    RATIOS,
    FigureAnswers,
    answers_of,
    figure_limit,
    figure_number,
    figure_unit,
)
from hands_on.store.edition_draft import LADDER, EditionDraft
from hands_on.tui.flows.wizard_blocks import Block, anything
from hands_on.tui.program import Stage
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.typed import TypedScreen
from hands_on.wording.proposals import stretch_words


@dataclass(frozen=True)
class FigureRow:
    """A figure that can be answered: the measurement or ratio, the sex, what it is called."""

    name: str
    sex: str
    label: str

    @property
    def id(self) -> str:
        """The limit's id."""
        return f"{self.name}-{self.sex}" if self.sex else self.name


_SEXES = (("male", ", dogs"), ("female", ", bitches"), ("", ", both alike"))
_LENGTHS = (
    "body-length", "chest-girth", "chest-depth", "head-length", "muzzle-length", "neck-length", "ear-length",
    "tail-length", "coat-length-flank", "hock-height", "foreleg-girth", "white-chest-size", "teeth-count",
)  # fmt: skip
_FIRM = (
    Line("1", "a limit: outside it is a departure"),
    Line("2", "about: a limit, and the text says about"),
    Line("3", "an ideal: a wish, outside it is no fault"),
)


class Figures(Block):
    """Lists of figures; `words` asks for a line in the keeper's own words instead."""

    def __init__(
        self, stage: Stage, draft: EditionDraft, menu: Callable[[], object], words: Callable[[], object]
    ) -> None:
        super().__init__(stage, draft, menu)
        self.words = words

    # --- which figure

    def sizes(self, at: int = 0) -> None:
        """Heights and weights by sex, other lengths, and sizes of the breed by height."""
        rows = [
            FigureRow(name, sex, f"{self._label(name)}{beside}")
            for name in ("height", "weight")
            for sex, beside in _SEXES
        ]
        rows += [FigureRow(name, "", self._label(name)) for name in _LENGTHS]
        own = [one for one in self.draft.tables.get("points", []) if one.get("kind") == "measure"]
        rows += [FigureRow(str(one["id"]), "", str(one.get("label", one["id"]))) for one in own]
        more = [("Sizes of the breed by height: toy, miniature, ...", self.varieties)]
        self._list("Sizes and weights", rows, more, self.sizes, at)

    def proportions(self, at: int = 0) -> None:
        """Ratios and angles."""
        rows = [
            FigureRow(f"{a}-to-{b}", "", f"{self._label(a)} to {self._label(b).lower()}") for a, b in RATIOS
        ]
        rows += [FigureRow(name, "", self._label(name)) for name in ANGLES]
        self._list("Proportions and angles", rows, [], self.proportions, at)

    def _label(self, measure: str) -> str:
        point = self.stage.library.common().points.get(measure)
        return point.label if point is not None else measure

    def _list(
        self,
        title: str,
        rows: Sequence[FigureRow],
        more: Sequence[tuple[str, Callable[[], object]]],
        again: Callable[[int], object],
        at: int,
    ) -> None:
        limits = {row.get("id"): row for row in self.draft.tables.get("limits", [])}
        lines = [Line("0", "in your own words, or as the standard has it")]
        for row in rows:
            known = limits.get(row.id)
            said = stretch_words(known.get("asked", {}), str(known.get("unit", ""))) if known else ""
            lines.append(Line(str(len(lines)), row.label, known is not None, said))
        lines += [Line(str(len(lines) + n), label) for n, (label, _) in enumerate(more)]

        def chosen(key: str | None) -> None:
            n = int(key or 0)
            if key is None:
                self.back()
            elif n == 0:
                self.words()
            elif n <= len(rows):
                self._low(rows[n - 1], lambda: again(n))
            else:
                more[n - len(rows) - 1][1]()

        self.stage.push_screen(
            NumberedScreen(title, "Which figure? Each answer is saved at once.", lines, "", "", at), chosen
        )

    # --- one figure

    def ask(self, row: FigureRow, done: Callable[[], object]) -> None:
        """One figure, question by question."""
        self._low(row, done)

    def _answers(self, row: FigureRow) -> FigureAnswers:
        limits = self.draft.tables.get("limits", [])
        return answers_of(next((one for one in limits if one.get("id") == row.id), {}))

    def _own_unit(self, row: FigureRow) -> str:
        """The unit of a measurement of the edition's own; empty for those of common."""
        points = self.draft.tables.get("points", [])
        return next((str(one.get("unit", "")) for one in points if one.get("id") == row.name), "")

    def _unit(self) -> str:
        return "in" if self.draft.tables.get("unit") == "in" else "cm"

    def _number(
        self,
        row: FigureRow,
        ask: str,
        known: float | None,
        then: Callable[[float | None], object],
        leave: Callable[[], object],
    ) -> None:
        unit = figure_unit(row.name, self._unit(), self._own_unit(row))
        title = f"{row.label}{f', in {unit}' if unit else ''}"

        def typed(value: str | None) -> None:
            if value is None:
                leave()
            else:
                then(figure_number(value) if value else None)

        shown = "" if known is None else f"{known:g}"
        self.stage.push_screen(TypedScreen(title, ask, shown, wrong=_no_number), typed)

    def _write(self, row: FigureRow, answers: FigureAnswers) -> None:
        if answers.low is None and answers.high is None:
            self.save(lambda: self.draft.drop("[[limits]]", {"id": row.id}, "id"))
            return
        own = self._own_unit(row)
        table = figure_limit(row.name, row.sex, answers, self._unit(), own)  # type: ignore[arg-type]
        self.save(lambda: self.draft.put_limit(table))

    def _low(self, row: FigureRow, done: Callable[[], object]) -> None:
        known = self._answers(row)
        shape = " A proportion as 10 : 9, 0.5 or 50 %." if "-to-" in row.name else ""

        def then(value: float | None) -> None:
            answers = replace(known, low=value)
            if value is None or answers.high is None or value <= answers.high:
                self._write(row, answers)
            self._high(row, answers, done)

        ask = f"The least that is asked. Enter alone on an empty line: no lower end.{shape}"
        self._number(row, ask, known.low, then, done)

    def _high(self, row: FigureRow, known: FigureAnswers, done: Callable[[], object]) -> None:
        def then(value: float | None) -> None:
            if value is not None and known.low is not None and value < known.low:
                self.stage.say(row.label, f"The greatest, {value:g}, is less than the least, {known.low:g}.")
                self._high(row, known, done)
                return
            answers = replace(known, high=value)
            self._write(row, answers)
            if (answers.low is None and value is None) or row.name == "teeth-count":
                done()
            else:
                self._tolerated(row, answers, done)

        ask = (
            "The greatest that is asked; the same figure again where there is only one. Empty: no upper end."
        )
        self._number(row, ask, known.high, then, done)

    def _tolerated(self, row: FigureRow, known: FigureAnswers, done: Callable[[], object]) -> None:
        def then(value: float | None) -> None:
            answers = replace(known, tolerated=value)
            self._write(row, answers)
            self._heavier(row, answers, done)

        single = known.low is not None and known.low == known.high
        ask = (
            "How far either way is still as asked? Empty: not said, a usual width is taken as ours."
            if single
            else "How far beyond either end is tolerated? Empty: nothing."
        )
        self._number(row, ask, known.tolerated, then, done)

    def _heavier(self, row: FigureRow, known: FigureAnswers, done: Callable[[], object]) -> None:
        def then(value: float | None) -> None:
            answers = replace(known, heavier_from=value)
            if value is None:
                answers = replace(answers, heavier="")
                self._write(row, answers)
                self._firm(row, answers, done)
            else:
                self._class(row, answers, done)

        ask = "More than how far beyond does a class of its own begin, as disqualifying? Empty: nowhere."
        self._number(row, ask, known.heavier_from, then, done)

    def _class(self, row: FigureRow, known: FigureAnswers, done: Callable[[], object]) -> None:
        names = list(LADDER)
        lines = [Line(str(n), LADDER[name][0], name == known.heavier) for n, name in enumerate(names, 1)]

        def chosen(key: str | None) -> None:
            if key is None:
                self._heavier(row, known, done)
                return
            answers = replace(known, heavier=names[int(key) - 1])
            self._write(row, answers)
            self._firm(row, answers, done)

        ask = f"Which class is more than {known.heavier_from:g} beyond?"
        self.stage.push_screen(NumberedScreen(row.label, ask, lines), chosen)

    def _firm(self, row: FigureRow, known: FigureAnswers, done: Callable[[], object]) -> None:
        names = ("limit", "about", "ideal")
        lines = [replace(line, recorded=name == known.firm) for line, name in zip(_FIRM, names, strict=True)]

        def chosen(key: str | None) -> None:
            if key is not None:
                self._write(row, replace(known, firm=names[int(key) - 1]))  # type: ignore[arg-type]
            done()

        screen = NumberedScreen(row.label, "How firm is it?", lines, "", "", names.index(known.firm))
        self.stage.push_screen(screen, chosen)

    # --- sizes of the breed

    def varieties(self) -> None:
        """The sizes that the height sorts a dog into, the smallest first."""
        unit = self._unit()
        known = self.draft.size_names()
        told = "; ".join(f"{label}{f' to {end:g} {unit}' if end is not None else ''}" for label, end in known)
        lines = [Line("1", "the next larger size"), Line("2", "begin anew: no sizes", aside=told)]
        ask = f"So far, the smallest first: {told}." if told else "No size yet: begin with the smallest."

        def chosen(key: str | None) -> None:
            if key == "1":
                self._size_name(known)
            elif key == "2":
                self.save(lambda: self.draft.put_sizes([], unit))
                self.varieties()
            else:
                self.sizes()

        self.stage.push_screen(NumberedScreen("Sizes by height", ask, lines), chosen)

    def _size_name(self, known: list[tuple[str, float | None]]) -> None:
        unit = self._unit()

        def named(name: str | None) -> None:
            if not name:
                self.varieties()
                return

            def ended(text: str | None) -> None:
                if text is not None:
                    end = figure_number(text) if text else None
                    self.save(lambda: self.draft.put_sizes([*known, (name, end)], unit))
                self.varieties()

            least = known[-1][1] if known else None

            def wrong(text: str) -> str:
                end = figure_number(text) if text else None
                if text and (end is None or (least is not None and end <= least)):
                    return f"A height over {least:g}." if least is not None else "A number, as 45."
                return ""

            ask = f"Up to which height at the withers, in {unit}? Empty: no upper end, the largest size."
            self.stage.push_screen(TypedScreen(name, ask, wrong=wrong), ended)

        ask = "What this size is called. Enter alone: no more."
        self.stage.push_screen(TypedScreen("Sizes by height", ask, wrong=anything), named)


def _no_number(text: str) -> str:
    return "" if not text or figure_number(text) is not None else "A number, as 56 or 56.5, or Enter alone."
