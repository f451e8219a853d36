"""The wizard's second page: law, points of the breed's own, languages; and dates. Each is saved at once."""

from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from tests.tui.test_wizard import begun, held, keys, typed


def edition(path):
    return Library([shipped_rulesets(), path.parent]).load("tarn-spaniel").edition


def labels(screen):
    return [line.label for line in screen.question.lines()]


async def test_what_the_law_forbids_to_judge_is_off_until_chosen_and_can_be_taken_out_again(folder):
    app, path = begun(folder)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await keys(pilot, "0", "4", "3", "1", "2")  # dewclaws, behind: a fault
        rules = held(path)
        assert rules["switches"]["dewclaws-judged"]["caution"].startswith("Forbidden or restricted by law")
        judged, recorded = rules["rulings"]
        assert judged["when"] == {"switch": "dewclaws-judged"}
        assert (judged["faults"], judged["class"]) == (["hindfeet.dewclaws"], "fault")
        assert (recorded["faults"], recorded["class"]) == (["hindfeet.dewclaws"], "observation")
        assert edition(path).switches
        await keys(pilot, "4")
        await typed(pilot, "ta na")
        await keys(pilot, "4")
        assert held(path)["rulings"][-2]["faults"] == ["croup-tail.natural"]
        await keys(pilot, "5")  # take the first one out
        after = held(path)
        assert [row["faults"] for row in after["rulings"]] == [["croup-tail.natural"]] * 2
        assert list(after["switches"]) == ["tail-natural-judged"]
    assert edition(path).switches


async def test_a_point_of_the_breeds_own_is_on_disk_from_its_name_on_and_is_gone_back_to(folder):
    app, path = begun(folder)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await keys(pilot, "0", "5", "1", "1", "enter")
        await typed(pilot, "Ridge on the back")
        (point,) = held(path)["points"]
        assert point["label"] == "Ridge on the back"
        assert edition(path).points, "sound before the other questions are answered"
        await keys(pilot, "1")
        await typed(pilot, " A finger along the spine.", "")
        (point,) = held(path)["points"]
        assert point["find"].endswith("A finger along the spine.")
        (fault,) = point["other"]
        await typed(pilot, "short ridge")
        assert held(path)["faults"][fault]["label"] == "Short ridge"
        await keys(pilot, "4")
        assert {"faults": [fault], "class": "severe", "source": "STANDARD"} in held(path)["rulings"]
        await keys(pilot, "escape")
        assert "Ridge on the back" in labels(app.screen)
        await keys(pilot, "2", "5")
        assert "points" not in held(path)
        assert "faults" not in held(path)
    assert not edition(path).points


async def test_a_measurement_of_the_breeds_own_gets_its_figure(folder):
    app, path = begun(folder)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await keys(pilot, "0", "5", "1", "1", "enter")
        await typed(pilot, "Ridge length")
        await keys(pilot, "2")
        await typed(pilot, "", "", "20", "30", "2", "")
        await keys(pilot, "1")
    rules = held(path)
    (limit,) = rules["limits"]
    assert limit["measure"] == rules["points"][0]["id"]
    assert (limit["asked"], limit["unit"]) == ({"from": 20, "to": 30}, "cm")
    assert "faults" not in rules
    assert limit["measure"] in rules["walk"]["measures"]
    assert edition(path).limits


async def test_dates_of_the_text_and_of_its_validity_stand_in_the_head(folder):
    app, path = begun(folder)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await keys(pilot, "1")
        await typed(pilot, "Tarn Spaniel", "Invented body", "7", "2020", "2020-02-29", "medium", "2020-13-01")
        assert "A date is written as" in str(app.screen.query_one("#message").content)
        app.screen.query_one("Input").value = "2020-05-01"
        await typed(pilot, "")
    said = edition(path)
    assert said.size_class == "medium"
    assert (said.published.isoformat(), said.valid.isoformat()) == ("2020-02-29", "2020-05-01")


async def test_another_language_is_told_text_by_text_and_taken_over_where_an_edition_has_it(folder):
    app, path = begun(folder)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await keys(pilot, "6", "2", "enter")
        await typed(pilot, "Powerful.")
        await keys(pilot, "escape", "escape", "escape", "0", "8", "1")
        await typed(pilot, "de")
        await keys(pilot, "1")
        await typed(pilot, "Fehler")
        assert held(path)["languages"]["de"]["labels"] == {"fault": "Fehler"}
        await keys(pilot, "2")
        await typed(pilot, "Kräftig.")
        (told,) = held(path)["languages"]["de"]["asked"].values()
        assert told == "Kräftig."
        assert any(label.startswith("take over") for label in labels(app.screen))
        await keys(pilot, "6")
        said = held(path)["languages"]["de"]["labels"]
        assert said["fault"] == "Fehler"
        assert len(said) > 100
    assert edition(path).languages["de"].labels["fault"] == "Fehler"


async def test_colours_decide_classes_and_can_be_taken_out(folder):
    app, path = begun(folder)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await keys(pilot, "0", "6", "1")
        await typed(pilot, "Colour", "Black; Blue merle")
        assert held(path)["attributes"]["colour"]["options"] == {"black": "Black", "blue-merle": "Blue merle"}
        await keys(pilot, "2")
        await typed(pilot, "wa ey")
        await keys(pilot, "2", "1")
        (rule,) = held(path)["rulings"]
        assert (rule["faults"], rule["when"], rule["class"]) == (
            ["eyes.wall"],
            {"colour": "blue-merle"},
            "none",
        )
        assert edition(path).attributes
        await keys(pilot, "3")
        assert "rulings" not in held(path)
    assert edition(path).attributes


async def test_grades_are_those_of_a_body_and_what_disqualifies_rules_them_out(folder):
    app, path = begun(folder)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await keys(pilot, "0", "7", "2")
        assert held(path)["outcomes_from"] == "fci"
        assert edition(path).caps[0].at_most == "disqualified"
        await keys(pilot, "7", "1")
    assert not edition(path).outcomes


async def test_faults_are_allowed_or_only_recorded_by_their_names(folder):
    app, path = begun(folder)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await keys(pilot, "9", "3")
        await typed(pilot, "li ey; ro ba", "")
    assert {row["faults"][0]: row["class"] for row in held(path)["rulings"]} == {
        "eyes.light": "observation",
        "back.roached": "observation",
    }
    assert edition(path).rulings
