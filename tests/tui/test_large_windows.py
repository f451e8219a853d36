"""In a window made larger the drawing takes only what question and answers leave."""

from __future__ import annotations

import pytest

from tests.tui.driving import begun, sitting


@pytest.mark.parametrize("point", ["body-condition", "mouth.bite"])
async def test_every_answer_stands_above_the_drawing(folder, point):
    begun(folder)
    async with sitting(folder, size=(60, 20)) as table:
        await table.press("g")
        await table.jump_to(point)
        await table.pilot.resize_terminal(160, 45)
        await table.settle()
        assert table.app.screen.query_one("#lines").max_scroll_y == 0
