"""What every part of a ruleset shares."""

from typing import Annotated, Any, Literal, Self

from pydantic import BaseModel, BeforeValidator, ConfigDict, StringConstraints, model_validator

__all__ = [
    "DEGREES",
    "FREE_SOURCES",
    "NO_CLASS",
    "Degree",
    "Name",
    "Part",
    "Quantity",
    "Sex",
    "Side",
    "SizeClass",
    "Source",
    "Tongue",
    "UnitName",
    "When",
    "Words",
]

Degree = Literal["slight", "moderate", "marked", "extreme"]
Side = Literal["left", "right", "both"]
Sex = Literal["male", "female"]
SizeClass = Literal["small", "medium", "large", "giant"]
Quantity = Literal["length", "angle", "mass", "count", "share"]
UnitName = Literal["cm", "mm", "in", "ft", "kg", "g", "lb", "deg", "teeth", "share", "%"]

DEGREES: tuple[Degree, ...] = ("slight", "moderate", "marked", "extreme")
"""Lightest first."""

FREE_SOURCES = {
    "common practice": ("common practice", "everybody in the trade knows it"),
    "from memory": ("from memory", "not looked up in a source"),
    "reading": ("our reading", "the text is vague here; open to correction"),
}
"""Words that may stand as a source without an entry under [sources]: what it is called, and what it is."""

NO_CLASS = ("none", "observation", "unclassed")
"""What a ruling may say instead of one of the edition's classes."""


class Part(BaseModel):
    """Base of all parts: unknown keys are errors, nothing changes once read."""

    model_config = ConfigDict(
        extra="forbid", frozen=True, allow_inf_nan=False, defer_build=True, protected_namespaces=()
    )


class Tongue(Part):
    """What an edition says in one language: what is missing stays in English."""

    labels: dict[str, str] = {}
    """By the id of a region, point, fault, class or outcome."""
    asked: dict[str, str] = {}
    """What is asked, by point."""


def _listed(value: Any) -> Any:
    return [value] if isinstance(value, (str, int, float)) and not isinstance(value, bool) else value


Name = Annotated[str, StringConstraints(pattern=r"^[a-z0-9][a-z0-9./-]*$")]
"""An identifier: small letters, digits, `-`, `.` and `/`."""

Words = Annotated[tuple[str, ...], BeforeValidator(_listed)]
"""One text or a list of texts."""

Source = Annotated[tuple[str, ...], BeforeValidator(_listed)]
"""One key of [sources], or a list of them; see FREE_SOURCES."""


class When(Part):
    """A condition: all keys must hold; see rulesets/README.md.

    Any key beyond those named is one of the edition's attributes.
    """

    model_config = ConfigDict(extra="allow", frozen=True, defer_build=True, protected_namespaces=())

    sex: Sex | None = None
    age_from: float | None = None
    """Months; holds at this age and above."""
    age_below: float | None = None
    """Months; holds below this age."""
    country: Words | None = None
    country_not: Words | None = None
    """Holds in every other country that is known."""
    purpose: Words | None = None
    purpose_not: Words | None = None
    switch: Words | None = None
    detail: Words | None = None
    with_: Words | None = None
    without: Words | None = None

    @model_validator(mode="after")
    def _worded(self) -> Self:
        for key, value in (self.model_extra or {}).items():
            words = value if isinstance(value, list) else [value]
            if not words or not all(isinstance(word, str) for word in words):
                raise ValueError(f'`{key}` is no text. Right: {key} = "..." or a list of texts.')
        return self

    @property
    def attributes(self) -> dict[str, tuple[str, ...]]:
        """The edition's own attributes that this condition asks for."""
        extra = self.model_extra or {}
        return {key: tuple(_listed(value)) for key, value in extra.items() if key != "with"}

    @property
    def together_with(self) -> tuple[str, ...]:
        """Faults that must be found in the same dog."""
        extra = self.model_extra or {}
        return self.with_ or tuple(_listed(extra.get("with", ())))
