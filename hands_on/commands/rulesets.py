"""`hands-on rulesets [ID]`: the editions known, or one in full with its sources."""

from __future__ import annotations

import textwrap

from hands_on.commands.shared import CommandError, Context, print_json
from hands_on.plain_text import visible

WIDTH = 100


def run(context: Context, name: str | None, *, as_json: bool) -> int:
    """Print the list, or the edition `name`."""
    return _one(context, name, as_json) if name else _list(context, as_json)


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
    print(f"\nYour own editions go into {own}\nShow one in full: hands-on rulesets ID")
    return 0


def _one(context: Context, name: str, as_json: bool) -> int:
    from hands_on.report.edition import sections
    from hands_on.store.errors import StoreError
    from hands_on.toml_text.problems import BadText

    try:
        ruleset = context.library.load(name)
    except (StoreError, BadText) as error:
        raise CommandError(visible(str(error), keep="\n")) from error
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
            print(_wrapped(visible(entry.text + source), "  "))
            if entry.note:
                print(_wrapped(visible(entry.note), "      "))
        print()
    return 0


def _wrapped(text: str, indent: str) -> str:
    return textwrap.fill(text, WIDTH, initial_indent=indent, subsequent_indent=indent + "  ")
