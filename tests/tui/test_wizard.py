"""An edition written on screen: from the standard's text and without it; each answer in the file at once."""

import tomllib
from pathlib import Path

from hands_on.store.library import Library
from hands_on.store.new_edition import begin
from hands_on.store.places import shipped_rulesets
from hands_on.tui.app import HandsOn
from hands_on.tui.asks import WriteEdition

TEXT = Path(__file__).parents[1] / "data" / "standards" / "tarn-spaniel.txt"


def begun(folder):
    own = folder.parent / "own"
    library = Library([shipped_rulesets(), own])
    path = own / "tarn-spaniel.toml"
    begin("tarn-spaniel", library.heads(), None, path)
    return HandsOn(folder, [shipped_rulesets(), own], opens=WriteEdition(path, lambda: None)), path


async def typed(pilot, *lines):
    for line in lines:
        for sign in line:
            pilot.app.screen.query_one("Input").insert_text_at_cursor(sign)
        await pilot.press("enter")
        await pilot.pause()


def held(path):
    return tomllib.loads(path.read_text(encoding="utf-8"))


async def test_lines_in_ones_own_words_are_in_the_file_before_the_next_question(folder):
    app, path = begun(folder)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("3")
        await pilot.pause()
        await typed(pilot, "dogs 50-55 cm, bitches 46-51 cm")
        assert "limits" not in held(path), "nothing is taken before it was confirmed"
        await pilot.press("1")
        await pilot.pause()
        limits = {row["id"]: row for row in held(path)["limits"]}
        assert limits["height-male"]["asked"] == {"from": 50, "to": 55}
        assert limits["height-female"]["asked"] == {"from": 46, "to": 51}
        await typed(pilot, "dogs more than 3 cm over or under are disqualified")
        await pilot.press("1")
        await pilot.pause()
        bands = next(row for row in held(path)["limits"] if row["id"] == "height-male")["bands"]
        assert {"above": 58, "fault": "general.over-height", "class": "disqualifying"} in bands
        assert [row["id"] for row in held(path)["classes"]] == ["fault", "disqualifying"]


async def test_a_block_of_the_text_is_taken_only_by_its_key(folder):
    app, path = begun(folder)
    before = path.read_text(encoding="utf-8")
    async with app.run_test(size=(100, 30)) as pilot:
        await pilot.pause()
        await pilot.press("2")
        await pilot.pause()
        await pilot.press("1")
        await pilot.pause()
        await typed(pilot, str(TEXT))
        await pilot.pause()
        assert app.screen.NAME == "standard-text"
        assert path.read_text(encoding="utf-8") == before
        await pilot.press("enter")
        await pilot.pause()
        assert len(held(path)["asked"]) >= 1
        for _ in range(60):
            await pilot.press("a")
        await pilot.pause()
        rules = held(path)
        assert {row["id"] for row in rules["classes"]} == {"fault", "severe", "disqualifying"}
        assert len(rules["rulings"]) > 40
        await pilot.press("escape")
        await pilot.pause()
        assert app.screen.NAME == "numbered"
    library = Library([shipped_rulesets(), path.parent])
    assert library.load("tarn-spaniel").edition.limits
    assert "# --- what is asked for" in path.read_text(encoding="utf-8"), "comments stay"
    text = path.read_text(encoding="utf-8").lower()
    assert "weather-resistant, about 5 cm long on the body" not in text


async def test_a_later_line_leaves_what_earlier_lines_said(folder):
    app, path = begun(folder)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("3")
        await pilot.pause()
        for line in ("dogs 50-55 cm", "dogs over 58 cm are disqualified", "dogs 20-25 kg", "tolerance 1 cm"):
            await typed(pilot, line)
            await pilot.press("1")
            await pilot.pause()
    limits = {row["id"]: row for row in held(path)["limits"]}
    bands = limits["height-male"]["bands"]
    assert {"above": 58, "fault": "general.over-height", "class": "disqualifying"} in bands
    assert {"above": 55, "to": 56, "tolerated": True} in bands
    assert limits["weight-male"]["asked"] == {"from": 20, "to": 25}
