"""Dataclasses whose methods are made late behave as those of the standard library."""

from __future__ import annotations

import dataclasses
import pickle
from dataclasses import field
from functools import cached_property

import pytest

from hands_on.frozen import dataclass


@dataclass(frozen=True)
class Late:
    """Made late."""

    a: int
    b: str = "x"
    c: list[int] = field(default_factory=list, hash=False)
    d: float = field(default=0.5, compare=False, repr=False)
    e: int = field(kw_only=True, default=3)

    @cached_property
    def twice(self) -> int:
        return 2 * self.a


@dataclass(frozen=True)
class Further(Late):
    """With a field more."""

    f: str = "f"

    def __post_init__(self) -> None:
        if self.f == "no":
            raise ValueError


@dataclasses.dataclass(frozen=True)
class Usual:
    """The same as the standard library makes it."""

    a: int
    b: str = "x"
    c: list[int] = field(default_factory=list, hash=False)
    d: float = field(default=0.5, compare=False, repr=False)
    e: int = field(kw_only=True, default=3)


GIVEN = [((1,), {}), ((1, "y"), {"e": 4}), ((1, "y", [2], 9.0), {}), ((), {"a": 2, "c": [1]})]


@pytest.mark.parametrize(("given", "named"), GIVEN)
def test_they_are_made_and_shown_alike(given, named):
    late, usual = Late(*given, **named), Usual(*given, **named)
    assert dataclasses.asdict(late) == dataclasses.asdict(usual)
    assert repr(late) == repr(usual).replace("Usual", "Late")
    assert hash(late) == hash(usual)
    assert late == Late(*given, **named)
    assert dataclasses.asdict(dataclasses.replace(late, a=7)) == {**dataclasses.asdict(usual), "a": 7}
    assert pickle.loads(pickle.dumps(late)) == late


@pytest.mark.parametrize(
    ("given", "named"), [((), {}), ((1, 2, 3, 4, 5), {}), ((1,), {"a": 2}), ((1,), {"z": 2})]
)
def test_both_refuse_what_does_not_fit(given, named):
    for one in (Late, Usual):
        with pytest.raises(TypeError):
            one(*given, **named)


def test_equal_is_what_the_fields_that_count_say_and_of_one_class():
    assert Late(1, d=1.0) == Late(1, d=2.0)
    assert Late(1) != Late(2)
    assert Late(1) != Further(1)
    assert Late(1) != Usual(1)
    assert Late(1).c is not Late(1).c


def test_nothing_changes_once_made():
    one = Late(1)
    assert one.twice == 2
    with pytest.raises(dataclasses.FrozenInstanceError):
        one.a = 2
    with pytest.raises(dataclasses.FrozenInstanceError):
        del one.a
    assert one.a == 1


def test_a_class_that_builds_on_it_has_its_fields_and_its_own_check():
    assert [one.name for one in dataclasses.fields(Further)] == ["a", "b", "c", "d", "e", "f"]
    assert Further(1, f="g").f == "g"
    with pytest.raises(ValueError):
        Further(1, f="no")
    assert Further.__match_args__ == ("a", "b", "c", "d", "f")
