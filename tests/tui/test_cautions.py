"""Cautions: each is read by key, questions are answered, all of it is kept before the dog is touched."""

from __future__ import annotations

from tests.tui.driving import LIBRARY, begun, sitting


async def test_reading_all_and_answering_begins_the_walk(folder):
    begun(folder, cautions=[])
    async with sitting(folder) as table:
        await table.press("g")
        assert table.screen_name == "CautionsScreen"
        plain = [row for row in LIBRARY.cautions().cautions if not row.question]
        for number, row in enumerate(plain, 1):
            await table.press("enter")
            answers = {entry.id: entry.answer for entry in table.on_disk.cautions}
            assert answers[row.id] == "read"
            assert len(answers) == number, "saved after each key"
        await table.press("enter")
        assert "This is a question" in table.text
        await table.press("1", "2")
        assert table.on_disk.cautions[-2:][0].answer == "yes"
        assert table.on_disk.cautions[-1].answer == "no"
        await table.press("enter")
        assert table.screen_name == "WalkScreen"


async def test_known_pain_is_asked_in_words_and_kept(folder):
    rows = [{"id": row.id, "answer": "yes"} for row in LIBRARY.cautions().cautions if row.id != "known-pain"]
    begun(folder, cautions=rows)
    async with sitting(folder) as table:
        await table.press("g", "y")
        assert table.screen_name == "TypedScreen"
        await table.type("lame [in] May")
        await table.press("enter")
        row = table.on_disk.cautions[-1]
        assert (row.id, row.answer, row.note) == ("known-pain", "yes", "lame [in] May")
        assert "veterinarian has seen the dog" in table.text


async def test_without_the_owners_consent_the_dog_is_not_touched(folder):
    rows = [
        {"id": row.id, "answer": "no"} for row in LIBRARY.cautions().cautions if row.id != "owner-consent"
    ]
    begun(folder, cautions=rows)
    async with sitting(folder) as table:
        await table.press("g", "n")
        assert "the dog is not touched" in table.text
        await table.press("enter")
        assert table.screen_name == "CautionsScreen"
        await table.press("y", "enter")
        assert table.screen_name == "WalkScreen"


async def test_leaving_half_way_keeps_what_was_read(folder):
    begun(folder, cautions=[])
    async with sitting(folder) as table:
        await table.press("g", "enter", "enter", "q")
        assert table.screen_name == "StartScreen"
        assert [row.answer for row in table.on_disk.cautions] == ["read", "read"]


async def test_the_second_dog_of_a_day_asks_the_questions_alone(folder):
    begun(folder, cautions=[])
    plain = [row for row in LIBRARY.cautions().cautions if not row.question]
    async with sitting(folder) as table:
        await table.press("g", *("enter" for _ in plain))
        await table.press("q")
    for path in folder.glob("*.toml"):
        path.unlink()
    begun(folder, cautions=[], dog={"call_name": "Bruno", "sex": "male"})
    async with sitting(folder) as table:
        await table.press("g")
        assert table.screen_name == "CautionsScreen"
        kept = {row.id: row for row in table.on_disk.cautions}
        assert set(kept) == {row.id for row in plain}
        assert all(row.note and row.answer == "read" for row in kept.values())
        assert "Read in full by you today" in table.text
        await table.press("1", "2", "enter")
        assert table.screen_name == "WalkScreen"
