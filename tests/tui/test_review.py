"""The review: what was found, the evaluator's last word, the signature and what follows it."""

from __future__ import annotations

import pytest

from hands_on.exam.signing import as_signed
from hands_on.tui.asks import OpenFile
from tests.tui.demo import BRUMO, demo
from tests.tui.driving import begun, sitting

OVER = {
    "takes": [
        {"point": "height", "value": 71.5, "unit": "cm"},
        {"point": "height", "value": 71.6, "unit": "cm"},
    ],
    "grades": [
        {"point": "hindquarters.hocks", "fault": "hindquarters.cow-hocks", "degree": "slight", "side": "left"}
    ],
    "skips": [{"region": "mouth", "reason": "the dog would not allow it"}],
}


async def to_row(table, text: str) -> None:
    """Mark the line that holds `text`."""
    rows = table.app.screen.rows
    at = next(n for n, row in enumerate(rows) if text in row.text)
    table.app.screen.query_one("#rows").highlighted = at
    await table.pilot.pause()


async def test_findings_verdicts_and_gaps_stand_there_with_what_they_cost(folder):
    begun(folder, **OVER)
    async with sitting(folder, size=(160, 60)) as table:
        await table.press("g", "r")
        await to_row(table, "Cow hocks")
        for part in (
            "Fault: Over height",
            "Fault: Cow hocks (slight, left)",
            "What it costs the dog",
            "Height at the withers: 71.",
            "(2 takes)",
            "not measured",
        ):
            assert part in table.text, part
        rows = [row.text for row in table.app.screen.rows]
        assert any("skipped: the dog would not allow it" in row for row in rows)


async def test_enter_goes_to_the_point_and_r_comes_back_to_the_line(folder):
    begun(folder, **OVER)
    async with sitting(folder) as table:
        await table.press("g", "r")
        await to_row(table, "Cow hocks")
        await table.press("enter")
        assert table.screen_name == "WalkScreen"
        assert table.walk.stop.point.id == "hindquarters.hocks"
        await table.press("r")
        assert "Cow hocks" in table.app.screen.marked.text


@pytest.mark.parametrize(("key", "word"), [("1", "uphold"), ("2", "dismiss")])
async def test_the_evaluator_decides_about_a_finding_with_a_reason(folder, key, word):
    begun(folder, **OVER)
    async with sitting(folder) as table:
        await table.press("g", "r")
        await to_row(table, "Over height")
        await table.press("d", key)
        await table.type("coat not pressed")
        await table.press("enter")
        (decision,) = table.on_disk.decisions
        assert (decision.fault, decision.decision, decision.reason) == (
            "general.over-height",
            word,
            "coat not pressed",
        )
        assert table.app.screen.marked.finding.decision == word
        await table.press("d", "0")
        assert not table.on_disk.decisions


async def test_a_finding_is_upheld_in_another_class(folder):
    begun(folder, **OVER)
    async with sitting(folder) as table:
        await table.press("g", "r")
        await to_row(table, "Cow hocks")
        await table.press("d", "3", "1")
        await table.type("far beyond what works")
        await table.press("enter")
        (decision,) = table.on_disk.decisions
        assert (decision.decision, decision.class_) == ("uphold", "disqualifying")
        assert table.app.screen.marked.text.strip().startswith("Disqualifying fault: Cow hocks")
        assert "DISQUALIFYING under this edition: Cow hocks" in table.text


async def test_a_decision_without_a_reason_is_none(folder):
    begun(folder, **OVER)
    async with sitting(folder) as table:
        await table.press("g", "r")
        await to_row(table, "Over height")
        await table.press("d", "2", "enter", "escape")
        assert not table.on_disk.decisions


async def test_the_summary_is_kept_as_written(folder):
    begun(folder, **OVER)
    async with sitting(folder) as table:
        await table.press("g", "r", "s")
        await table.type("A [good] dog")
        await table.press("enter")
        await table.type("=1+1")
        await table.press("escape")
        assert table.on_disk.summary.text == "A [good] dog\n=1+1"


