"""Random sessions for property-based tests: every field, unknown keys at every level, awkward texts."""

from __future__ import annotations

import datetime
from typing import Any

from hypothesis import strategies as st

from hands_on.exam.session import Session
from hands_on.ruleset.dentition import TEETH

AWKWARD = (
    "[bold red]no markup[/]",
    "\x1b[2J\x1b[31mred\x07",
    "<script>alert(1)</script>",
    "=cmd|' /C calc'!A0",
    'three """ quotes',
    "back\\slash \\u0041",
    "one\ntwo\n\nthree\n",
    "carriage\r\nreturn",
    "lone \r return",
    "\ttab and trailing space ",
    "nul \x00 del \x7f nel \x85 ls \u2028",
    "Łucja Ångström, Jörg, Đorđe, 犬, 🐕‍🦺",
    "# not a comment",
    "[dog]",
    "true",
)
"""Texts that some program somewhere takes for more than text."""

texts = st.one_of(st.sampled_from(AWKWARD), st.text(st.characters(exclude_categories=["Cs"]), max_size=30))
"""Any text a UTF-8 file can hold."""

words = texts.filter(bool)

zones = st.integers(-14 * 60, 14 * 60).map(lambda shift: datetime.timezone(datetime.timedelta(minutes=shift)))
moments = st.datetimes(
    datetime.datetime(1990, 1, 1), datetime.datetime(2100, 1, 1), timezones=st.one_of(st.none(), zones)
)
numbers = st.floats(allow_nan=False)

_plain = st.one_of(
    texts, st.booleans(), st.integers(-(2**63), 2**63 - 1), numbers, moments, st.dates(), st.times()
)
toml_values = st.recursive(
    _plain,
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(texts, inner, max_size=3)),
    max_leaves=6,
)
"""Any value TOML can hold (no NaN, which equals nothing)."""

unknown = st.dictionaries(texts.map(lambda key: f"x {key}"), toml_values, max_size=2)
"""Keys of a newer version, or of the user's own."""


def table(required: dict[str, st.SearchStrategy[Any]], optional: dict[str, Any]) -> st.SearchStrategy[Any]:
    """A table with the required keys, some of the optional ones, and some nobody knows."""
    known = st.fixed_dictionaries(required, optional=optional)
    return st.builds(lambda given, more: {**given, **more}, known, unknown)


def tables(required: dict[str, Any], optional: dict[str, Any]) -> st.SearchStrategy[Any]:
    """A few of them."""
    return st.lists(table(required, optional), max_size=3)


_degrees = st.sampled_from(["slight", "moderate", "marked", "extreme"])
_sides = st.sampled_from(["left", "right", "both"])
_statuses = st.sampled_from(["present", "absent", "unsure"])
_given = {"at": moments, "by": texts, "note": texts}
_found = {"degree": _degrees, "side": _sides, "status": _statuses}
_tooth_lists = {
    name: st.lists(st.sampled_from(sorted(TEETH)), max_size=4)
    for name in ("missing", "unseen", "worn", "broken", "extra", "milk")
}

_takes = tables(
    {"point": words, "value": st.one_of(numbers, st.integers(-1000, 1000), texts)},
    {
        **_given,
        "unit": st.sampled_from(["cm", "in", "kg", "deg"]),
        "side": _sides,
        "struck": texts,
        "hidden": st.booleans(),
    },
)
_grades = st.lists(
    st.one_of(
        table({"point": words, "as_asked": st.just(True)}, _given),
        table({"point": words, "fault": words}, {**_given, **_found}),
        table({"point": words, "step": st.integers(1, 9)}, _given),
    ),
    max_size=3,
)
_choices = tables({"point": words, "choice": st.lists(words, min_size=1, max_size=2)}, {**_given, **_found})
_teeth = table({}, {**_given, **_tooth_lists})
_read = {"detail": texts, "confidence": st.floats(0, 1), "taken_by": texts}
_findings = tables({"fault": words}, {**_found, **_read})
_notes = tables({"text": texts}, {**_given, "region": texts, "point": texts, "findings": _findings})
_skips = st.one_of(
    tables({"point": words}, {**_given, "reason": texts}), tables({"region": words}, {"reason": texts})
)
_summary = table({}, {"text": texts, "outcome": texts})
_answers = {
    "takes": _takes,
    "grades": _grades,
    "choices": _choices,
    "teeth": _teeth,
    "notes": _notes,
    "skips": _skips,
}

_names = ("call_name", "registered_name", "chip", "tattoo", "registration", "sire", "dam", "litter")
_dog = table(
    {},
    {
        **dict.fromkeys((*_names, "variety", "colour"), texts),
        "sex": st.sampled_from(["male", "female"]),
        "born": st.dates(),
        "attributes": st.dictionaries(texts, texts, max_size=2),
    },
)
_examination = table(
    {},
    {
        **dict.fromkeys(("evaluator", "scribe", "place", "country", "purpose", "baseline"), texts),
        "started": moments,
        "finished": moments,
        "kind": st.sampled_from(["full", "recheck", "round"]),
        "switches": st.lists(words, max_size=2),
    },
)

session_tables = table(
    {"ruleset": table({"id": words}, {"edition": texts, "digest": texts})},
    {
        "format": st.just(1),
        "dog": _dog,
        "examination": _examination,
        "cautions": tables({"id": words}, {**_given, "answer": texts}),
        **_answers,
        "decisions": tables({"fault": words, "decision": st.sampled_from(["uphold", "dismiss"])}, _given),
        "summary": _summary,
        "signature": table(
            {"name": texts, "at": moments},
            {"digest": texts, "evaluation": st.dictionaries(texts, toml_values, max_size=2)},
        ),
        "amendments": tables(
            {}, {**_given, **_answers, "reason": texts, "point": texts, "summary": _summary}
        ),
    },
)
"""A session as the tables of its file."""

sessions = session_tables.map(Session.model_validate)
"""A session."""
