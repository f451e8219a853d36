"""The dog, the examination and the ruleset named."""

from __future__ import annotations

import datetime
import re
from collections.abc import Mapping

from hands_on.exam.conditions import Entered
from hands_on.exam.session import Session
from hands_on.exam.signing import as_signed
from hands_on.ruleset.ruleset import Ruleset
from hands_on.toml_text.explain import listed, nearest
from hands_on.toml_text.problems import Level
from hands_on.toml_text.report import Report, parts

__all__ = ["check_header", "check_signature", "check_unknown_keys"]

_FIRST_YEAR = 1990
"""Nobody kept sessions before; an earlier year is a slip or a clock that was never set."""

_OLDEST = 31
"""Years; no dog on record lived longer than about 30 (common practice)."""

_COUNTRY = re.compile(r"[A-Z]{2}")


def check_header(report: Report, session: Session, rules: Ruleset | None) -> None:
    """Dog, dates, attributes, switches."""
    _check_dates(report, session)
    dog, examination = session.dog, session.examination
    if dog.sex is None:
        report.warn(
            ("dog",),
            "the dog's sex is missing, so no limit by sex can be judged.",
            'sex = "male" or sex = "female" under [dog].',
        )
    if not (dog.call_name or dog.registered_name):
        report.warn(("dog",), "the dog has no name.", 'call_name = "..." under [dog].')
    if not examination.evaluator:
        right = 'evaluator = "..." under [examination].'
        report.warn(("examination",), "nobody is named as evaluator.", right)
    if examination.kind == "recheck" and not examination.baseline:
        what = "a re-check names the earlier session it goes back to."
        report.warn(("examination", "kind"), what, 'baseline = "the earlier file.toml".')
    if examination.country and not _COUNTRY.fullmatch(examination.country):
        what = f'"{examination.country}" is no country code.'
        report.error(("examination", "country"), what, 'two capitals, for instance "DE".')
    if rules is not None:
        _check_attributes(report, session, rules)
        for n, name in enumerate(examination.switches):
            report.expect(("examination", "switches", n), name, rules.edition.switches, "switch")
        if session.summary.outcome:
            outcomes = [entry.id for entry in rules.edition.outcomes]
            offered = [row.id for row in Entered(rules, session).outcomes()]
            known = report.expect(("summary", "outcome"), session.summary.outcome, outcomes, "outcome")
            if known and session.summary.outcome not in offered:
                what = f'"{session.summary.outcome}" is not given at this dog\'s age.'
                right = listed(f'"{name}"' for name in offered) + "; or the dates mended."
                report.warn(("summary", "outcome"), what, right)
        _check_edition(report, session, rules)


def _check_dates(report: Report, session: Session) -> None:
    born, examination = session.dog.born, session.examination
    started, finished = examination.started, examination.finished
    for key, moment in (("started", started), ("finished", finished)):
        if moment is not None and moment.year < _FIRST_YEAR:
            report.warn(
                ("examination", key), f"the examination is dated {moment.year}.", "the year it took place in."
            )
    if born is not None and started is not None:
        if born > started.date():
            what = f"the dog was born on {born}, after the examination on {started.date()}."
            right = "the date of birth, year-month-day, and the date of the day."
            report.error(("dog", "born"), what, right, level=_of_a_date(session))
        elif started.year - born.year > _OLDEST:
            what = f"the dog would be {started.year - born.year} years old."
            report.warn(("dog", "born"), what, "the year the dog was born in.")
    if started is not None and finished is not None and _before(finished, started):
        what = f"the examination was finished ({finished}) before it was started ({started})."
        right = "a later time; mind the offset."
        report.error(("examination", "finished"), what, right, level=_of_a_date(session))


def _of_a_date(session: Session) -> Level:
    """A clock that was wrong can be mended until the session is signed; what is signed stays usable."""
    return "warning" if session.signature is not None else "error"


def _before(first: datetime.datetime, second: datetime.datetime) -> bool:
    """Times of which only one has an offset are compared as the clock shows them."""
    if (first.tzinfo is None) != (second.tzinfo is None):
        return first.replace(tzinfo=None) < second.replace(tzinfo=None)
    return first < second


def _check_attributes(report: Report, session: Session, rules: Ruleset) -> None:
    dog, attributes = session.dog, rules.edition.attributes
    for key in ("variety", "colour"):
        value = getattr(dog, key)
        if value and key in attributes:
            report.expect(("dog", key), value, attributes[key].options, f"{key} in this edition")
    for key, value in dog.attributes.items():
        path = ("dog", "attributes", key)
        if key in attributes:
            report.expect(path, value, attributes[key].options, f"{key} in this edition")
        elif close := nearest(key, attributes):
            report.error(path, f'this edition asks no "{key}".', f'"{close}"?')


def _check_edition(report: Report, session: Session, rules: Ruleset) -> None:
    ref = session.ruleset
    if ref.edition and ref.edition != rules.edition.edition:
        report.warn(
            ("ruleset", "edition"),
            f'held under edition "{ref.edition}"; {rules.id} here is edition "{rules.edition.edition}".',
            "that edition, or `hands-on assess` with this one in mind.",
        )
    if ref.digest and ref.digest != rules.digest:
        report.warn(
            ("ruleset", "digest"),
            "the ruleset has changed since this session was held; findings may come out differently.",
            f'nothing to mend; after a look at the findings, digest = "{rules.digest}".',
        )


def check_signature(report: Report, session: Session) -> None:
    """A signed session still says what was signed; amendments follow a signature and give a reason."""
    if as_signed(session) is False:
        report.warn(
            ("signature", "digest"),
            "what stands in the file is not what was signed.",
            "the signed text restored, and the change written as [[amendments]] with its reason.",
        )
    for n, amendment in enumerate(session.amendments):
        if session.signature is None:
            what = "an amendment, but nothing was signed."
            report.warn(("amendments", n), what, "the answer changed above; amendments follow a signature.")
        if not amendment.reason:
            report.warn(("amendments", n), "an amendment without a reason.", 'reason = "...".')


def check_unknown_keys(report: Report, session: Session) -> None:
    """Unknown keys are kept; one that looks like a known key is probably a slip."""
    for path, part in parts(session):
        known = [field.alias or name for name, field in type(part).model_fields.items()]
        extra: Mapping[str, object] = part.model_extra or {}
        for key in extra:
            if (close := nearest(key, known)) is not None:
                what = f"the key `{key}` is not known; it is kept and does nothing."
                report.warn((*path, key), what, f"`{close}`?")
