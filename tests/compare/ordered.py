"""Dogs for tests of their order, under the small edition of build.py. The dogs are invented."""

from __future__ import annotations

from tests.compare.build import asked, chosen, held
from tests.evaluate.build import grade

HOCKS = "hindquarters.hocks"
CARRIAGE = "croup-tail.carriage"


OTHERS = chosen("mouth.bite", "scissors") + asked("body-condition") + "[teeth]\nchecked = true\n"
"""Points at which nothing varies, so that enough is answered for all."""


def cow_hocks(degree, **more):
    """Cow hocks of this degree."""
    return grade("hindquarters.cow-hocks", degree, point=HOCKS, **more)


def curled_tail(degree, **more):
    """A curled tail of this degree."""
    return grade("croup-tail.curled", degree, point=CARRIAGE, **more)


def dog_with(name, answers, **more):
    """A dog with both graded points answered, as asked where nothing else is said."""
    return held(answers + OTHERS, name=name, **more)


def ada_with(answers="", **more):
    """Ada, with these answers."""
    return dog_with("Ada", answers, **more)


def bea_with(answers="", **more):
    """Bea, with these answers."""
    return dog_with("Bea", answers, **more)


def places_in(found):
    """The place of each dog, by name."""
    return {one.dog: one.place for one in found.dogs}
