"""Shorter walks: which part of the examination is asked for today."""

from typing import Literal, Self

from pydantic import model_validator

from hands_on.ruleset.base import Name, Part, Source
from hands_on.ruleset.points import MeasurePoint, Point

__all__ = ["Walk", "WalksFile"]


class Walk(Part):
    """A walk with a name; with neither regions nor points it is the whole examination."""

    id: Name
    label: str
    regions: tuple[str, ...] = ()
    """Regions asked whole."""
    points: tuple[str, ...] = ()
    """Single points asked beside them."""
    leave_out: tuple[str, ...] = ()
    """Points of those regions that are not asked."""
    measures: bool = True
    """False: by hand and eye; of the regions' measures only those named in `points` are asked."""
    source: Source

    @model_validator(mode="after")
    def _sound(self) -> Self:
        both = sorted(set(self.points) & set(self.leave_out))
        if both:
            raise ValueError(f"{both[0]} is asked and left out. Right: in points or in leave_out.")
        return self

    def asks(self, point: Point) -> bool:
        """Is the point part of this walk?"""
        if not self.regions and not self.points:
            return point.id not in self.leave_out
        if point.id in self.points:
            return True
        by_hand = self.measures or not isinstance(point, MeasurePoint)
        return by_hand and point.region in self.regions and point.id not in self.leave_out


class WalksFile(Part):
    """The user's own walks, for all editions: `walks.toml` in the folder of their rulesets."""

    format: Literal[1]
    sources: dict[str, str] = {}
    walks: tuple[Walk, ...]
