"""The commands as their users meet them: output, errors, exit codes."""

import json
import subprocess
import sys

import pytest

from hands_on.cli import main

COMMANDS = ("demo", "examine", "assess", "check", "rulesets", "records")


def test_help_names_every_command(capsys):
    with pytest.raises(SystemExit) as stop:
        main(["--help"])
    assert stop.value.code == 0
    text = capsys.readouterr().out
    assert all(command in text for command in COMMANDS)


@pytest.mark.parametrize("command", COMMANDS)
def test_each_command_explains_itself(command, capsys):
    with pytest.raises(SystemExit) as stop:
        main([command, "--help"])
    assert stop.value.code == 0
    assert "usage: hands-on" in capsys.readouterr().out


@pytest.mark.parametrize(
    "arguments",
    [
        ["assess", "nowhere.toml"],
        ["check", "nowhere.toml"],
        ["rulesets", "hovawart"],
        ["examine", "nowhere.toml"],
        ["examine", "--ruleset", "hovavart-fci-190"],
        ["--rulesets", "nowhere", "rulesets"],
        ["assess", "--ruleset", "hovavart-fci-190", "sessions/2026-09-19-tovik-m-quill.toml"],
    ],
)
def test_what_is_not_there_is_said_on_standard_error_with_exit_code_2(arguments, tmp_path, capsys):
    assert main(["--sessions", str(tmp_path), *arguments]) == 2
    captured = capsys.readouterr()
    assert captured.out == ""
    assert captured.err.strip()
    assert "Traceback" not in captured.err


def test_a_folder_named_as_a_session_is_called_a_folder(tmp_path, capsys):
    assert main(["--sessions", str(tmp_path), "recheck", "--plan", str(tmp_path)]) == 2
    assert "this is a folder" in capsys.readouterr().err


def test_part_of_a_sires_name_is_no_cohort_and_the_full_name_is_offered(capsys):
    tovik = "sessions/2026-09-19-tovik-m-quill.toml"
    assert main(["cohort", tovik, "--sire", "brumo"]) == 2
    assert "--sire 'Brumo vom Beispielhof'" in capsys.readouterr().err
    assert main(["cohort", tovik, "--sire", "BRUMO vom Beispielhof"]) == 0
    assert main(["cohort", tovik, "--sire", "BRUMO vom Beispielhof", "--litter", "Q"]) == 2
    assert "given in full" not in capsys.readouterr().err


def test_a_near_miss_of_an_edition_is_offered(capsys):
    main(["rulesets", "hovavart-fci-190"])
    assert "hovawart-fci-190" in capsys.readouterr().err


def test_an_edition_in_full_names_a_source_beside_every_figure(capsys):
    assert main(["rulesets", "hovawart-fci-190"]) == 0
    text = capsys.readouterr().out
    section = text.split("Measured\n--------\n")[1].split("\n\n")[0]
    statements = [part for part in section.replace("\n    ", " ").splitlines() if part.startswith("  ")]
    assert "63 to 70 cm" in section
    figures = [line for line in statements if any(char.isdigit() for char in line)]
    joined = " ".join(figures)
    assert joined.count("[H25") >= 8


def test_records_of_an_empty_folder(tmp_path, capsys):
    assert main(["--sessions", str(tmp_path), "records"]) == 0
    assert "No session" in capsys.readouterr().out
    assert main(["--sessions", str(tmp_path / "not-there"), "records", "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == []


def test_records_find_by_dog_and_by_evaluator(capsys):
    assert main(["--sessions", "sessions", "records", "--find", "tovik", "--json"]) == 0
    rows = json.loads(capsys.readouterr().out)
    assert [row["call_name"] for row in rows] == ["Tovik"]


def test_screens_without_a_terminal_name_the_plain_command_instead():
    run = subprocess.run(
        [sys.executable, "-m", "hands_on", "demo"], capture_output=True, text=True, stdin=subprocess.DEVNULL
    )
    assert run.returncode == 2
    assert "terminal" in run.stderr
    assert run.stdout == ""


def test_a_reader_that_stops_makes_no_noise():
    command = f"{sys.executable} -m hands_on rulesets hovawart-fci-190 | head -1"
    run = subprocess.run(["bash", "-c", command], capture_output=True, text=True)
    assert run.stderr == ""


@pytest.mark.parametrize(
    "nasty", ["[b]bold[/b]", "\x1b[31mred\x1b[0m", "<b>bold</b>", "=cmd|' /C calc'!A0", "a\u202eb"]
)
def test_names_are_shown_as_typed_and_never_acted_on(nasty, tmp_path, capsys):
    file = tmp_path / "x.toml"
    name = json.dumps(nasty)
    file.write_text(
        f'format = 1\n[ruleset]\nid = "any-dog"\n[dog]\ncall_name = {name}\nsex = "male"\n'
        f"[examination]\nevaluator = {name}\nplace = {name}\n",
        encoding="utf-8",
    )
    for arguments in (["assess", str(file)], ["check", str(file)], ["--sessions", str(tmp_path), "records"]):
        main(arguments)
        captured = capsys.readouterr()
        assert "\x1b" not in captured.out + captured.err
        assert "\u202e" not in captured.out + captured.err
