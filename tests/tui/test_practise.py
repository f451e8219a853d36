"""The practice screen: an answer is kept at once, what was drawn is told, the curve at the end."""

from __future__ import annotations

import json

from hands_on.figure.practice import series
from hands_on.store import practice_file
from hands_on.tui.asks import Practise
from tests.tui.driving import LIBRARY, sitting

RULES = LIBRARY.load("hovawart-fci-190")


async def test_a_series_is_gone_through_and_everything_kept(folder, tmp_path, monkeypatch):
    path = tmp_path / "practice.jsonl"
    monkeypatch.setattr("hands_on.tui.flows.practising.practice_path", lambda: path)
    made = series(RULES, 3, 3)
    async with sitting(folder, opens=Practise(RULES.id, 3, 3)) as table:
        assert table.screen_name == "PractiseScreen"
        assert "Drawn dogs are not dogs" in " ".join(table.text.split())
        await table.press("enter")
        assert "A number, please." in table.text
        for one in made:
            given = "1" if one.kind == "grade" else "1.2" if "/" in one.about else "45"
            await table.press(*[{".": "full_stop"}.get(sign, sign) for sign in given], "enter")
            assert "drawn" in table.text.lower()
            kept = [json.loads(row) for row in path.read_text(encoding="utf-8").splitlines()]
            assert (kept[-1]["about"], kept[-1]["truth"]) == (one.about, one.truth)
            await table.press("enter")
        assert "The series is through" in table.text
        assert "bias" in table.text
        assert len(practice_file.read_answers(path)) == 3
        await table.press("enter")
        assert table.screen_name == "StartScreen"


async def test_p_on_the_start_screen_asks_for_the_edition(folder):
    async with sitting(folder) as table:
        await table.press("p")
        assert "dogs of which edition" in table.text
