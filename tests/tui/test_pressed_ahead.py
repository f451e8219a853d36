"""Keys pressed faster than screens open (a slow line, a quick scribe) keep their order and their place."""

from __future__ import annotations

import asyncio

import pytest
from textual.events import Key, Paste
from textual.keys import _character_to_key
from textual.widgets import Input, TextArea

from hands_on.exam.dialogue import Line
from hands_on.tui.asks import DogDrawn, NewExamination
from hands_on.tui.questions.numbered import NumberedScreen
from hands_on.tui.questions.pasted import PastedScreen
from hands_on.tui.questions.typed import TypedScreen
from tests.tui.driving import begun, sitting


async def test_a_menu_answered_before_it_is_there(folder):
    begun(folder)
    async with sitting(folder) as table:
        at = await table.go_on_to("grade", "grade", "grade")
        await table.type(".3.40")
        session = table.on_disk
        assert [row.reason for row in session.skips] == ["no instrument", "not needed today"]
        assert len(session.grades) == 1
        assert table.walk.stop.index == at + 3


async def test_a_note_written_before_its_line_is_there(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        await table.type("n64.5, steep *")
        await table.press("enter")
        assert [note.text for note in table.on_disk.notes] == ["64.5, steep *"]
        assert not table.on_disk.grades


async def test_the_start_screen_opens_a_search_that_is_typed_already(folder):
    async with sitting(folder) as table:
        await table.type("nhovaw")
        assert table.app.screen.query_one("Input").value == "hovaw"


async def test_a_form_filled_in_one_go(folder):
    async with sitting(folder, opens=NewExamination("any-dog")) as table:
        await table.type("Arko\rm\r14.05.2023\r")
        fields = table.app.screen.fields()
        assert fields["call_name"].value == "Arko"
        assert fields["sex"].value == "male"
        assert fields["born"].value == "14.05.2023"


async def test_a_line_taken_by_two_fast_enters_closes_no_other_screen(folder):
    taken = []
    async with sitting(folder) as table:
        await table.press("r")
        table.app.push_screen(TypedScreen("A line", "Something:"), taken.append)
        await table.pilot.pause()
        await table.type("word\r\r\r")
        await table.pilot.pause()
        assert taken == ["word"]
        assert table.screen_name == "RecordsScreen"


async def test_keys_that_a_question_gets_once_it_has_closed_go_to_the_screen_below(folder):
    async with sitting(folder) as table:
        await table.press("r")
        question = NumberedScreen("A question", "Which?", [Line("1", "this")])
        table.app.push_screen(question)
        await table.pilot.pause()
        question.dismiss(None)
        await question.remove()
        await question.on_event(Key("5", "5"))
        await table.pilot.pause()
        assert table.app.screen.query_one("Input").value == "5"


async def test_keys_typed_while_the_program_closes_end_in_no_error(folder):
    async with sitting(folder) as table:
        stack = table.app._screen_stacks[table.app._current_mode]
        screens = stack[:]
        stack.clear()
        await table.app.on_event(Key("q", "q"))
        await table.app.on_event(Paste("q"))
        stack.extend(screens)


async def test_a_screen_left_before_it_is_there_ends_in_no_error(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        for _ in range(3):
            table.app.go(DogDrawn(table.walk.sheet, table.walk.stop.point.id))
            table.app.pop_screen()
        await table.settle()
        assert table.screen_name == "WalkScreen"


WORDS = "word0 and"

BOXES = {"summary": ("r", "s"), "critique": ("r", "t"), "note": ("", "n"), "scribe": ("", "c")}
"""Text boxes of an examination: the key to the screen they are opened from, the key that opens them."""

RHYTHMS = ((0, 1), (1, 1), (2, 3))
"""Turns of the program between letters, and how many letters come together."""

QUESTIONS = {
    "typed": lambda: TypedScreen("A line", "Something:"),
    "pasted": lambda: PastedScreen("A text", "Something:"),
}


@pytest.mark.parametrize("box", [*BOXES, *QUESTIONS])
async def test_a_text_begun_before_its_box_is_there_stands_as_typed(folder, box):
    """Some of its letters come before the box opens, some while it opens: at every rhythm."""
    begun(folder)
    async with sitting(folder) as table:
        where, key = BOXES.get(box, ("", ""))
        if key:
            await table.press("g", *where)
        below = table.app.screen, table.app.focused
        for turns, together in RHYTHMS:
            if box in QUESTIONS:
                table.app.push_screen(QUESTIONS[box]())
            for n, character in enumerate(key + WORDS):
                table.app.post_message(Key(_character_to_key(character), character))
                for _ in range(turns if n % together == 0 else 0):
                    await asyncio.sleep(0)
            await table.pilot.pause()
            line = table.app.focused
            assert isinstance(line, (Input, TextArea)), table.screen_name
            text = line.text if isinstance(line, TextArea) else line.value
            ends = {text[: len(WORDS)], text[-len(WORDS) :]}  # a text taken up again stands before or behind
            assert WORDS in ends, f"{text!r} with {turns} turns between {together} letters"
            while (table.app.screen, table.app.focused) != below:
                await table.press("escape")


async def test_tab_and_what_is_typed_behind_it_come_in_one_go(folder):
    async with sitting(folder, opens=NewExamination("any-dog")) as table:
        await table.type("Arko\tm\t14.05.2023")
        fields = table.app.screen.fields()
        assert fields["call_name"].value == "Arko"
        assert fields["sex"].value == "male"
        assert fields["born"].value == "14.05.2023"
