"""Editions on the screens: two rule by rule, an examination under another one, a new one begun.

Sources of the Weimaraner figures: FCI-Standard N° 99, English text of 26.05.2015 (height of dogs 59 to 70 cm,
disqualifying more than 2 cm outside); American Kennel Club, Official Standard for the Weimaraner, approved
14 December 1971 (dogs 25 to 27 in, more than one inch outside disqualifies).
"""

from __future__ import annotations

import pytest
from rich.cells import cell_len

from hands_on.compare.editions.rule_by_rule import compare_editions
from hands_on.ruleset.start import flaw_of_id
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from hands_on.tui.asks import OpenFile, TwoEditions
from hands_on.tui.edition_parts import BLANK, edition_parts
from hands_on.tui.screens.two_editions import TwoEditionsScreen
from hands_on.tui.screens.under_another import UnderAnotherScreen
from hands_on.tui.widgets.side_table import SideTable
from hands_on.wording.labels import label_words
from hands_on.wording.two_editions import told as in_words
from tests.tui.demo import BRUMO, FENJA, TOVIK, demo
from tests.tui.driving import LIBRARY, begun, sitting

FCI, AMERICAN = "weimaraner-fci-99", "weimaraner-american"


def one_line(text: str) -> str:
    return " ".join(text.split())


def both():
    return LIBRARY.load(FCI), LIBRARY.load(AMERICAN)


def opened() -> dict[str, object]:
    return {"opens": TwoEditions(*both())}


def told(screen: UnderAnotherScreen) -> list[str]:
    """What is told, a piece a line, its reason behind it."""
    rows = screen.paragraphs
    return [one_line(f"{row.heading} {row.text} {row.aside}") for row in rows]


# --- two editions ------------------------------------------------------------------------------------


async def test_the_editions_of_the_breed_are_offered_first_and_say_so(folder):
    async with sitting(folder) as table:
        await table.press("e")
        await table.type(AMERICAN)
        await table.press("f3")
        lines = table.text.split("\n")
        assert lines[3].startswith("Weimaraner, FCI 99")
        assert "the same breed" in lines[4]
        assert table.text.count("the same breed") == 1
        assert AMERICAN not in table.text, "an edition is not held against itself"
        await table.press("enter")
        assert table.screen_name == "TwoEditionsScreen"
        assert "American standard, 1971 against Weimaraner, FCI 99" in table.text
        await table.press("escape")
        assert table.screen_name == "EditionsScreen"


async def test_in_a_wide_window_each_edition_has_a_column_and_a_word_says_what_differs(folder):
    async with sitting(folder, (160, 45), **opened()) as table:
        side = table.app.screen.query_one(SideTable)
        place = next(n for n, part in enumerate(side.parts) if part.title == "Measured")
        side.go_to(place)
        await table.pilot.pause()
        lines = table.text.split("\n")
        head = next(line for line in lines if line.split() == [FCI, AMERICAN])
        first = next(line for line in lines if line.lstrip().startswith("Height at the withers"))
        assert first.index("59 to 70 cm") == head.index(FCI)
        assert first.index("25 to 27 in") == head.index(AMERICAN)
        assert "other figures" in first
        stretch = next(line for line in lines if "59 to below 60.96" in line)
        assert stretch.index("as asked") == head.index(FCI), "a dog of 60 cm is as FCI 99 asks"
        assert stretch.index("under height, Disqualification") == head.index(AMERICAN)


async def test_in_a_narrow_window_both_are_named_under_each_rule(folder):
    async with sitting(folder, (80, 24), **opened()) as table:
        screen = table.app.screen
        assert isinstance(screen, TwoEditionsScreen)
        await table.press("enter", "enter", "enter")
        assert screen.query_one(SideTable).part_on_top.title == "Measured"
        text = one_line(table.text)
        assert text.index(f"{FCI}: 59 to 70 cm") < text.index(f"{AMERICAN}: 25 to 27 in")
        assert "59 to below 60.96 cm (23.23 to below 24 in): as asked | under height" in text
        assert all(cell_len(line) <= 80 for line in table.text.split("\n"))
        await table.press("b")
        assert screen.query_one(SideTable).part_on_top.title == "What no list names"
        await table.press("j")
        assert "Classes of faults" in table.text
        await table.type("5\r")
        assert screen.query_one(SideTable).part_on_top.title == "Teeth"


