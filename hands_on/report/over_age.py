"""The report of one dog over several examinations: then and now, and every measurement over age."""

from __future__ import annotations

from collections.abc import Iterator

from hands_on.compare.dogs.changed import Recheck
from hands_on.compare.dogs.history import History, Thread
from hands_on.report.blocks import Block, Drawing, Part, Report, Rows, Table
from hands_on.report.drawn_dogs import drawn_over
from hands_on.report.plot import age_plot, plot_words
from hands_on.report.statement import Statement
from hands_on.wording.ages import age_text, age_words
from hands_on.wording.answers import answer_words
from hands_on.wording.recheck import RECHECK_REMARKS, VERDICTS, rechecked_sentence, same_sentence

__all__ = ["over_age"]


def over_age(past: History, verdicts: Recheck) -> Report:
    """Verdicts on the last two examinations, then all of them."""
    sessions = tuple(
        (one.day or "not known", age_words(one.age), one.evaluator or "not named", one.ruleset.edition.title)
        for one in past.sessions
    )
    held = Table("Examinations", ("Day", "Age", "Evaluator", "Edition"), sessions)
    remarks = tuple(Statement(RECHECK_REMARKS[remark]) for remark in verdicts.remarks)
    parts = (
        Part("examinations", "Examinations", (held, Rows(remarks))),
        Part("changes", "What has changed since the one before", tuple(_changes(verdicts))),
        Part("plots", "Measurements over age", tuple(_plots(past))),
        Part("drawn", "Drawn then and now", tuple(_drawn(past))),
        Part("points", "Point by point", (_points(past),)),
    )
    count = len(past.sessions)
    return Report(f"{past.dog} over {count} examinations", past.sessions[-1].ruleset.edition.title, parts)


def _changes(verdicts: Recheck) -> Iterator[Block]:
    for verdict, title in VERDICTS.items():
        rows = [one for one in verdicts.points if one.verdict == verdict]
        if verdict == "within-hand-error":
            alike = [one for one in rows if not (one.difference.differs or one.difference.unexpected)]
            rows = [one for one in rows if one not in alike]
            said = [Statement(same_sentence(alike))] if alike else []
        else:
            said = []
        told = [Statement(rechecked_sentence(one)) for one in rows] + said
        if told:
            yield Rows((Statement(title, heading=True), *told))
    others = [Statement(rechecked_sentence(one)) for one in verdicts.points if one.verdict is None]
    if others:
        yield Rows((Statement("Not in both", heading=True), *others))


def _plots(past: History) -> Iterator[Drawing]:
    for thread in past.threads:
        drawn = age_plot(thread)
        if drawn:
            yield Drawing(drawn, f"{thread.label}: {plot_words(thread)}")


def _drawn(past: History) -> Iterator[Drawing]:
    """The last examination, the one before over it."""
    if len(past.sessions) > 1:
        then, now = past.sessions[-2:]
        yield drawn_over(now, then, (f"Now, at {age_words(now.age)}", f"then, at {age_words(then.age)}"))


def _points(past: History) -> Table:
    moved = [thread for thread in past.threads if thread.moved]
    rows = tuple((thread.label, _moments(thread)) for thread in moved)
    return Table("What was said at each age, where it moved", ("Point", "At each age"), rows)


def _moments(thread: Thread) -> str:
    told = []
    for one in thread.moments:
        age, day = one.session.age, one.session.day
        when = age_text(age) if age is not None else day or "?"
        told.append(f"{when}: {answer_words(one.answer, one.session.ruleset)}")
    return "; ".join(told)
