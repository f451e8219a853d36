"""A dog comes back: what is looked at again, the earlier answer hidden until the new one, then both."""

from __future__ import annotations

import pytest

from hands_on.compare.answer import answer_at
from hands_on.compare.dogs.recheck import plan
from hands_on.exam.answers import answers_at
from hands_on.exam.left_out import NOT_IN_RECHECK, left_out
from hands_on.exam.session import CautionAnswer
from hands_on.exam.walk import stops
from hands_on.store.session_file import SessionFile, read_session
from hands_on.tui.asks import GoOn, History, OpenFile, Recheck
from hands_on.tui.parts.drawn_dogs import then_drawn
from hands_on.tui.screens.history import HistoryScreen
from hands_on.tui.screens.recheck import RecheckScreen
from hands_on.tui.widgets.findings import FindingList
from hands_on.tui.widgets.side_table import SideTable
from hands_on.wording.answers import answer_words
from hands_on.wording.labels import label_words
from hands_on.wording.recheck import BLIND
from tests.tui.demo import BRUMO, TOVIK, copied, demo, held
from tests.tui.driving import LIBRARY, NOW, sitting


def one_line(text):
    return " ".join(text.split())


def rechecking(folder, **options):
    (path,) = demo(folder, TOVIK)
    return path, {"opens": Recheck(path), **options}


def read_cautions(table):
    """Have the cautions read, for they are not what is asked here."""
    sheet = table.app.screen.sheet
    rows = [
        CautionAnswer(id=row.id, answer="yes" if row.stop else "read") for row in LIBRARY.cautions().cautions
    ]
    sheet.put(sheet.session.model_copy(update={"cautions": tuple(rows)}))
    table.app.go(GoOn(sheet))


async def begin(table, key):
    await table.press(key)
    assert table.screen_name == "NumberedScreen", "who examines is asked, never taken over"
    await table.press("1")
    await table.pilot.pause()
    read_cautions(table)
    await table.pilot.pause()
    return table.walk


def new_session(folder, old):
    (path,) = (path for path in folder.glob("*.toml") if path != old)
    return read_session(path)


async def test_the_list_tells_why_and_never_what_was_found(folder):
    path, options = rechecking(folder)
    (earlier,) = held([path])
    found = plan(earlier, on=NOW.date(), blind=True)
    assert found.points
    async with sitting(folder, (110, 140), **options) as table:
        assert isinstance(table.app.screen, RecheckScreen)
        text = one_line(table.text)
        rows = [row.label for part in table.app.screen.query_one(SideTable).parts for row in part.rows]
        ranked = sorted(found.items, key=lambda item: (item.left_open, not item.first))
        assert rows == [item.label for item in ranked]
        blind = [item.point for item in found.items if item.blind]
        put_in = sum(reason.kind == "control" for item in found.items for reason in item.reasons)
        assert put_in >= 0.8 * (len(blind) - put_in), "about as many that were as asked"
        assert text.count(BLIND) >= len(blind)
        assert "too young to judge" in text
        for item in found.items:
            answer = answer_at(earlier, earlier.ruleset.points[item.point])
            then = answer_words(answer, earlier.ruleset)
            assert not answer.given or len(then) < 10 or then not in text, item.label
        for result in earlier.evaluation.measures:
            assert f"{result.value:.1f}" not in text


async def test_a_recheck_is_of_the_same_dog_names_the_earlier_file_and_takes_over_no_answer(folder):
    path, options = rechecking(folder)
    old = read_session(path)
    async with sitting(folder, **options) as table:
        await begin(table, "3")
        session = new_session(folder, path)
        assert session.dog == old.dog
        assert (session.examination.kind, session.examination.baseline) == ("recheck", path.name)
        assert session.examination.evaluator == old.examination.evaluator
        taken_over = (session.takes, session.grades, session.choices, session.notes, session.skips)
        assert taken_over == ((), (), (), (), ())
        assert session.teeth is None
        assert read_session(path) == old


async def test_the_earlier_reading_shows_only_once_the_new_ones_are_taken(folder):
    path, options = rechecking(folder)
    (earlier,) = held([path])
    then = f"{earlier.measures.by_point['height'].pooled.value:.1f} ±"
    async with sitting(folder, **options) as table:
        await begin(table, "3")
        await table.jump_to("height")
        assert "Again:" in table.text
        await table.type("64.5\r64\r")
        assert "= 64.2" in table.text
        assert then not in table.text, "more takes are still to come"
        await table.press("enter")
        text = one_line(table.text)
        assert f"{then} 0.5 cm at 7 months, 64.2" in text
        assert "AS GROWTH WOULD HAVE IT" in text
        await table.press("b")
        assert then in table.text, "on coming back both stand there"