async def test_a_window_made_wider_shows_columns(folder):
    async with sitting(folder, (80, 24), **opened()) as table:
        assert not table.app.screen.query_one("#heads").display
        await table.pilot.resize_terminal(160, 45)
        await table.pilot.pause(0.05)
        assert table.app.screen.query_one("#heads").display
        assert f"{FCI}:" not in table.text
        issued = next(line for line in table.text.split("\n") if line.lstrip().startswith("Issued by"))
        assert issued.index(" FCI ") < issued.index("American Kennel Club")


@pytest.mark.parametrize("wide", [False, True])
def test_every_difference_stands_there_once_with_what_both_say(wide):
    found = compare_editions(*both())
    parts = {part.id: part for part in edition_parts(found, wide=wide)}
    for section in in_words(found).sections:
        if not section.rows:
            continue
        rows = [row for row in parts[section.key].rows if row != BLANK]
        shown = "\n".join(" ".join((row.label, row.text, *row.cells, row.mark)) for row in rows)
        for row in section.rows:
            for text in (row.label, row.a, row.b, row.source_a, row.source_b):
                assert text in shown, (section.key, row.id)
        heads = [row for row in rows if row.bold]
        assert len(heads) == int(parts[section.key].aside.split()[0])
        assert all(row.mark or ": " in row.text for row in heads), "what differs is said in words"


def test_what_differs_stands_before_what_is_alike_and_the_same_edition_differs_in_nothing():
    found = compare_editions(*both())
    names = [part.id for part in edition_parts(found, wide=True)]
    assert names[-2:] == ["alike", "sources"]
    fci = LIBRARY.load(FCI)
    same, *_ = edition_parts(compare_editions(fci, fci), wide=True)
    assert same.title == "They say the same"


def test_editions_of_two_breeds_say_so_first():
    found = compare_editions(LIBRARY.load(FCI), LIBRARY.load("hovawart-fci-190"))
    (row,) = edition_parts(found, wide=False)[0].rows
    assert row.text == "These are two breeds: Weimaraner and Hovawart."


async def test_a_broken_edition_tells_its_problem_on_both_sides(folder, tmp_path):
    own = tmp_path / "own"
    own.mkdir()
    (own / "mine.toml").write_text('format = 1\nid = "mine"\ntitle = Mine\n')
    async with sitting(folder, rulesets=(own,)) as table:
        await table.press("e")
        await table.type("mine")
        await table.press("f3")
        assert table.screen_name == "ReadingScreen"
        assert "mine.toml:3" in "".join(table.text.split())
        await table.press("escape", *["backspace"] * 4)
        await table.type(FCI)
        await table.press("f3")
        await table.type("mine")
        await table.press("enter")
        assert table.screen_name == "ReadingScreen"
        assert "mine.toml:3" in "".join(table.text.split())
        await table.press("escape")
        assert table.screen_name == "ChooseEdition", "another can still be chosen"


# --- under another edition ---------------------------------------------------------------------------


def weimaraner(folder, **parts):
    return begun(
        folder,
        dog={"call_name": "Falk", "sex": "male", "born": "2021-03-01", "variety": "short-haired"},
        ruleset={"id": FCI},
        **parts,
    )


async def test_a_dog_of_60_cm_is_right_in_one_edition_and_disqualified_in_the_other(folder):
    weimaraner(folder, takes=[{"point": "height", "value": 60, "unit": "cm"}] * 3)
    async with sitting(folder, (100, 45)) as table:
        before = table.path.read_bytes()
        await table.press("g", "r", "e")
        assert table.text.split("\n")[3].startswith("Weimaraner, American")
        assert FCI not in table.text
        await table.press("enter")
        screen = table.app.screen
        assert isinstance(screen, UnderAnotherScreen)
        rows = told(screen)
        (verdict,) = [row for row in rows if "Height at the withers (measured)" in row]
        assert "inside -> outside, Disqualification" in verdict
        assert "59 to below 60.96 cm (23.23 to below 24 in): as asked in weimaraner-fci-99" in verdict
        (finding,) = [row for row in rows if "Under height" in row and "not found ->" in row]
        assert "-> Disqualification" in finding
        text = one_line(table.text)
        assert "other figures: 2" in text
        assert "nothing is stored" in text
        assert "Disqualification: 1" in text
        await table.press("r")
        assert table.screen_name == "TwoEditionsScreen"
        await table.press("escape", "escape")
        assert table.screen_name == "ReviewScreen"
        assert table.path.read_bytes() == before


