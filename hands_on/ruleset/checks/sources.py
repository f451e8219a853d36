"""Every figure has a source, and every source named exists."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from pydantic import BaseModel

from hands_on.ruleset.base import FREE_SOURCES
from hands_on.toml_text.report import Report, parts

__all__ = ["check_one_meaning", "check_sources"]

READING = "reading"
"""The word among the sources that tells our interpretation from the text."""
_FREE = ", ".join(f'"{word}"' for word in FREE_SOURCES)


def check_sources(
    report: Report, file: BaseModel, keys: Iterable[str], elsewhere: Iterable[str] = ()
) -> None:
    """Each `source` of the file against `keys`; `elsewhere` are keys that only another file declares.

    What carries a `reading` of ours must cite it: it may never pass for the standard's own word.
    """
    known, foreign = [*keys, *FREE_SOURCES], set(elsewhere)
    for path, part in parts(file):
        if "source" not in type(part).model_fields:
            continue
        named: tuple[str, ...] = getattr(part, "source")  # noqa: B009 - any part may have it
        if not any(key.strip() for key in named):
            report.error(
                (*path, "source") if "source" in part.model_fields_set else path,
                "a figure or rule without a source.",
                f"source = the key of an entry under [sources], or one of {_FREE}.",
            )
            continue
        if getattr(part, "reading", "") and READING not in named:
            report.error(
                (*path, "source"),
                "a reading of ours, and the source does not say so.",
                f'"{READING}" among the sources: source = [..., "{READING}"].',
            )
        for position, key in enumerate(named):
            where = (*path, "source", position) if len(named) > 1 else (*path, "source")
            if key in known:
                continue
            if key in foreign:
                report.error(
                    where,
                    f'the source "{key}" is declared in another file, not in this one.',
                    f'a line {key} = "..." under [sources] here.',
                )
            else:
                hint = f'a line {key} = "title, body, edition" under [sources], or one of {_FREE}.'
                report.expect(where, key, known, "source", hint)


def check_one_meaning(
    report: Report, own: Mapping[str, str], others: Mapping[str, Mapping[str, str]]
) -> None:
    """Warn of a key that another file gives to another text: the two would be shown for each other."""
    for key, text in own.items():
        if key in FREE_SOURCES:
            report.error(("sources", key), f'"{key}" is a word of the format.', "another key.")
        elif not text.strip():
            report.error(
                ("sources", key), "a source without a text.", "title, body, number, edition or year."
            )
        for file, table in others.items():
            if key in table and table[key].strip() != text.strip():
                report.warn(
                    ("sources", key),
                    f'the source key "{key}" stands for another text in {file}.',
                    "another key here, or the same text in both.",
                )
                break
