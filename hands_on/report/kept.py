"""What the evaluator wrote and decided: summary, outcome, decisions, signature and amendments."""

from __future__ import annotations

from collections.abc import Iterator

from hands_on.evaluate.result import Evaluation
from hands_on.exam.answers import amended
from hands_on.exam.session import Amendment, Session
from hands_on.exam.signing import as_signed
from hands_on.report.statement import Statement
from hands_on.wording.outcome import outcome_label
from hands_on.wording.rules import class_name, point_label

__all__ = ["kept_statements", "signature_words"]


def kept_statements(evaluation: Evaluation, session: Session) -> tuple[Statement, ...]:
    """Always all of them: what was not given is said not to be there."""
    now = amended(session)
    outcome = outcome_label(evaluation.classes.ruleset, now.summary.outcome)
    return (
        Statement(f"Summary: {now.summary.text or 'none written'}"),
        Statement(
            f"Outcome given: {outcome or 'none'}; {_count('decision', len(now.decisions))}; "
            f"{_count('amendment', len(session.amendments))}"
        ),
        *_decisions(evaluation, now),
        Statement(signature_words(session)),
        *_amendments(evaluation, session),
    )


def _count(what: str, number: int) -> str:
    return f"{number or 'no'} {what}{'' if number == 1 else 's'}"


def signature_words(session: Session) -> str:
    """Who signed and when, and whether what was signed still stands as it was."""
    signature = session.signature
    if signature is None:
        return "Not signed"
    state = {
        True: "unchanged since",
        False: "what was signed has been changed since, outside this program",
        None: "without a digest, so nobody can tell whether it is unchanged",
    }[as_signed(session)]
    return f"Signed by {signature.name}, {signature.at:%d %B %Y, %H:%M}, {state}"


def _decisions(evaluation: Evaluation, session: Session) -> tuple[Statement, ...]:
    ruleset = evaluation.classes.ruleset
    rows = []
    for one in session.decisions:
        side = f", {one.side}" if one.side else ""
        did = {"uphold": "upheld", "dismiss": "dismissed"}[one.decision]
        cls = f" as {class_name(ruleset, one.class_)}" if one.class_ else ""
        why = f": {one.reason}" if one.reason else ""
        rows.append(Statement(f"Decision: {ruleset.label(one.fault)}{side} {did}{cls}{why}"))
    return tuple(rows)


def _amendments(evaluation: Evaluation, session: Session) -> Iterator[Statement]:
    for number, one in enumerate(session.amendments, start=1):
        when = f", {one.at:%d %B %Y}" if one.at is not None else ""
        by = f" by {one.by}" if one.by else ""
        about = ", ".join(_about(evaluation, one))
        why = f": {one.reason}" if one.reason else ""
        yield Statement(f"Amendment {number}{when}{by}, {about}{why}")


def _about(evaluation: Evaluation, one: Amendment) -> Iterator[str]:
    if one.point:
        yield point_label(evaluation, one.point)
    if one.notes:
        yield "a note" if len(one.notes) == 1 else f"{len(one.notes)} notes"
    if one.summary is not None:
        yield "the summary"
    if one.critique is not None:
        yield "the critique"
    if not (one.point or one.notes or one.summary or one.critique):
        yield "nothing said"
