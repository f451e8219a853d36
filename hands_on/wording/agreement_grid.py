"""One point as a grid, a row a dog and a column an evaluator: cells in short, and how often which. Pure."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from hands_on.compare.agreement.board import Board, Standing
from hands_on.compare.agreement.by_point import PointAgreement
from hands_on.compare.agreement.reference import AgainstReference, nearness
from hands_on.compare.answer import AS_ASKED, Answer, Charted, Chosen, Graded, Stepped
from hands_on.frozen import dataclass
from hands_on.measure.units import format_value
from hands_on.ruleset.points import GradePoint
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.answers import answer_words
from hands_on.wording.dogs import percent
from hands_on.wording.point import asked_in_short

__all__ = [
    "NOT_SIGNED",
    "Grid",
    "GridRow",
    "grid_of",
    "initials",
    "reference_sentences",
    "repeat_sentences",
    "standing_words",
]

NOT_SIGNED = "*"
"""Behind an answer whose examination is not signed."""

_STANDING: dict[Standing | None, str] = {
    "signed": "signed",
    "not-signed": "not signed",
    "unfinished": "unfinished",
    None: "missing",
}

_APART = "!"
"""Before an answer that lies apart from the reference's."""


@dataclass(frozen=True)
class GridRow:
    """One dog."""

    dog: str
    cells: tuple[str, ...]
    """In the order of the evaluators; `-` where there is no answer."""
    tally: str
    """How often which: `2 as asked, 3 slight, 1 marked`; of measurements the mean and the range."""


@dataclass(frozen=True)
class Grid:
    """One point."""

    label: str
    asked: str
    """What the edition asks there; empty where it says nothing."""
    rows: tuple[GridRow, ...]
    tally: str
    """Over all dogs; empty for measurements."""
    legend: tuple[str, ...]
    """What the short words in the cells stand for."""


def standing_words(standing: Standing | None) -> str:
    """How far an examination is."""
    return _STANDING[standing]


def initials(names: Sequence[str]) -> tuple[str, ...]:
    """Short names, no two alike: initials, with more letters of the last name where two share them."""
    parts = [[word for word in name.replace(".", " ").split() if word] or ["?"] for name in names]
    for letters in range(1, 12):
        short = ["".join(w[0] for w in words[:-1]) + words[-1][:letters] for words in parts]
        if len(set(short)) == len(short):
            return tuple(short)
    return tuple(f"{one} {n}" for n, one in enumerate(short, 1))


def grid_of(board: Board, one: PointAgreement, reference: int | None = None) -> Grid:
    """The answers to a point; with a reference's column those that lie apart from it are marked with !."""
    table = board.answers(one.id)
    known = next((held.ruleset for held in board.cells.values() if one.id in held.ruleset.points), None)
    short = _Short(known, one)
    rows = []
    everybody: Counter[str] = Counter()
    for dog, answers in enumerate(table):
        cells = []
        for column, answer in enumerate(answers):
            if answer is None:
                cells.append("-")
                continue
            text = short.cell(answer)
            model = answers[reference] if reference is not None else None
            if model is not None and column != reference and nearness(answer, model, one.level) == "apart":
                text = f"{_APART}{text}"
            rough = board.standing(dog, column) != "signed"
            cells.append(text + (NOT_SIGNED if rough else ""))
        given = [answer for answer in answers if answer is not None]
        if one.level == "measurement":
            tally = _spread(given, one.unit)
        else:
            counts = Counter(short.kind(answer) for answer in given)
            everybody.update(counts)
            tally = _counted(counts)
        rows.append(GridRow(board.dogs[dog], tuple(cells), tally))
    asked = asked_in_short(known, known.points[one.id], None) if known is not None else ""
    legend = list(short.legend())
    if any(NOT_SIGNED in cell for row in rows for cell in row.cells):
        legend.append(f"{NOT_SIGNED} not signed yet")
    if reference is not None:
        legend.append(f"{_APART} apart from {board.evaluators[reference]} beyond hand error or one step")
    return Grid(one.label, asked, tuple(rows), _counted(everybody), tuple(legend))


