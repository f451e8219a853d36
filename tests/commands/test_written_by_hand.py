"""A session written by hand, as sessions/README.md explains it, through `hands-on assess --json`.

The figures asked for are those of FCI-Standard N° 190 Hovawart, English text of 28.03.2025.
"""

import json

import pytest

from hands_on.cli import main

SESSION = """
format = 1
[ruleset]
id = "hovawart-fci-190"
[dog]
call_name = "Arko"
sex = "male"
born = 2023-05-14
colour = "blond"
[examination]
evaluator = "E. Example"
started = 2026-05-02T09:30:00+02:00
[[takes]]
point = "height"
value = 71.5
unit = "cm"
[[takes]]
point = "body-length"
value = 77.2
unit = "cm"
[[grades]]
point = "hindquarters.hocks"
fault = "hindquarters.cow-hocks"
degree = "slight"
side = "left"
[[choices]]
point = "mouth.bite"
choice = "level"
[teeth]
missing = [105, 405]
[[skips]]
region = "movement"
reason = "no room to move the dog"
"""


@pytest.fixture
def assessed(tmp_path, capsys):
    def assess(text=SESSION, *more):
        file = tmp_path / "arko.toml"
        file.write_text(text, encoding="utf-8")
        code = main(["assess", str(file), "--json", *more])
        captured = capsys.readouterr()
        assert code == 0, captured.err
        return json.loads(captured.out)

    return assess


def finding(document, fault):
    rows = [row for row in document["findings"] if row["id"] == fault]
    assert len(rows) == 1, (fault, document["findings"])
    return rows[0]


def test_a_male_of_71_5_cm_is_over_height_an_ordinary_fault(assessed):
    row = finding(assessed(), "general.over-height")
    assert (row["class"], row["status"], row["origin"]) == ("fault", "present", "take")


def test_a_body_of_1_08_heights_is_short_as_far_as_one_take_can_tell(assessed):
    document = assessed()
    row = finding(document, "general.body-short")
    assert row["class"] == "fault"
    ratio = next(entry for entry in document["derived"] if entry["id"] == "body-length/height")
    assert ratio["value"] == pytest.approx(1.0797, abs=1e-4)


def test_slight_cow_hocks_on_the_left_are_a_fault_on_the_left(assessed):
    row = finding(assessed(), "hindquarters.cow-hocks")
    assert (row["class"], row["degree"], row["side"], row["origin"]) == ("fault", "slight", "left", "grade")


@pytest.mark.parametrize(
    ("missing", "cls"),
    [
        ("105, 405", "fault"),  # two P1: may be missing without disqualifying
        ("311, 411", "fault"),  # both M3 likewise
        ("106, 206", "disqualifying"),  # two P2
        ("105, 107", "disqualifying"),  # a P1 and a P3
    ],
)
def test_two_missing_premolars_count_by_which_they_are(assessed, missing, cls):
    row = finding(assessed(SESSION.replace("105, 405", missing)), "mouth.teeth-missing")
    assert row["class"] == cls
    assert f"{row['teeth'][0]}, {row['teeth'][1]}" == missing


def test_a_level_bite_is_allowed_and_so_no_finding(assessed):
    document = assessed()
    assert "mouth.level-bite" not in [row["id"] for row in document["findings"]]
    assert "mouth.level-bite" in [row["id"] for row in document["allowed"]]


def test_a_skipped_region_leaves_its_points_as_gaps_with_the_reason(assessed):
    document = assessed()
    skipped = {row["point"]: row["reason"] for row in document["skipped"]}
    assert skipped
    assert all(point.startswith("movement.") for point in skipped)
    assert set(skipped.values()) == {"no room to move the dog"}
    assert set(skipped) <= set(document["gaps"])


def test_totals_count_what_is_sure(assessed):
    document = assessed()
    sure = [row for row in document["findings"] if row["status"] == "present"]
    assert document["totals"]["fault"] == len(sure)
    assert document["totals"]["disqualifying"] == 0


def test_the_same_session_under_another_edition_keeps_the_dog_and_changes_the_rules(assessed):
    document = assessed(SESSION, "--ruleset", "any-dog")
    assert document["ruleset"] == "any-dog"
    ids = [row["id"] for row in document["findings"]]
    assert "general.over-height" not in ids
    assert {row["id"]: row["value"] for row in document["measures"]}["height"] == 71.5
