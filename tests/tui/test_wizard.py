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
        await pilot.press("0")
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
        assert {row["id"] for row in rules["classes"]} == {"undesirable", "fault", "severe", "disqualifying"}
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
        await pilot.press("0")
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


async def keys(pilot, *pressed):
    for key in pressed:
        await pilot.press(key)
        await pilot.pause()


async def test_a_height_is_answered_from_the_keypad_and_each_answer_is_on_disk_at_once(folder):
    app, path = begun(folder)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await keys(pilot, "3", "1", "enter")
        await typed(pilot, "50")
        assert next(row for row in held(path)["limits"])["asked"] == {"from": 50}
        await typed(pilot, "55")
        assert next(row for row in held(path)["limits"])["asked"] == {"from": 50, "to": 55}
        await typed(pilot, "1", "3")
        await keys(pilot, "5", "1")
    (limit,) = held(path)["limits"]
    assert limit["bands"] == [
        {"below": 47, "fault": "general.under-height", "class": "disqualifying"},
        {"from": 47, "below": 49, "fault": "general.under-height"},
        {"from": 49, "below": 50, "tolerated": True},
        {"above": 55, "to": 56, "tolerated": True},
        {"above": 56, "to": 58, "fault": "general.over-height"},
        {"above": 58, "fault": "general.over-height", "class": "disqualifying"},
    ]
    assert [row["id"] for row in held(path)["classes"]] == ["fault", "disqualifying"]
    assert Library([shipped_rulesets(), path.parent]).load("tarn-spaniel").edition.limits


async def test_what_hands_mended_in_a_limit_stays_when_a_figure_is_answered_anew(folder):
    app, path = begun(folder)
    text = path.read_text(encoding="utf-8")
    mine = (
        '\n[[limits]]\nid = "height-male"  # mine\nmeasure = "height"\nunit = "cm"\nwhen = { sex = "male" }\n'
        'asked = { from = 50, to = 55 }\nwords = "As I say it."  # kept\n'
        'bands = [\n    { below = 50, fault = "general.under-height" },\n'
        '    { above = 55, fault = "general.over-height" },\n]\n'
        'source = ["STANDARD", "common practice"]\n# the end\n'
    )
    path.write_text(text + mine, encoding="utf-8")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await keys(pilot, "3", "1", "enter", "backspace", "backspace")
        await typed(pilot, "51")
        await keys(pilot, "escape")
    after = path.read_text(encoding="utf-8")
    assert 'words = "As I say it."  # kept' in after
    assert 'id = "height-male"  # mine' in after
    assert "# the end" in after
    row = held(path)["limits"][0]
    assert row["asked"] == {"from": 51, "to": 55}
    assert row["source"] == ["STANDARD", "common practice"]


async def test_teeth_silences_sizes_and_what_a_class_leads_to_need_no_toml(folder):
    app, path = begun(folder)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await keys(pilot, "5", "2", "1", "7", "0")  # P1 and M3 are not counted
        await keys(pilot, "3", "2", "enter", "1", "6")  # an incisor missing: disqualifying
        await keys(pilot, "escape", "7", "2", "enter", "0")  # silent on weight
        await keys(pilot, "8", "5")
        await typed(pilot, "")
        await keys(pilot, "4", "escape")
        await keys(pilot, "3", "2", "0", "enter", "1")
        await typed(pilot, "Small", "35")
        await keys(pilot, "1")
        await typed(pilot, "Large", "")
    rules = held(path)
    assert rules["teeth"]["exempt"] == ["P1", "M3"]
    (rule,) = rules["teeth"]["rules"]
    assert (rule["of"], rule["at_least"], rule["class"]) == (["I"], 1, "disqualifying")
    assert rules["silent"][0]["points"] == ["weight"]
    out = next(row for row in rules["classes"] if row["id"] == "disqualifying")
    assert out["leads_to"] == "The dog is out."
    assert rules["attributes"]["size"]["options"] == {"small": "Small", "large": "Large"}
    sorts = next(row for row in rules["limits"] if row["id"] == "size")
    assert sorts["bands"] == [{"to": 35, "value": "small"}, {"above": 35, "value": "large"}]
    edition = Library([shipped_rulesets(), path.parent]).load("tarn-spaniel").edition
    assert edition.teeth is not None


async def test_the_rest_of_a_region_is_silent_or_as_in_the_nearest_edition_when_that_is_said(folder):
    app, path = begun(folder)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await keys(pilot, "6", "1", "enter")
        await typed(pilot, "Strong, well balanced.")
        await keys(pilot, "0")
        await typed(pilot, "-")
        said = held(path)
        (first,) = said["asked"]
        (silence,) = said["silent"]
        assert silence["points"]
        assert first not in silence["points"]
        await keys(pilot, "3", "enter")
        await typed(pilot, "=")
        assert set(held(path)["asked"]) == {first}, "nothing is taken over before it was confirmed"
        await keys(pilot, "1")
        more = {name: row for name, row in held(path)["asked"].items() if name != first}
        assert more
        assert all("not read in this standard" in row["reading"] for row in more.values())
        assert {name.split(".")[0] for name in more} == {"head"}
    Library([shipped_rulesets(), path.parent]).load("tarn-spaniel")


async def test_faults_are_typed_by_the_beginnings_of_their_words(folder):
    app, path = begun(folder)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await keys(pilot, "9", "1")
        await typed(pilot, "li ey; ro ba")
        assert "rulings" not in held(path)
        await keys(pilot, "1")
        assert {row["faults"][0] for row in held(path)["rulings"]} == {"eyes.light", "back.roached"}