async def test_the_earlier_grade_shows_with_its_verdict_on_leaving_the_point(folder):
    path, options = rechecking(folder)
    (earlier,) = held([path])
    found = next(one for one in earlier.evaluation.findings if one.origin == "grade" and one.degree)
    label = label_words(found.named).casefold()
    then = answer_words(answer_at(earlier, earlier.ruleset.points[found.points[0]]), earlier.ruleset)
    assert label in then
    async with sitting(folder, **options) as table:
        walk = await begin(table, "3")
        await table.jump_to(found.points[0])
        ask = walk.dialogue.prompt()
        assert "recorded" not in table.text
        assert not any(line.recorded for line in ask.lines)
        findings = str(walk.query_one("WalkScreen > FindingList", FindingList).render()).casefold()
        assert label not in findings
        await table.press("0")
        text = one_line(table.text).casefold()
        assert f"{then} at 7 months" in text
        assert "as asked at" in text


async def test_only_the_points_to_look_at_first_are_walked(folder):
    path, options = rechecking(folder)
    (earlier,) = held([path])
    listed = plan(earlier, on=NOW.date(), blind=True).items
    first = [item.point for item in listed if item.first and not item.left_open]
    async with sitting(folder, **options) as table:
        walk = await begin(table, "1")
        assert "106" not in table.text.split("\n")[1]
        assert f"{len(first)} left" in table.text
        walked = [walk.stop.point.id]
        for _ in first[1:]:
            await table.press("enter", "enter")
            walked.append(walk.stop.point.id)
        assert walked == list(first)
        session = new_session(folder, path)
        ruleset = LIBRARY.load(session.ruleset.id)
        out = {stop.point.id for stop in stops(ruleset, session) if left_out(session, stop.point)}
        assert not out & set(first)
        assert {skip.reason for skip in session.skips} == {NOT_IN_RECHECK}
        await table.press("b")
        assert walk.stop.point.id == first[-2]
        await table.press("r")
        assert f"{len(out)} points: {NOT_IN_RECHECK}" in table.app.screen.rows[-1].text


async def test_the_review_tells_then_and_now_of_answered_points_alone(folder):
    _, options = rechecking(folder)
    async with sitting(folder, (110, 60), **options) as table:
        await begin(table, "3")
        await table.jump_to("height")
        await table.type("64.5\r64\r")
        await table.press("r")
        rows = [row.text for row in table.app.screen.rows]
        start = rows.index("Then and now")
        inside = []
        for row in rows[start + 1 :]:
            if not row.startswith("  "):
                break
            inside.append(row)
        assert len(inside) == 1
        assert "Height at the withers" in inside[0]
        assert "at 7 months" in inside[0]


async def test_opened_again_a_recheck_still_hides_and_still_compares(folder):
    path, options = rechecking(folder)
    async with sitting(folder, **options) as table:
        await begin(table, "3")
        await table.press("q")
    (later,) = (one for one in folder.glob("*.toml") if one != path)
    async with sitting(folder, opens=OpenFile(later)) as table:
        await table.jump_to("height")
        assert "62." not in table.text
        await table.type("64.5\r\r")
        assert "at 7 months" in one_line(table.text)


async def test_without_the_earlier_file_it_is_said_and_the_walk_goes_on(folder):
    path, options = rechecking(folder)
    async with sitting(folder, **options) as table:
        await begin(table, "3")
        await table.press("q")
    (later,) = (one for one in folder.glob("*.toml") if one != path)
    path.unlink()
    async with sitting(folder, opens=OpenFile(later)) as table:
        assert "The earlier examination can't be read" in one_line(table.text)
        await table.press("0")
        assert len(read_session(later).grades) == 1


async def test_from_the_start_screen_the_dog_is_picked_by_its_number(folder):
    demo(folder, TOVIK, BRUMO)
    async with sitting(folder) as table:
        await table.press("x")
        number = next(n for n, row in enumerate(table.app.screen.rows, 1) if row.call_name == "Tovik")
        await table.press(str(number))
        assert isinstance(table.app.screen, RecheckScreen)
        assert table.app.screen.earlier.dog == "Tovik"
        await table.press("escape")
        assert table.screen_name == "StartScreen"


