"""`hands-on rulesets --read FILE`: what a standard's text proposes, sentence by sentence."""

from __future__ import annotations

import sys
from pathlib import Path

from hands_on.commands.shared import CommandError, Context, print_json
from hands_on.plain_text import one_line, visible


def run(context: Context, file: str, *, as_json: bool) -> int:
    """Print each sentence, what it proposes below it, and at the end what nothing was proposed for.

    Raises CommandError for a file that can't be read. `-` is standard input.
    """
    from hands_on.standard_text import read_standard
    from hands_on.store.standard_file import plain_text_of, standard_text
    from hands_on.store.wording import lexicon, wording
    from hands_on.toml_text.problems import BadText
    from hands_on.wording.proposals import proposal_text, read_as_json, tally

    try:
        text = (
            plain_text_of(sys.stdin.buffer.read(), "standard input")
            if file == "-"
            else standard_text(Path(file))
        )
        source = wording(context.library)
    except BadText as error:
        raise CommandError(visible(str(error), keep="\n")) from error
    read = read_standard(text, lexicon(context.library), "cm")
    if as_json:
        print_json([read_as_json(one) for one in read.reads])
        return 0
    common = context.library.common()
    labels = {name: words.label for name, words in source.faults.items()} | {
        name: point.label for name, point in common.points.items()
    }
    paragraph = None
    for one in read.reads:
        if one.sentence.paragraph != paragraph:
            paragraph = one.sentence.paragraph
            print(visible(f"\n[{paragraph}]", keep="\n"))
        print(visible(f"{one.sentence.number:4}  {one_line(one.sentence.text)}"))
        for proposal in one.proposals:
            print(visible(f"        -> {proposal_text(proposal, labels)}"))
    if read.unread:
        print("\nWithout a proposal: read these yourself")
        for one in read.unread:
            print(visible(f"{one.sentence.number:4}  {one_line(one.sentence.text)}"))
    print(f"\n{tally(read)}\nNothing was written.")
    return 0
