"""What is only seen, and what an edition makes of it: the same amber eye is right here and wrong there."""

from pydantic import Field

from hands_on.ruleset.base import Degree, Part, Source
from hands_on.ruleset.points import ChoicePoint

__all__ = ["Meaning", "Seen", "with_meaning"]


class Meaning(Part):
    """What an edition makes of one thing that is seen."""

    fault: str
    degree: Degree | None = None
    detail: str | None = None


class Seen(Part):
    """What the options of a point that only says what is seen mean in an edition."""

    right: tuple[str, ...] = Field(min_length=1)
    """Options that are as asked for; of one alone 0 gives it."""
    means: dict[str, Meaning] = {}
    source: Source
    note: str = ""
    reading: str = ""


def with_meaning(point: ChoicePoint, seen: Seen) -> ChoicePoint:
    """The point with what the edition makes of each option; what it does not name means nothing there."""
    options = [
        option.model_copy(update=means.model_dump(exclude_none=True))
        if (means := seen.means.get(option.id)) is not None
        else option.model_copy(update={"beside": option.id not in seen.right})
        for option in point.options
    ]
    asked = seen.right[0] if len(seen.right) == 1 else ""
    return point.model_copy(update={"options": tuple(options), "as_asked": asked})
