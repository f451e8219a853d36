"""What each layer brings into memory, proved in a fresh process: static contracts miss late imports."""

import json
import subprocess
import sys
from collections.abc import Sequence

LOADED = "import json, sys; print(json.dumps(sorted(sys.modules)))"

CORE = (
    "hands_on.toml_text.parse",
    "hands_on.ruleset.assemble",
    "hands_on.ruleset.check",
    "hands_on.exam.answers",
    "hands_on.exam.walk",
    "hands_on.exam.dialogue",
    "hands_on.exam.check",
    "hands_on.exam.heard.note",
    "hands_on.measure",
    "hands_on.measure.entry",
    "hands_on.measure.conformity",
    "hands_on.notes",
    "hands_on.evaluate.evaluation",
    "hands_on.wording.edition",
    "hands_on.compare.dogs.side_by_side",
    "hands_on.compare.agreement.by_point",
    "hands_on.compare.dogs.recheck",
    "hands_on.exam.round",
    "hands_on.compare.editions.rule_by_rule",
    "hands_on.compare.editions.under_another",
    "hands_on.exam.left_out",
    "hands_on.wording.agreement",
    "hands_on.wording.dogs",
    "hands_on.figure.asked",
    "hands_on.wording.two_editions",
)

BRUMO, FENJA = "sessions/2026-09-19-brumo-m-quill.toml", "sessions/2026-09-19-fenja-m-quill.toml"

COMMANDS = (
    ["assess", "sessions/README.md"],
    ["check", "rulesets/hovawart-fci-190.toml"],
    ["rulesets"],
    ["rulesets", "hovawart-fci-190"],
    ["rulesets", "weimaraner-fci-99", "--against", "weimaraner-american"],
    ["rulesets", "--new", "any-dog"],
    ["records"],
    ["compare", "--plain", BRUMO, FENJA],
    ["compare", "--json", BRUMO, FENJA],
    ["compare", "--plain", "--pairing", BRUMO, FENJA],
    ["agree", "--json", BRUMO, FENJA],
    ["recheck", "--plan", BRUMO],
)


def fresh(code: str) -> str:
    """The last line that a fresh interpreter prints."""
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return run.stdout.splitlines()[-1]


def modules_after(code: str) -> set[str]:
    """The names of all modules in a fresh interpreter after `code` has run."""
    return set(json.loads(fresh(f"{code}\n{LOADED}")))


def brought(steps: Sequence[str]) -> dict[str, list[str]]:
    """What each step brings into one fresh interpreter that the steps before it had not."""
    code = f"""
import json, sys
found = {{}}
for step in {list(steps)!r}:
    before = set(sys.modules)
    exec(step)
    found[step] = sorted(set(sys.modules) - before)
print(json.dumps(found))
"""
    return json.loads(fresh(code))


def test_the_core_knows_neither_screens_nor_store_nor_commands():
    """Each module in turn; the first that knows one of them is told."""
    foreign = {
        step: names
        for step, loaded in brought([f"import {module}" for module in CORE]).items()
        if (
            names := [
                name
                for name in loaded
                if name.split(".")[0] in ("textual", "sqlite3", "filelock", "platformdirs")
                or name.startswith(("hands_on.tui", "hands_on.store", "hands_on.commands", "hands_on.cli"))
            ]
        )
    }
    assert foreign == {}


def test_commands_that_compute_bring_no_textual(tmp_path):
    runs = [f"hands_on.cli.main({['--sessions', str(tmp_path), *words]!r})" for words in COMMANDS]
    found = brought(["import hands_on.cli", *runs])
    assert [
        step for step, loaded in found.items() if any(one.split(".")[0] == "textual" for one in loaded)
    ] == []
    assert any("hands_on.compare.dogs.side_by_side" in loaded for loaded in found.values()), "they ran"


def test_help_brings_nothing_heavy():
    code = "from hands_on.cli import main\ntry:\n    main(['--help'])\nexcept SystemExit:\n    pass"
    heavy = {"textual", "pydantic", "rapidfuzz", "tree_sitter", "sqlite3", "hands_on.ruleset"}
    assert not heavy & modules_after(code)


def test_the_app_starts_without_models_or_rulesets():
    loaded = modules_after("import hands_on.tui.app")
    assert "textual" in loaded
    assert not [
        name for name in loaded if name.split(".")[0] == "pydantic" or name.startswith("hands_on.ruleset")
    ]
