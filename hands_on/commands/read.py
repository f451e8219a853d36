"""`hands-on read [NOTE ...]`: notes to findings and measurements."""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Iterable

from hands_on.commands.shared import CommandError, Context, json_text
from hands_on.notes import Reading, Steps, WordingSource, build_lexicon, explain, read_note
from hands_on.plain_text import one_line, visible
from hands_on.wording.dogs import chance

_LONGEST = 1_000_000
"""Characters of a file that are looked at."""


def run(
    context: Context,
    notes: list[str],
    *,
    edition: str | None,
    region: str | None,
    as_json: bool,
    steps: bool = False,
) -> int:
    """Print what each note says: one JSON document a line, or plain text.

    A note that names a file is that file, a paragraph a note. Without notes, standard input is read, a note a
    line. `steps`: how each came to be read so is printed before it.
    """
    source = _wording(context, edition)
    regions = sorted({words.region for words in source.faults.values()})
    if region is not None and region not in regions:
        raise CommandError(f"there is no region {region!r}. Known: {', '.join(regions)}.")
    lexicon = build_lexicon(source)
    said = (one for note in notes for one in _paragraphs(note)) if notes else _lines()
    for note in said:
        if steps:
            print(_steps(explain(note, lexicon, region)), flush=True, file=sys.stderr if as_json else None)
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


def _paragraphs(note: str) -> list[str]:
    """The paragraphs of a file, each on one line; or the note itself, where it names none."""
    if not os.path.isfile(note):
        return [note]
    try:
        with open(note, encoding="utf-8", errors="replace") as file:
            text = file.read(_LONGEST)
    except OSError as error:
        raise CommandError(f"{visible(note)} can't be read: {error.strerror}.") from error
    found = [" ".join(part.split()) for part in re.split(r"\n[ \t]*\n", text)]
    return [part for part in found if part]


def _steps(steps: Steps) -> str:
    rows = ["clauses"]
    for clause in steps.clauses:
        known = {
            "part": clause.parts,
            "quality": clause.qualities,
            "named": clause.named,
            "talk": clause.talk,
        }
        told = "; ".join(f"{name} {', '.join(found)}" for name, found in known.items() if found)
        rows.append(f"  {clause.join:8} {one_line(clause.words)}" + (f"  [{told}]" if told else ""))
    rows.append("findings weighed")
    for found in steps.weighed:
        said = ", ".join(w for w in (found.status, found.degree, found.side) if w)
        rows.append(
            f"  {found.fault}, {said}, by {found.origin}: {chance(found.confidence)} "
            f"({one_line(found.words)})"
        )
        heaviest = ", ".join(f"{name} {weight:+.1f}" for name, weight in found.evidence[:8])
        rows.append(f"    {heaviest}")
    return "\n".join(rows)


def _text(reading: Reading, source: WordingSource) -> str:
    def label(name: str) -> str:
        words = source.faults.get(name) or source.measures.get(name)
        return words.label if words else name

    rows = [f"> {one_line(reading.note)}"]
    order = {name: at for at, name in enumerate(source.language.regions)}
    regions = {f.id: source.faults[f.id].region if f.id in source.faults else "" for f in reading.faults}
    for fault in sorted(reading.faults, key=lambda f: (order.get(regions[f.id], len(order)), f.span)):
        words = [fault.degree, fault.side, {"absent": "ruled out", "unsure": "unsure"}.get(fault.status)]
        said = "".join(f", {word}" for word in words if word)
        sure = "taken" if fault.accepted else f"to be confirmed, {chance(fault.confidence)}"
        others = f"; or {', '.join(map(label, fault.alternatives))}" if fault.alternatives else ""
        rows.append(f"  {label(fault.id)} ({fault.id}){said}: {sure}{others}")
    for measure in reading.measures:
        unit = f" {measure.unit}" if measure.unit else ""
        rows.append(f"  {label(measure.id)} ({measure.id}): {measure.value:g}{unit}")
    for right in reading.affirmed:
        sure = "as asked" if right.accepted else f"as asked, to be confirmed, {chance(right.confidence)}"
        rows.append(f"  {right.point}{f' {right.option}' if right.option else ''}: {sure}")
    unread = [reading.note[start:end].strip() for start, end in reading.unread]
    if any(unread):
        rows.append("  not read: " + "; ".join(one_line(piece) for piece in unread if piece))
    return "\n".join(rows)
