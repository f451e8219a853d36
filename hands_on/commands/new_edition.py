"""`hands-on rulesets --new ID`: a commented start of a new edition, or a copy of another, in a new file."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from hands_on.commands.shared import CommandError, Context, print_json
from hands_on.plain_text import visible

if TYPE_CHECKING:
    from hands_on.store.library import EditionHead

TEMPLATE = Path("template") / "edition.toml"
"""In the folder of the shipped rulesets; a folder of its own, so that it is listed as no edition."""


def run(context: Context, name: str, origin: str | None, out: str | None, *, as_json: bool) -> int:
    """Write the file of the edition `name`; an existing file is never touched.

    Raises CommandError for an id that can't be used or is taken, for an edition to copy that is not here
    or is broken, and where the file can't be written.
    """
    from hands_on.ruleset.start import flaw_of_id
    from hands_on.store.places import shipped_rulesets

    flaw = flaw_of_id(name)
    if flaw:
        raise CommandError(visible(flaw))
    heads = context.library.heads()
    for head in heads:
        if name in (head.id, head.path.stem):
            raise CommandError(visible(f'the id "{name}" is taken by {head.path}. Right: another id.'))
    text = _copy(heads, origin, name) if origin else _template(name)
    path = _place(context, name, out)
    _write(path, text)
    steps = _next_steps(name, path)
    guide = shipped_rulesets() / "README.md"
    if as_json:
        print_json({"id": name, "path": str(path), "from": origin, "next": steps})
        return 0
    print(visible(f"A new edition stands in {path}"))
    print(
        "\nWhat to do next\n---------------\n"
        "  1. Edit the file: sources first, then only what your edition says. No figure in it is your\n"
        "     breed's until you have put it there. Every key is explained in"
    )
    print(visible(f"       {guide}"))
    print("  2. Check it after each change, until it is sound:")
    print(visible(f"       {steps[0]}"))
    print("  3. Read it as others will, then examine a dog under it:")
    print(visible(f"       {steps[1]}\n       {steps[2]}", keep="\n"))
    return 0


def _template(name: str) -> str:
    from hands_on.ruleset.start import begun
    from hands_on.store.places import shipped_rulesets

    return begun(_text(shipped_rulesets() / TEMPLATE), name)


def _copy(heads: list[EditionHead], origin: str, name: str) -> str:
    from hands_on.ruleset.start import copied
    from hands_on.store.errors import UnknownEdition
    from hands_on.store.library import near_ids

    known = {head.id: head for head in heads if head.problem is None}
    if origin not in known:
        broken = next((head.problem for head in heads if head.id == origin and head.problem), None)
        if broken:
            raise CommandError(visible(f"{origin} can't be copied before it is mended: {broken}"))
        raise CommandError(visible(str(UnknownEdition(origin, near_ids(origin, known), sorted(known)))))
    head = known[origin]
    return copied(_text(head.path), name, origin=origin, title=head.title)


def _text(path: Path) -> str:
    from hands_on.store.text_file import decode, parse, read_bytes
    from hands_on.toml_text.problems import BadText

    try:
        text = decode(read_bytes(path), str(path))
        parse(text, str(path))  # what is copied is TOML to its end
        return text
    except BadText as error:
        raise CommandError(visible(str(error), keep="\n")) from error


def _place(context: Context, name: str, out: str | None) -> Path:
    """Where the file goes: `out` is a folder that is there, or the file itself."""
    if out is None:
        return context.ruleset_folders[-1] / f"{name}.toml"
    path = Path(out)
    if path.is_dir():
        return path / f"{name}.toml"
    if path.name != f"{name}.toml":
        right = path.with_name(f"{name}.toml")
        raise CommandError(
            visible(f"--out {path}: the file of the edition {name} is called {name}.toml. Right: {right}.")
        )
    return path


def _write(path: Path, text: str) -> None:
    """A new file, whole or not at all. Raises CommandError."""
    from hands_on.store.errors import reason_of

    made = False
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("x", encoding="utf-8", newline="") as file:
            made = True
            file.write(text)
    except FileExistsError as error:
        what = "there is such a file already, which is left as it is" if path.exists() else reason_of(error)
        raise CommandError(visible(f"{path}: {what}.")) from error
    except OSError as error:
        if made:
            path.unlink(missing_ok=True)
        raise CommandError(visible(f"{path} can't be written: {reason_of(error)}.")) from error


def _next_steps(name: str, path: Path) -> list[str]:
    """The commands that come next, as they are typed."""
    from hands_on.store.places import ruleset_folders

    check = f"hands-on check {_quoted(str(path))}"
    found = path.parent.resolve() in [folder.resolve() for folder in ruleset_folders()]
    where = "" if found else f" --rulesets {_quoted(str(path.parent))}"
    return [check, f"hands-on rulesets {name}{where}", f"hands-on examine --ruleset {name}{where}"]


def _quoted(text: str) -> str:
    """A path as this system's shell takes it."""
    if sys.platform == "win32":
        return f'"{text}"' if " " in text else text
    import shlex

    return shlex.quote(text)
