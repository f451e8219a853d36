"""`hands-on assess FILE`: what a session gives under its edition, or under another.

The exit code is 0 for every evaluation that was computed: that a dog has faults is a result, not a failure.
"""

from __future__ import annotations

import sys
import textwrap
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from hands_on.commands.shared import CommandError, print_json
from hands_on.plain_text import one_line, visible

if TYPE_CHECKING:
    from hands_on.commands.shared import Context
    from hands_on.compare.editions.under_another import Change
    from hands_on.evaluate.result import Evaluation, Finding, RuleResult
    from hands_on.exam.session import Session
    from hands_on.measure.hand import OwnHand
    from hands_on.ruleset.ruleset import Ruleset

WIDTH = 100


def run(context: Context, file: str, *, edition: str | None, as_json: bool, own_hand: bool) -> int:
    """Print the evaluation of the session in `file`. Raises CommandError for what cannot be read."""
    from hands_on.evaluate import evaluate
    from hands_on.store.errors import StoreError
    from hands_on.store.session_file import read_session
    from hands_on.toml_text.problems import BadText
    from hands_on.wording.documents.evaluation import evaluation_document

    try:
        session = read_session(Path(file))
        ruleset = context.library.load(edition or session.ruleset.id)
    except (StoreError, BadText) as error:
        raise CommandError(visible(str(error), keep="\n")) from error
    hand = _own_hand(context, ruleset, session, Path(file)) if own_hand else {}
    evaluation = evaluate(ruleset, session, name=file, hand=hand)
    against = None
    if ruleset.id != session.ruleset.id:
        against = _against(context, session, ruleset, evaluation, hand)
    if as_json:
        print_json(evaluation_document(evaluation) | (against.as_json() if against is not None else {}))
        return 0
    for line in _lines(ruleset, session, evaluation):
        print(line)
    if against is not None:
        title = f"What changes against {session.ruleset.id}"
        for line in _section(visible(title), _changed(against), "nothing: no verdict, no class differs"):
            print(line)
    return 0


@dataclass(frozen=True)
class Against:
    """A session's own edition, and what another one changes; or why that cannot be told."""

    edition: str
    changes: tuple[Change, ...] | None
    problem: str = ""

    def as_json(self) -> dict[str, Any]:
        """The keys that go beside the evaluation's own."""
        from hands_on.wording.documents.editions import change_document

        told = None if self.changes is None else [change_document(change) for change in self.changes]
        return {"against": self.edition, "changes": told, "changes_problem": self.problem}


def _against(
    context: Context, session: Session, ruleset: Ruleset, evaluation: Evaluation, hand: Mapping[str, OwnHand]
) -> Against:
    from hands_on.compare.editions.under_another import changes
    from hands_on.evaluate import evaluate
    from hands_on.store.errors import StoreError
    from hands_on.toml_text.problems import BadText

    name = session.ruleset.id
    try:
        own = context.library.load(name)
    except (StoreError, BadText) as error:
        return Against(name, None, f"What changes cannot be told: {error}")
    before = evaluate(own, session, name=evaluation.session, hand=hand)
    return Against(name, changes(before, evaluation, own, ruleset))


def _changed(against: Against) -> Iterator[str]:
    from hands_on.wording.another_edition import change_sources, change_title, change_why

    if against.changes is None:
        yield from _text(against.problem)
    for change in against.changes or ():
        yield from _text(change_title(change))
        yield from _text(change_why(change), 6)
        for source in change_sources(change):
            yield from _text(f"[{source}]", 6)


def _own_hand(context: Context, ruleset: Ruleset, session: Session, file: Path) -> dict[str, OwnHand]:
    """The evaluator's own hand from the sessions kept; none, with a word of why, where they can't be read."""
    import sqlite3

    from hands_on.store import places
    from hands_on.store.errors import StoreError
    from hands_on.store.own_hand import hands_of

    folder = context.sessions
    try:
        return hands_of(folder, places.index_path(folder), ruleset, session.examination.evaluator, file)
    except (OSError, sqlite3.Error, StoreError) as error:
        print(visible(f"hands-on: the evaluator's own hand is not used: {error}"), file=sys.stderr)
        return {}


