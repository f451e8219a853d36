"""A measured point: readings typed one after the other."""

from __future__ import annotations

import re
from dataclasses import replace

from hands_on.exam.answers import Answers
from hands_on.exam.dialogue.base import STAY, Dialogue, Line, Prompt, Recorded, Step
from hands_on.exam.likely import Likely
from hands_on.exam.session import Take
from hands_on.measure.asked_reading import Entry
from hands_on.measure.entry import EntryProblem, parse_entry
from hands_on.measure.units import canonical_unit, convert
from hands_on.ruleset.base import Side, UnitName
from hands_on.ruleset.points import QUANTITY_UNITS, MeasurePoint

__all__ = ["MeasureDialogue", "read_entry", "shown", "take_of"]

UNLIKELY = "unlikely"
"""The kind of the problem of a reading that can be, and is far from what the edition asks for."""

OFFERED: dict[str, tuple[UnitName, ...]] = {"length": ("cm", "in"), "mass": ("kg", "lb")}
"""Units to change between with one key; others are typed behind the number."""

_PLAIN = re.compile(r"-?[0-9]+(\.[0-9]+)?")
"""A reading whose number is already all that was typed."""

_WHOLE = re.compile(r"[0-9]+")
_AND_A_HALF = re.compile(r"([0-9]+)\+")
"""A whole number with a plus behind it: sticks and callipers are read to the half, and it spares a key."""

SIDES: tuple[Side | None, ...] = (None, "left", "right")


