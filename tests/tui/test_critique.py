"""The critique screen: drafted, edited, kept with the session; what a sentence rests on."""

from __future__ import annotations

import datetime

from textual.widgets import TextArea

from hands_on.tui.asks import CritiqueOf
from tests.tui.driving import begun, sitting

HELD = {
    "grades": [
        {"point": "hindquarters.muscle", "as_asked": True},
        {
            "point": "hindquarters.hocks",
            "fault": "hindquarters.cow-hocks",
            "degree": "slight",
            "side": "left",
        },
    ],
}
SIGNED = {"name": "E", "at": datetime.datetime(2026, 5, 2, 10, 0, tzinfo=datetime.UTC)}


def area(table):
    return table.app.screen.query_one(TextArea)


def seen(table):
    return " ".join(table.text.split())


async def test_the_draft_stands_there_in_three_lengths_and_two_languages(folder):
    begun(folder, **HELD)
    async with sitting(folder, size=(110, 40)) as table:
        await table.press("g", "r", "t")
        assert table.screen_name == "CritiqueScreen"
        assert (
            "The thighs are well muscled, but the hocks are slightly turned in on the left"
            in area(table).text
        )
        await table.press("f3")
        assert len(area(table).text.splitlines()) <= 3
        await table.press("f3", "f3", "f4")
        assert "kuhhessig" in area(table).text
        await table.press("escape")
        assert table.screen_name == "ReviewScreen"
        assert table.on_disk.critiques == ()


async def test_a_sentence_tells_what_it_rests_on(folder):
    begun(folder, **HELD)
    async with sitting(folder, size=(110, 40)) as table:
        await table.press("g", "r", "t")
        lines = area(table).text.split("\n")
        row = next(n for n, line in enumerate(lines) if "turned in" in line)
        area(table).move_cursor((row, lines[row].index("turned in")))
        await table.pilot.pause()
        assert "Rests on: Muscle of thigh and lower thigh, Hocks from behind" in seen(table)
        area(table).text = "Mine alone."
        await table.pilot.pause()
        assert "your own words" in seen(table)


async def test_edited_words_are_kept_and_come_back_and_the_draft_takes_their_place_again(folder):
    begun(folder, **HELD)
    async with sitting(folder, size=(110, 40)) as table:
        await table.press("g", "r", "t")
        area(table).text = "An honest dog.\n\n[b]Its[/b] hocks turn in."
        await table.press("f2")
        (kept,) = table.on_disk.critiques
        assert (kept.language, kept.length, kept.text) == (
            "en",
            "page",
            "An honest dog.\n\n[b]Its[/b] hocks turn in.",
        )
        await table.press("t")
        assert area(table).text == kept.text
        assert "edited by the evaluator" in seen(table)
        await table.press("f8", "f2")
        assert table.on_disk.critiques[0].text == ""
        await table.press("t")
        assert "The thighs are well muscled" in area(table).text


async def test_words_changed_in_one_length_are_kept_when_the_next_is_shown(folder):
    begun(folder, **HELD)
    async with sitting(folder, size=(110, 40)) as table:
        await table.press("g", "r", "t")
        area(table).text = "A page of my own."
        await table.press("f3")
        assert [one.text for one in table.on_disk.critiques] == ["A page of my own."]
        assert "Arko" in area(table).text or "dog" in area(table).text


async def test_from_the_records_a_signed_examination_is_changed_by_amendment(folder):
    path = begun(folder, **HELD, signature=SIGNED)
    async with sitting(folder, size=(110, 40), opens=CritiqueOf(path)) as table:
        area(table).text = "Changed later."
        await table.press("f2")
        await table.type("typing slip\r")
        await table.pilot.pause()
        (amendment,) = table.on_disk.amendments
        assert (amendment.reason, amendment.critique.text) == ("typing slip", "Changed later.")
        assert table.on_disk.critiques == ()
        # the examination is free again
        assert not list(folder.glob(".*.holder"))


async def test_the_report_is_written_beside_the_session_and_over_nothing(folder):
    begun(folder, **HELD)
    async with sitting(folder, size=(110, 40)) as table:
        await table.press("g", "r", "t", "f9", "f9")
        pages = sorted(folder.rglob("*.html"))
        assert len(pages) == 2
        assert "Written:" in seen(table)
        page = pages[0].read_text(encoding="utf-8")
        assert "turned in on the left" in page
        assert "Drafted from the answers recorded" in page
