"""What is said beside a drawn dog: what each line means, what it shows, what it leaves out."""

from __future__ import annotations

from collections.abc import Sequence

from hands_on.figure.drawn import Departure, Figure, plan_of
from hands_on.figure.shapes import ViewName
from hands_on.ruleset.ruleset import Ruleset

__all__ = [
    "VIEWS",
    "departure_words",
    "description",
    "exaggerated_words",
    "lines_words",
    "rests_on",
    "size_words",
]

VIEWS: dict[ViewName, str] = {"side": "from the side", "front": "from in front", "rear": "from behind"}


def size_words(figure: Figure) -> str:
    """Height and length, as far as they were measured."""
    length = figure.shape["body-length"] * figure.height
    if not figure.examined:
        return f"{figure.height:.1f} cm high, {length:.1f} long"
    high = f"{figure.height:.1f} cm high" if "height" in figure.measured else "height assumed"
    long = f"{length:.1f} long" if "body-length" in figure.measured else "length assumed"
    return f"{high}, {long}"


def departure_words(ruleset: Ruleset, one: Departure) -> str:
    """`Steep shoulder, marked, left`."""
    degree = one.degree or "degree not said, drawn as moderate"
    side = one.side if one.side in ("left", "right") else ""
    return ", ".join(part for part in (ruleset.label(one.fault), degree, side) if part)


def exaggerated_words(ruleset: Ruleset) -> str:
    """How much stronger than felt a grade is drawn."""
    times = plan_of(ruleset).exaggerated
    return f"What was graded is drawn {'twice' if times == 2 else f'{times:g} times'} as strong as felt."


def lines_words(ruleset: Ruleset, figure: Figure) -> list[str]:
    """The legend of the lines. A dog's: what was measured, graded and assumed. Another's: what departs."""
    if figure.examined:
        return [
            "Full line: measured, to scale. Middle: graded. Light: assumed, neither measured nor graded.",
            exaggerated_words(ruleset),
        ]
    if figure.departures:
        return ["Full line: what departs.", exaggerated_words(ruleset)]
    return []


def rests_on(ruleset: Ruleset, figure: Figure) -> list[str]:
    """What a dog's figure shows and what it cannot, sentence by sentence."""

    def labels(names: Sequence[str]) -> str:
        return ", ".join(_lowered(ruleset.points[name].label) for name in names)

    rows = []
    if figure.measured:
        rows.append(f"Drawn as measured: {labels(figure.measured)}.")
    if figure.departures:
        told = "; ".join(_lowered(departure_words(ruleset, one)) for one in figure.departures)
        rows.append(f"Drawn as graded: {told}.")
    if figure.left_out:
        rows.append(f"Not drawn, for it does not go with the rest: {labels(figure.left_out)}.")
    if figure.unseen:
        told = ", ".join(_lowered(ruleset.label(name)) for name in figure.unseen)
        rows.append(f"Found, but not to be seen in a drawing: {told}.")
    return rows


def description(ruleset: Ruleset, figure: Figure, views: Sequence[ViewName]) -> str:
    """A drawing told to somebody who does not see it."""
    told = [VIEWS[view] for view in views]
    seen = " and ".join(filter(None, (", ".join(told[:-1]), told[-1])))
    size = "" if figure.examined and not figure.measured else f", {size_words(figure)}"
    rows = [f"A standing dog drawn {seen}{size}.", *rests_on(ruleset, figure)]
    if figure.departures:
        rows.append(exaggerated_words(ruleset))
    return " ".join(rows)


def _lowered(text: str) -> str:
    return text[:1].lower() + text[1:]
