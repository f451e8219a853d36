"""`hands-on rulesets --new ID`: a commented start of a new edition, or a copy of another, in a new file."""

from __future__ import annotations

import os
from pathlib import Path

from hands_on.commands.shared import CommandError, Context, print_json
from hands_on.plain_text import visible


def run(
    context: Context, name: str, origin: str | None, out: str | None, *, as_json: bool, template: bool = False
) -> int:
    """Write the file of the edition `name`; on a terminal go on writing it block by block.

    An existing file is never overwritten: one of the user's own is gone on with. With `template` or
    `as_json`, and without a terminal, only the start is written.

    Raises CommandError for an id that can't be used or is taken, for an edition to copy that is not here
    or is broken, and where the file can't be written.
    """
    from hands_on.store.errors import StoreError
    from hands_on.store.new_edition import begin, flaw_of_new, guide, next_steps
    from hands_on.toml_text.problems import BadText
    from hands_on.tui.run import no_screens

    heads = context.library.heads()
    on_screen = not (as_json or template or no_screens())
    own = next((head.path for head in heads if head.id == name), None)
    if on_screen and own is not None and own.parent == context.ruleset_folders[-1]:
        return _screen(context, own)
    flaw = flaw_of_new(name, heads)
    if flaw:
        raise CommandError(visible(flaw))
    path = _place(context, name, out)
    try:
        begin(name, heads, origin, path)
    except (StoreError, BadText) as error:
        raise CommandError(visible(str(error), keep="\n")) from error
    if on_screen:
        return _screen(context, path)
    steps = next_steps(name, path)
    if as_json:
        print_json({"id": name, "path": str(path), "from": origin, "next": steps})
        return 0
    print(visible(f"A new edition stands in {path}"))
    print(
        "\nWhat to do next\n---------------\n"
        "  1. Edit the file: sources first, then only what your edition says. No figure in it is your\n"
        "     breed's until you have put it there. Every key is explained in"
    )
    print(visible(f"       {guide()}"))
    print("  2. Check it after each change, until it is sound:")
    print(visible(f"       {steps[0]}"))
    print("  3. Read it as others will, then examine a dog under it:")
    print(visible(f"       {steps[1]}\n       {steps[2]}", keep="\n"))
    return 0


def _screen(context: Context, path: Path) -> int:
    from hands_on.tui.asks import WriteEdition
    from hands_on.tui.run import start

    folders = list(context.ruleset_folders)
    if path.parent not in folders:
        folders.append(path.parent)
    return start(context.sessions, folders, opens=WriteEdition(path, lambda: None))


def _place(context: Context, name: str, out: str | None) -> Path:
    """Where the file goes: `out` is a folder that is there, or the file itself."""
    if out is None:
        return context.ruleset_folders[-1] / f"{name}.toml"
    path = Path(out)
    if os.path.isdir(path):
        return path / f"{name}.toml"
    if path.name != f"{name}.toml":
        right = path.with_name(f"{name}.toml")
        raise CommandError(
            visible(f"--out {path}: the file of the edition {name} is called {name}.toml. Right: {right}.")
        )
    return path
