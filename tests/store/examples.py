"""Sessions and rulesets written out, for the tests of the store."""

from __future__ import annotations

import datetime
from pathlib import Path

from hands_on.exam.session import Session, Take
from hands_on.store.session_file import parse_session

NOW = datetime.datetime(2026, 5, 2, 9, 30, tzinfo=datetime.timezone(datetime.timedelta(hours=2)))

ARKO = """
format = 1
[ruleset]
id = "hovawart-fci-190"
[dog]
call_name = "Arko"
sex = "male"
born = 2023-05-14
[examination]
evaluator = "E. Example"
place = "Musterstadt"
started = 2026-05-02T09:30:00+02:00
[[takes]]
point = "height"
value = 68.5
unit = "cm"
"""


def arko(**changes: str) -> Session:
    """A small session; `changes` go into its dog."""
    session = parse_session(ARKO, "arko.toml")
    return session.model_copy(update={"dog": session.dog.model_copy(update=changes)})


def with_take(session: Session, value: float | str) -> Session:
    """The session with one more take."""
    take = Take(point="height", value=value, unit="cm")
    return session.model_copy(update={"takes": (*session.takes, take)})


COMMON = {
    "order.toml": 'format = 1\norder = ["neck"]\n',
    "neck.toml": """
format = 1
[region]
id = "neck"
label = "Neck"
[[points]]
id = "neck.skin"
kind = "grade"
label = "Skin of the throat"
find = "Take the skin under the throat between two fingers."
why = "Loose skin shows loose tissue elsewhere."
more = ["neck.throaty"]
source = "common practice"
[faults."neck.throaty"]
label = "Throaty"
meaning = "loose skin under the throat"
function = "None that counts."
""",
}

EDITION = """
format = 1
id = "{id}"
builds_on = "{builds_on}"
breed = "Test dog"
title = "Test dog, {id}"
edition = "1"
[[classes]]
id = "fault"
label = "Fault"
means = "counts"
source = "common practice"
"""


def rulesets(folder: Path, **editions: str) -> Path:
    """A rulesets folder with a small common part and `id=builds_on` editions (`_` for `-`)."""
    (folder / "common").mkdir(parents=True, exist_ok=True)
    for name, text in COMMON.items():
        (folder / "common" / name).write_text(text, "utf-8")
    for key, older in editions.items():
        name = key.replace("_", "-")
        (folder / f"{name}.toml").write_text(EDITION.format(id=name, builds_on=older), "utf-8")
    return folder
