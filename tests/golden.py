"""What sessions gave when somebody last looked: the judgement in short, a file a case, in tests/data/golden/.

    python -m tests.golden          # what has changed since
    python -m tests.golden --renew  # take what is given now; then look at `git diff` and say why

A case holds for the edition as it was then: where its text has changed since, it waits to be renewed. Kept is
what is judged, values to three places; no sentence and no source, so that words may be mended.
"""

from __future__ import annotations

import difflib
import json
import sys
from functools import cache
from pathlib import Path
from typing import Any

from hands_on.evaluate.evaluation import evaluate
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets, shipped_sessions
from hands_on.store.session_file import read_session
from hands_on.wording.documents.evaluation import evaluation_document

DATA = Path(__file__).parent / "data"
FOLDER = DATA / "golden"
OWN = {"good": DATA / "sessions" / "good.toml", "first-format": DATA / "formats" / "1.toml"}
"""Sessions under the Moor Hound, an invented breed."""

CASES = [
    ("2026-09-19-brumo-m-quill", "hovawart-fci-190"),
    ("2026-09-19-brumo-a-thornby", "hovawart-fci-190"),
    ("2026-09-19-fenja-m-quill", "hovawart-fci-190"),
    ("2026-09-19-fenja-a-thornby", "hovawart-fci-190"),
    ("2026-09-19-tovik-m-quill", "hovawart-fci-190"),
    ("2026-09-19-brumo-m-quill", "german-shepherd-fci-166"),
    ("2026-09-19-brumo-m-quill", "weimaraner-american"),
    ("2026-09-19-fenja-m-quill", "dachshund-fci-148"),
    ("2026-09-19-fenja-m-quill", "vizsla-fci-57"),
    ("2026-09-19-tovik-m-quill", "rottweiler-fci-147"),
    ("2026-09-19-tovik-m-quill", "any-dog"),
    ("good", "moor-hound"),
    ("first-format", "moor-hound"),
    ("good", "labrador-fci-122"),
]
"""Session and edition."""


@cache
def libraries() -> tuple[Library, Library]:
    """The shipped editions, and those of the tests."""
    return Library([shipped_rulesets()]), Library([DATA / "rulesets"])


def judged(session: str, edition: str) -> dict[str, Any]:
    """What a session gives under an edition, in short."""
    path = OWN.get(session) or shipped_sessions() / f"{session}.toml"
    shipped, own = libraries()
    rules = (own if edition == "moor-hound" else shipped).load(edition)
    found = evaluation_document(evaluate(rules, read_session(path)))
    return {
        "edition": rules.digest,
        "measures": {_name(one): f"{one['value']:.3f} +- {one['u']:.3f}" for one in found["measures"]},
        "rules": [_rule(one) for one in found["rules"] if one["verdict"] != "not-measured"],
        "findings": [_finding(one) for one in found["findings"]],
        "allowed": [_finding(one) for one in found["allowed"]],
        "totals": {cls: count for cls, count in found["totals"].items() if count},
        "unsure": {cls: count for cls, count in found["unsure"].items() if count},
        "disqualifying": found["disqualifying"],
        "outcome_at_most": found["outcome_at_most"],
        "alarms": sorted(f"{one['kind']}: {', '.join(one['points'])}" for one in found["alarms"]),
    }


def _name(row: dict[str, Any]) -> str:
    return row["id"] + (f" {row['side']}" if row["side"] else "")


def _rule(rule: dict[str, Any]) -> str:
    p = "" if rule["p_inside"] is None else f", inside {rule['p_inside']:.3f}"
    return f"{_name(rule)}: {rule['verdict']}{p}, {rule['class']}"


def _finding(finding: dict[str, Any]) -> str:
    parts = [_name(finding), finding["detail"], finding["degree"], finding["status"], finding["class"]]
    parts += ["too young" if finding["too_young"] else "", finding["decision"]]
    parts.append("" if finding["counts"] else "does not count")
    return ", ".join(filter(None, parts))


def file_of(session: str, edition: str) -> Path:
    """Where a case is kept."""
    return FOLDER / f"{session}.{edition}.json"


def text_of(session: str, edition: str) -> str:
    """A case as its file holds it."""
    return json.dumps(judged(session, edition), indent=1, ensure_ascii=False) + "\n"


def main() -> int:
    """Tell what has changed, and with `--renew` keep it."""
    changed = 0
    for case in CASES:
        path, now = file_of(*case), text_of(*case)
        then = path.read_text("utf-8") if path.is_file() else ""
        changed += now != then
        print(
            "\n".join(
                difflib.unified_diff(then.split("\n"), now.split("\n"), path.name, "now", "", "", 0, "")
            )
        )
        if "--renew" in sys.argv[1:]:
            path.parent.mkdir(exist_ok=True)
            path.write_text(now, "utf-8")
    print(f"{changed} of {len(CASES)} cases have changed")
    return 1 if changed else 0


if __name__ == "__main__":
    sys.exit(main())
