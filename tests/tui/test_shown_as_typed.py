"""Text from people is never parsed: markup, escape codes and the like show as typed, on every screen."""

from __future__ import annotations

import pytest

from hands_on.plain_text import one_line, visible
from tests.strategies import AWKWARD
from tests.tui.driving import LIBRARY, begun, sitting

CONTROLS = {chr(code) for code in range(32)} | {chr(code) for code in range(0x7F, 0xA0)}


def squeezed(text: str) -> str:
    """Without blanks and line breaks, which a screen may put anywhere."""
    return "".join(text.split())


def harmless(text: str) -> bool:
    return not (CONTROLS - {"\n"}) & set(text)


@pytest.mark.parametrize("words", AWKWARD)
async def test_names_notes_reasons_and_summaries(folder, words):
    begun(
        folder,
        dog={"call_name": words, "registered_name": words, "sex": "male"},
        examination={"evaluator": words, "place": words, "started": "2026-05-02T09:00:00+02:00"},
        cautions=[{"id": row.id, "answer": "yes"} for row in LIBRARY.cautions().cautions],
        notes=[{"text": words, "region": "head"}],
        skips=[{"point": "height", "reason": words}],
        summary={"text": words},
    )
    shown = squeezed(one_line(words))
    async with sitting(folder, size=(160, 60)) as table:
        assert harmless(table.text)
        assert shown in squeezed(table.text), "start screen"
        await table.press("r")
        assert harmless(table.text)
        assert shown in squeezed(table.text), "records"
        await table.press("enter")
        assert table.screen_name == "WalkScreen"
        await table.jump_to("height")
        assert harmless(table.text)
        assert shown in squeezed(table.text), "walk"
        await table.press("r")
        assert harmless(table.text)
        rows = [row.text for row in table.app.screen.rows]
        assert sum(words in row for row in rows) >= 3, "note, reason and summary as they are"
        assert squeezed(visible(words, keep="\n")) in squeezed(table.text), "review"
        await table.press("s")
        assert harmless(table.text)
        await table.press("escape", "g")
        assert harmless(table.text)


@pytest.mark.parametrize("words", AWKWARD)
async def test_what_is_typed_reaches_the_file_unchanged(folder, words):
    typed = "".join(char for char in words if char.isprintable())
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g", "s", "6")
        table.app.screen.query_one("Input").value = typed
        await table.press("enter")
        assert table.on_disk.skips[0].reason == typed.strip()
        assert harmless(table.text)
