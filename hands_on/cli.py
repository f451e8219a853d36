"""Runs the commands (`arguments` declares them). Each brings what it needs when it runs.

Exit codes: 0 done, 1 checked and it falls short, 2 bad usage or input.
"""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Sequence
from types import ModuleType

from hands_on.arguments import parser_for
from hands_on.streams import OutputFailed, give_up_output, standard_streams

USAGE = 2

_MADE = 200_000
"""Objects that come into being before garbage is looked for: more than most commands make. What one makes
stays to its end, so that looking is mostly in vain; those that read thousands of files do reach it."""


def program() -> int:
    """`main` for a process of its own, which does not look for garbage at its end either."""
    try:
        return main()
    finally:
        gc.freeze()


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the program; the exit code is returned."""
    _no_plugins()
    gc.set_threshold(_MADE)
    try:
        with standard_streams():
            given = sys.argv[1:] if arguments is None else list(arguments)
            return _run(parser_for(given).parse_args(given))
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
