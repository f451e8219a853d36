"""`hands-on report FILE ...`: what leaves the table, as HTML, Markdown, CSV or JSON.

One session gives its report; several of one dog its history, several of other dogs a comparison, several
evaluators' of the same dogs their agreement, or what `--as` says.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal, get_args

from hands_on.commands.shared import CommandError, json_text
from hands_on.plain_text import visible

if TYPE_CHECKING:
    from hands_on.commands.shared import Context
    from hands_on.compare.examined import Examined
    from hands_on.exam.session import Session
    from hands_on.report.blocks import Report

Form = Literal["html", "md", "csv", "json"]
FORMS: tuple[Form, ...] = get_args(Form)

_ENDINGS: dict[str, Form] = {".html": "html", ".htm": "html", ".md": "md", ".csv": "csv", ".json": "json"}


def run(context: Context, options: argparse.Namespace) -> int:
    """Print the report, or write it to `--out`. Raises CommandError for what cannot be read or written."""
    if options.schema:
        from hands_on.report.document import schema_text

        _put(schema_text(), options)
        return 0
    if not options.files:
        raise CommandError(
            "report needs a session: hands-on report FILE, or --schema for the schema of its JSON."
        )
    if options.critique and len(options.files) != 1:
        raise CommandError("a critique is of one session; name one FILE.")
    form = form_of(options)
    sessions = _sessions(context, options)
    if options.critique:
        _put(_critique_text(context, sessions[0], options), options)
    elif len(sessions) == 1:
        _put(_one(context, sessions[0], form, options), options)
    else:
        _put(_several(sessions, form, options.kind), options)
    return 0


def form_of(options: argparse.Namespace) -> Form:
    """As what it is printed: as asked, else by the ending of the file, else Markdown."""
    if options.to is not None:
        return next(form for form in FORMS if form == options.to)
    return _ENDINGS.get(Path(options.out).suffix.lower(), "md") if options.out else "md"


def _sessions(context: Context, options: argparse.Namespace) -> list[Examined]:
    from hands_on.commands.given_sessions import held

    sessions = held(context, options.files)
    if not sessions:
        raise CommandError("there is no session in what was named.")
    if options.ruleset:
        from hands_on.compare.examined import examined
        from hands_on.store.errors import StoreError
        from hands_on.toml_text.problems import BadText

        try:
            ruleset = context.library.load(options.ruleset)
        except (StoreError, BadText) as error:
            raise CommandError(visible(str(error), keep="\n")) from error
        sessions = [examined(ruleset, one.session, name=one.name) for one in sessions]
    return sessions


# --- one session --------------------------------------------------------------------------------------


def _one(context: Context, one: Examined, form: Form, options: argparse.Namespace) -> str:
    session = _as_in_file(one)
    if form == "csv":
        from hands_on.report.record import point_rows
        from hands_on.report.tables import points_csv

        return points_csv(point_rows(one))
    if form == "json":
        from hands_on.report.document import report_document
        from hands_on.wording.critique.draft import LENGTHS

        drafts = {str(length): _drafted(context, one, options.language, length) for length in LENGTHS}
        return json_text(report_document(one, session, drafts), indent=2) + "\n"
    from hands_on.exam.cautions import cautions_for
    from hands_on.report.one_dog import Written, one_dog

    drafted, edited = _drafted(context, one, options.language, options.length)
    text = edited or drafted.text
    paragraphs = tuple(part for part in text.split("\n\n") if part.strip())
    written = Written(paragraphs, drafted.language, bool(edited))
    cautions = cautions_for(context.library.cautions(), one.ruleset, session)
    return _page(one_dog(one, session, written, cautions), form)


def _as_in_file(one: Examined) -> Session:
    """The session with its amendments apart."""
    from hands_on.store.session_file import read_session

    return read_session(Path(one.name))


def _drafted(context: Context, one: Examined, chosen: str | None, length: str) -> tuple[Any, str]:
    """The draft, and the text that the evaluator made of it; empty where none is kept."""
    from hands_on.exam.answers import edited_critique
    from hands_on.store.critiques import critique_language, critique_plan, critique_tongue
    from hands_on.store.errors import StoreError
    from hands_on.toml_text.problems import BadText
    from hands_on.wording.critique.draft import LENGTHS, draft

    language = chosen or critique_tongue(context.library, one.ruleset.language)
    try:
        words, plan = critique_language(context.library, language), critique_plan(context.library)
    except (StoreError, BadText) as error:
        raise CommandError(visible(str(error), keep="\n")) from error
    wanted = next(name for name in LENGTHS if name == length)
    kept = edited_critique(one.session, language, length)
    return draft(one.session, one.evaluation, words, plan, wanted), kept.text if kept is not None else ""


def _critique_text(context: Context, one: Examined, options: argparse.Namespace) -> str:
    """The critique alone; with `--answers` each drafted sentence with what it rests on."""
    drafted, edited = _drafted(context, one, options.language, options.length)
    if options.answers:
        rows = [
            f"{visible(sentence.text)}\n    {', '.join(sentence.answers)}"
            for paragraph in drafted.paragraphs
            for sentence in paragraph
        ]
        return "\n".join(rows) + "\n"
    return visible(edited or drafted.text, keep="\n") + "\n"


# --- several ------------------------------------------------------------------------------------------


def _several(sessions: list[Examined], form: Form, kind: str | None) -> str:
    if form == "csv":
        from hands_on.report.record import point_rows
        from hands_on.report.tables import points_csv

        return points_csv(row for one in sessions for row in point_rows(one))
    chosen = kind or _kind_of(sessions)
    if chosen == "history":
        return _history(sessions, form)
    if chosen == "agreement":
        return _agreement(sessions, form)
    if chosen == "pairing":
        return _pairing(sessions, form)
    return _comparison(sessions, form)


def _kind_of(sessions: Sequence[Examined]) -> str:
    """What several sessions are most likely wanted as."""
    from hands_on.compare.agreement.board import board_of
    from hands_on.compare.dogs.side_by_side import MOST
    from hands_on.compare.examined import same_dog

    if all(same_dog(one, sessions[0]) for one in sessions):
        evaluators = {one.evaluator.casefold() for one in sessions}
        return "agreement" if len(evaluators) > 1 and len({one.day for one in sessions}) == 1 else "history"
    board, _ = board_of(sessions)
    several = len(board.evaluators) > 1 and len(board.dogs) > 1 and len(board.cells) > len(board.dogs)
    return "agreement" if several or len(sessions) > MOST else "comparison"


def _history(sessions: list[Examined], form: Form) -> str:
    from hands_on.compare.dogs.changed import recheck
    from hands_on.compare.dogs.history import history
    from hands_on.compare.examined import same_dog
    from hands_on.report.over_age import over_age
    from hands_on.wording.documents.dogs import history_document, recheck_document

    sessions = sorted(sessions, key=lambda one: one.order_key)
    if not all(same_dog(one, sessions[0]) for one in sessions):
        raise CommandError("a history is of one dog; here are several. --as comparison compares them.")
    verdicts, past = recheck(sessions[-2], sessions[-1], sessions[:-2]), history(sessions)
    if form == "json":
        document = recheck_document(verdicts) | {"history": history_document(past)["points"]}
        return json_text(document, indent=2) + "\n"
    return _page(over_age(past, verdicts), form)


def _comparison(sessions: list[Examined], form: Form) -> str:
    from hands_on.compare.dogs.side_by_side import WrongNumber, side_by_side
    from hands_on.report.several_dogs import several_dogs
    from hands_on.wording.documents.dogs import comparison_document
    from hands_on.wording.dogs import wrong_number

    try:
        compared = side_by_side(sessions)
    except WrongNumber as error:
        raise CommandError(wrong_number(error)) from error
    if form == "json":
        return json_text(comparison_document(compared), indent=2) + "\n"
    return _page(several_dogs(compared), form)


def _pairing(sessions: list[Examined], form: Form) -> str:
    from hands_on.compare.dogs.pairing import pairing
    from hands_on.report.sire_and_dam import sire_and_dam
    from hands_on.wording.documents.dogs import pairing_document

    if len(sessions) != 2:
        raise CommandError(f"a pairing is of two sessions, sire and dam; here are {len(sessions)}.")
    found = pairing(*sessions)
    if form == "json":
        return json_text(pairing_document(found), indent=2) + "\n"
    return _page(sire_and_dam(found), form)


def _agreement(sessions: list[Examined], form: Form) -> str:
    from hands_on.compare.agreement.by_point import agreement
    from hands_on.report.evaluators import evaluators_report
    from hands_on.wording.documents.agreement import agreement_document

    found = agreement(sessions)
    if form == "json":
        return json_text(agreement_document(found), indent=2) + "\n"
    return _page(evaluators_report(found), form)


def _page(report: Report, form: Form) -> str:
    if form == "html":
        from hands_on.report.html import report_html

        return report_html(report)
    from hands_on.report.markdown import report_markdown

    return report_markdown(report)


# --- out ----------------------------------------------------------------------------------------------


def _put(text: str, options: argparse.Namespace) -> None:
    write_out(text, options.out, force=options.force)


def write_out(text: str, out: str | None, *, force: bool) -> None:
    """Print `text`, or write it to the file `out`; one that is there stays, unless it is said to go.

    Raises CommandError where the file is there and may not be replaced, or cannot be written.
    """
    from hands_on.store.atomic import write_atomic
    from hands_on.store.errors import reason_of
    from hands_on.store.places import typed_path

    if out is None:
        # A file of CSV ends its lines with CR LF (RFC 4180); what is printed does as all that is printed.
        sys.stdout.write(text.replace("\r\n", "\n"))
        return
    path = typed_path(out)
    if os.path.isdir(path):
        raise CommandError(f"--out {visible(out)}: this is a folder. Name the file in it.")
    there = os.path.lexists(path)
    if there and not force and not _may_replace(out):
        raise CommandError(f"{visible(out)} is there already and stays as it is. --force writes over it.")
    try:
        write_atomic(path, text, new=not there)
    except OSError as error:
        raise CommandError(f"--out {visible(out)}: {reason_of(error)}.") from error
    print(f"Written: {visible(out)}", file=sys.stderr)


def _may_replace(out: str) -> bool:
    """Asks, where somebody can answer."""
    if not (sys.stdin.isatty() and sys.stderr.isatty()):
        return False
    print(f"{visible(out)} is there already. Write over it? [y/N] ", end="", file=sys.stderr, flush=True)
    return sys.stdin.readline().strip().casefold() in ("y", "yes")
