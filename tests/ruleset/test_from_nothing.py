"""A new breed by the contributors' guide alone: begun, edited as it says, sound, walked, dogs judged."""

import re
import tomllib
from pathlib import Path

import pytest

from hands_on.cli import main
from hands_on.evaluate import evaluate
from hands_on.exam.session import Session
from hands_on.exam.walk import stops
from hands_on.store.library import Library
from hands_on.store.places import RULESETS_VARIABLE, shipped_rulesets

GUIDE = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")
SECTION = GUIDE.split("### From nothing to a new breed\n")[1].split("\n## ")[0]
COMMAND = re.findall(r"```sh\n(.*?)```", SECTION, re.DOTALL)[0]
HEAD, SOURCES, CLASS, RULES = re.findall(r"```toml\n(.*?)```", SECTION, re.DOTALL)


def with_line(text, line):
    """`text` with the line of the same key replaced."""
    key = line.split("=")[0].strip()
    changed, count = re.subn(rf"(?m)^{key} *=.*$", lambda _: line, text)
    assert count == 1, f"{key} stands {count} times in the start"
    return changed


def switched_on(text, block):
    """`text` with this block's # taken away."""
    off = "".join(f"#{line}\n" for line in block.splitlines())
    assert text.count(off) == 1
    return text.replace(off, block)


@pytest.fixture
def written(tmp_path, monkeypatch, capsys):
    """The file, edited as the guide says."""
    monkeypatch.setenv(RULESETS_VARIABLE, str(tmp_path))
    program, *arguments = COMMAND.split()
    assert program == "hands-on"
    assert main(arguments) == 0
    path = tmp_path / "fell-spaniel.toml"
    assert str(path) in capsys.readouterr().out
    text = path.read_text(encoding="utf-8")
    for line in HEAD.splitlines() + SOURCES.splitlines()[1:]:
        text = with_line(text, line)
    path.write_text(switched_on(text, CLASS) + "\n" + RULES, encoding="utf-8")
    return path


def test_it_is_sound_with_the_warning_the_guide_tells_of(written, capsys):
    assert main(["check", str(written)]) == 0
    said = capsys.readouterr().out
    assert "1 file checked, 1 warning." in said
    assert "the female has no limit" in said


def test_it_is_shown_with_its_sources(written, capsys):
    assert main(["rulesets", "fell-spaniel"]) == 0
    text = " ".join(capsys.readouterr().out.split())
    assert "Fell Spaniel, invented, edition 2021" in text
    assert "asked 42 to 46 cm" in text
    assert tomllib.loads(SOURCES)["sources"]["STANDARD"] in text


@pytest.mark.parametrize(
    ("answers", "findings", "disqualifying"),
    [
        ({"takes": [{"point": "height", "value": 44}]}, {}, ()),
        ({"takes": [{"point": "height", "value": 47}]}, {"general.over-height": "fault"}, ()),
        (
            {"takes": [{"point": "height", "value": 50}]},
            {"general.over-height": "disqualifying"},
            ("general.over-height",),
        ),
        (
            {"grades": [{"point": "eyes.colour", "fault": "eyes.light", "degree": "slight"}]},
            {"eyes.light": "fault"},
            (),
        ),
        (
            {"choices": [{"point": "mouth.bite", "choice": "undershot"}]},
            {"mouth.undershot": "disqualifying"},
            ("mouth.undershot",),
        ),
        (
            {"grades": [{"point": "neck.line", "fault": "neck.ewe", "degree": "slight"}]},
            {"neck.ewe": "fault"},  # the general clause
            (),
        ),
    ],
)
def test_a_dog_is_walked_and_judged_under_it(written, answers, findings, disqualifying):
    ruleset = Library([shipped_rulesets(), written.parent]).load("fell-spaniel")
    held = Session.model_validate(
        {
            "ruleset": {"id": "fell-spaniel"},
            "dog": {"sex": "male", "born": "2020-01-01"},
            "examination": {"started": "2024-06-01T09:00:00+02:00"},
        }
        | answers
    )
    asked = [stop.point.id for stop in stops(ruleset, held)]
    assert {"height", "body-length", "eyes.colour", "mouth.bite", "mouth.teeth", "neck.line"} <= set(asked)
    assert asked.index("height") < asked.index("mouth.bite") < asked.index("movement.soundness")
    result = evaluate(ruleset, held)
    assert {one.id: one.cls for one in result.findings} == findings
    assert result.disqualifying == disqualifying