class MeasureDialogue(Dialogue):
    """Type a reading, Enter takes it; Enter alone goes on. * behind a reading takes it and goes on.

    + behind a whole number is and a half.
    """

    def __init__(
        self,
        point: MeasurePoint,
        answers: Answers,
        unit: UnitName | None = None,
        likely: Likely | None = None,
    ) -> None:
        """`likely`: the readings that raise no question in this dog."""
        super().__init__(answers)
        self.point = point
        self.likely = likely
        fitting = QUANTITY_UNITS[point.quantity]
        wanted = unit if unit in OFFERED.get(point.quantity, ()) and point.unit == "cm" else point.unit
        self.unit: UnitName = wanted if wanted in fitting else point.unit
        self.side: Side | None = None
        self.hidden = False
        """Are the readings hidden, so that the next one cannot lean on them?"""
        self.suggestions: tuple[Entry, ...] = ()
        """Likely meanings of a text that was not taken."""
        self.stand = max((take.stand for take in answers.takes), default=1)
        """On which stand of the dog the next reading is taken."""
        self._not_read = False
        """Is what is typed no reading, so that the next figure begins anew?"""

    @property
    def signed(self) -> bool:
        """May a reading be below nought here?"""
        return self.point.plausible[0] < 0

    def hide(self) -> None:
        """Hide the readings given here, or show them again."""
        self.hidden = not self.hidden
        self.message = (
            "The readings are hidden: lift the hand off, find the place anew, and type what it reads."
            if self.hidden
            else "The readings show again."
        )

    def stand_anew(self) -> None:
        """The dog was stood anew: readings from now on no longer share what its stand did."""
        self.stand = max((take.stand for take in self.answers.takes), default=0) + 1
        self.message = "The dog stands anew: find the place again, and type what it reads."

    def prompt(self) -> Prompt:
        """What to show now."""
        counted = [take for take in self.answers.takes if not take.struck]
        side = f" ({self.side})" if self.side else ""
        ask = f"{self.point.ask or self.point.label}{side}: take {len(counted) + 1} of {self.point.takes}"
        if len(counted) >= self.point.takes:
            taken = "1 take" if len(counted) == 1 else f"{len(counted)} takes"
            ask = f"{self.point.ask or self.point.label}{side}: {taken}, one more or Enter"
        if self.suggestions:
            hint = "Enter takes the marked one · * the next · or type the reading again"
            if self.cursor is None:
                hint = "type the reading again · or * marks it, and Enter takes it as it is"
        elif self.typed:
            half = " · + and a half" if _WHOLE.fullmatch(self.typed.strip()) else ""
            hint = f"Enter takes the reading · * takes it and goes on{half}"
        else:
            sides = " · + side" if self.point.sides else ""
            offered = OFFERED.get(self.point.quantity, ())
            unit = f" · * {'/'.join(offered)}" if self.unit in offered else ""
            on = " · Enter or 0 Enter: nothing more" if self.answers.given else ""
            hint = f"type a reading, Enter{on}{unit}{sides}"
        lines = tuple(Line("", shown(entry)) for entry in self.suggestions)
        if not self.suggestions:
            lines = tuple(self._take_line(n, take) for n, take in enumerate(self.answers.takes, 1))
        selected = self.cursor if self.suggestions else None
        return Prompt(ask, lines, selected, self.typed, True, self.unit, hint, self.message)

    def _take_line(self, number: int, take: Take) -> Line:
        typed = f"{take.value:g} {take.unit}" if not isinstance(take.value, str) else take.value
        typed = "hidden" if self.hidden else typed
        struck = f"struck: {take.struck}" if take.struck else ""
        stand = f"stand {take.stand}" if take.stand > 1 else ""
        aside = ", ".join(part for part in (take.side or "", stand, struck) if part)
        return Line(str(number), typed, not take.struck, aside)

    def take(self, key: str) -> Step:
        """Take one key."""
        if self.suggestions:
            return self._settle(key)
        if self._not_read and key not in ("enter", "backspace"):
            self.typed = ""  # a keypad has no key that takes a figure back
        self._not_read = False
        if key == "enter":
            return self._enter()
        if key == "*" and self.typed:
            return _on(self._enter())
        if key == "backspace":
            self.typed = self.typed[:-1]
            return STAY
        if key == "escape":
            self.typed = self.message = ""
            return STAY
        if not self.typed:
            step = self._command(key)
            if step is not None:
                return step
        if key == "-" and self.typed == "-":
            self.typed = ""
            return Step("back")
        if len(key) == 1 and key.isprintable():
            self.typed = (self.typed + key)[:60]
            self.message = ""
        return STAY

    def _command(self, key: str) -> Step | None:
        """A key while nothing is typed."""
        if key == "*":
            offered = OFFERED.get(self.point.quantity, ())
            if self.unit in offered:
                self.unit = offered[(offered.index(self.unit) + 1) % len(offered)]
            else:
                self.message = f"This is taken in {self.unit}."
            return STAY
        if key == "+":
            if not self.point.sides:
                return self.navigate(key)
            self.side = SIDES[(SIDES.index(self.side) + 1) % len(SIDES)]
            return STAY
        if key == "-" and self.signed:
            self.typed = "-"
            self.message = "Now the number; - once more goes back to the point before."
            return STAY
        if key in ("up", "down"):
            return STAY
        return self.navigate(key)

    def _enter(self) -> Step:
        low, high = self.point.plausible
        half = _AND_A_HALF.fullmatch(self.typed.strip())
        if half is not None:
            self.typed = f"{half[1]}.5"
        if not self.typed.strip() or (self.typed.strip() == "0" and not low <= 0 <= high):
            self.typed = ""
            return self.pass_on("a reading and Enter, or . for a reason why not")
        try:
            entry = read_entry(self.point, self.typed, self.unit, self.likely)
        except EntryProblem as problem:
            self.message = problem.message
            self.suggestions = problem.suggestions
            # A reading that is only unlikely is not confirmed by the Enter that would have gone on.
            alone = problem.kind == UNLIKELY and len(self.suggestions) == 1
            self.cursor = 0 if self.suggestions and not alone else None
            self._not_read = not self.suggestions
            return STAY
        return self._take(entry)

    def _settle(self, key: str) -> Step:
        """A reading was odd: take a likely meaning, or start again."""
        if key == "enter" and self.cursor is not None:
            return self._take(self.suggestions[self.cursor])
        if key in ("*", "down", "up"):
            return self.move_cursor("up" if key == "up" else "down", len(self.suggestions))
        if key == "enter":
            return STAY
        self.suggestions, self.cursor, self.typed, self.message = (), None, "", ""
        return STAY if key in ("escape", "backspace", "-", "left") else self.press(key)

    def _take(self, entry: Entry) -> Step:
        self.suggestions = ()
        before = self.answers.takes
        blind = self.hidden and any(take.side == self.side for take in before)
        taken = take_of(self.point, entry, entry.text, self.side).model_copy(
            update={"hidden": blind, "stand": self.stand}
        )
        told = "recorded; m shows the readings" if self.hidden else shown(entry)
        return self.record(Answers(takes=(*before, taken)), f"Take {len(before) + 1}: {told}.", go_on=False)

    def recorded(self) -> tuple[Recorded, ...]:
        """Each take that counts, by its number in the list; without it it stays on record as struck."""
        rows = []
        for n, take in enumerate(self.answers.takes):
            if not take.struck:
                struck = take.model_copy(update={"struck": "taken back"})
                takes = (*self.answers.takes[:n], struck, *self.answers.takes[n + 1 :])
                reading = self._take_line(n + 1, take).label
                rows.append(Recorded(f"take {n + 1}, {reading}", replace(self.answers, takes=takes)))
        return tuple(rows)

    def take_back(self, number: int | None = None) -> Step:
        """Strike one take of `recorded`, or the newest that counts."""
        rows = self.recorded()
        if not rows:
            self.message = "There is no take to strike."
            return STAY
        gone = rows[-1 if number is None else number]
        return self.record(gone.without, f"Struck: {gone.words}. It stays on record.", go_on=False)


