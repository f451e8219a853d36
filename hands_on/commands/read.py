"""`hands-on read [NOTE ...]`: notes to findings and measurements."""

from __future__ import annotations

import sys
from collections.abc import Iterable

from hands_on.commands.shared import CommandError, Context, json_text
from hands_on.notes import Reading, WordingSource, build_lexicon, read_note
from hands_on.plain_text import one_line, visible


def run(context: Context, notes: list[str], *, edition: str | None, region: str | None, as_json: bool) -> int:
    """Print what each note says: one JSON document a line, or plain text.

    Without notes, standard input is read, a note a line.
    """
    source = _wording(context, edition)
    regions = sorted({words.region for words in source.faults.values()})
    if region is not None and region not in regions:
        raise CommandError(f"there is no region {region!r}. Known: {', '.join(regions)}.")
    lexicon = build_lexicon(source)
    for note in notes or _lines():
        reading = read_note(note, lexicon, region=region)
        if as_json:
            print(json_text(reading.as_json()), flush=True)
        else:
            print(_text(reading, source), flush=True)
    return 0


def _wording(context: Context, edition: str | None) -> WordingSource:
    from hands_on.store.errors import StoreError
    from hands_on.store.wording import wording
    from hands_on.toml_text.problems import BadText

    try:
        return wording(context.library, edition)
    except (StoreError, BadText, OSError) as error:
        raise CommandError(visible(str(error), keep="\n")) from error


def _lines() -> Iterable[str]:
    """Standard input line by line; bytes that are no UTF-8 become replacement signs."""
    for line in sys.stdin.buffer:
        yield line.decode("utf-8", errors="replace").rstrip("\r\n")


def _text(reading: Reading, source: WordingSource) -> str:
    def label(name: str) -> str:
        words = source.faults.get(name) or source.measures.get(name)
        return words.label if words else name

    rows = [f"> {one_line(reading.note)}"]
    for fault in reading.faults:
        words = [fault.degree, fault.side, {"absent": "ruled out", "unsure": "unsure"}.get(fault.status)]
        said = "".join(f", {word}" for word in words if word)
        sure = "taken" if fault.accepted else f"to be confirmed, {fault.confidence:.0%}"
        others = f"; or {', '.join(map(label, fault.alternatives))}" if fault.alternatives else ""
        rows.append(f"  {label(fault.id)} ({fault.id}){said}: {sure}{others}")
    for measure in reading.measures:
        unit = f" {measure.unit}" if measure.unit else ""
        rows.append(f"  {label(measure.id)} ({measure.id}): {measure.value:g}{unit}")
    unread = [reading.note[start:end].strip() for start, end in reading.unread]
    if any(unread):
        rows.append("  not read: " + "; ".join(one_line(piece) for piece in unread if piece))
    return "\n".join(rows)
