"""`hands-on assess`: text for people, JSON for programs, and what it says of files it cannot use."""

import json
import re
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


def told(text: str) -> str:
    """What was printed, as one line."""
    return " ".join(text.split())


def test_text_tells_how_the_dog_stands_then_findings_measurements_and_what_is_left(file, capsys):
    assert main(["assess", str(file)]) == 0
    text = capsys.readouterr().out
    leads = ["Dog:", "As asked:", "Counts most:", "Outcome:", "Missing:"]
    titles = [*leads, "Findings", "Measurements", "The evaluator's own", "To look at again", "Not examined"]
    places = [f"\n{text}".index(f"\n{title}") for title in [*titles, "Sources"]]
    assert places == sorted(places)
    assert "71.5 ± 0.6 cm, asked 63 to 70: outside, 1.1 % that it is within" in told(text)
    assert "Fault: 3 Cow hocks, slight, left" in told(text)
    assert "skipped: no room to move" in told(text)
    assert "Summary: none written Outcome given: none; no decisions; no amendments Not signed" in told(text)
    assert max(map(len, text.splitlines())) <= 100
    # what people typed cannot move the cursor
    assert "\x1b" not in text
    assert "␛" in text


def test_every_source_is_written_out_once_and_what_is_ours_is_marked(file, capsys):
    assert main(["assess", str(file)]) == 0
    text, sources = told(capsys.readouterr().out).split(" Sources ")
    assert re.findall(r"\[(\d+)\]", sources) == ["1", "2"]
    for source in ("FCI-Standard N° 190 Hovawart", "Vet Rec 160:691-694", "the text is vague here"):
        assert (sources.count(source), text.count(source)) == (1, 0), source
    assert {"1", "2", "ours"} == {
        word for mark in re.findall(r"\[([^\]]+)\]", text.replace("␛[2J", "")) for word in mark.split(", ")
    }


@pytest.mark.parametrize("columns", ["80", "100"])
@pytest.mark.parametrize("demo", sorted(Path("sessions").glob("*.toml")), ids=lambda path: path.stem)
def test_a_demo_dog_takes_less_than_sixty_lines(demo, columns, capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", columns)
    assert main(["assess", str(demo), "--no-own-hand"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert len(lines) < 60
    assert max(map(len, lines)) <= int(columns)


def test_what_the_evaluator_kept_is_told_in_text_and_json(file, capsys):
    file.write_text(
        HELD
        + """
[[decisions]]
fault = "hindquarters.cow-hocks"
decision = "dismiss"
reason = "shifts his weight"
[summary]
text = "A dog of =good= <b>bone</b>."
[signature]
name = "E. Example"
at = 2026-05-02T10:30:00+02:00
digest = "sha256:0"
[[amendments]]
at = 2026-05-03T10:30:00+02:00
by = "E. Example"
reason = "the film shows it"
point = "head.stop"
[[amendments.grades]]
point = "head.stop"
as_asked = true
"""
    )
    assert main(["assess", str(file)]) == 0
    text = told(capsys.readouterr().out)
    assert "Summary: A dog of =good= <b>bone</b>." in text
    assert "Cow hocks dismissed: shifts his weight" in text
    assert "Signed by E. Example, 02 May 2026, 10:30, what was signed has been changed since" in text
    assert "Amendment 1, 03 May 2026 by E. Example, Stop: the film shows it" in text
    assert "Dismissed by the evaluator: 1 Cow hocks, slight, left" in text
    assert main(["assess", str(file), "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["summary"] == "A dog of =good= <b>bone</b>."
    assert document["outcome"] is None
    assert document["decisions"][0]["reason"] == "shifts his weight"
    assert document["signature"]["unchanged"] is False
    assert document["amendments"][0]["grades"] == [{"as_asked": True, "point": "head.stop"}]


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
    assert "The session was held under hovawart-fci-190." in told(text)
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
