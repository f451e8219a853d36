"""What can be typed behind `hands-on`: each command with its options. `cli` runs what was asked.

Only the parser of the command asked for is made: `hands-on --help` alone needs those of all.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence

from hands_on import __version__
from hands_on.frozen import dataclass
from hands_on.store.places import typed_path

__all__ = ["parser_for"]

_DESCRIPTION = (
    "A hands-on examination of a dog against its breed's written standard. "
    "Alone, `hands-on` opens the start screen."
)
_EPILOG = "Sessions and rulesets are plain TOML files; `hands-on COMMAND --help` tells more of each command."


@dataclass(frozen=True)
class Command:
    """One command: what its help tells, and what adds its options."""

    summary: str
    more: str = ""
    add: Callable[[argparse.ArgumentParser], None] | None = None


def parser_for(given: Sequence[str]) -> argparse.ArgumentParser:
    """The parser, whole unless these arguments begin with a command: then that alone is made."""
    if not given:
        return _parser(())
    return _parser(given[:1] if given[0] in COMMANDS else tuple(COMMANDS))


def _parser(names: Sequence[str]) -> argparse.ArgumentParser:
    places = _places()
    parser = _uncoloured(
        argparse.ArgumentParser(prog="hands-on", description=_DESCRIPTION, epilog=_EPILOG, parents=[places])
    )
    parser.add_argument("--version", action="version", version=f"hands-on {__version__}")
    parser.set_defaults(command=None)
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", title="commands")
    for name in names:
        command = COMMANDS[name]
        description = f"{command.summary}. {command.more}".strip()
        sub = commands.add_parser(name, help=command.summary, description=description, parents=[places])
        if command.add is not None:
            command.add(_uncoloured(sub))
    return parser


def _places() -> argparse.ArgumentParser:
    """Options of every command."""
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
    return places


def _uncoloured(parser: argparse.ArgumentParser) -> argparse.ArgumentParser:
    """Python 3.14 and later would put escape codes into help and errors."""
    setattr(parser, "color", False)  # noqa: B010
    return parser


def _json(sub: argparse.ArgumentParser) -> None:
    sub.add_argument("--json", action="store_true", help="one JSON document instead of text")


def _examine(sub: argparse.ArgumentParser) -> None:
    sub.add_argument("file", nargs="?", metavar="FILE", help="a session to go on with, or a round")
    sub.add_argument("--ruleset", metavar="ID", help="the edition for a new examination")
    sub.add_argument(
        "--walk",
        metavar="ID",
        help="a shorter walk: structure, young-dog, condition, or the edition's",
    )
    sub.add_argument(
        "--sheets", action="store_true", help="all points of a region on one screen, rather than one by one"
    )


def _practise(sub: argparse.ArgumentParser) -> None:
    sub.add_argument("--ruleset", metavar="ID", help="dogs of this edition")
    sub.add_argument("--seed", type=int, metavar="N", help="the same number shows the same figures")
    sub.add_argument("--count", type=int, metavar="N", help="figures in the series (else 12)")
    sub.add_argument("--progress", action="store_true", help="print bias, spread and learning curve by point")
    sub.add_argument("--json", action="store_true", help="the progress as one JSON document")


def _recheck(sub: argparse.ArgumentParser) -> None:
    sub.add_argument("files", nargs="+", metavar="FILE", help="an earlier session; more, for what came of it")
    sub.add_argument("--plan", action="store_true", help="print what to look at again, and why")
    _json(sub)


def _compare(sub: argparse.ArgumentParser) -> None:
    sub.add_argument("files", nargs="+", metavar="FILE", help="sessions, or folders of sessions")
    sub.add_argument("--pairing", action="store_true", help="two of them as sire and dam")
    sub.add_argument("--plain", action="store_true", help="print it, also on a terminal")
    sub.add_argument(
        "--seed",
        type=int,
        metavar="N",
        help="fixes the draws of the order: the same number, the same figures",
    )
    _json(sub)


def _agree(sub: argparse.ArgumentParser) -> None:
    sub.add_argument(
        "files", nargs="+", metavar="FILE", help="sessions, folders, or a round with its sessions beside it"
    )
    sub.add_argument("--plain", action="store_true", help="print it, also on a terminal")
    sub.add_argument(
        "--point", action="append", metavar="ID", help="print who said what there; may stand several times"
    )
    sub.add_argument("--reference", metavar="NAME", help="hold everybody against this evaluator")
    _json(sub)


def _gather(sub: argparse.ArgumentParser) -> None:
    sub.add_argument("round", metavar="ROUND", help="the round's file")
    sub.add_argument("sources", nargs="+", metavar="SOURCE", help="a folder, a zip file, or a session")
    _json(sub)


def _read(sub: argparse.ArgumentParser) -> None:
    sub.add_argument("notes", nargs="*", metavar="NOTE", help='for instance "a touch steep in shoulder"')
    sub.add_argument(
        "--explain", action="store_true", help="show how each note came to be read so, step by step"
    )
    sub.add_argument("--ruleset", metavar="ID", help="with this edition's wording only (else that of all)")
    sub.add_argument(
        "--own",
        action="store_true",
        help="list your own words, remembered when you put a reading right by hand; or change that list:",
    )
    sub.add_argument("--remove", type=int, metavar="N", help="with --own: take the phrase of number N out")
    sub.add_argument(
        "--from", dest="bring", type=typed_path, metavar="FILE", help="with --own: bring in those of FILE"
    )
    sub.add_argument(
        "--to", dest="carry", type=typed_path, metavar="FILE", help="with --own: write them to a new FILE"
    )
    sub.add_argument("--region", metavar="REGION", help="the region on the table, for words that need one")
    _json(sub)


def _assess(sub: argparse.ArgumentParser) -> None:
    sub.add_argument("file", metavar="FILE", help="a session")
    sub.add_argument("--ruleset", metavar="ID", help="under another edition than the session's own")
    sub.add_argument(
        "--own-hand",
        action=argparse.BooleanOptionalAction,
        default=True,
        help="use the evaluator's own repeatability, where the sessions kept tell it (default: yes)",
    )
    _json(sub)


def _report(sub: argparse.ArgumentParser) -> None:
    sub.add_argument("files", nargs="*", metavar="FILE", help="sessions, folders, or a round")
    sub.add_argument(
        "--to", choices=("html", "md", "csv", "json"), help="default: by the ending of --out, else md"
    )
    sub.add_argument(
        "--out", metavar="PATH", help="into this file (else printed); never over another unasked"
    )
    sub.add_argument("--force", action="store_true", help="write over the file that is there")
    sub.add_argument(
        "--as",
        dest="kind",
        choices=("comparison", "history", "agreement", "pairing"),
        help="what several sessions are shown as (else by what they are)",
    )
    sub.add_argument("--ruleset", metavar="ID", help="under another edition than the session's own")
    sub.add_argument("--critique", action="store_true", help="the critique alone, as plain text")
    sub.add_argument("--language", default="en", metavar="CODE", help="of the critique: en, de (default: en)")
    sub.add_argument(
        "--length",
        default="page",
        choices=("catalogue", "paragraph", "page"),
        help="of the critique: three lines, a paragraph, a page (default: page)",
    )
    sub.add_argument(
        "--answers", action="store_true", help="with --critique: each drafted sentence with what it rests on"
    )
    sub.add_argument("--schema", action="store_true", help="print the JSON Schema of the JSON report")


def _blank(sub: argparse.ArgumentParser) -> None:
    sub.add_argument("id", metavar="EDITION", help="the edition's id")
    sub.add_argument("--walk", metavar="ID", help="a shorter walk: structure, young-dog, condition")
    sub.add_argument("--sex", choices=("male", "female"), help="without what only the other sex has")
    sub.add_argument("--to", choices=("html", "md"), help="default: html, or by the ending of --out")
    sub.add_argument(
        "--out", metavar="PATH", help="into this file (else printed); never over another unasked"
    )
    sub.add_argument("--force", action="store_true", help="write over the file that is there")


def _check(sub: argparse.ArgumentParser) -> None:
    sub.add_argument("paths", nargs="+", metavar="PATH", help="a file, or a folder of files")
    _json(sub)


def _rulesets(sub: argparse.ArgumentParser) -> None:
    sub.add_argument("id", nargs="?", metavar="ID", help="show this edition in full")
    sub.add_argument("--against", metavar="ID", help="rule by rule, where this edition differs from ID")
    sub.add_argument("--new", metavar="ID", help="write the commented start of a new edition")
    sub.add_argument("--from", dest="origin", metavar="ID", help="with --new: as a copy of this edition")
    sub.add_argument(
        "--out", metavar="PATH", help="with --new: into this file or folder (else your own rulesets' folder)"
    )
    sub.add_argument("--template", action="store_true", help="with --new: write the start, open no screen")
    sub.add_argument("--install", metavar="FILE", help="check an edition's file and put it among your own")
    sub.add_argument("--replace", action="store_true", help="with --install: over another of its id")
    sub.add_argument("--read", metavar="FILE", help="what a standard's text proposes, nothing written")
    _json(sub)


def _records(sub: argparse.ArgumentParser) -> None:
    sub.add_argument("--find", metavar="TEXT", help="only those with TEXT in a name, number, place, date")
    sub.add_argument(
        "--export",
        type=typed_path,
        metavar="DIR",
        help="write all sessions as tidy tables into DIR, which must be new or empty: Parquet by year and "
        "edition with the extra `tables` (pyarrow), CSV without it",
    )
    sub.add_argument(
        "--to",
        choices=("parquet", "csv"),
        help="with --export: how they are written (else Parquet where pyarrow is there)",
    )
    sub.add_argument("--csv", action="store_const", dest="to", const="csv", help="the same as --to csv")
    _json(sub)


def _cohort(sub: argparse.ArgumentParser) -> None:
    sub.add_argument("files", nargs="*", metavar="FILE", help="sessions or folders (else those kept)")
    sub.add_argument("--litter", default="", metavar="NAME", help="of this litter")
    sub.add_argument("--sire", default="", metavar="NAME", help="by this sire")
    sub.add_argument("--dam", default="", metavar="NAME", help="out of this dam")
    sub.add_argument(
        "--kennel", default="", metavar="TEXT", help="with TEXT in the registered name, as a kennel's name is"
    )
    sub.add_argument("--born", default="", metavar="YEARS", help="2023, 2020-2023, 2020- or -2023")
    sub.add_argument("--sex", choices=("male", "female"), help="dogs or bitches only")
    sub.add_argument("--evaluator", default="", metavar="NAME", help="examined by NAME")
    sub.add_argument(
        "--breed", default="", metavar="TEXT", help="with TEXT in the breed's name, under any of its editions"
    )
    sub.add_argument("--ruleset", default="", metavar="ID", help="examined under this edition")
    sub.add_argument("--to", choices=("text", "csv", "html"), default="text", help="how it is written")
    sub.add_argument(
        "--out", metavar="PATH", help="into this file (else printed); never over another unasked"
    )
    sub.add_argument("--force", action="store_true", help="write over the file that is there")
    _json(sub)


COMMANDS = {
    "demo": Command(
        "The start screen on a copy of the demo sessions",
        more="Your own records are not touched.",
    ),
    "examine": Command(
        "A new examination, or go on with FILE",
        more="Everything is saved after each answer; a signed session opens in its review. The file of a "
        "seminar round asks who you are and which of its dogs stands on the table.",
        add=_examine,
    ),
    "practise": Command(
        "Drawn dogs to grade, with what was drawn told afterwards",
        more="Departures are graded, angles and ratios estimated; some figures come twice, unannounced. "
        "Drawn dogs are not dogs: the eye is trained, not the hand.",
        add=_practise,
    ),
    "recheck": Command(
        "A later examination of the dog in FILE",
        more="What was found then stays hidden until the new answer is given. With --plan only what to "
        "look at again, and why; with more files what has come of it, then and now, and over all "
        "examinations.",
        add=_recheck,
    ),
    "compare": Command(
        "Two to six sessions side by side",
        more="Which differences are real and which within hand error; findings shared; the order of the "
        "dogs and how sure it is. On a terminal it opens a screen.",
        add=_compare,
    ),
    "agree": Command(
        "How well several evaluators agree on the same dogs",
        more="Who said what of which dog; for each point the statistic of its level with its interval, "
        "where they disagree most, and who leans which way. On a terminal it opens a screen.",
        add=_agree,
    ),
    "gather": Command(
        "Bring the sessions of a seminar round together",
        more="Looks through folders, sticks and zip files for sessions that name the round and copies them "
        "into a folder beside its file. Nothing is overwritten; copies of one examination are told.",
        add=_gather,
    ),
    "read": Command(
        "Notes to findings and measurements",
        more="Each NOTE is read, and of a file, a critique for instance, each paragraph; without any, "
        "standard input is, a note a line. With --json one document a line.",
        add=_read,
    ),
    "assess": Command(
        "What a session gives under its edition",
        more="Measurements with uncertainty, each rule's verdict, findings and classes, what to look at "
        "again.",
        add=_assess,
    ),
    "report": Command(
        "The report to hand over: HTML, Markdown, CSV or JSON",
        more="Of one session: who the dog is, how it stands, critique, findings, measurements, drawing, "
        "what was left out, sources. Of several: one dog's history, dogs side by side, or how "
        "evaluators agree. The HTML is one file without script; a browser prints it as PDF.",
        add=_report,
    ),
    "blank": Command(
        "A sheet to fill in by hand",
        more="Every point of an edition in the order of the walk, its scale drawn, room for takes; a "
        "browser prints it. What was written on paper is entered afterwards in the same order, region "
        "by region.",
        add=_blank,
    ),
    "check": Command(
        "Are these rulesets and sessions sound",
        more="Each error with file, line, key, what is wrong, what would be right. Exit code 1 if any is "
        "found.",
        add=_check,
    ),
    "rulesets": Command(
        "The editions known; one in full, two held together, a new one begun",
        more="Each figure has its source beside it. A new edition is a commented file that passes the check.",
        add=_rulesets,
    ),
    "records": Command(
        "The sessions kept, newest first",
        add=_records,
    ),
    "cohort": Command(
        "Many dogs together: a litter, the offspring of a sire or dam, a kennel, years",
        more="How often which fault, heights and proportions by sex, what moves over the years of birth, "
        "how an evaluator drifts; of all sessions kept, or of the files and folders named. A dog "
        "counts once.",
        add=_cohort,
    ),
}
