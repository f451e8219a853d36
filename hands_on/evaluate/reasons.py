"""Why a finding has its class, and whether it counts, as values; `wording.findings` says it."""

from __future__ import annotations

from typing import Literal

from hands_on.evaluate.result import Origin
from hands_on.frozen import dataclass
from hands_on.measure.age import TooYoung
from hands_on.ruleset.base import Degree
from hands_on.ruleset.labels import Label

__all__ = ["Reason", "ReasonKind", "said"]

ReasonKind = Literal[
    "said",  # what the edition or the common parts say, in `text`
    "not-sure",  # not sure enough for a class, or (`cls` given) for a heavier one than that
    "degree-not-said",
    "practice",  # practice beside the standard that would give it `cls`
    "by-degree",  # at this `degree` it is `cls`
    "off",  # a rule that is off until chosen; its caution in `text`
    "unknown-fault",  # the edition does not know it
    "silent",  # the standard says nothing of the point
    "unruled",  # no ruling names it, and there is no general clause
    "general-clause",  # which says `text`
    "tolerated",  # outside what is asked for
    "of-dog",  # follows from what was entered of the dog
    "unseen-is-missing",  # teeth that count as missing by this edition
    "at-least-missing",  # `count` teeth at least; `teeth` were not seen
    "missing",
    "worn",
    "broken",
    "extra",
    "exempt",  # teeth that the edition does not count
    "teeth-rule",  # a rule for teeth, in `text`, that gives `cls`
    "degrees-differ",  # `degrees` by origin; the heavier is kept
    "worse-side",  # of both the side in `text`
    "too-young",  # at `young`
    "counted-young",  # counted before it can be judged, since `text`
    "seen-not-measured",  # seen so, but the measurement cannot tell: nothing disqualifies on it
    "dismissed",  # by the evaluator, for the reason in `text`
    "upheld",
    "class-unknown",  # the evaluator's class is none of the edition's
    "class-not-applied",  # the evaluator's class would disqualify a measured value
    "class-given",  # `cls` by the evaluator, `computed` by the edition
    "together",  # with the other faults in `names`, called `text`, it is `cls`
    "ruled-out",  # looked for and not there
]


@dataclass(frozen=True)
class Reason:
    """One reason; which of the values it has depends on its kind."""

    kind: ReasonKind
    text: str = ""
    cls: str | None = None
    computed: str | None = None
    degree: Degree | None = None
    teeth: tuple[int, ...] = ()
    count: int = 0
    degrees: tuple[tuple[Origin, Degree], ...] = ()
    names: tuple[Label, ...] = ()
    young: TooYoung | None = None


def said(*texts: str | None) -> tuple[Reason, ...]:
    """What the edition says, as far as it says anything."""
    return tuple(Reason("said", text) for text in texts if text)
