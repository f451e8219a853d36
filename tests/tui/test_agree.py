"""Several evaluators, the same dogs: agreement on the screen, and seminar rounds from file to agreement."""

from __future__ import annotations

import datetime

import pytest

from hands_on.compare.agreement.by_point import agreement
from hands_on.exam.round import place_of
from hands_on.store.round_file import new_round_id, read_round, rounds_folder
from hands_on.store.session_file import read_session
from hands_on.tui.asks import GoOn, OpenFile, ShowAgreement
from hands_on.tui.screens.agree import AgreeScreen
from hands_on.tui.screens.agree_grid import GridScreen
from hands_on.tui.screens.host import BadDogs, HostScreen, read_dogs
from hands_on.tui.screens.round import RoundScreen
from hands_on.tui.widgets.side_table import SideTable
from hands_on.wording.agreement import estimate_words
from tests.tui.demo import BRUMO, BRUMO_BY_ANOTHER, FENJA, FENJA_BY_ANOTHER, copied, demo, held, opening
from tests.tui.driving import sitting

FOUR = (BRUMO, BRUMO_BY_ANOTHER, FENJA, FENJA_BY_ANOTHER)
TODAY = datetime.date(2026, 5, 2)


def one_line(text):
    return " ".join(text.split())


async def test_agreement_tells_first_that_two_dogs_are_too_few(folder):
    demo(folder)
    async with sitting(folder) as table:
        await table.press("a", "1")
        assert isinstance(table.app.screen, GridScreen)
        await table.press("f")
        assert isinstance(table.app.screen, AgreeScreen)
        assert table.app.screen.found.board.dogs == ("Brumo", "Fenja"), "Tovik was seen by one evaluator only"
        text = one_line(table.text)
        assert "2 dogs only: this says next to nothing" in text
        assert text.index("2 dogs only") < text.index("ICC(2,1)")


async def test_each_point_shows_its_statistic_value_interval_and_dogs(folder):
    sessions = held(demo(folder, *FOUR))
    found = agreement(sessions)
    height = next(one for one in found.points if one.id == "height")
    async with sitting(folder, (140, 45), **opening(ShowAgreement, sessions)) as table:
        await table.press("f")
        row = next(line for line in table.text.split("\n") if "Height at the withers" in line)
        for part in (height.estimate.statistic, estimate_words(height.estimate), "2 dogs"):
            assert part in row
        assert "within hand error" in row


async def test_the_points_can_be_sorted_with_the_worst_first(folder):
    sessions = held(demo(folder, *FOUR))
    found = agreement(sessions)
    async with sitting(folder, **opening(ShowAgreement, sessions)) as table:
        await table.press("f", "s")
        parts = table.app.screen.query_one(SideTable).parts
        points = next(part for part in parts if part.id == "points")
        labels = [row.label for row in points.rows if row.label]
        assert labels[: len(found.most_apart)] == [one.label for one in found.most_apart]
        assert len(labels) == sum(one.unequal > 0 for one in found.points)
        await table.press("d")
        parts = table.app.screen.query_one(SideTable).parts
        points = next(part for part in parts if part.id == "points")
        assert len([row for row in points.rows if row.label]) == len(found.points)


async def test_from_agreement_the_evaluators_stand_side_by_side_on_one_dog(folder):
    sessions = held(demo(folder, *FOUR))
    async with sitting(folder, **opening(ShowAgreement, sessions)) as table:
        await table.press("c", "2")
        assert table.screen_name == "CompareScreen"
        assert "Fenja, A. Thornby" in table.text
        assert "Fenja, M. Quill" in table.text


async def test_a_folder_of_sessions_is_taken_and_what_is_broken_in_it_left_out(folder, tmp_path):
    gathered = tmp_path / "gathered"
    demo(gathered, *FOUR)
    (gathered / "broken.toml").write_text("format = 1\n[dog\n")
    async with sitting(folder) as table:
        await table.press("a", "2")
        await table.type(str(gathered))
        await table.press("enter")
        assert isinstance(table.app.screen, GridScreen)
        assert table.app.screen.found.board.evaluators == ("A. Thornby", "M. Quill")


# --- rounds ------------------------------------------------------------------------------------------


def test_dogs_are_read_as_they_are_typed():
    dogs = read_dogs("Arko, m, 2023-05-14\n\n , f\nBella, bitch, 1 March 2024", TODAY)
    assert [(one.number, one.call_name, one.sex, str(one.born)) for one in dogs] == [
        ("1", "Arko", "male", "2023-05-14"),
        ("2", "", "female", "None"),
        ("3", "Bella", "female", "2024-03-01"),
    ]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "at least one"),
        ("Arko", "Line 1"),
        ("Arko, m\nBella, f, 31.02.2024", "Line 2"),
        ("A, x", "Line 1"),
    ],
)
def test_what_is_no_dog_is_told_with_its_line(text, told):
    with pytest.raises(BadDogs, match=told):
        read_dogs(text, TODAY)


def test_a_round_is_named_after_its_title_in_plain_letters():
    assert new_round_id("Über die Höhe: Seminar!", "2026-05-02") == "uber-die-hohe-seminar-2026-05-02"
    assert new_round_id("犬", "2026-05-02") == "round-2026-05-02"


async def host_a_round(table):
    await table.press("s", "1")
    await table.type("hovawart")
    await table.press("enter")
    assert isinstance(table.app.screen, HostScreen)
    await table.type("Spring [b]seminar")
    await table.press("f3")
    number = next(n for n, row in enumerate(table.app.screen.rows, 1) if row.call_name == "Fenja")
    await table.press(str(number), "enter")
    await table.type(", m, 2023-05-14")
    await table.press("f2")


