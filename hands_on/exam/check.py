"""Is a session sound? A text in, problems out; each says where, what is wrong and what would be right."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from hands_on.exam.formats import FORMAT, up_to_date
from hands_on.exam.session import Session
from hands_on.ruleset.ruleset import Ruleset
from hands_on.toml_text.formats import format_problem
from hands_on.toml_text.parse import validate
from hands_on.toml_text.problems import BadText, Problem
from hands_on.toml_text.tables import explained, parse_tables

if TYPE_CHECKING:
    from hands_on.toml_text.report import Report

__all__ = ["check_session", "read_session_text"]


def read_session_text(text: str, file: str) -> Session:
    """The session written in `text`.

    Raises BadText: not TOML, a newer format, keys that do not fit.
    """
    tables = parse_tables(text, file)
    unread = format_problem(tables, FORMAT, text, file)
    if unread is not None:
        raise BadText([unread])
    with explained(file):
        return validate(Session, up_to_date(tables), text, file)


def check_session(text: str, file: str, rules: Ruleset | None, editions: Iterable[str]) -> list[Problem]:
    """All that is wrong in a session's file, in the order of the file.

    `rules` is the edition the session names, None when it is not here or broken; `editions` are the ids
    of those that are here.
    """
    # Reading a session alone, as most commands do, brings none of the checks.
    from hands_on.exam.checks.answers import AnswerChecks
    from hands_on.exam.checks.header import check_header, check_signature, check_unknown_keys
    from hands_on.toml_text.report import Report

    try:
        session = read_session_text(text, file)
    except BadText as bad:
        return bad.problems
    report = Report(file, text)
    if rules is None:
        _no_rules(report, session.ruleset.id, list(editions))
    check_header(report, session, rules)
    if rules is not None:
        AnswerChecks(report, rules, session).check()
    check_signature(report, session)
    check_unknown_keys(report, session)
    return report.sorted()


def _no_rules(report: Report, name: str, editions: list[str]) -> None:
    from hands_on.toml_text.report import offer

    if name in editions:
        what = f'the ruleset "{name}" is here but cannot be used.'
        report.error(
            ("ruleset", "id"), what, "that ruleset mended: `hands-on check` tells what is wrong in it."
        )
    else:
        hint = "the ruleset's file put into the data folder, or given with --rulesets DIR."
        what = f'the ruleset "{name}" is not here.'
        report.error(("ruleset", "id"), what, offer(name, editions, "ruleset", hint))
