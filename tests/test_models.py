"""Models taken plainly are the models that pydantic makes of the same tables, and are written alike."""

from __future__ import annotations

import datetime
import pickle
from copy import deepcopy
from dataclasses import FrozenInstanceError
from itertools import product
from pathlib import Path
from typing import Any

import pytest
import tomli
from hypothesis import given, settings
from hypothesis import strategies as st

from hands_on.exam.round import Round
from hands_on.exam.session import Amendment, Decision, Dog, Examination, Record, Session, Take
from hands_on.models import Model
from hands_on.models.written import plainly_written

ROOT = Path(__file__).parents[1]
SESSIONS = sorted((ROOT / "sessions").glob("*.toml"))
BRUMO = tomli.loads((ROOT / "sessions" / "2026-09-19-brumo-m-quill.toml").read_text(encoding="utf-8"))


def by_pydantic(model: Any, tables: Any) -> Any:
    """What pydantic itself makes of the tables; None where it refuses them."""
    try:
        return model.made.pydantic.validate_python(tables)
    except ValueError:
        return None


def held(value: Any) -> Any:
    """A value with all that is in it: kinds, order, which fields were given."""
    if isinstance(value, Model):
        rows = [(name, held(part)) for name, part in value.__dict__.items()]
        return type(value), rows, value.model_fields_set, held(value.model_extra)
    if isinstance(value, dict):
        return dict, [(key, held(part)) for key, part in value.items()]
    if isinstance(value, list | tuple):
        return type(value), [held(part) for part in value]
    return type(value), repr(value)


def agree(model: Any, tables: Any) -> bool:
    """Where the tables are taken plainly pydantic makes the same of them; were they?"""
    plain = model.made.plain(tables)
    assert plain is None or held(plain) == held(by_pydantic(model, tables))
    return plain is not None


@pytest.mark.parametrize("path", SESSIONS, ids=lambda path: path.stem)
def test_a_sound_session_is_taken_plainly(path):
    tables = tomli.loads(path.read_text(encoding="utf-8"))
    assert agree(Session, tables) or "dogs" in tables


ODD = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(),
    st.text(st.characters(codec=None), max_size=5),
    st.sampled_from(["slight", "left", "male", "cm", "present", "all", "2026-09-19", "101"]),
    st.dates(),
    st.datetimes(timezones=st.none() | st.just(datetime.UTC)),
    st.lists(st.integers(0, 450) | st.text(max_size=3), max_size=3),
    st.dictionaries(st.text(max_size=3), st.integers(), max_size=2),
)


def spoilt(tables: dict[str, Any], draw: Any) -> dict[str, Any]:
    """The tables with a value, somewhere in them, put in, taken out or replaced."""
    whole = deepcopy(tables)
    here: Any = whole
    while True:
        keys = list(here) if isinstance(here, dict) else list(range(len(here)))
        key = draw(st.sampled_from(keys)) if keys else "new"
        if isinstance(here, list) and not keys:
            here.append(draw(ODD))
            return whole
        if keys and isinstance(here[key], dict | list) and draw(st.booleans()):
            here = here[key]
            continue
        what = draw(st.sampled_from(["replace", "remove", "add"]))
        if what == "remove" and keys:
            del here[key]
        elif what == "add" and isinstance(here, dict):
            here[draw(st.sampled_from(["class", "class_", "degree", "side", "note", "own", "unit"]))] = draw(
                ODD
            )
        else:
            here[key] = draw(ODD)
        return whole


@settings(max_examples=150)
@given(st.data())
def test_whatever_stands_in_a_session_pydantic_has_the_last_word(data):
    agree(Session, spoilt({**BRUMO, "takes": BRUMO["takes"][:2], "grades": BRUMO["grades"][:2]}, data.draw))


AMENDED: dict[str, Any] = {
    "at": datetime.datetime(2026, 9, 20, tzinfo=datetime.UTC),
    "point": "height",
    "takes": [{"point": "height", "value": "25 3/8 in", "stand": 2}],
    "notes": [{"text": "Größe", "findings": [{"fault": "neck.short", "confidence": 0.5}]}],
    "teeth": {"missing": ["305"]},
}
ROUND: dict[str, Any] = {
    "round": {"id": "spring", "points": ["height"]},
    "ruleset": {"id": "any-dog"},
    "dogs": [{"number": 1, "call_name": "A"}, {"number": "2", "again": 1}],
}
DECIDED = {"fault": "neck.short", "decision": "uphold", "class": "fault", "by": "M. Quill"}


@settings(max_examples=60)
@given(st.data(), st.sampled_from([(Amendment, AMENDED), (Round, ROUND), (Decision, DECIDED)]))
def test_so_it_has_in_an_amendment_a_round_and_a_decision(data, case):
    model, tables = case
    agree(model, tables)
    agree(model, spoilt(tables, data.draw))


def test_a_value_by_its_field_s_name_is_taken_where_that_is_allowed():
    given = {**DECIDED, "class_": DECIDED["class"]}
    del given["class"]
    assert Decision(**given).class_ == "fault" == Decision(**DECIDED).class_


WAYS = [
    dict(zip(("mode", "by_alias", "exclude", "exclude_defaults", "exclude_none"), way, strict=True))
    for way in product(
        ("python", "json"), (True, False), (None, {"takes", "at"}), (True, False), (True, False)
    )
]


@pytest.mark.parametrize("way", WAYS, ids=str)
def test_what_is_written_plainly_is_what_pydantic_writes(way):
    own = {
        "held_at": datetime.datetime(2026, 9, 20, 9, 30, 1, 5),
        "day": datetime.date(2026, 9, 20),
        "no": None,
    }
    for model, tables in ((Session, BRUMO), (Amendment, AMENDED | own), (Decision, DECIDED)):
        one = model(**tables)
        plain = plainly_written(one, **way)
        assert plain is not None
        assert held(plain) == held(model.made.pydantic.dump_python(one, **way))


@pytest.mark.parametrize(
    ("mode", "value"),
    [("json", datetime.time(9, 30)), ("json", float("nan")), ("python", float("inf")), ("json", {1: "one"})],
)
def test_what_has_no_plain_form_is_for_pydantic_to_write(mode, value):
    assert plainly_written(Record.model_construct(own=value), mode=mode) is None


def test_a_copy_keeps_what_was_given_and_takes_new_values():
    dog = Dog(call_name="Brumo", kennel="Beispielhof")
    other = dog.model_copy(update={"sex": "male", "kennel": "elsewhere"})
    assert (other.call_name, other.sex, other.kennel) == ("Brumo", "male", "elsewhere")
    assert other.model_fields_set >= {"call_name", "sex"}
    assert dog == Dog(call_name="Brumo", kennel="Beispielhof") != other


def test_models_are_pickled_hashed_and_never_changed():
    take = Take(point="height", value=64, own=[1])
    again = pickle.loads(pickle.dumps(take))
    assert held(again) == held(take)
    assert hash(again) == hash(take)
    with pytest.raises(FrozenInstanceError):
        take.value = 65.0
    with pytest.raises(FrozenInstanceError):
        del take.value
    with pytest.raises(AttributeError):
        take.nothing  # noqa: B018
    assert repr(Dog(call_name="A", own=1)).startswith("Dog(call_name='A', registered_name=''")


def test_a_default_that_can_be_changed_belongs_to_one_model_alone():
    first, second = Dog(call_name="A"), Dog(call_name="B")
    first.attributes["coat"] = "wire"
    assert second.attributes == {} == Dog.model_construct().attributes
    assert Examination(round="spring").model_extra == {"round": "spring"}
