"""Sessions ready to compare, under the small edition of tests/evaluate/build.py. The dogs are invented."""

from __future__ import annotations

from hands_on.compare.examined import Examined, examined
from hands_on.exam.session import Session
from hands_on.ruleset.ruleset import Ruleset
from hands_on.store.session_file import parse_session
from tests.evaluate.build import edition

HEIGHTS = """
[[limits]]
id = "height"
measure = "height"
asked = { from = 60, to = 65 }
bands = [
    { below = 60, fault = "general.under-height", class = "severe" },
    { above = 65, to = 70, fault = "general.over-height", class = "fault" },
    { above = 70, fault = "general.over-height", class = "out" },
]
source = "reading"
"""

RULES = (
    HEIGHTS
    + """
[[rulings]]
faults = ["hindquarters.cow-hocks", "hindquarters.bowed-hocks"]
by_degree = { slight = "fault", marked = "severe" }
source = "reading"
"""
)

RULESET: Ruleset = edition(RULES)

PLAIN: Ruleset = edition("")


def held(
    answers: str = "",
    *,
    name: str = "Ada",
    sex: str = "female",
    born: str = "2020-01-01",
    on: str = "2024-06-01",
    by: str = "A. Example",
    more: str = "",
    ruleset: Ruleset = RULESET,
) -> Examined:
    """An examination of an invented dog."""
    return examined(
        ruleset,
        session(answers, name=name, sex=sex, born=born, on=on, by=by, more=more),
        name=f"{name}-{by}-{on}.toml",
    )


def session(
    answers: str = "", *, name: str, sex: str, born: str, on: str, by: str, more: str = ""
) -> Session:
    """Its session."""
    text = (
        f'format = 1\n[ruleset]\nid = "test"\n[dog]\ncall_name = "{name}"\nsex = "{sex}"\nborn = {born}\n'
        f'[examination]\nevaluator = "{by}"\nstarted = {on}T09:00:00+02:00\n{more}\n{answers}'
    )
    return parse_session(text, "session.toml")


def asked(point: str) -> str:
    """A point graded as asked for."""
    return f'[[grades]]\npoint = "{point}"\nas_asked = true\n'


def chosen(point: str, option: str) -> str:
    """A choice."""
    return f'[[choices]]\npoint = "{point}"\nchoice = "{option}"\n'