async def test_a_history_prints_every_value_over_age_and_draws_its_way(folder):
    (path,) = demo(folder, TOVIK)
    old = path.read_text()
    for month, value in (("12", 65.5), ("11", 64.0)):
        later = copied(path, folder / f"later-{month}.toml", ("2025-09-19", f"2025-{month}-19"))
        file, session = SessionFile.read(later)
        takes = [t.model_copy(update={"value": value}) if t.point == "height" else t for t in session.takes]
        file.write(session.model_copy(update={"takes": tuple(takes), "signature": None}))
    assert path.read_text() == old
    async with sitting(folder, opens=History(path)) as table:
        screen = table.app.screen
        assert isinstance(screen, HistoryScreen)
        text = one_line(table.text)
        for part in ("3 examinations", "7 months: 62.2", "9 months: 64.0", "10 months: 65.5"):
            assert part in text, part
        assert any(0x2800 < ord(letter) < 0x2900 for letter in text)
        before = len(str(screen.query_one("#text").render()))
        await table.press("d")
        assert len(str(screen.query_one("#text").render())) > before


async def test_before_a_recheck_the_history_is_shown_only_when_that_is_meant(folder):
    path, options = rechecking(folder)
    copied(path, folder / "second.toml", ("2025-09-19", "2025-11-19"))
    async with sitting(folder, **options) as table:
        await table.press("v")
        assert "lean on your hand" in one_line(table.text)
        await table.press("1")
        assert isinstance(table.app.screen, RecheckScreen)
        await table.press("v", "2")
        assert isinstance(table.app.screen, HistoryScreen)


async def test_a_dog_examined_once_has_no_history_yet(folder):
    path, _ = rechecking(folder)
    async with sitting(folder, opens=History(path)) as table:
        assert "once only" in table.text


def test_points_left_out_are_no_longer_so_once_answered(folder):
    (path,) = demo(folder, TOVIK)
    session = read_session(path)
    ruleset = LIBRARY.load(session.ruleset.id)
    point = ruleset.points["height"]
    skip = {"point": "height", "reason": NOT_IN_RECHECK}
    skipped = type(session).model_validate({**session.model_dump(), "skips": [skip]})
    assert answers_at(skipped, point).given
    assert not left_out(skipped, point)
    assert left_out(skipped.model_copy(update={"takes": ()}), point)


async def test_the_drawing_of_then_shows_nothing_of_a_point_that_is_still_being_taken(folder):
    path, options = rechecking(folder)
    (earlier,) = held([path])
    async with sitting(folder, **options) as table:
        await begin(table, "3")
        await table.jump_to("height")
        await table.type("64.5\r")
        sheet = table.walk.sheet
        now = then_drawn(sheet, "height")
        assert now is not None
        assert now.figure.measured == ()
        assert now.figure.departures == ()
        await table.type("64\r")
        await table.press("enter", "l", "n")
        assert "as it was then, where answered anew" in one_line(table.text)
        after = then_drawn(sheet)
        assert after.figure.measured == ("height",)
        assert after.figure.height == pytest.approx(earlier.measures.by_point["height"].pooled.value)


async def test_a_history_draws_the_dog_then_and_now(folder):
    paths = demo(folder, TOVIK)
    copied(paths[0], folder / "later.toml", ("2025-09-19", "2025-12-19"))
    async with sitting(folder, opens=History(folder / "later.toml")) as table:
        await table.press("o")
        assert table.screen_name == "FigureScreen"
        assert "line: 2. " in table.text
        assert "chain: 1. " in table.text


async def test_every_earlier_examination_is_judged_and_not_the_last_alone(folder):
    path, options = rechecking(folder)
    copied(
        path,
        folder / "2025-06-20-tovik.toml",
        ("2025-09-19", "2025-06-20"),
        ("value = 62.0", "value = 55.0"),
        ("value = 62.5", "value = 55.5"),
    )
    async with sitting(folder, **options) as table:
        assert "And before that: 2025-06-20" in one_line(table.text)
        walk = await begin(table, "2")
        await table.jump_to("height")
        await table.type("66\r")
        assert "Before that" not in table.text, "hidden until the point is left"
        await table.press("enter")
        told = one_line(walk.dialogue.message)
        first, sep, second = told.partition("Before that:")
        assert sep
        assert "Height at the withers" in first
        assert "55" in second


async def test_a_point_put_in_as_asked_says_look_again_like_one_where_something_was_found(folder):
    path, options = rechecking(folder)
    (earlier,) = held([path])
    listed = plan(earlier, on=NOW.date(), blind=True).items
    kinds = {item.point: {reason.kind for reason in item.reasons} for item in listed if item.blind}
    assert any("control" in found for found in kinds.values())
    async with sitting(folder, **options) as table:
        walk = await begin(table, "2")
        assert all(walk.sheet.again[point].startswith(BLIND) for point in kinds)
