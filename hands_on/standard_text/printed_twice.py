"""A figure printed in two units: which of them is taken."""

from __future__ import annotations

import re
from typing import Final

__all__ = ["in_unit"]

_NUMBER: Final = r"(?:\d+/\d+|\d+(?:[.,]\d+)?(?:\s*-?\s*\d+/\d+)?)"
_STRETCH: Final = rf"{_NUMBER}(?:\s*(?:-|to)\s*{_NUMBER})?"
_METRIC: Final = r"(?:cms?|kgs?|mm)\b\.?"
_IMPERIAL: Final = r"(?:inch(?:es)?|ins?\b\.?|lbs?\b\.?|pounds?|\")"


def in_unit(text: str, unit: str) -> str:
    """`12 in (30 cm)` as `30 cm` where lengths are asked in `cm`, `30 cm (12 in)` as `12 in` where in `in`.

    Only where both stand as printed, both a range or both a single figure; without `unit` nothing changes.
    """
    if unit not in ("cm", "in"):
        return text
    first, second = (_IMPERIAL, _METRIC) if unit == "cm" else (_METRIC, _IMPERIAL)
    printed = re.compile(
        rf"(?<![\d/.])({_STRETCH})\s*-?\s*{first}\s*\(({_STRETCH}\s*{second})\)", re.IGNORECASE
    )

    def taken(found: re.Match[str]) -> str:
        alike = _ranged(found.group(1)) == _ranged(found.group(2))
        return found.group(2) if alike else found.group()

    return printed.sub(taken, text)


def _ranged(text: str) -> bool:
    return bool(re.search(rf"{_NUMBER}\s*(?:-|to)\s*\d", re.sub(r"\d+\s*-?\s*\d+/\d+", "1", text)))
