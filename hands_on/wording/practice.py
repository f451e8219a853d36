"""Practice in words: the question, how near an answer came, what the answers tell over time."""

from __future__ import annotations

from collections.abc import Sequence

from hands_on.figure.practice import MEASURED, Answered, Exercise, Learned
from hands_on.ruleset.base import DEGREES
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["NO_DOGS", "about_words", "learned_rows", "nearness", "question", "read_answer"]

NO_DOGS = (
    "Drawn dogs are not dogs: they train the eye for lines and angles, not the hand, and prove nothing of it."
)

_STEPS = ("as asked", *DEGREES[:3])


def about_words(ruleset: Ruleset, about: str) -> str:
    """A fault's label, or what is estimated."""
    if about not in MEASURED:
        return ruleset.label(about)
    labels = [ruleset.points[name].label for name in MEASURED[about]]
    labels = [one.lower() if ruleset.language == "en" else one for one in labels]
    return labels[0] if len(labels) == 1 else f"{labels[0]} to {labels[1]}"


def question(ruleset: Ruleset, one: Exercise) -> str:
    """What is to be answered, and how."""
    words = about_words(ruleset, one.about)
    if one.kind == "grade":
        return f"{words}: 0 as asked, 1 slight, 2 moderate, 3 marked?"
    if len(MEASURED[one.about]) == 1:
        return f"How many degrees: {words}?"
    return f"As a ratio, for instance 1.10: {words}?"


def read_answer(one: Exercise, text: str) -> float | str:
    """The answer as a number, or what is wrong with it."""
    try:
        value = float(text.strip().rstrip("°").replace(",", "."))
    except ValueError:
        return "A number, please."
    if one.kind == "grade":
        return value if value in (0, 1, 2, 3) else "0, 1, 2 or 3."
    low, high = (1.0, 180.0) if len(MEASURED[one.about]) == 1 else (0.1, 5.0)
    return value if low <= value <= high else f"Between {low:g} and {high:g}."


def nearness(one: Answered) -> str:
    """What was drawn, and how near the answer came."""
    if one.kind == "grade":
        drawn, off = _STEPS[int(one.truth)], round(one.error)
        if not off:
            return f"Right: drawn {drawn}."
        steps = "one step" if abs(off) == 1 else f"{abs(off)} steps"
        way = "strong" if off > 0 else "light"
        return f"Drawn {drawn}; you said {_STEPS[int(one.answer)]}: {steps} too {way}."
    angle = len(MEASURED[one.about]) == 1
    size = f"{abs(one.error):.0f} degrees" if angle else f"{abs(one.error):.2f}"
    drawn = f"{one.truth:.0f} degrees" if angle else f"{one.truth:.2f}"
    if round(one.error, 0 if angle else 2) == 0:
        return f"Right: drawn {drawn}."
    return f"Drawn {drawn}; you said {size} too {'much' if one.error > 0 else 'little'}."


def learned_rows(ruleset: Ruleset, rows: Sequence[Learned]) -> list[str]:
    """Point by point: bias, spread, repeatability, and the learning curve."""
    told = []
    for row in rows:
        unit = _unit(row.about)
        digits = 2 if unit in ("", " steps") else 0
        spread = f", spread {row.spread:.{digits}f}" if row.spread is not None else ""
        again = (
            f", the same figure again {row.repeatability:.{digits}f}" if row.repeatability is not None else ""
        )
        curve = " > ".join(f"{size:.{digits}f}" for size in row.blocks)
        mean = "mean error" if len(row.blocks) < 2 else "mean error, five answers at a time"
        about = _capital(about_words(ruleset, row.about))
        times = "1 answer" if row.count == 1 else f"{row.count} answers"
        told.append(f"{about}, {times}: bias {row.bias:+.{digits}f}{unit}{spread}{again}; {mean}: {curve}")
    return told


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _unit(about: str) -> str:
    if about not in MEASURED:
        return " steps"
    return " degrees" if len(MEASURED[about]) == 1 else ""