async def test_a_host_writes_the_rounds_file_with_known_and_nameless_dogs(folder):
    demo(folder, FENJA)
    async with sitting(folder) as table:
        await host_a_round(table)
        assert isinstance(table.app.screen, RoundScreen)
        (path,) = rounds_folder(folder).glob("*.toml")
        assert path.name in "".join(table.text.split())
        found = read_round(path)
        assert found.round.title == "Spring [b]seminar"
        assert [(one.number, one.call_name) for one in found.dogs] == [("1", "Fenja"), ("2", "")]
        assert found.dogs[0].chip, "what is known of a dog taken from the records goes along"
        assert "Fenja" in path.read_text()
        assert "grades" not in path.read_text()


async def test_the_file_of_a_round_that_is_there_already_is_left_as_it_is(folder):
    demo(folder, FENJA)
    async with sitting(folder) as table:
        await host_a_round(table)
        (path,) = rounds_folder(folder).glob("*.toml")
        path.write_text("kept")
        await table.press("escape")
        await host_a_round(table)
        assert "there is such a file already" in one_line(table.text)
        assert path.read_text() == "kept"


ROUND = """
format = 1

[round]
id = "spring"
title = "Spring"
points = ["height", "hindquarters.hocks"]

[ruleset]
id = "hovawart-fci-190"

[[dogs]]
number = "1"
call_name = "Arko"
sex = "male"
born = 2023-05-14

[[dogs]]
number = "2"
sex = "female"
"""


async def examine(table, who, answers):
    """Say who one is, and take the height of both dogs."""
    await table.press("w")
    if table.screen_name == "NumberedScreen":
        await table.press("0")
    await table.type(who)
    await table.press("enter")
    for number, value in answers.items():
        await table.press(number)
        sheet = table.app.screen.sheet
        rows = [{"id": row.id, "answer": "yes" if row.stop else "read"} for row in sheet_cautions(table)]
        sheet.put(type(sheet.session).model_validate({**sheet.session.model_dump(), "cautions": rows}))
        table.app.go(GoOn(sheet))
        await table.pilot.pause()
        keys = {"height": f"{value}\r\r", "hindquarters.hocks": "0"}
        while keys:
            await table.type(keys.pop(table.walk.stop.point.id))
        await table.press("7")
        assert isinstance(table.app.screen, RoundScreen), "back among the dogs"


def sheet_cautions(table):
    return table.app.library.cautions().cautions


async def test_a_round_is_opened_examined_by_two_and_compared(folder, tmp_path):
    path = tmp_path / "spring.toml"
    path.write_text(ROUND)
    async with sitting(folder, opens=OpenFile(path)) as table:
        await table.press("escape")
        assert isinstance(table.app.screen, RoundScreen)
        await examine(table, "A. Example", {"1": "66.5", "2": "61"})
        assert table.text.count("begun, 2 answers") == 2
        await table.press("a")
        assert "one evaluator at most" in one_line(table.text)
        await table.press("escape")
        await examine(table, "B. Sample", {"1": "67.5"})
        assert table.text.count("begun, 2 answers") == 1, "what the other one did is not shown"
        assert "not begun" in table.text
        sessions = [read_session(one) for one in folder.glob("*.toml")]
        assert {(place_of(one).round, place_of(one).dog) for one in sessions} == {
            ("spring", "1"),
            ("spring", "2"),
        }
        assert {one.examination.kind for one in sessions} == {"round"}
        await table.press("a")
        assert "You have not signed all your dogs" in one_line(table.text)
        await table.press("2")
        assert isinstance(table.app.screen, GridScreen)
        assert table.app.screen.found.board.evaluators == ("A. Example", "B. Sample")
        assert "1 of 4 examinations is missing: no. 2 by B. Sample" in one_line(table.text)


async def test_a_dog_begun_is_gone_on_with_and_not_begun_twice(folder, tmp_path):
    path = tmp_path / "spring.toml"
    path.write_text(ROUND)
    async with sitting(folder, opens=OpenFile(path)) as table:
        await table.press("escape")
        await examine(table, "A. Example", {"1": "66.5"})
        await table.press("1")
        assert table.walk.sheet.session.takes[0].value == 66.5
        assert len(list(folder.glob("*.toml"))) == 1


async def test_a_broken_round_is_told_with_its_line(folder, tmp_path):
    path = tmp_path / "spring.toml"
    path.write_text(ROUND.replace('number = "2"', 'number = "1"'))
    async with sitting(folder, opens=OpenFile(path)) as table:
        text = "".join(table.text.split())
        assert "Thisroundcan'tbeopened" in text
        assert "spring.toml:" in text
        assert not folder.exists()


@pytest.mark.parametrize(("people", "hidden"), [(6, 0), (9, 3)])
async def test_the_grid_shows_six_evaluators_at_once_and_says_where_more_are(folder, people, hidden):
    paths = demo(folder, BRUMO, FENJA)
    for n in range(people - 1):
        for path in paths:
            copied(path, folder / f"{n}-{path.name}", ('evaluator = "M. Quill"', f'evaluator = "Eva {n}"'))
    sessions = held(sorted(folder.glob("*.toml")))
    async with sitting(folder, **opening(ShowAgreement, sessions)) as table:
        await table.press("d")
        assert isinstance(table.app.screen, GridScreen)
        names = [column.name for column in table.app.screen.query_one(SideTable).columns]
        assert all(name in table.text for name in names[:6])
        assert (f"{hidden} more:" in one_line(table.text)) == bool(hidden)
        if hidden:
            await table.press(*["right"] * hidden)
            assert all(name in table.text for name in names[-6:])
