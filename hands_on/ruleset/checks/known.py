"""The names that a ruleset file may use."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import field
from functools import cached_property, lru_cache

from hands_on.frozen import dataclass
from hands_on.ruleset.landmarks import Landmark
from hands_on.ruleset.points import ChoicePoint, Fault, MeasurePoint, Point
from hands_on.ruleset.ruleset import Ruleset

__all__ = ["Known", "folded"]


@lru_cache(maxsize=50_000)
def folded(wording: str) -> str:
    """A wording as compared with others: case, accents' form, hyphens and spaces do not count."""
    plain = unicodedata.normalize("NFKC", wording).casefold().replace("-", " ")
    return " ".join(plain.split())


@dataclass(frozen=True)
class Known:
    """Regions, points and faults that exist, from common and from the edition with what it builds on."""

    regions: tuple[str, ...]
    points: Mapping[str, Point]
    faults: Mapping[str, Fault]
    derived: frozenset[str] = frozenset()
    landmarks: Mapping[str, Landmark] = field(default_factory=dict)

    @classmethod
    def of(cls, rules: Ruleset) -> Known:
        """What an edition may name."""
        regions = tuple(region.id for region in rules.regions)
        return cls(regions, rules.points, rules.faults, frozenset(rules.derived), rules.landmarks)

    @cached_property
    def wordings(self) -> Mapping[tuple[str, str], str]:
        """Who claims which wording, by `fault` or the kind of quantity, and the wording as compared."""
        found: dict[tuple[str, str], str] = {}
        for name, fault in self.faults.items():
            for wording in fault.wording:
                found.setdefault(("fault", folded(wording)), name)
        for name, point in self.measures.items():
            for wording in point.wording:
                found.setdefault((point.quantity, folded(wording)), name)
        return found

    @cached_property
    def measures(self) -> Mapping[str, MeasurePoint]:
        """The measured points."""
        return {name: point for name, point in self.points.items() if isinstance(point, MeasurePoint)}

    @cached_property
    def called_for(self) -> frozenset[str]:
        """The measures that an option calls for once it is chosen."""
        choices = (point for point in self.points.values() if isinstance(point, ChoicePoint))
        return frozenset(option.measure for point in choices for option in point.options if option.measure)

    @cached_property
    def _details(self) -> Mapping[str, tuple[str, ...]]:
        found: dict[str, tuple[str, ...]] = {}
        for point in self.points.values():
            if isinstance(point, ChoicePoint):
                for option in point.options:
                    if option.fault and option.detail:
                        found[option.fault] = (*found.get(option.fault, ()), option.detail)
        return found

    def details(self, faults: Iterable[str]) -> tuple[str, ...]:
        """The details with which an answer can name one of these faults."""
        return tuple(dict.fromkeys(detail for fault in faults for detail in self._details.get(fault, ())))
