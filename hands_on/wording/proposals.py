"""Proposals read in a standard's text, in words: what a sentence proposes, and what its rule would say."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hands_on.standard_text import Proposal, Read, StandardText

__all__ = ["proposal_text", "read_as_json", "stretch_words", "tally"]

_KINDS = {
    "classes": "class",
    "general_clause": "general clause",
    "limits": "limit",
    "rulings": "ruling",
    "asked": "point",
    "teeth": "teeth",
    "remarks": "remark",
    "attributes": "attribute",
    "points": "own point",
    "switches": "off until chosen",
}
_DEGREE_UP = {
    "slight": "slight",
    "moderate": "moderate and up",
    "marked": "marked and up",
    "extreme": "extreme",
}


def stretch_words(stretch: Mapping[str, Any], unit: str = "") -> str:
    """`from 56 to 61 cm`; ends that do not belong say so: above, below."""
    said = [f"{key} {stretch[key]:g}" for key in ("from", "above", "to", "below") if key in stretch]
    return " ".join(said) + (f" {unit}" if unit else "")


def proposal_text(one: Proposal, labels: Mapping[str, str]) -> str:
    """A proposal in one line. `labels` are those of faults and points, by id."""
    table = one.table
    kind = _KINDS[one.kind]
    if one.kind == "limits":
        said = _limit(table)
    elif one.kind == "rulings":
        names = ", ".join(f"{labels.get(name, name)} ({name})" for name in table["faults"])
        when = table.get("when", {})
        where = "".join(
            f" {'at' if key == 'detail' else 'in'} {words if isinstance(words, str) else ', '.join(words)}"
            for key, words in when.items()
        )
        said = f"{names}{where}: {_classes(table)}"
    elif one.kind == "asked":
        said = f"{labels.get(one.key, one.key)} ({one.key}): {table['text']}"
    elif one.kind == "classes":
        said = table["label"] + (", which rules the dog out" if table.get("disqualifies") else "")
    elif one.kind == "teeth":
        said = _teeth(table)
    elif one.kind == "points":
        said = f"{table['label']} ({one.key})"
    elif one.kind == "switches":
        said = f"{table['label']} ({one.key}); {table['caution']}"
    elif one.kind == "attributes":
        said = f"{table['label']}: {', '.join(table['options'].values())}"
    else:
        said = str(table.get("text", ""))
    reading = f" [our reading: {one.reading}]" if one.reading else ""
    return f"{kind}: {said}{reading}"


def _limit(table: Mapping[str, Any]) -> str:
    unit = str(table.get("unit", ""))
    value = table.get("measure") or " to ".join(table.get("ratio", ())) or " less ".join(table["difference"])
    about = "about " if table.get("about") else ""
    said = f"{table['id']}: {value} {about}{stretch_words(table['asked'], unit)}"
    if table.get("ideal"):
        said += ", ideal"
    for band in table.get("bands", ()):
        what = "tolerated" if band.get("tolerated") else band.get("class") or "a departure"
        said += f"; {stretch_words(band, unit)}: {what}"
    return said


def _classes(table: Mapping[str, Any]) -> str:
    if "class" in table:
        return "no fault" if table["class"] == "none" else str(table["class"])
    return ", ".join(f"{_DEGREE_UP[degree]} {cls}" for degree, cls in table["by_degree"].items())


def _teeth(table: Mapping[str, Any]) -> str:
    if "exempt" in table:
        return f"not counted when missing: {', '.join(table['exempt'])}"
    which = ", ".join(table["of"]) if "of" in table else "any tooth"
    apart = f" but {', '.join(table['not_of'])}" if "not_of" in table else ""
    return f"{table['at_least']} or more missing of {which}{apart}: {table['class']}"


def tally(text: StandardText) -> str:
    """How much of a text proposes something."""
    counts: dict[str, int] = {}
    for one in text.reads:
        for proposal in one.proposals:
            counts[proposal.kind] = counts.get(proposal.kind, 0) + 1
    said = ", ".join(
        f"{count} {_KINDS[kind]}{'' if count == 1 or kind == 'teeth' else _ending(_KINDS[kind])}"
        for kind, count in counts.items()
    )
    return (
        f"{len(text.reads)} sentences and headings; proposed: {said or 'nothing'}; "
        f"{len(text.unread)} without a proposal."
    )


def _ending(word: str) -> str:
    return "es" if word.endswith("s") else "s"


def read_as_json(one: Read) -> dict[str, Any]:
    """A sentence and its proposals as plain data."""
    return {
        "number": one.sentence.number,
        "paragraph": one.sentence.paragraph,
        "class": one.sentence.cls or None,
        "heading": one.sentence.heading,
        "text": one.sentence.text,
        "proposals": [{"kind": p.kind, "id": p.key, "rule": p.table} for p in one.proposals],
    }
