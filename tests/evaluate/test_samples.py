"""The dogs of a preview stand where they say: in each stretch of a limit, at each end, and surely beyond."""

from functools import cache
from pathlib import Path

import pytest

from hands_on.evaluate.samples import samples
from hands_on.store.library import Library
from hands_on.wording.preview import sample_text

_ROOT = Path(__file__).parents[2]
_library = Library([_ROOT / "rulesets"])
_TWO = ("boxer-fci-144", "poodle-fci-172")


@cache
def shown(edition):
    return list(samples(_library.load(edition)))


@pytest.mark.parametrize("edition", _TWO)
def test_every_end_of_every_limit_has_a_dog_at_it_and_one_on_either_side(edition):
    for limit in _library.load(edition).edition.limits:
        held = [one for one in (limit.asked, *limit.bands) if one is not None]
        ends = {end for one in held for end in (one.low, one.high) if abs(end) != float("inf") and end > 0}
        here = [one for one in shown(edition) if one.limit.id == limit.id]
        if not here:
            assert limit.measure is None, limit.id  # a value made of several has no dog of its own
            continue
        assert {one.value for one in here if one.where == "at"} == ends, limit.id
        for end in ends:
            assert any(one.value < end for one in here), limit.id
            assert any(one.value > end for one in here), limit.id


@pytest.mark.parametrize("edition", _TWO)
def test_a_dog_beyond_the_limits_is_outside_without_doubt_and_one_between_them_never(edition):
    for one in shown(edition):
        if one.where == "outside" and one.limit.id != "shoulder-angle":
            assert one.verdict == "outside", (one.limit.id, one.value)
        if one.where in ("inside", "tolerated"):
            assert one.verdict in ("inside", "undecided"), (one.limit.id, one.value)


def test_the_sizes_of_the_poodle_are_told_with_the_end_that_each_figure_belongs_to():
    # FCI 172, English text of 05.04.2024: toy over 24 to 28 cm, tolerated from 23, under 23 disqualifying
    poodle = _library.load("poodle-fci-172")
    told = [sample_text(poodle, one) for one in shown("poodle-fci-172") if one.limit.id == "size"]
    assert told[0].startswith("outside: ")
    assert told[0].endswith("gives outside, under 23 cm, Disqualifying fault")
    assert told[1] == "at: 23 cm gives undecided, Toy; the figure itself is still free"
    assert told[3] == "at: 28 cm gives inside, Toy; the figure itself is still free"
    assert told[-1].endswith("gives outside, over 62 cm, Disqualifying fault")


def test_a_closed_end_is_free_and_an_open_one_outside():
    # FCI 144, English text of 09.07.2008: dogs 57 to 63 cm, and over 30 kg
    boxer = _library.load("boxer-fci-144")
    at = {(one.limit.id, one.value): one.belongs for one in shown("boxer-fci-144") if one.where == "at"}
    assert at[("height-male", 57)]
    assert at[("height-male", 63)]
    assert not at[("weight-male", 30)]
    assert sample_text(
        boxer,
        next(one for one in shown("boxer-fci-144") if one.limit.id == "weight-male" and one.where == "at"),
    ) == ("at: 30 kg gives undecided (Fault if outside); the figure itself is outside already")
