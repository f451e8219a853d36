"""Which option of a choice an edition asks for: common knows only what is right in every breed."""

from hands_on.ruleset.files import EditionFile
from hands_on.ruleset.points import ChoicePoint

__all__ = ["right_options", "waives", "with_answer_asked"]


def waives(edition: EditionFile, fault: str) -> bool:
    """True when the edition says, without any condition, that this is no fault."""
    first = next((ruling for ruling in edition.rulings if fault in ruling.faults), None)
    return first is not None and first.when is None and first.class_ == "none"


def right_options(edition: EditionFile, point: ChoicePoint) -> tuple[str, ...]:
    """The options that are as asked for: those named, or else those that are no fault in this edition.

    Empty where the edition says nothing of the point.
    """
    asked = edition.asked.get(point.id)
    if asked is not None and asked.right:
        return asked.right
    said = (
        asked is not None
        or bool(point.as_asked)
        or point.id in edition.seen
        or any(option.fault and waives(edition, option.fault) for option in point.options)
    )
    if not said:
        return ()
    return tuple(
        option.id
        for option in point.options
        if not option.beside and (option.fault is None or waives(edition, option.fault))
    )


def with_answer_asked(edition: EditionFile, point: ChoicePoint) -> ChoicePoint:
    """The point with the one option that 0 gives in this edition.

    That is the only one that is right, or else the one common asks for, unless the edition names several.
    """
    asked = edition.asked.get(point.id)
    right = right_options(edition, point)
    named = asked is not None and bool(asked.right)
    if len(right) == 1:
        return point.model_copy(update={"as_asked": right[0]})
    return point.model_copy(update={"as_asked": ""}) if named else point
