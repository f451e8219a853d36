"""`hands-on recheck FILE --plan`: what to look at again and why; with more files, what has come of it."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from hands_on.commands.columns import columns, paragraph, section
from hands_on.commands.given_sessions import held
from hands_on.commands.shared import CommandError, print_json
from hands_on.plain_text import one_line

if TYPE_CHECKING:
    from hands_on.commands.shared import Context
    from hands_on.compare.dogs.changed import Recheck
    from hands_on.compare.dogs.history import History, Moment
    from hands_on.compare.dogs.recheck import Plan, PlanItem
    from hands_on.compare.examined import Examined


def run(files: Sequence[str], *, as_json: bool, context: Context) -> int:
    """Print the plan for the dog of one session, or verdicts and history of two and more.

    Raises CommandError for what cannot be read, and for sessions of different dogs.
    """
    from hands_on.compare.dogs.changed import recheck
    from hands_on.compare.dogs.history import history
    from hands_on.compare.dogs.recheck import plan
    from hands_on.compare.examined import same_dog
    from hands_on.wording.documents.dogs import history_document, plan_document, recheck_document

    sessions = held(context, files)
    if not sessions:
        raise CommandError("there is no session in what was named.")
    if len(sessions) == 1:
        today = datetime.date.today()
        found = plan(sessions[0], on=today, blind=not as_json)
        if as_json:
            print_json({"dog": sessions[0].dog, "on": today, "points": plan_document(found)})
        else:
            _print(plan_lines(sessions[0], found))
        return 0
    sessions.sort(key=lambda one: one.order_key)
    stranger = next((one for one in sessions if not same_dog(one, sessions[0])), None)
    if stranger is not None:
        raise CommandError(
            f"{one_line(stranger.name)} is of another dog than {one_line(sessions[0].name)}; "
            "a re-check is of one dog."
        )
    verdicts, past = recheck(sessions[-2], sessions[-1], sessions[:-2]), history(sessions)
    if as_json:
        print_json(recheck_document(verdicts) | {"history": history_document(past)["points"]})
    else:
        _print(verdict_lines(verdicts))
        if len(sessions) > 2:
            _print(history_lines(past))
    return 0


def _print(rows: Iterator[str]) -> None:
    for row in rows:
        print(row)


def plan_lines(earlier: Examined, found: Plan) -> Iterator[str]:
    """The plan as text; what was found then is not told."""
    from hands_on.wording.ages import age_words
    from hands_on.wording.recheck import BLIND_TOLD, plan_words

    when = f"{earlier.day or 'on a day not known'} ({age_words(earlier.age)})"
    yield from paragraph(f"{earlier.dog}, examined {when}: look again at", 0)
    regions = {region.id: region.label for region in earlier.ruleset.regions}
    if any(item.blind for item in found.items):
        yield from paragraph(BLIND_TOLD, 0)
    parts: tuple[tuple[str, list[PlanItem]], ...] = (
        ("First", [item for item in found.items if item.first and not item.left_open]),
        (
            "If there is time: as asked then, but it may have moved",
            [item for item in found.items if not item.first],
        ),
        ("Left open then", [item for item in found.items if item.left_open]),
    )
    for title, items in parts:
        rows = (
            line
            for item in items
            for line in columns([regions.get(item.region, ""), item.label, plan_words(item)], [18, 28, 50], 2)
        )
        yield from section(title, rows, "nothing" if title == "First" else "")
    if found.dropped:
        yield from section("Not asked for any more", paragraph(", ".join(found.dropped)))


def verdict_lines(found: Recheck) -> Iterator[str]:
    """Then and now, the changes first."""
    from hands_on.wording.ages import age_words
    from hands_on.wording.recheck import RECHECK_REMARKS, VERDICTS, rechecked_sentence, same_sentence

    then, now = (f"{one.day} ({age_words(one.age)}, {one.evaluator})" for one in (found.earlier, found.later))
    yield from paragraph(f"{found.later.dog}: {then} and {now}", 0)
    for remark in found.remarks:
        yield from paragraph(f"Note: {RECHECK_REMARKS[remark]}", 0)
    for verdict, title in VERDICTS.items():
        rows = [one for one in found.points if one.verdict == verdict]
        if verdict == "within-hand-error":
            worth = [one for one in rows if one.difference.differs or one.difference.unexpected]
            told = same_sentence([one for one in rows if one not in worth])
            rows = worth
        shown = (line for one in rows for line in paragraph(rechecked_sentence(one)))
        yield from section(title, shown)
        if verdict == "within-hand-error" and told:
            yield from paragraph(told)
    others = [one for one in found.points if one.verdict is None]
    yield from section("Not in both", (line for one in others for line in paragraph(rechecked_sentence(one))))


def history_lines(found: History) -> Iterator[str]:
    """Measurements and graded departures over age."""
    yield ""
    yield "Over all examinations"
    for thread in found.threads:
        if thread.moved:
            told = "; ".join(map(_moment, thread.moments))
            yield from paragraph(f"{thread.label}: {told}")


def _moment(one: Moment) -> str:
    from hands_on.wording.ages import age_text
    from hands_on.wording.answers import answer_words

    age, day = one.session.age, one.session.day
    when = age_text(age) if age is not None else day or "?"
    return f"{when}: {answer_words(one.answer, one.session.ruleset)}"
