"""The commands. Only argparse is imported here; each command brings the rest when it runs.

Exit codes: 0 done, 1 checked and it falls short, 2 bad usage or input.
"""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Sequence
from types import ModuleType
from typing import Any

from hands_on import __version__
from hands_on.store.places import typed_path
from hands_on.streams import OutputFailed, give_up_output, standard_streams

USAGE = 2

_DESCRIPTION = (
    "A hands-on examination of a dog against its breed's written standard. "
    "Alone, `hands-on` opens the start screen."
)
_EPILOG = "Sessions and rulesets are plain TOML files; `hands-on COMMAND --help` tells more of each command."


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the program; the exit code is returned."""
    _no_plugins()
    gc.set_threshold(50_000)  # what a command makes stays to its end: looking for garbage is mostly in vain
    try:
        with standard_streams():
            given = sys.argv[1:] if arguments is None else list(arguments)
            return _run(_parser_for(given).parse_args(given))
    except BrokenPipeError:  # whoever read our output has stopped (`| head`): nothing more to say
        give_up_output()
        return 0
    except OutputFailed as error:
        give_up_output()
        print(f"hands-on: {error}", file=sys.stderr)
        return USAGE
    except KeyboardInterrupt:
        return 130


def _no_plugins() -> None:
    """Keep pydantic from looking for plugins: it would read the metadata of every package that is installed.

    A version of pydantic that does not ask this module simply does not find it.
    """
    none = ModuleType("pydantic.plugin._loader")
    none.get_plugins = tuple  # type: ignore[attr-defined]
    sys.modules.setdefault(none.__name__, none)


def _run(options: argparse.Namespace) -> int:
    from hands_on.commands.shared import CommandError, Context

    if getattr(options, "lang", None):
        os.environ["HANDS_ON_LANG"] = options.lang
    context = Context(getattr(options, "sessions", None), getattr(options, "rulesets", None))
    try:
        match options.command:
            case "practise":
                from hands_on.commands import practise

                return practise.run(context, options)
            case None | "demo" | "examine":
                from hands_on.commands import screens

                return screens.run(context, options)
            case "assess":
                from hands_on.commands import assess

                return assess.run(
                    context,
                    options.file,
                    edition=options.ruleset,
                    as_json=options.json,
                    own_hand=options.own_hand,
                )
            case "compare":
                from hands_on.commands import screens

                return screens.compare(context, options)
            case "recheck":
                from hands_on.commands import screens

                return screens.recheck(context, options)
            case "agree":
                from hands_on.commands import screens

                return screens.agree(context, options)
            case "cohort":
                from hands_on.commands import cohort

                return cohort.run(context, options)
            case "gather":
                from hands_on.commands import gather

                return gather.run(options.round, options.sources, as_json=options.json)
            case "check":
                from hands_on.commands import check

                return check.run(options.paths, as_json=options.json, library=context.library)
            case "report":
                from hands_on.commands import report

                return report.run(context, options)
            case "blank":
                from hands_on.commands import blank

                return blank.run(context, options)
            case "read":
                if options.own or (options.remove, options.bring, options.carry) != (None, None, None):
                    from hands_on.commands import own_words

                    return own_words.run(context, options)
                from hands_on.commands import read

                return read.run(
                    context,
                    options.notes,
                    edition=options.ruleset,
                    region=options.region,
                    as_json=options.json,
                    steps=options.explain,
                )
            case "rulesets":
                from hands_on.commands import rulesets

                return rulesets.run(context, options)
            case _:
                from hands_on.commands import records

                if options.export is not None:
                    return records.export_tables(context, options)
                return records.run(context, options.find, as_json=options.json)
    except CommandError as error:
        print(f"hands-on: {error}", file=sys.stderr)
        return USAGE
    except BrokenPipeError:
        raise
    except OSError as error:  # a folder closed to us, a disk that went away
        from hands_on.store.errors import reason_of

        where = f"{error.filename}: " if error.filename else ""
        print(f"hands-on: {where}{reason_of(error, 'read')}.", file=sys.stderr)
        return USAGE


class _Unasked(argparse.ArgumentParser):
    """Stands for a command that was not asked for: what is added is not kept, which saves its making."""

    def __init__(self) -> None:
        pass

    def add_argument(self, *names: Any, **options: Any) -> Any:
        """Nothing."""


def _parser_for(given: Sequence[str]) -> argparse.ArgumentParser:
    """The parser, whole unless these arguments begin with a command: then that alone is made."""
    if not given:
        return _parser("none")[0]
    parser, known = _parser(given[0])
    return parser if given[0] in known else _parser()[0]


def _parser(only: str = "") -> tuple[argparse.ArgumentParser, list[str]]:
    """The parser of all commands, or of one alone, and the names of all."""
    names: list[str] = []
    places = argparse.ArgumentParser(add_help=False)
    places.add_argument(
        "--sessions",
        type=typed_path,
        metavar="DIR",
        default=argparse.SUPPRESS,
        help="keep sessions in DIR (else HANDS_ON_SESSIONS, else the user's data folder)",
    )
    places.add_argument(
        "--rulesets",
        type=typed_path,
        metavar="DIR",
        default=argparse.SUPPRESS,
        help="look for your own rulesets in DIR (else HANDS_ON_RULESETS, else the user's data folder)",
    )
    places.add_argument(
        "--lang",
        metavar="CODE",
        default=argparse.SUPPRESS,
        help="show editions in this language where they have it: de, fr (else HANDS_ON_LANG, LANG)",
    )
    parser = _uncoloured(
        argparse.ArgumentParser(prog="hands-on", description=_DESCRIPTION, epilog=_EPILOG, parents=[places])
    )
    parser.add_argument("--version", action="version", version=f"hands-on {__version__}")
    parser.set_defaults(command=None)
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", title="commands")

    def command(name: str, summary: str, more: str = "") -> argparse.ArgumentParser:
        names.append(name)
        if only not in ("", name):
            return _Unasked()
        description = f"{summary}. {more}".strip()
        return _uncoloured(commands.add_parser(name, help=summary, description=description, parents=[places]))

    command("demo", "The start screen on a copy of the demo sessions", "Your own records are not touched.")
    examine = command(
        "examine",
        "A new examination, or go on with FILE",
        "Everything is saved after each answer; a signed session opens in its review. The file of a seminar "
        "round asks who you are and which of its dogs stands on the table.",
    )
    examine.add_argument("file", nargs="?", metavar="FILE", help="a session to go on with, or a round")
    examine.add_argument("--ruleset", metavar="ID", help="the edition for a new examination")
    examine.add_argument(
        "--walk",
        metavar="ID",
        help="a shorter walk: structure, young-dog, condition, or the edition's",
    )
    examine.add_argument(
        "--sheets", action="store_true", help="all points of a region on one screen, rather than one by one"
    )
    practise = command(
        "practise",
        "Drawn dogs to grade, with what was drawn told afterwards",
        "Departures are graded, angles and ratios estimated; some figures come twice, unannounced. Drawn "
        "dogs are not dogs: the eye is trained, not the hand.",
    )
    practise.add_argument("--ruleset", metavar="ID", help="dogs of this edition")
    practise.add_argument("--seed", type=int, metavar="N", help="the same number shows the same figures")
    practise.add_argument("--count", type=int, metavar="N", help="figures in the series (else 12)")
    practise.add_argument(
        "--progress", action="store_true", help="print bias, spread and learning curve by point"
    )
    practise.add_argument("--json", action="store_true", help="the progress as one JSON document")
    recheck = command(
        "recheck",
        "A later examination of the dog in FILE",
        "What was found then stays hidden until the new answer is given. With --plan only what to look at "
        "again, and why; with more files what has come of it, then and now, and over all examinations.",
    )
    recheck.add_argument(
        "files", nargs="+", metavar="FILE", help="an earlier session; more, for what came of it"
    )
    recheck.add_argument("--plan", action="store_true", help="print what to look at again, and why")
    compare = command(
        "compare",
        "Two to six sessions side by side",
        "Which differences are real and which within hand error; findings shared; the order of the dogs and "
        "how sure it is. On a terminal it opens a screen.",
    )
    compare.add_argument("files", nargs="+", metavar="FILE", help="sessions, or folders of sessions")
    compare.add_argument("--pairing", action="store_true", help="two of them as sire and dam")
    compare.add_argument("--plain", action="store_true", help="print it, also on a terminal")
    compare.add_argument(
        "--seed",
        type=int,
        metavar="N",
        help="fixes the draws of the order: the same number, the same figures",
    )
    agree = command(
        "agree",
        "How well several evaluators agree on the same dogs",
        "Who said what of which dog; for each point the statistic of its level with its interval, where they "
        "disagree most, and who leans which way. On a terminal it opens a screen.",
    )
    agree.add_argument(
        "files", nargs="+", metavar="FILE", help="sessions, folders, or a round with its sessions beside it"
    )
    agree.add_argument("--plain", action="store_true", help="print it, also on a terminal")
    agree.add_argument(
        "--point", action="append", metavar="ID", help="print who said what there; may stand several times"
    )
    agree.add_argument("--reference", metavar="NAME", help="hold everybody against this evaluator")
    gather = command(
        "gather",
        "Bring the sessions of a seminar round together",
        "Looks through folders, sticks and zip files for sessions that name the round and copies them into a "
        "folder beside its file. Nothing is overwritten; copies of one examination are told.",
    )
    gather.add_argument("round", metavar="ROUND", help="the round's file")
    gather.add_argument("sources", nargs="+", metavar="SOURCE", help="a folder, a zip file, or a session")
    read = command(
        "read",
        "Notes to findings and measurements",
        "Each NOTE is read, and of a file, a critique for instance, each paragraph; without any, standard "
        "input is, a note a line. With --json one document a line.",
    )
    read.add_argument("notes", nargs="*", metavar="NOTE", help='for instance "a touch steep in shoulder"')
    read.add_argument(
        "--explain", action="store_true", help="show how each note came to be read so, step by step"
    )
    read.add_argument("--ruleset", metavar="ID", help="with this edition's wording only (else that of all)")
    read.add_argument(
        "--own",
        action="store_true",
        help="list your own words, remembered when you put a reading right by hand; or change that list:",
    )
    read.add_argument("--remove", type=int, metavar="N", help="with --own: take the phrase of number N out")
    read.add_argument(
        "--from", dest="bring", type=typed_path, metavar="FILE", help="with --own: bring in those of FILE"
    )
    read.add_argument(
        "--to", dest="carry", type=typed_path, metavar="FILE", help="with --own: write them to a new FILE"
    )
    read.add_argument("--region", metavar="REGION", help="the region on the table, for words that need one")
    assess = command(
        "assess",
        "What a session gives under its edition",
        "Measurements with uncertainty, each rule's verdict, findings and classes, what to look at again.",
    )
    assess.add_argument("file", metavar="FILE", help="a session")
    assess.add_argument("--ruleset", metavar="ID", help="under another edition than the session's own")
    assess.add_argument(
        "--own-hand",
        action=argparse.BooleanOptionalAction,
        default=True,
        help="use the evaluator's own repeatability, where the sessions kept tell it (default: yes)",
    )
    report = command(
        "report",
        "The report to hand over: HTML, Markdown, CSV or JSON",
        "Of one session: who the dog is, how it stands, critique, findings, measurements, drawing, what was "
        "left out, sources. Of several: one dog's history, dogs side by side, or how evaluators agree. The "
        "HTML is one file without script; a browser prints it as PDF.",
    )
    report.add_argument("files", nargs="*", metavar="FILE", help="sessions, folders, or a round")
    report.add_argument(
        "--to", choices=("html", "md", "csv", "json"), help="default: by the ending of --out, else md"
    )
    report.add_argument(
        "--out", metavar="PATH", help="into this file (else printed); never over another unasked"
    )
    report.add_argument("--force", action="store_true", help="write over the file that is there")
    report.add_argument(
        "--as",
        dest="kind",
        choices=("comparison", "history", "agreement", "pairing"),
        help="what several sessions are shown as (else by what they are)",
    )
    report.add_argument("--ruleset", metavar="ID", help="under another edition than the session's own")
    report.add_argument("--critique", action="store_true", help="the critique alone, as plain text")
    report.add_argument(
        "--language",
        metavar="CODE",
        help="of the critique: en, de (default: the one that the edition is shown in, else en)",
    )
    report.add_argument(
        "--length",
        default="page",
        choices=("catalogue", "paragraph", "page"),
        help="of the critique: three lines, a paragraph, a page (default: page)",
    )
    report.add_argument(
        "--answers", action="store_true", help="with --critique: each drafted sentence with what it rests on"
    )
    report.add_argument("--schema", action="store_true", help="print the JSON Schema of the JSON report")
    blank = command(
        "blank",
        "A sheet to fill in by hand",
        "Every point of an edition in the order of the walk, its scale drawn, room for takes; a browser "
        "prints it. What was written on paper is entered afterwards in the same order, region by region.",
    )
    blank.add_argument("id", metavar="EDITION", help="the edition's id")
    blank.add_argument("--walk", metavar="ID", help="a shorter walk: structure, young-dog, condition")
    blank.add_argument("--sex", choices=("male", "female"), help="without what only the other sex has")
    blank.add_argument("--to", choices=("html", "md"), help="default: html, or by the ending of --out")
    blank.add_argument(
        "--out", metavar="PATH", help="into this file (else printed); never over another unasked"
    )
    blank.add_argument("--force", action="store_true", help="write over the file that is there")
    check = command(
        "check",
        "Are these rulesets and sessions sound",
        "Each error with file, line, key, what is wrong, what would be right. Exit code 1 if any is found.",
    )
    check.add_argument("paths", nargs="+", metavar="PATH", help="a file, or a folder of files")
    rulesets = command(
        "rulesets",
        "The editions known; one in full, two held together, a new one begun",
        "Each figure has its source beside it. A new edition is a commented file that passes the check.",
    )
    rulesets.add_argument("id", nargs="?", metavar="ID", help="show this edition in full")
    rulesets.add_argument("--against", metavar="ID", help="rule by rule, where this edition differs from ID")
    rulesets.add_argument("--new", metavar="ID", help="write the commented start of a new edition")
    rulesets.add_argument("--from", dest="origin", metavar="ID", help="with --new: as a copy of this edition")
    rulesets.add_argument(
        "--out", metavar="PATH", help="with --new: into this file or folder (else your own rulesets' folder)"
    )
    rulesets.add_argument(
        "--template", action="store_true", help="with --new: write the start, open no screen"
    )
    rulesets.add_argument(
        "--install", metavar="FILE", help="check an edition's file and put it among your own"
    )
    rulesets.add_argument("--replace", action="store_true", help="with --install: over another of its id")
    rulesets.add_argument("--read", metavar="FILE", help="what a standard's text proposes, nothing written")
    records = command("records", "The sessions kept, newest first")
    records.add_argument("--find", metavar="TEXT", help="only those with TEXT in a name, number, place, date")
    records.add_argument(
        "--export",
        type=typed_path,
        metavar="DIR",
        help="write all sessions as tidy tables into DIR, which must be new or empty: Parquet by year and "
        "edition with the extra `tables` (pyarrow), CSV without it",
    )
    records.add_argument(
        "--to",
        choices=("parquet", "csv"),
        help="with --export: how they are written (else Parquet where pyarrow is there)",
    )
    records.add_argument("--csv", action="store_const", dest="to", const="csv", help="the same as --to csv")
    cohort = command(
        "cohort",
        "Many dogs together: a litter, the offspring of a sire or dam, a kennel, years",
        "How often which fault, heights and proportions by sex, what moves over the years of birth, how an "
        "evaluator drifts; of all sessions kept, or of the files and folders named. A dog counts once.",
    )
    cohort.add_argument("files", nargs="*", metavar="FILE", help="sessions or folders (else those kept)")
    cohort.add_argument("--litter", default="", metavar="NAME", help="of this litter")
    cohort.add_argument("--sire", default="", metavar="NAME", help="by this sire")
    cohort.add_argument("--dam", default="", metavar="NAME", help="out of this dam")
    cohort.add_argument(
        "--kennel", default="", metavar="TEXT", help="with TEXT in the registered name, as a kennel's name is"
    )
    cohort.add_argument("--born", default="", metavar="YEARS", help="2023, 2020-2023, 2020- or -2023")
    cohort.add_argument("--sex", choices=("male", "female"), help="dogs or bitches only")
    cohort.add_argument("--evaluator", default="", metavar="NAME", help="examined by NAME")
    cohort.add_argument(
        "--breed", default="", metavar="TEXT", help="with TEXT in the breed's name, under any of its editions"
    )
    cohort.add_argument("--ruleset", default="", metavar="ID", help="examined under this edition")
    cohort.add_argument("--to", choices=("text", "csv", "html"), default="text", help="how it is written")
    cohort.add_argument(
        "--out", metavar="PATH", help="into this file (else printed); never over another unasked"
    )
    cohort.add_argument("--force", action="store_true", help="write over the file that is there")
    for sub in (cohort, recheck, read, assess, compare, agree, gather, check, rulesets, records):
        sub.add_argument("--json", action="store_true", help="one JSON document instead of text")
    return parser, names


def _uncoloured(parser: argparse.ArgumentParser) -> argparse.ArgumentParser:
    """Python 3.14 and later would put escape codes into help and errors."""
    setattr(parser, "color", False)  # noqa: B010
    return parser
