"""`hands-on assess FILE`: what a session gives under its edition, or under another.

The exit code is 0 for every evaluation that was computed: that a dog has faults is a result, not a failure.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from hands_on.commands.shared import CommandError, print_json, text_width
from hands_on.frozen import dataclass
from hands_on.plain_text import visible

if TYPE_CHECKING:
    from hands_on.commands.shared import Context
    from hands_on.compare.editions.under_another import Change
    from hands_on.evaluate.result import Evaluation
    from hands_on.exam.session import Session
    from hands_on.measure.hand import OwnHand
    from hands_on.ruleset.ruleset import Ruleset


def run(context: Context, file: str, *, edition: str | None, as_json: bool, own_hand: bool) -> int:
    """Print the evaluation of the session in `file`. Raises CommandError for what cannot be read."""
    from hands_on.evaluate import evaluate
    from hands_on.report.dossier import dossier
    from hands_on.report.text import dossier_lines
    from hands_on.store.errors import StoreError
    from hands_on.store.session_file import read_session
    from hands_on.toml_text.problems import BadText
    from hands_on.wording.documents.evaluation import evaluation_document
    from hands_on.wording.documents.session import session_document

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
        document = evaluation_document(evaluation) | session_document(session)
        print_json(document | (against.as_json() if against is not None else {}))
        return 0
    width = text_width()
    for line in dossier_lines(dossier(ruleset, session, evaluation), width):
        print(line)
    if against is not None:
        print(visible(f"\nWhat changes against {session.ruleset.id}", keep="\n"))
        told = list(_changed(against, width)) or ["  nothing: no verdict, no class differs"]
        print("\n".join(told))
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


def _changed(against: Against, width: int) -> Iterator[str]:
    from hands_on.report.text import wrapped
    from hands_on.wording.another_edition import change_sources, change_title, change_why

    if against.changes is None:
        yield from wrapped(against.problem, width, 2)
    for change in against.changes or ():
        yield from wrapped(change_title(change), width, 2)
        yield from wrapped(change_why(change), width, 6)
        for source in change_sources(change):
            yield from wrapped(f"[{source}]", width, 6)


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
