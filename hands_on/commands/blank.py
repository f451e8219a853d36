"""`hands-on blank EDITION`: a sheet to fill in by hand, in the order of the walk."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from hands_on.commands.report import write_out
from hands_on.commands.shared import CommandError
from hands_on.plain_text import visible

if TYPE_CHECKING:
    from hands_on.commands.shared import Context


def run(context: Context, options: argparse.Namespace) -> int:
    """Print the sheet, or write it to `--out`. Raises CommandError for an edition or a walk not known."""
    from hands_on.report.blank import blank_html, blank_markdown, blank_sheet
    from hands_on.store.errors import StoreError
    from hands_on.toml_text.problems import BadText

    try:
        ruleset = context.library.load(options.id)
    except (StoreError, BadText) as error:
        raise CommandError(visible(str(error), keep="\n")) from error
    walk = ruleset.walks.get(options.walk) if options.walk else None
    if options.walk and walk is None:
        known = ", ".join(ruleset.walks)
        raise CommandError(f"there is no walk {visible(options.walk)} in {ruleset.id}. Known here: {known}.")
    sheet = blank_sheet(ruleset, walk, options.sex)
    form = options.to or (
        "md" if options.out and Path(options.out).suffix.lower() in (".md", ".txt") else "html"
    )
    write_out(
        blank_html(sheet) if form == "html" else blank_markdown(sheet), options.out, force=options.force
    )
    return 0
