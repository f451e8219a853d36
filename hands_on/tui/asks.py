"""What screens ask the program for, so that no screen needs to know another.

A screen says `self.program.go(Review(self.sheet))`; `routes` tells where that leads.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from hands_on.frozen import dataclass

if TYPE_CHECKING:
    from hands_on.compare.agreement.by_point import Agreement as AgreementFound
    from hands_on.compare.dogs.side_by_side import SideBySide
    from hands_on.compare.examined import Examined
    from hands_on.exam.round import Round
    from hands_on.ruleset.base import Sex, UnitName
    from hands_on.ruleset.points import Point
    from hands_on.ruleset.ruleset import Ruleset
    from hands_on.store.edition_heads import EditionHead
    from hands_on.tui.current_examination import CurrentExamination
    from hands_on.tui.widgets.figure import Drawn


Doing = Literal["", "summary", "outcome", "decide", "sign"]
"""What the review does as soon as it stands."""


class Ask:
    """Base of all that can be asked for."""


# --- help and lists


@dataclass(frozen=True)
class Help(Ask):
    """The keys of a screen and how it is worked."""

    screen: str


@dataclass(frozen=True)
class Records(Ask):
    """The examinations kept."""


@dataclass(frozen=True)
class Editions(Ask):
    """The editions known."""


# --- examining


@dataclass(frozen=True)
class NewExamination(Ask):
    """A new examination; the edition is asked for unless it is given."""

    edition: str | None = None
    walk: str | None = None
    """A shorter walk; None is the whole dog."""
    sheets: bool = False
    """By regions' sheets, rather than point by point."""


@dataclass(frozen=True)
class OpenFile(Ask):
    """A session's file to go on with, or a round's."""

    path: Path
    sheets: bool = False
    """By regions' sheets, even if it was begun point by point."""


@dataclass(frozen=True)
class GoOn(Ask):
    """An opened examination where it stands: cautions, walk, or the review once signed."""

    sheet: CurrentExamination
    instead: bool = True
    """In place of the screen that asks, rather than over it."""


@dataclass(frozen=True)
class Walk(Ask):
    """The walk where it stood, on a region's sheet or at a point, or at the point `at`."""

    sheet: CurrentExamination
    at: int | None = None
    message: str = ""
    in_turn: bool = False
    """From a sheet: one after the other the points of the region that are open."""


@dataclass(frozen=True)
class Sheet(Ask):
    """All points of a region on one screen, in place of the screen that asks."""

    sheet: CurrentExamination
    region: str
    message: str = ""


@dataclass(frozen=True)
class Review(Ask):
    """What was found, in place of the screen that asks; `then` is what is done there at once."""

    sheet: CurrentExamination
    then: Doing = ""


@dataclass(frozen=True)
class Scribe(Ask):
    """The scribe's line for the whole dog; `done` is called when it closes."""

    sheet: CurrentExamination
    done: Callable[[], object]
    unit: UnitName | None = None


@dataclass(frozen=True)
class OwnWordsList(Ask):
    """The evaluator's own words; faults of `ruleset`, else any dog's; `done` is called at the end."""

    ruleset: Ruleset | None = None
    done: Callable[[], object] | None = None


@dataclass(frozen=True)
class DogDrawn(Ask):
    """The dog drawn over what the edition asks; of `at`, a point still being taken, nothing earlier shows."""

    sheet: CurrentExamination
    at: str = ""


@dataclass(frozen=True)
class PointDrawn(Ask):
    """Where a point is found, and what each answer looks like."""

    ruleset: Ruleset
    point: Point
    sex: Sex | None


@dataclass(frozen=True)
class Critique(Ask):
    """The critique of an opened examination; `done` is called when it closes."""

    sheet: CurrentExamination
    done: Callable[[], object]


@dataclass(frozen=True)
class CritiqueOf(Ask):
    """The critique of the examination in `path`."""

    path: Path


@dataclass(frozen=True)
class UnderAnother(Ask):
    """What an examination gives under another edition, which is asked for."""

    sheet: CurrentExamination


@dataclass(frozen=True)
class Practise(Ask):
    """Drawn dogs to be graded; of an edition that is asked for where none is named."""

    ruleset: str | None = None
    seed: int | None = None
    count: int | None = None


# --- comparing


@dataclass(frozen=True)
class Compare(Ask):
    """Two to six examinations side by side, which are asked for; `first` is marked already."""

    first: Path | None = None


@dataclass(frozen=True)
class ShowSideBySide(Ask):
    """These examinations side by side."""

    sessions: Sequence[Examined]
    seed: int | None = None
    """Fixes the draws of the order; without one the usual."""


@dataclass(frozen=True)
class DogsDrawn(Ask):
    """Dogs over each other, large. `heavy` tells of two, by their places, which parts really differ."""

    title: str
    drawn: Sequence[Drawn]
    heavy: Mapping[tuple[int, int], frozenset[str]]


@dataclass(frozen=True)
class Project(Ask):
    """A comparison in large letters for a room, from the part `at` on."""

    compared: SideBySide
    at: str
    only_different: bool


@dataclass(frozen=True)
class Pairing(Ask):
    """Two examinations as sire and dam."""

    sessions: Sequence[Examined]


@dataclass(frozen=True)
class Recheck(Ask):
    """A later examination of the dog in `path`; without one the dog is asked for."""

    path: Path | None = None


@dataclass(frozen=True)
class History(Ask):
    """The dog in `path` over all its examinations kept here."""

    path: Path


@dataclass(frozen=True)
class Cohort(Ask):
    """Many dogs together: of the sessions in `paths`, which dogs is asked for; `marked` is one of them."""

    paths: Sequence[Path]
    marked: Path | None = None


# --- evaluators and rounds


@dataclass(frozen=True)
class Agreement(Ask):
    """How well evaluators agree; which examinations is asked for."""


@dataclass(frozen=True)
class ShowAgreement(Ask):
    """How well the evaluators of these examinations agree."""

    sessions: Sequence[Examined]


@dataclass(frozen=True)
class AgreementFigures(Ask):
    """The statistics of an agreement."""

    found: AgreementFound


@dataclass(frozen=True)
class WhoExamines(Ask):
    """Who works here; `done` is called with the name."""

    done: Callable[[str], object]
    title: str = ""


@dataclass(frozen=True)
class SeminarRound(Ask):
    """Begin a round or take part in one."""


@dataclass(frozen=True)
class RoundWritten(Ask):
    """A round whose file was just written, in place of the screen that asks."""

    path: Path
    round: Round
    ruleset: Ruleset


# --- editions


@dataclass(frozen=True)
class ReadEdition(Ask):
    """An edition in full, or what is wrong with its file."""

    head: EditionHead


@dataclass(frozen=True)
class AgainstAnother(Ask):
    """The edition of a row and another one, which is asked for, rule by rule."""

    head: EditionHead


@dataclass(frozen=True)
class TwoEditions(Ask):
    """Two editions rule by rule; `done` is called when they are left."""

    first: Ruleset
    second: Ruleset
    done: Callable[[], object] | None = None


@dataclass(frozen=True)
class WriteEdition(Ask):
    """The edition in `path` written block by block; `done` is called when it is left."""

    path: Path
    done: Callable[[], object]


@dataclass(frozen=True)
class NewEdition(Ask):
    """A new edition's file; `done` is called with its id."""

    marked: EditionHead | None
    done: Callable[[str], object]
