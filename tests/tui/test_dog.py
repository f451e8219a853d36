"""The dog screen: what is understood, what is wrong, what is written."""

from __future__ import annotations

import datetime

from hands_on.exam.session import Session
from hands_on.store.session_file import read_session
from hands_on.tui.asks import NewExamination
from hands_on.tui.screens.dog import DogScreen
from hands_on.tui.widgets.field import PickField, TextField
from tests.tui.driving import HOVAWART, begun, sitting


async def fill(table, **values: str) -> None:
    """Fill lines of the form by name, as a hand would."""
    fields = table.app.screen.fields()
    for name, value in values.items():
        fields[name].entry().focus()
        await table.pilot.pause()
        await table.type(value)


def told(table, name: str) -> str:
    """What stands under a line."""
    field = table.app.screen.fields()[name]
    return field.reading.wrong or field.reading.told


async def test_an_examination_starts_from_the_keyboard_alone(folder):
    async with sitting(folder) as table:
        await table.press("n")
        await table.type("hova")
        await table.press("enter")
        assert table.screen_name == "DogScreen"
        await table.type("Arko")
        await table.press("enter", "m", "enter")
        await table.type("14.05.2023")
        assert told(table, "born") == "14 May 2023: 2 years 11 months old today"
        await table.press("enter", "2")
        await fill(table, evaluator="E. Example")
        await table.press("f2")
        assert table.screen_name == "CautionsScreen"
        session = table.on_disk
        assert session.dog.call_name == "Arko"
        assert session.dog.sex == "male"
        assert session.dog.born == datetime.date(2023, 5, 14)
        assert session.dog.colour == "black-and-tan"
        assert session.ruleset.id == HOVAWART
        assert session.ruleset.digest.startswith("sha256:")
        assert session.examination.started is not None


async def test_what_is_missing_is_told_at_its_line_and_nothing_is_lost(folder):
    async with sitting(folder, opens=NewExamination(HOVAWART)) as table:
        await table.type("Arko [b]")
        await table.press("f2")
        assert table.screen_name == "DogScreen"
        assert "sex" in told(table, "sex")
        assert "who examines" in told(table, "evaluator")
        assert table.app.screen.fields()["call_name"].value == "Arko [b]"
        assert not list(folder.glob("*.toml"))


async def test_a_date_with_two_readings_is_asked_about(folder):
    async with sitting(folder, opens=NewExamination(HOVAWART)) as table:
        await fill(table, call_name="Arko", sex="f", born="11/3/2024", evaluator="E")
        assert told(table, "born") == "11 March 2024, or 3 November 2024? Write 2024-03-11 or 2024-11-03."
        await table.press("f2")
        assert table.screen_name == "DogScreen"


async def test_enter_on_the_last_line_goes_on(folder):
    async with sitting(folder, opens=NewExamination(HOVAWART)) as table:
        await fill(table, call_name="Arko", sex="m", evaluator="E", country="de")
        assert isinstance(table.app.screen, DogScreen)
        last = list(table.app.screen.query("TextField, PickField"))[-1]
        last.entry().focus()
        await table.press("enter")
        assert table.screen_name == "CautionsScreen"
        assert table.on_disk.examination.country == "DE"


async def test_who_examines_is_asked_and_on_the_same_day_the_place_is_taken_over(folder):
    begun(
        folder,
        examination={
            "evaluator": "R. Remembered",
            "place": "Inntown",
            "started": "2026-05-02T08:00:00+02:00",
        },
    )
    async with sitting(folder, opens=NewExamination(HOVAWART)) as table:
        fields = table.app.screen.fields()
        assert fields["evaluator"].value == "", "the examination before may be somebody else's"
        assert "1 R. Remembered" in fields["evaluator"].help_text
        assert fields["place"].value == "Inntown"
        await fill(table, call_name="Arko", sex="m", evaluator="1")
        assert told(table, "evaluator") == "R. Remembered"
        await table.press("f2")
        assert {one.examination.evaluator for one in map(read_session, folder.glob("*.toml"))} == {
            "R. Remembered"
        }
        assert table.app.examiner == "R. Remembered"


async def test_on_another_day_the_place_is_not_taken_over(folder):
    begun(
        folder,
        examination={
            "evaluator": "R. Remembered",
            "place": "Inntown",
            "started": "2026-05-01T08:00:00+02:00",
        },
    )
    async with sitting(folder, opens=NewExamination(HOVAWART)) as table:
        assert table.app.screen.fields()["place"].value == ""


async def test_who_has_said_so_examines_on_and_typing_replaces_the_name(folder):
    begun(folder, examination={"evaluator": "R. Remembered", "started": "2026-05-02T08:00:00+02:00"})
    async with sitting(folder) as table:
        await table.press("w", "1")
        assert table.text.split("\n")[0].endswith("R. Remembered"), "the name stands on every screen"
        table.app.go(NewExamination(HOVAWART))
        await table.pilot.pause()
        field = table.app.screen.fields()["evaluator"]
        assert field.value == "R. Remembered"
        field.entry().focus()
        await table.type("A. Other")
        assert field.value == "A. Other"


async def test_leaving_a_form_with_something_in_it_is_asked_first(folder):
    async with sitting(folder, opens=NewExamination(HOVAWART)) as table:
        await table.type("Arko")
        await table.press("escape")
        assert table.screen_name == "NumberedScreen"
        await table.press("1")
        assert table.app.screen.fields()["call_name"].value == "Arko"
        await table.press("escape", "2")
        assert table.screen_name == "StartScreen"


def switched(text: str) -> str:
    """An edition with a switch and a derived attribute, for the form."""
    return text + (
        '\n[switches.docking-judged]\nlabel = "Judge docking"\n'
        'caution = "Docking is forbidden by law in many places."\n'
        '[attributes.size]\nlabel = "Size"\nderived = true\noptions = { standard = "Standard" }\n'
        'source = "H25"\n'
    )


async def test_switches_are_off_until_chosen_and_what_is_measured_is_not_asked(folder, tmp_path):
    from hands_on.store import places

    own = tmp_path / "own"
    own.mkdir()
    text = (places.shipped_rulesets() / f"{HOVAWART}.toml").read_text("utf-8")
    (own / f"{HOVAWART}.toml").write_text(switched(text), "utf-8")
    async with sitting(folder, rulesets=(own,), opens=NewExamination(HOVAWART)) as table:
        fields = table.app.screen.fields()
        assert "attribute.size" not in fields
        switch = fields["switch.docking-judged"]
        assert isinstance(switch, PickField)
        assert switch.value == "off"
        assert "forbidden by law" in switch.help_text
        await fill(table, call_name="Arko", sex="m", evaluator="E")
        switch.entry().focus()
        await table.press("2", "f2")
        assert table.on_disk.examination.switches == ("docking-judged",)
        assert "Judge docking" in table.text, "its caution is read before the dog is touched"


async def test_a_value_with_control_characters_from_a_file_is_made_visible(folder):
    begun(
        folder,
        examination={"evaluator": "E", "place": "E\x1b[31mvil", "started": "2026-05-02T08:00:00+02:00"},
    )
    async with sitting(folder, opens=NewExamination(HOVAWART)) as table:
        field = table.app.screen.fields()["place"]
        assert isinstance(field, TextField)
        assert field.value == "E␛[31mvil"
        assert isinstance(table.app.screen.as_session(table.app.now()), Session)
