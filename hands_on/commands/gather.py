"""`hands-on gather ROUND SOURCE ...`: the sessions of a round brought together."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from hands_on.commands.columns import paragraph
from hands_on.commands.shared import CommandError, print_json
from hands_on.plain_text import visible

if TYPE_CHECKING:
    from hands_on.exam.round import Round


def run(round_file: str, sources: Sequence[str], *, as_json: bool) -> int:
    """Copy what names the round from folders, sticks and zip files; 1 where something had to be left out.

    Raises CommandError for what is no round, a source that can't be read, a folder that can't be written.
    """
    from hands_on.store.errors import StoreError
    from hands_on.store.gather import gather, gathered_folder
    from hands_on.store.places import typed_path
    from hands_on.toml_text.problems import BadText
    from hands_on.wording.gathering import gathered_sentences

    path = typed_path(round_file)
    found = _round(path, round_file)
    into = gathered_folder(path)
    told: list[dict[str, Any]] = []
    short = False
    for name in sources:
        try:
            result = gather(typed_path(name), found, into)
        except (StoreError, BadText) as error:
            raise CommandError(visible(str(error), keep="\n")) from error
        short = short or bool(result.unread)
        if as_json:
            told.append(
                {
                    "source": name,
                    "taken": [{"evaluator": e, "dog": d, "file": f} for e, d, f in result.rows],
                    "there": result.there,
                    "copies": [{"here": here, "beside": beside} for here, beside in result.copies],
                    "others": result.others,
                    "left_out": result.unread,
                    "more": result.more,
                }
            )
            continue
        print(visible(f"{name} -> {into}"))
        for sentence in gathered_sentences(
            result.rows, len(result.there), result.copies, result.others, result.unread, result.more
        ):
            for line in paragraph(sentence):
                print(visible(line))
    if as_json:
        print_json({"round": found.round.id, "folder": str(into), "sources": told})
    return 1 if short else 0


def _round(path: Path, name: str) -> Round:
    from hands_on.store.round_file import read_round
    from hands_on.toml_text.problems import BadText

    try:
        found = read_round(path)
    except BadText as error:
        raise CommandError(visible(str(error), keep="\n")) from error
    if found is None:
        raise CommandError(
            f"{visible(name)}: this is no round. A round's file has a table [round] and its [[dogs]]."
        )
    return found