class _Short:
    """The answers of one point in a few letters, and what the letters stand for."""

    def __init__(self, ruleset: Ruleset | None, one: PointAgreement) -> None:
        self.ruleset, self.level, self.unit = ruleset, one.level, one.unit
        self.point = ruleset.points.get(one.id) if ruleset is not None else None
        self.letters: dict[str, str] = {}
        """Answers that have no short word of their own, by letter."""
        self.signs: set[str] = set()

    def cell(self, answer: Answer) -> str:
        said = answer.said
        doubt = "?" if answer.unsure else ""
        if answer.value is not None and self.level == "measurement":
            return _number(answer.value, answer.unit) + doubt
        if isinstance(said, Stepped):
            return (AS_ASKED if said.step is None else str(said.step)) + doubt
        if isinstance(said, Graded) and isinstance(self.point, GradePoint):
            return self._graded(said, self.point) + doubt
        return self._letter(answer) + doubt

    def kind(self, answer: Answer) -> str:
        """What is counted: the degree, the step, the option."""
        said = answer.said
        if isinstance(said, Graded) and isinstance(self.point, GradePoint):
            return self._graded(said, self.point)
        if isinstance(said, Stepped):
            return AS_ASKED if said.step is None else f"step {said.step}"
        return self._letter(answer)

    def _graded(self, said: Graded, point: GradePoint) -> str:
        if not said.departures:
            return AS_ASKED
        words = []
        for one in said.departures:
            sign = "-" if one.fault in point.less else "+" if one.fault in point.more else ""
            if sign:
                self.signs.add(sign)
            elif len(point.departures) > 1:
                sign = self.letters.setdefault(one.fault, self._next())
            words.append(f"{one.degree or 'named'}{' ' + sign if sign else ''}")
        return ", ".join(dict.fromkeys(words))

    def _letter(self, answer: Answer) -> str:
        if isinstance(answer.said, Charted) and not answer.said.teeth:
            return "full"
        words = answer_words(answer, self.ruleset) if self.ruleset is not None else answer.category or ""
        if len(words) <= 9 and isinstance(answer.said, Chosen):
            return words
        return self.letters.setdefault(words, self._next())

    def _next(self) -> str:
        n = len(self.letters)
        return chr(ord("a") + n) if n < 26 else f"a{n}"

    def legend(self) -> Iterator[str]:
        """What signs and letters stand for."""
        label = self.ruleset.label if self.ruleset is not None else str
        point = self.point if isinstance(self.point, GradePoint) else None
        if point is not None:
            ways = {"-": point.less, "+": point.more}
            yield from (f"{sign} {' or '.join(map(label, ways[sign]))}" for sign in sorted(self.signs))
        for words, letter in self.letters.items():
            yield f"{letter} {label(words) if point is not None else words}"


def _counted(counts: Counter[str]) -> str:
    """As asked first, then as often as they came."""
    rows = sorted(counts.items(), key=lambda row: (row[0] != AS_ASKED, -row[1]))
    return ", ".join(f"{count} {name}" for name, count in rows)


def _figure(value: float, unit: str) -> str:
    return format_value(value, unit, 2 if unit == "share" else 1)


def _number(value: float, unit: str) -> str:
    """The figure without its unit."""
    return format_value(value, "share", 2 if unit == "share" else 1)


def _spread(given: Sequence[Answer], unit: str) -> str:
    values = [answer.value for answer in given if answer.value is not None]
    if len(values) < 2:
        return ""
    low, high = _figure(min(values), unit), _figure(max(values), unit)
    mean = _figure(sum(values) / len(values), unit)
    return f"all {mean}" if low == high else f"mean {mean}, {_number(min(values), unit)} to {high}"


def reference_sentences(found: Sequence[AgainstReference], reference: str) -> Iterator[str]:
    """How each evaluator stands beside the reference."""
    return _shares(found, f"as {reference}'s", f"no answer to compare with {reference}")


def repeat_sentences(found: Sequence[AgainstReference]) -> Iterator[str]:
    """How each evaluator who went over a dog twice stands to themselves."""
    return _shares(found, "as the first time", "no answer given both times")


def _shares(found: Sequence[AgainstReference], alike: str, nothing: str) -> Iterator[str]:
    for one in found:
        if not one.compared:
            yield f"{one.evaluator}: {nothing}."
            continue
        same, near, apart = (percent(n / one.compared) for n in (one.same, one.near, one.apart))
        told = (
            f"{one.evaluator}: of {one.compared} answers {same} {alike}, {near} near "
            f"(within hand error or one step), {apart} apart"
        )
        most = ", ".join(f"{label} ({n} of {of})" for label, n, of in one.most[:3])
        yield f"{told}; most at {most}." if most else f"{told}."
