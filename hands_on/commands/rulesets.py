"""`hands-on rulesets [ID]`: the editions known, one in full with its sources, or two compared."""

from __future__ import annotations

import textwrap
from argparse import Namespace
from typing import TYPE_CHECKING

from hands_on.commands.shared import CommandError, Context, print_json
from hands_on.plain_text import visible

if TYPE_CHECKING:
    from hands_on.ruleset.ruleset import Ruleset

WIDTH = 100


def run(context: Context, options: Namespace) -> int:
    """The list, one edition, two compared, the start of a new one, or a standard's text read."""
    name, against, new = options.id, options.against, options.new
    if options.read is not None:
        if name is not None or against is not None or new is not None:
            raise CommandError("--read FILE goes alone, or with --json.")
        from hands_on.commands import read_standard

        return read_standard.run(context, options.read, as_json=options.json)
    if options.install is not None:
        if name is not None or against is not None or new is not None:
            raise CommandError("--install FILE goes with --replace and --json only.")
        from hands_on.commands import install_edition

        return install_edition.run(context, options.install, replace=options.replace, as_json=options.json)
    if new is None and (options.origin is not None or options.out is not None):
        raise CommandError("--from and --out go with --new ID, the id of the new edition.")
    if new is not None:
        if name is not None or against is not None:
            raise CommandError("--new ID writes a new edition; it goes with --from and --out only.")
        from hands_on.commands import new_edition

        return new_edition.run(
            context, new, options.origin, options.out, as_json=options.json, template=options.template
        )
    if against is not None:
        if name is None:
            raise CommandError("--against needs two editions: hands-on rulesets ID --against ID.")
        from hands_on.commands import compare_editions

        return compare_editions.run(context, name, against, as_json=options.json)
    return _one(context, name, options.json) if name else _list(context, options.json)


def _list(context: Context, as_json: bool) -> int:
    heads = context.library.heads(whole=True)
    if as_json:
        print_json(
            [
                {
                    "id": head.id,
                    "title": head.title,
                    "breed": head.breed,
                    "body": head.body,
                    "number": head.number,
                    "edition": head.edition,
                    "path": str(head.path),
                    "problem": head.problem.as_json() if head.problem else None,
                    "note": head.note,
                }
                for head in heads
            ]
        )
        return 0
    width = max((len(head.id) for head in heads), default=0)
    for head in heads:
        if head.problem:
            print(visible(f"{head.id:{width}}  can't be used: {head.problem}"))
        else:
            print(visible(f"{head.id:{width}}  {head.title}" + (f"  ({head.note})" if head.note else "")))
    own = context.ruleset_folders[-1]
    print(
        f"\nYour own editions go into {own}\nShow one in full: hands-on rulesets ID\n"
        "Hold two together: hands-on rulesets ID --against ID\nBegin a new one: hands-on rulesets --new ID"
    )
    return 0


def load(context: Context, name: str) -> Ruleset:
    """The edition `name`. Raises CommandError where it is not here or can't be used."""
    from hands_on.store.errors import StoreError
    from hands_on.toml_text.problems import BadText

    try:
        return context.library.load(name)
    except (StoreError, BadText) as error:
        raise CommandError(visible(str(error), keep="\n")) from error


def _one(context: Context, name: str, as_json: bool) -> int:
    from hands_on.wording.edition import sections

    ruleset = load(context, name)
    if as_json:
        document = ruleset.edition.model_dump(mode="json", by_alias=True, exclude_defaults=True)
        document["digest"] = ruleset.digest
        document["sources"] = dict(ruleset.sources)
        print_json(document)
        return 0
    for section in sections(ruleset):
        print(f"{section.title}\n{'-' * len(section.title)}")
        for entry in section.entries:
            source = f" [{entry.source}]" if entry.source else ""
            print(wrapped(visible(entry.text + source), 2))
            if entry.note:
                print(wrapped(visible(entry.note), 6))
        print()
    return 0


def wrapped(text: str, indent: int) -> str:
    """A statement on as many lines as it needs."""
    first, later = " " * indent, " " * (indent + 2)
    return textwrap.fill(text, WIDTH, initial_indent=first, subsequent_indent=later, break_on_hyphens=False)
