"""An edition, complete: what `common` and everything it builds on say, and what it says itself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from functools import cached_property

from hands_on.frozen import dataclass
from hands_on.ruleset.as_asked import waives
from hands_on.ruleset.base import FREE_SOURCES
from hands_on.ruleset.figure import FigurePlan
from hands_on.ruleset.files import EditionFile
from hands_on.ruleset.handling import Harder, Standing
from hands_on.ruleset.landmarks import Landmark
from hands_on.ruleset.points import ChoicePoint, Fault, MeasurePoint, Point, Region, faults_of
from hands_on.ruleset.rules import Asked, Class, Outcome
from hands_on.ruleset.together import StandTogether
from hands_on.ruleset.values import Closure, Derived, Fence
from hands_on.ruleset.walks import Walk

__all__ = ["Common", "Ruleset"]


@dataclass(frozen=True, eq=False)
class Common:
    """What all dogs share."""

    regions: tuple[Region, ...]
    points: Mapping[str, Point]
    """In the order of the examination."""
    faults: Mapping[str, Fault]
    derived: Mapping[str, Derived]
    closures: tuple[Closure, ...]
    fences: tuple[Fence, ...]
    sources: Mapping[str, str]
    outcome_sets: Mapping[str, tuple[Outcome, ...]] = field(default_factory=dict)
    landmarks: Mapping[str, Landmark] = field(default_factory=dict)
    harder: tuple[Harder, ...] = ()
    standing: tuple[Standing, ...] = ()
    walks: Mapping[str, Walk] = field(default_factory=dict)
    figure: FigurePlan | None = None
    opposites: tuple[tuple[str, str], ...] = ()
    way: tuple[str, ...] = ()
    together: Mapping[str, StandTogether] = field(default_factory=dict)


@dataclass(frozen=True)
class Ruleset:
    """One edition of one breed's standard, with the common parts."""

    edition: EditionFile
    """The edition's own rules, those of the edition it builds on put in."""
    regions: tuple[Region, ...]
    points: Mapping[str, Point]
    """Every point known, by region; `walk_points` are those asked, in the order of the walk."""
    faults: Mapping[str, Fault]
    derived: Mapping[str, Derived]
    closures: tuple[Closure, ...]
    fences: tuple[Fence, ...]
    sources: Mapping[str, str]
    digest: str
    """SHA-256 over what the edition's files say, and a set of outcomes that they take from common; comments
    and layout do not count."""
    walks: Mapping[str, Walk] = field(default_factory=dict)
    """Shorter walks by id; those of common and the edition's own."""
    landmarks: Mapping[str, Landmark] = field(default_factory=dict)
    harder: tuple[Harder, ...] = ()
    standing: tuple[Standing, ...] = ()
    """Places on the body between which measurements run; those of common and the edition's own."""
    figure: FigurePlan | None = None
    """What every dog is drawn from; None where the common files draw none."""
    opposites: tuple[tuple[str, str], ...] = ()
    """Words that say the opposite of each other."""
    way: tuple[str, ...] = ()
    """The way of the hands: points, and regions for what is left of them; empty: as `points` stand."""
    together: Mapping[str, StandTogether] = field(default_factory=dict)
    """What seldom stands together, or explains each other; those of common and the edition's own."""
    language: str = "en"
    """Of the labels and asked texts, two letters."""

    @property
    def id(self) -> str:
        """The edition's identifier."""
        return self.edition.id

    @cached_property
    def walk_points(self) -> tuple[Point, ...]:
        """The points this edition asks for, in the order of the walk."""
        plan = self.edition.walk
        wanted = {*plan.measures, *plan.offer}
        left_out = {*plan.leave_out, *(point for silence in self.edition.silent for point in silence.points)}
        left_out -= set(plan.offer)
        left_out |= self._of_another_kind
        return tuple(
            point
            for point in self.on_the_way
            if point.id not in left_out and (not isinstance(point, MeasurePoint) or point.id in wanted)
        )

    @cached_property
    def on_the_way(self) -> tuple[Point, ...]:
        """All points, in the order of the walk; those of a region it does not name stand at its end."""
        places = {name: place for place, name in enumerate(self.way)}
        last = len(places)
        return tuple(
            sorted(
                self.points.values(),
                key=lambda point: places.get(point.id, places.get(point.region, last)),
            )
        )

    @property
    def _of_another_kind(self) -> set[str]:
        """Of a point that says what is seen, and the one it stands for, the one that is not asked here."""
        pairs = [
            (p.id, p.instead_of) for p in self.points.values() if isinstance(p, ChoicePoint) and p.instead_of
        ]
        return {other if name in self.edition.seen else name for name, other in pairs}

    def asked_at(self, point: Point) -> Asked | None:
        """What the edition asks for at a point, or at the one that it stands for."""
        instead_of = point.instead_of if isinstance(point, ChoicePoint) else ""
        return self.edition.asked.get(point.id) or self.edition.asked.get(instead_of)

    @cached_property
    def points_of_fault(self) -> Mapping[str, tuple[str, ...]]:
        """For each fault the points at which an answer can name it."""
        found: dict[str, tuple[str, ...]] = {}
        for point in self.points.values():
            for fault in faults_of(point):
                found[fault] = (*found.get(fault, ()), point.id)
        return found

    @cached_property
    def classes(self) -> Mapping[str, Class]:
        """The edition's classes, lightest first."""
        return {entry.id: entry for entry in self.edition.classes}

    def rank(self, name: str | None) -> int:
        """How heavy a class is: 1 for the lightest, 0 for what does not count or has no class."""
        ladder = [entry.id for entry in self.edition.classes if entry.ladder]
        return ladder.index(name) + 1 if name in ladder else 0

    def waived(self, fault: str) -> bool:
        """True when the edition says, without any condition, that this is no fault."""
        return waives(self.edition, fault)

    def class_hangs_on_degree(self, fault: str) -> bool:
        """True when some ruling gives this fault a class by its degree."""
        return any(ruling.by_degree for ruling in self.edition.rulings if fault in ruling.faults)

    def label(self, fault: str) -> str:
        """A fault's label, or its id when the vocabulary lacks it."""
        known = self.faults.get(fault)
        return known.label if known else fault

    def label_within(self, fault: str) -> str:
        """A fault's label within a sentence: in small letters, but as it stands in another language."""
        label = self.label(fault)
        return label.lower() if self.language == "en" else label

    def source_text(self, keys: tuple[str, ...]) -> str:
        """Sources written out, `; ` between them."""
        return "; ".join(self.sources.get(key) or ": ".join(FREE_SOURCES.get(key, (key,))) for key in keys)
