"""All that is said of one examination, in the order it is read: five lines, then section by section."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from typing import Literal

from hands_on.evaluate.result import Evaluation
from hands_on.exam.answers import amended
from hands_on.exam.session import Session
from hands_on.frozen import dataclass
from hands_on.report.citing import Citing
from hands_on.report.found import allowed_statements, finding_groups
from hands_on.report.kept import kept_statements
from hands_on.report.measured import growth_statements, measured_statements, proportion_statements
from hands_on.report.standing import Lead, lead_lines
from hands_on.report.statement import Statement
from hands_on.ruleset.ruleset import Ruleset
from hands_on.wording.alarms import alarm_text
from hands_on.wording.outlook import outlook_lines
from hands_on.wording.own_hand import whose_hand

__all__ = ["Dossier", "Section", "dossier"]

_MANY_OPEN = 12
"""From so many open points on, only the report names each."""

SectionId = Literal["findings", "allowed", "open", "measurements", "growth", "evaluator", "again", "gaps"]


@dataclass(frozen=True)
class Section:
    """A titled part; without statements it says `empty`, or is left out where that is empty too."""

    id: SectionId
    title: str
    statements: tuple[Statement, ...]
    empty: str = ""

    @property
    def shown(self) -> bool:
        """Is there anything to say?"""
        return bool(self.statements or self.empty)


@dataclass(frozen=True)
class Dossier:
    """What is said of one examination."""

    lead: tuple[Lead, ...]
    sections: tuple[Section, ...]
    sources: tuple[tuple[str, str], ...]
    """Mark and text of each source cited."""


def dossier(ruleset: Ruleset, session: Session, evaluation: Evaluation, *, full: bool = False) -> Dossier:
    """Everything that is said; with `full` also why each finding has its class, and how rules are read."""
    now, citing = amended(session), Citing(ruleset)
    # Of one who is named each measurement tells on what it rests.
    evaluator = session.examination.evaluator
    hand = "" if evaluator.strip() else whose_hand(evaluator, evaluation.measures)
    measured = (
        *measured_statements(evaluation, full),
        *([Statement(hand)] if hand else []),
        *proportion_statements(evaluation, full),
    )
    sections = (
        Section("findings", "Findings", _cited(citing, finding_groups(evaluation, full)), "none"),
        Section("allowed", "No fault here", _cited(citing, allowed_statements(evaluation, full))),
        Section("open", "Left open", tuple(map(Statement, outlook_lines(evaluation)[1:])) if full else ()),
        Section("measurements", "Measurements and proportions", _cited(citing, measured)),
        Section("growth", "What it may grow to", _numbered(citing, growth_statements(evaluation))),
        Section("evaluator", "The evaluator's own", kept_statements(evaluation, session)),
        Section("again", "To look at again", _again(evaluation)),
        Section("gaps", "Not examined", _gaps(evaluation, full)),
    )
    return Dossier(lead_lines(now, evaluation), sections, citing.listed)


def _cited(citing: Citing, statements: Iterable[Statement]) -> tuple[Statement, ...]:
    return tuple(one.with_mark(citing.mark(one.sources)) for one in statements)


def _numbered(citing: Citing, statements: Iterable[Statement]) -> tuple[Statement, ...]:
    """Sources that are texts already and no keys of the edition."""
    return tuple(
        one.with_mark(f"[{', '.join(str(citing.number(text)) for text in one.sources)}]")
        if one.sources
        else one
        for one in statements
    )


def _again(evaluation: Evaluation) -> tuple[Statement, ...]:
    return tuple(Statement(alarm_text(evaluation, alarm)) for alarm in evaluation.alarms)


def _gaps(evaluation: Evaluation, full: bool) -> tuple[Statement, ...]:
    """Open points, then skipped ones with their reasons, region by region; regions of which nothing was
    examined together, and of the others, unless `full`, a number where many are open.
    """
    ruleset = evaluation.classes.ruleset
    regions = {region.id: region.label for region in ruleset.regions}
    size = Counter(point.region for point in ruleset.walk_points)
    rows: dict[tuple[str, str], list[str]] = {}
    for gap in evaluation.gaps:
        reason = f"skipped: {gap.reason or 'no reason given'}" if gap.skipped else ""
        label = ruleset.points[gap.point].label if gap.point in ruleset.points else gap.point
        rows.setdefault((reason, gap.region), []).append(label)
    many = not full and len(evaluation.gaps) > _MANY_OPEN
    whole: dict[str, list[str]] = {}
    parts: list[str] = []
    for (reason, region), labels in rows.items():
        name, why = regions.get(region, region), f" ({reason})" if reason else ""
        if len(labels) >= size[region]:
            whole.setdefault(why, []).append(name)
        elif many and len(labels) > 1:
            parts.append(f"{name} {len(labels)} of {size[region]} points{why}")
        else:
            parts.append(f"{name}: {', '.join(labels)}{why}")
    told = [f"Nothing of {', '.join(names)}{why}" for why, names in whole.items()]
    return tuple(map(Statement, (*told, *parts) if full else ("; ".join((*told, *parts)),) * bool(rows)))
