"""Findings of several sessions: those that all share, and those that only some have."""

from __future__ import annotations

from collections.abc import Sequence

from hands_on.compare.examined import Examined, one_edition
from hands_on.evaluate.result import Finding
from hands_on.frozen import dataclass
from hands_on.ruleset.labels import Label

__all__ = ["Findings", "Held", "findings_of", "looked_for"]


@dataclass(frozen=True)
class Held:
    """One fault and who has it."""

    id: str
    named: Label
    region: str
    of: tuple[tuple[int, Finding], ...]
    """The session's place, and its finding; sides are findings of their own."""

    @property
    def sessions(self) -> tuple[int, ...]:
        """The places of those that have it, each once."""
        return tuple(dict.fromkeys(place for place, _ in self.of))


@dataclass(frozen=True)
class Findings:
    """Faults over all sessions, heaviest class first."""

    shared: tuple[Held, ...]
    """All have them."""
    only: tuple[Held, ...]
    """Some have them and others do not."""
    by_edition: tuple[Held, ...] = ()
    """Drawn from limits of different editions: they say as much of the edition as of the dog."""
    one_edition: bool = True
    """False: classes are not those of one edition."""


def findings_of(sessions: Sequence[Examined]) -> Findings:
    """Sort the findings of all sessions; what was ruled out, dismissed or is no fault here is left out."""
    rows: dict[str, list[tuple[int, Finding]]] = {}
    for place, one in enumerate(sessions):
        for finding in one.evaluation.findings:
            if finding.status != "absent" and finding.decision != "dismiss":
                rows.setdefault(finding.id, []).append((place, finding))
    same = one_edition(sessions)
    shared, only, by_edition = [], [], []
    for name, found in rows.items():
        held = Held(name, found[0][1].named, found[0][1].region, tuple(found))
        if not same and all(set(one.origins) == {"take"} for _, one in found):
            by_edition.append(held)
        elif len(held.sessions) == len(sessions):
            shared.append(held)
        else:
            only.append(held)

    def heaviest(held: Held) -> tuple[int, int]:
        ranks = [sessions[place].ruleset.rank(one.cls) * one.counts for place, one in held.of]
        return -max(ranks), held.of[0][0]

    shared.sort(key=heaviest)
    only.sort(key=heaviest)
    return Findings(tuple(shared), tuple(only), tuple(by_edition), same)


def looked_for(one: Examined, held: Held) -> bool:
    """Was a fault that others have looked for in this dog, too: is there an answer where theirs stands?"""
    points = {point for _, finding in held.of for point in finding.points}
    if one.session.teeth is not None and any(_is_teeth(one, point) for point in points):
        return True
    return not points or bool(points & {*one.answered, *one.noted, *one.measures.by_point})


def _is_teeth(one: Examined, point: str) -> bool:
    known = one.ruleset.points.get(point)
    return known is not None and known.kind == "teeth"