def _on(step: Step) -> Step:
    """A reading that was taken, and on to the next point; anything odd is still asked about here."""
    return replace(step, go_on=True) if step.follow == "record" else step


def read_entry(point: MeasurePoint, text: str, unit: UnitName, likely: Likely | None = None) -> Entry:
    """The reading at `point` that was typed; `unit` is meant where none is.

    Raises EntryProblem, of the kind UNLIKELY for what can be and is far from what the edition asks for; the
    last of its suggestions is then the reading as it was typed.
    """
    canonical = canonical_unit(point.quantity)
    low, high = (convert(end, point.unit, canonical) for end in point.plausible)
    entry = parse_entry(text, quantity=point.quantity, default_unit=unit, plausible=(low, high))
    if likely is None or likely.holds(entry.canonical):
        return entry
    meant: tuple[Entry, ...] = ()
    try:
        parse_entry(
            text,
            quantity=point.quantity,
            default_unit=unit,
            plausible=(likely.low or low, likely.high or high),
        )
    except EntryProblem as odd:
        meant = odd.suggestions
    raise EntryProblem(
        UNLIKELY, f"{shown(entry)} is far from {likely_words(likely)}. Read it again.", (*meant, entry)
    )


def likely_words(likely: Likely) -> str:
    """What a reading is far from: what is asked for, what a young dog may have grown to."""
    low, high = likely.asked
    unit = "°" if likely.unit == "deg" else f" {likely.unit}"
    figures = f"{low:.4g} to {high:.4g}" if low is not None and high is not None else ""
    figures = figures or (f"{low:.4g} and more" if low is not None else f"{high:.4g} and less")
    by = "that practice names" if likely.practice else "that this edition asks for"
    asked = f"the {figures}{unit} {by}"
    if likely.against:
        return f"{asked}, by {likely.against[:1].lower()}{likely.against[1:]} as taken"
    return f"what a young dog grows to {figures}{unit} has at this age" if likely.young else asked


def take_of(point: MeasurePoint, entry: Entry, typed: str, side: Side | None = None) -> Take:
    """The reading as it stands on record; `typed` is kept where it says more than the number."""
    unit = next(name for name in QUANTITY_UNITS[point.quantity] if name == entry.unit)
    written = "" if _PLAIN.fullmatch(typed.strip()) else typed.strip()
    return Take(point=point.id, value=round(entry.value, 6), unit=unit, side=side, typed=written)


def shown(entry: Entry) -> str:
    """A reading with its unit, and in the canonical one where that differs."""
    text = f"{entry.value:g} {entry.unit}"
    if entry.unit != entry.canonical_unit:
        text += f" ({entry.canonical:.1f} {entry.canonical_unit})"
    return text