@pytest.mark.parametrize("name", [BRUMO, FENJA, TOVIK])
async def test_a_demo_session_under_any_dog_says_which_rules_are_not_asked(folder, name):
    (path,) = demo(folder, name)
    before = path.read_bytes()
    async with sitting(folder, opens=OpenFile(path)) as table:
        assert table.screen_name == "ReviewScreen"
        ruled = [rule for rule in table.app.screen.sheet.evaluation.rules if rule.verdict != "not-measured"]
        assert ruled
        await table.press("e")
        await table.type("any-dog")
        await table.press("enter")
        screen = table.app.screen
        assert isinstance(screen, UnderAnotherScreen)
        rows = told(screen)
        for rule in ruled:  # any-dog has no limit of any breed
            (row,) = [row for row in rows if f"{label_words(rule.named)} (measured)" in row]
            assert (
                row.split("->")[1].split(" [")[0] == " no rule not asked in one of them: no limit in any-dog"
            )
        await table.press("escape")
        assert table.screen_name == "ReviewScreen"
    assert path.read_bytes() == before


async def test_without_a_difference_that_is_said(folder):
    weimaraner(folder)
    async with sitting(folder) as table:
        await table.press("g", "r", "e", "enter")
        assert "no verdict and no class differs" in table.text


# --- a new edition -----------------------------------------------------------------------------------


async def begin(table, name: str, *keys: str) -> None:
    await table.press("e", "f2")
    await table.type(name)
    await table.press("enter", *keys)


async def test_a_commented_start_is_written_and_what_comes_next_is_told(folder, tmp_path):
    own = tmp_path / "own"
    async with sitting(folder, (120, 40), rulesets=(own,)) as table:
        await begin(table, "moor-hound", "1", "2")
        path = own / "moor-hound.toml"
        assert path.is_file()
        text = "".join(table.text.split())
        for part in (str(path), f"hands-oncheck{path}", "examine--rulesetmoor-hound"):
            assert part.replace(" ", "") in text
        await table.press("escape")
        assert table.screen_name == "EditionsScreen"
        assert table.app.screen.marked.id == "moor-hound"
        await table.press("enter")
        assert "moor-hound, a new edition" in table.text
        await table.press("escape")
        path.write_text(path.read_text().replace("a new edition", "edited meanwhile"))
        await table.press("enter")
        shown = " ".join(row.text for row in table.app.screen.paragraphs)
        assert "edited meanwhile" in shown, "the file as it is now"


@pytest.mark.parametrize("keys", [("3",), ("2", "enter")], ids=["the one marked", "the first offered"])
async def test_a_copy_of_another_edition_says_the_same(folder, tmp_path, keys):
    own = tmp_path / "own"
    async with sitting(folder, rulesets=(own,)) as table:
        await table.press("e")
        await table.type(FCI)
        await table.press("f2")
        await table.type("my-weimaraner\r")
        await table.press(*keys, "2")
        assert "my-weimaraner.toml" in "".join(table.text.split())
    library = Library((shipped_rulesets(), own))
    found = compare_editions(library.load(FCI if keys == ("3",) else AMERICAN), library.load("my-weimaraner"))
    assert not [pair.id for section in found.sections for pair in section.pairs]


@pytest.mark.parametrize("name", ["Moor Hound", FCI, "mine", "common"])
async def test_an_id_that_cant_be_used_is_told_and_nothing_is_written(folder, tmp_path, name):
    own = tmp_path / "own"
    own.mkdir()
    (own / "mine.toml").write_text("is no ruleset")
    async with sitting(folder, rulesets=(own,)) as table:
        await begin(table, name)
        assert table.screen_name == "TypedScreen"
        assert (flaw_of_id(name) or f'the id "{name}" is taken')[:25] in one_line(table.text)
        await table.press("escape")
        assert table.screen_name == "EditionsScreen"
    assert [path.name for path in own.iterdir()] == ["mine.toml"]
    assert (own / "mine.toml").read_text() == "is no ruleset"


async def test_a_folder_that_cant_be_written_is_told(folder, tmp_path):
    own = tmp_path / "own"
    async with sitting(folder, (100, 30), rulesets=(own,)) as table:
        own.write_text("a file in its place")
        await begin(table, "moor-hound", "1", "2")
        assert "No new edition was written" in table.text
    assert own.read_text() == "a file in its place"