async def test_an_outcome_is_chosen_and_told_when_above_what_the_rules_leave(folder):
    begun(folder, **OVER)
    async with sitting(folder, size=(120, 40)) as table:
        await table.press("g", "r", "o")
        assert "Excellent" in table.text
        await table.press("2")
        assert table.on_disk.summary.outcome == "very-good"


async def test_a_puppy_is_offered_the_grades_of_its_age(folder):
    begun(folder, dog={"call_name": "Arko", "sex": "male", "born": "2025-10-14"})
    async with sitting(folder, size=(120, 40)) as table:
        await table.press("g", "r", "o")
        assert "Very promising" in table.text
        assert "Excellent" not in table.text
        await table.press("2")
        assert table.on_disk.summary.outcome == "promising"


async def signed(table) -> None:
    await table.press("g", "r", "g", "enter", "enter")


async def test_signing_asks_twice_and_writes_digest_and_copy(folder):
    begun(folder, **OVER)
    async with sitting(folder) as table:
        await table.press("g", "r", "g")
        assert "left open" in table.text
        await table.press("enter")
        assert table.on_disk.signature is None
        await table.press("enter")
        session = table.on_disk
        assert session.signature is not None
        assert session.signature.name == "E. Example"
        assert session.examination.finished is not None
        assert as_signed(session) is True
        assert {row["id"] for row in session.signature.evaluation["findings"]} >= {"general.over-height"}
        assert "Signed by E. Example" in table.text


async def test_another_name_is_asked_about_anew(folder):
    """Who edits the name after the first Enter no longer reads the question about the old one."""
    begun(folder, **OVER)
    async with sitting(folder) as table:
        await table.press("g", "r", "g", "enter")
        assert "Sign as E. Example?" in table.text
        await table.press("x")
        assert "Sign as" not in table.text
        await table.press("enter")
        assert "Sign as E. Examplex?" in table.text
        assert table.on_disk.signature is None


async def test_after_the_signature_a_change_needs_a_reason_and_is_an_amendment(folder):
    begun(folder, **OVER)
    async with sitting(folder) as table:
        await signed(table)
        await table.press("w")
        await table.jump_to("hindquarters.hocks")
        await table.press("u")
        assert table.screen_name == "TypedScreen"
        await table.press("escape")
        assert not table.on_disk.amendments, "no reason, no change"
        await table.press("u")
        await table.type("seen again")
        await table.press("enter")
        session = table.on_disk
        (amendment,) = session.amendments
        assert (amendment.reason, amendment.point) == ("seen again", "hindquarters.hocks")
        assert session.grades[0].fault == "hindquarters.cow-hocks", "what was signed stands"
        assert as_signed(session) is True
        assert not [row for row in table.walk.sheet.evaluation.findings if row.id == "hindquarters.cow-hocks"]


async def test_a_signed_session_opens_in_the_review_and_is_not_unfinished(folder):
    begun(folder, **OVER)
    async with sitting(folder) as table:
        await signed(table)
        await table.press("q")
        await table.settle()
        assert "none unfinished" in table.text
        await table.press("r", "enter")
        assert table.screen_name == "ReviewScreen"


async def test_notes_and_summary_after_signing_ask_for_a_reason(folder):
    begun(folder, **OVER)
    async with sitting(folder) as table:
        await signed(table)
        await table.press("s")
        await table.type("later")
        await table.press("f2")
        await table.type("forgotten")
        await table.press("enter")
        assert table.on_disk.amendments[-1].summary.text == "later"
        await table.press("w", "n", "x", "enter")
        await table.type("also forgotten")
        await table.press("enter")
        assert table.on_disk.amendments[-1].notes[0].text == "x"
        assert table.on_disk.notes == ()


async def test_decide_stands_on_the_heaviest_finding_first_where_another_line_is_marked(folder):
    (path,) = demo(folder, BRUMO)
    path.write_text(path.read_text().partition("[signature]")[0])
    async with sitting(folder, opens=OpenFile(path)) as table:
        await table.press("r")
        screen = table.app.screen
        assert screen.marked.finding is None
        await table.press("d")
        assert table.app.screen is screen
        assert screen.marked.finding is not None
        await table.press("d")
        assert table.screen_name == "NumberedScreen"
