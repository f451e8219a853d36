"""`hands-on assess`: text for people, JSON for programs, and what it says of files it cannot use."""

import json
from pathlib import Path

import pytest

from hands_on.cli import main

HELD = """
format = 1
[ruleset]
id = "hovawart-fci-190"
[dog]
call_name = "Arko\\u001B[2J"
sex = "male"
born = 2021-05-14
[examination]
evaluator = "E. Example"
started = 2026-05-02T09:30:00+02:00
[[takes]]
point = "height"
value = 71.5
[[takes]]
point = "height"
value = "seven\\u001B[31m"
[[grades]]
point = "hindquarters.hocks"
fault = "hindquarters.cow-hocks"
degree = "slight"
side = "left"
[teeth]
missing = [105, 405]
[[choices]]
point = "mouth.bite"
choice = "level"
[[skips]]
region = "movement"
reason = "no room to move"
"""


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "arko.toml"
    path.write_text(HELD)
    return path


def test_text_tells_measurements_rules_findings_totals_and_what_is_left(file, capsys):
    assert main(["assess", str(file)]) == 0
    text = capsys.readouterr().out
    titles = [
        "Measurements", "What the edition asks", "Findings", "Totals", "To look at again", "Not examined",
    ]  # fmt: skip
    places = [text.index(f"\n{title}\n{'-' * len(title)}\n") for title in titles]
    assert places == sorted(places)
    assert "71.5 ± 0.6 cm, asked 63 to 70: outside, 0.5 % that it is within" in " ".join(text.split())
    assert "Cow hocks, slight, left: Fault" in text
    assert "skipped: no room to move" in " ".join(text.split())
    assert max(map(len, text.splitlines())) <= 100
    # what people typed cannot move the cursor
    assert "\x1b" not in text
    assert "␛" in text


def test_json_holds_the_agreed_fields(file, capsys):
    assert main(["assess", str(file), "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["session"] == str(file)
    assert document["ruleset"] == "hovawart-fci-190"
    assert {"id", "value", "u", "unit", "takes"} <= document["measures"][0].keys()
    fields = {"id", "value", "u", "low", "high", "p_inside", "verdict", "fault", "class"}
    assert all(fields <= rule.keys() for rule in document["rules"])
    fields = {"id", "degree", "side", "status", "class", "origin", "too_young"}
    assert all(fields <= found.keys() for found in document["findings"])
    found = {one["id"]: one["class"] for one in document["findings"]}
    assert found == {
        "general.over-height": "fault",
        "hindquarters.cow-hocks": "fault",
        "mouth.teeth-missing": "fault",
    }
    assert document["totals"]["fault"] == 3
    assert [alarm["kind"] for alarm in document["alarms"]] == ["unreadable"]
    assert "movement.soundness" in document["gaps"]


def test_under_another_edition_the_same_answers_are_judged_anew(file, capsys):
    assert main(["assess", str(file), "--ruleset", "any-dog"]) == 0
    text = capsys.readouterr().out
    assert "The session was held under hovawart-fci-190." in text
    judged, changed = text.split("\nWhat changes against hovawart-fci-190\n")
    assert "Over height" not in judged  # no breed, no limit
    assert "Cow hocks" in judged
    assert "Over height: Fault -> not found" in changed


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (HELD[:-20], "arko.toml:"),  # cut off
        (HELD.replace("hovawart-fci-190", "hovavart-fci-190"), "hovawart-fci-190"),
        (HELD.replace('degree = "slight"', 'degree = "sligth"'), "sligth"),
        ("", "arko.toml"),
    ],
)
def test_a_file_that_cannot_be_used_is_named_with_exit_code_2(content, said, file, capsys):
    file.write_text(content)
    assert main(["assess", str(file)]) == 2
    captured = capsys.readouterr()
    assert captured.out == ""
    assert said in captured.err
    assert file.read_text() == content