def _lines(ruleset: Ruleset, session: Session, evaluation: Evaluation) -> Iterator[str]:
    from hands_on.wording.alarms import alarm_text

    yield from _head(ruleset, session, evaluation)
    yield from _section("Measurements", _measures(ruleset, evaluation))
    yield from _section("What it may grow to", _growth(ruleset, evaluation))
    yield from _section("Proportions", _derived(evaluation))
    held = (rule for rule in evaluation.rules if rule.verdict != "not-measured")
    rules = (line for rule in held for line in _rule(evaluation, rule))
    yield from _section("What the edition asks", rules)
    found = (line for finding in evaluation.findings for line in _finding(evaluation, finding))
    yield from _section("Findings", found, "none")
    yield from _section("No fault here, or ruled out", _allowed(ruleset, evaluation))
    yield from _section("Totals", _totals(ruleset, evaluation))
    alarms = (_text(alarm_text(evaluation, alarm)) for alarm in evaluation.alarms)
    yield from _section("To look at again", (line for lines in alarms for line in lines), "nothing")
    yield from _section("Not examined", _gaps(ruleset, evaluation), "every point has an answer")


def _section(title: str, lines: Iterable[str], empty: str = "") -> Iterator[str]:
    """A titled section; without lines it is left out, or says `empty`."""
    rows = list(lines) or ([f"  {empty}"] if empty else [])
    if rows:
        yield f"\n{title}\n{'-' * len(title)}"
        yield from rows


def _text(text: str, indent: int = 2) -> list[str]:
    """A statement on as many lines as it needs; what people typed cannot move the cursor."""
    first, later = " " * indent, " " * (indent + 2)
    return textwrap.wrap(
        one_line(text), WIDTH, initial_indent=first, subsequent_indent=later, break_on_hyphens=False
    )


def _head(ruleset: Ruleset, session: Session, evaluation: Evaluation) -> Iterator[str]:
    from hands_on.wording.ages import age_text

    dog = session.dog
    name = dog.registered_name or dog.call_name or "a dog without a name"
    parts = [f"{name} ({dog.call_name})" if dog.registered_name and dog.call_name else name]
    parts += [{"male": "dog", "female": "bitch"}[dog.sex]] if dog.sex else []
    parts += [age_text(evaluation.age_months)] if evaluation.age_months is not None else []
    yield from _text(", ".join(parts), 0)
    held = session.examination
    told = [f"examined by {held.evaluator}" if held.evaluator else "", held.place]
    told += [f"{held.started:%d %B %Y}" if held.started else ""]
    yield from _text(", ".join(part for part in told if part), 0)
    yield from _text(f"Edition: {ruleset.edition.title} ({ruleset.id})", 0)
    if session.ruleset.id != ruleset.id:
        yield from _text(f"The session was held under {session.ruleset.id}.", 0)


def _measures(ruleset: Ruleset, evaluation: Evaluation) -> Iterator[str]:
    from hands_on.measure.units import format_measured
    from hands_on.wording.own_hand import hand_words
    from hands_on.wording.uncertainty import basis_words

    for one in evaluation.measures:
        point = ruleset.points.get(one.id)
        label = point.label if point is not None else one.id
        side = f", {one.side}" if one.side else ""
        young = f"; too young to judge, from {one.judged_from:g} months" if one.judged_from else ""
        yield from _text(f"{label}{side}: {format_measured(one.value, one.u, one.unit)}{young}")
        yield from _text("; ".join(filter(None, (basis_words(one.basis), hand_words(one)))), 6)
    if evaluation.measures:
        yield from _bases(evaluation)


_RESTING = {
    "own hand": "on the evaluator's own hand",
    "published": "on published figures",
    "derived": "on figures derived from published ones",
    "judgement": "on judgement",
}


def _bases(evaluation: Evaluation) -> Iterator[str]:
    """On what the uncertainties of the edition's measurements rest."""
    counts = {name: count for name, count in evaluation.bases.items() if name in _RESTING}
    total = sum(counts.values())
    if total:
        told = ", ".join(f"{count} {_RESTING[name]}" for name, count in counts.items())
        yield from _text(f"Uncertainties of this edition's {total} measurements: {told}.")


def _growth(ruleset: Ruleset, evaluation: Evaluation) -> Iterator[str]:
    from hands_on.wording.growth import growth_caution, growth_sentence

    for one in evaluation.growth:
        point = ruleset.points.get(one.id)
        yield from _text(f"{point.label if point is not None else one.id} {growth_sentence(one)}")
        for more in filter(None, (growth_caution(one), one.source and f"[{one.source}]")):
            yield from _text(more, 6)


