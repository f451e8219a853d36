"""Computed values of a dog, and what must hold between them whatever the breed."""

from typing import Annotated, Any, Self

from pydantic import BeforeValidator, model_validator

from hands_on.ruleset.base import Name, Part, Source

__all__ = ["Closure", "Derived", "Fence", "Value"]

_KINDS = ("measure", "ratio", "difference", "sum", "slope", "angle")


def _member(value: Any) -> Any:
    return {"measure": value} if isinstance(value, str) else value


Member = Annotated["Value", BeforeValidator(_member)]


class Value(Part):
    """A number of the dog: one measurement, or a ratio, difference, sum, slope or angle made of such."""

    measure: str | None = None
    ratio: tuple[Member, Member] | None = None
    difference: tuple[Member, Member] | None = None
    sum: tuple[Member, ...] | None = None
    slope: tuple[Member, Member] | None = None
    """A height that a line falls over, and the line's length: its slope from the horizontal, in degrees."""
    angle: tuple[Member, Member, Member] | None = None
    """Three lengths: the angle between the first two, opposite the third, in degrees."""

    @model_validator(mode="after")
    def _one(self) -> Self:
        given = [key for key in _KINDS if getattr(self, key) is not None]
        if len(given) != 1:
            found = " and ".join(given) or "none of them"
            raise ValueError(
                f"a value is one of {', '.join(_KINDS[:-1])} or {_KINDS[-1]}; here stands {found}. "
                'Right: for instance ratio = ["body-length", "height"].'
            )
        return self

    @property
    def members(self) -> "tuple[Value, ...]":
        """What it is made of, where it is not measured itself."""
        return self.ratio or self.difference or self.sum or self.slope or self.angle or ()

    @property
    def kind(self) -> str:
        """Which one of `measure`, `ratio`, `difference`, `sum`, `slope` and `angle` it is."""
        return next(key for key in _KINDS if getattr(self, key) is not None)

    @property
    def measures(self) -> tuple[str, ...]:
        """All measurements needed, in order, each once."""
        if self.measure is not None:
            return (self.measure,)
        return tuple(dict.fromkeys(name for member in self.members for name in member.measures))

    @property
    def name(self) -> str:
        """The value written out, for instance `body-length/height`."""
        if self.measure is not None:
            return self.measure
        parts = [member.name if member.measure else f"({member.name})" for member in self.members]
        if self.slope or self.angle:
            return f"{self.kind}({', '.join(member.name for member in self.members)})"
        sign = "/" if self.ratio else "-" if self.difference else "+"
        return (sign if sign == "/" else f" {sign} ").join(parts)


class Derived(Value):
    """A computed value with a name."""

    id: Name
    label: str
    note: str = ""


class Closure(Part):
    """Measurements that must agree: parts add up to a whole, or one is smaller than another."""

    id: Name
    parts: tuple[str, ...] = ()
    whole: str | None = None
    at_least_whole: bool = False
    """The parts may exceed the whole (a broken line), never fall short of it."""
    smaller: str | None = None
    larger: str | None = None
    text: str
    """What must go together, as a statement."""
    advice: str = ""
    """What is mostly the matter where it does not."""
    source: Source

    @model_validator(mode="after")
    def _one(self) -> Self:
        sums = bool(self.parts) and self.whole is not None
        order = self.smaller is not None and self.larger is not None
        if sums == order:
            raise ValueError(
                "a closure says either parts and whole, or smaller and larger. "
                'Right: parts = ["a", "b"] and whole = "c".'
            )
        return self


class Fence(Part):
    """How far a computed value of any dog can lie; beyond it a reading or a typing error is likelier.

    Wide enough for every kind of dog: never a norm.
    """

    derived: str
    """Id of the computed value."""
    low: float
    high: float
    text: str
    source: Source

    @model_validator(mode="after")
    def _sound(self) -> Self:
        if self.low >= self.high:
            raise ValueError(f"{self.low:g} to {self.high:g} is empty. Right: the smaller number in low.")
        return self
