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


GROUPS = [AWKWARD[at : at + 5] for at in range(0, len(AWKWARD), 5)]


@pytest.mark.parametrize("group", GROUPS, ids=["markup", "line breaks", "other"])
async def test_names_notes_reasons_and_summaries(folder, group):
    first, second, third, *_ = group
    begun(
        folder,
        dog={"call_name": first, "registered_name": second, "sex": "male"},
        examination={"evaluator": third, "place": group[-1], "started": "2026-05-02T09:00:00+02:00"},
        cautions=[{"id": row.id, "answer": "yes"} for row in LIBRARY.cautions().cautions],
        notes=[{"text": words, "region": "head"} for words in group],
        skips=[{"point": "height", "reason": second}],
        summary={"text": "".join(group)},
    )
    async with sitting(folder, size=(160, 100)) as table:

        def stands(*texts: str) -> None:
            assert harmless(table.text)
            assert not [text for text in texts if squeezed(text) not in squeezed(table.text)]

        stands(one_line(first), one_line(third))
        await table.press("r")
        stands(*map(one_line, (first, second, third, group[-1])))
        await table.press("enter")
        assert table.screen_name == "WalkScreen"
        await table.jump_to("height")
        stands(one_line(first), one_line(second))
        await table.press("r")
        rows = [row.text for row in table.app.screen.rows]
        for words in group:
            assert sum(words in row for row in rows) >= 2, "note and summary as they are"
            stands(visible(words, keep="\n"))
        await table.press("s")
        assert harmless(table.text)
        await table.press("escape", "g")
        assert harmless(table.text)


async def test_what_is_typed_reaches_the_file_unchanged(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        for words in AWKWARD:
            typed = "".join(char for char in words if char.isprintable()).strip()
            await table.press("s", "6")
            table.app.screen.query_one("Input").value = typed
            await table.press("enter")
            assert table.on_disk.skips[-1].reason == typed
            assert harmless(table.text)