def _derived(evaluation: Evaluation) -> Iterator[str]:
    from hands_on.measure.units import format_measured

    for one in evaluation.derived:
        yield from _text(f"{one.label or one.id}: {format_measured(one.value, one.u, one.unit)}")


def _rule(evaluation: Evaluation, rule: RuleResult) -> Iterator[str]:
    from hands_on.wording.rules import rule_sentence

    # Of a limit that judges, its sentence says so itself.
    practice = "; practice, not counted" if rule.optional and not rule.judged else ""
    yield from _text(f"{rule.label} {rule_sentence(evaluation, rule)}{practice}")
    if rule.band and rule.fault:
        yield from _text(rule.band, 6)
    yield from _text(f"[{rule.source}]", 6)
    if rule.reading and rule.verdict not in ("inside", "not-yet"):
        yield from _text(f"How it is read: {rule.reading}", 6)


def _finding(evaluation: Evaluation, finding: Finding) -> Iterator[str]:
    from hands_on.wording.findings import finding_reasons, measured_words

    yield from _text(_title(evaluation.classes.ruleset, finding))
    if finding.rules:
        yield from _text(measured_words(evaluation, finding), 6)
    for reason in finding_reasons(evaluation.classes.ruleset, finding):
        yield from _text(reason, 6)
    if finding.source:
        yield from _text(f"[{finding.source}]", 6)
    if finding.function:
        yield from _text(f"In use: {finding.function}", 6)


def _title(ruleset: Ruleset, finding: Finding) -> str:
    known = ruleset.classes.get(finding.cls or "")
    cls = known.label if known is not None else finding.cls or ""
    parts = [finding.label, *filter(None, (finding.detail, finding.degree, finding.side))]
    marks = [f"in a grown dog: {cls}" if finding.too_young else cls]
    marks += ["unsure, not in the totals"] if finding.status == "unsure" else []
    since = f", from {finding.judged_from:g} months" if finding.judged_from else ""
    marks += [f"too young to judge{since}, not counted"] if finding.too_young else []
    marks += ["dismissed by the evaluator"] if finding.decision == "dismiss" else []
    return f"{', '.join(parts)}: {'; '.join(filter(None, marks))}"


def _allowed(ruleset: Ruleset, evaluation: Evaluation) -> Iterator[str]:
    from hands_on.wording.findings import finding_reasons

    words = {"none": "no fault here", "observation": "recorded, never counted"}
    for finding in evaluation.allowed:
        parts = [finding.label, *filter(None, (finding.detail, finding.degree, finding.side))]
        said = "ruled out" if finding.status == "absent" else words.get(finding.cls or "", "")
        reasons = finding_reasons(ruleset, finding)
        why = f" ({reasons[0]})" if reasons and finding.status != "absent" else ""
        since = f", from {finding.judged_from:g} months" if finding.judged_from else ""
        young = f"; too young to judge{since}" if finding.too_young else ""
        yield from _text(f"{', '.join(parts)}: {said}{why}{young}")


def _totals(ruleset: Ruleset, evaluation: Evaluation) -> Iterator[str]:
    from hands_on.wording.outcome import outcome_reasons

    for name, count in evaluation.totals.items():
        unsure = evaluation.unsure.get(name, 0)
        if name not in ruleset.classes and not count and not unsure:
            continue
        known = ruleset.classes.get(name)
        more = f" (and {unsure} unsure)" if unsure else ""
        yield from _text(f"{known.label if known is not None else 'Unclassed'}: {count}{more}")
    if evaluation.outcome_at_most is not None:
        labels = {outcome.id: outcome.label for outcome in ruleset.edition.outcomes}
        best = labels.get(evaluation.outcome_at_most, evaluation.outcome_at_most)
        yield from _text(f"Best outcome left open: {best}")
        for reason in outcome_reasons(evaluation):
            yield from _text(reason, 6)


def _gaps(ruleset: Ruleset, evaluation: Evaluation) -> Iterator[str]:
    """Open points, then skipped ones with their reasons, region by region."""
    regions = {region.id: region.label for region in ruleset.regions}
    rows: dict[tuple[str, str], list[str]] = {}
    for gap in evaluation.gaps:
        reason = f"skipped: {gap.reason or 'no reason given'}" if gap.skipped else ""
        label = ruleset.points[gap.point].label if gap.point in ruleset.points else gap.point
        rows.setdefault((regions.get(gap.region, gap.region), reason), []).append(label)
    for (region, reason), labels in rows.items():
        yield from _text(f"{region}: {', '.join(labels)}{f' ({reason})' if reason else ''}")
