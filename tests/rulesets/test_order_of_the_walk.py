"""The order of an examination, for every edition: safe for the dog and the hand, and natural.

Common practice throughout: the dog is met before it is touched, what a touch changes is looked at before,
an instrument is picked up once, and what can be said only at the end is asked at the end.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from hands_on.exam.session import Session
from hands_on.exam.walk import progress, stops
from hands_on.ruleset.points import MeasurePoint
from hands_on.store.library import Library

RULESETS = Path(__file__).parents[2] / "rulesets"
LIBRARY = Library([RULESETS])
EDITIONS = sorted(path.stem for path in RULESETS.glob("*.toml"))

ONLY_SEEN = {
    "temperament.approach", "general.type", "general.sex-type", "general.proportion", "ears.form",
}  # fmt: skip
"""What is answered before anything touches the dog."""

TOUCHES_THE_TAIL = {
    "croup-tail.croup", "croup-tail.croup-size", "croup-tail.set", "croup-tail.tail-state",
    "croup-tail.tail-reach", "croup-tail.tail-thickness", "croup-tail.tail-form", "tail-docked-part",
    "tail-length", "tail-end-to-hock", "croup-length", "croup-slope",
}  # fmt: skip

BEHIND = {"hindquarters.width", "hindquarters.stifles", "hindquarters.hocks", "croup-tail.carriage"}
"""What is seen from behind, on a dog that stands at ease."""

IN_THE_REGION = {"ruler", "feeler", "eyes", "estimate"}
"""What lies in a pocket, and no instrument."""


def walk(name):
    ruleset = LIBRARY.load(name)
    session = Session.model_validate({"ruleset": {"id": name}, "dog": {"sex": "male"}})
    return stops(ruleset, session)


def places(name):
    return {stop.point.id: stop.index for stop in walk(name)}


def tool(point):
    """The kind of instrument, the blunt calliper for heads apart."""
    words = point.instrument.split()
    if "blunt" in words or point.id == "muzzle-length":
        return "head calliper"
    kinds = ("scales", "stand", "large", "calliper", "tape", "inclinometer", "goniometer")
    clean = [word.strip(",") for word in words]
    return next((kind for kind in kinds if kind in clean), None)


@pytest.mark.parametrize("name", EDITIONS)
def test_the_dog_is_met_before_a_hand_or_a_stick_touches_it(name):
    order = [stop.point.id for stop in walk(name)]
    assert order[0] == "temperament.approach"
    touching = [point for point in order if point not in ONLY_SEEN]
    assert all(order.index(point) > order.index("temperament.approach") for point in touching)
    first_measured = next(n for n, stop in enumerate(walk(name)) if isinstance(stop.point, MeasurePoint))
    assert all(order.index(point) < first_measured for point in ONLY_SEEN if point in order)


@pytest.mark.parametrize("name", EDITIONS)
def test_the_tail_is_looked_at_before_it_is_touched_and_the_rear_before_the_testicles_are(name):
    at = places(name)
    if "croup-tail.carriage" in at:
        assert all(at["croup-tail.carriage"] < at[point] for point in TOUCHES_THE_TAIL if point in at)
    if "reproductive.testicles" in at:
        assert all(at[point] < at["reproductive.testicles"] for point in BEHIND if point in at)


@pytest.mark.parametrize("name", EDITIONS)
def test_the_ears_are_looked_at_before_the_head_is_held(name):
    at = places(name)
    held = [at[point] for point in at if point.startswith(("head.", "mouth."))]
    assert all(at[point] < min(held) for point in ("ears.form", "ears.set") if point in at)


@pytest.mark.parametrize("name", EDITIONS)
def test_each_instrument_is_picked_up_once(name):
    tools = [tool(stop.point) if isinstance(stop.point, MeasurePoint) else None for stop in walk(name)]
    measured = [stop.point for stop in walk(name) if isinstance(stop.point, MeasurePoint)]
    assert all(tool(p) or any(word in p.instrument for word in IN_THE_REGION) for p in measured)
    picked_up = [tool for n, tool in enumerate(tools) if tool and (n == 0 or tools[n - 1] != tool)]
    assert len(picked_up) == len(set(picked_up)), picked_up


def test_all_heights_by_the_measuring_stand_stand_together():
    """Whatever an edition asks for: of all measures that are defined."""
    order = list(LIBRARY.common().way)
    stand = [p.id for p in LIBRARY.common().points.values() if p.kind == "measure" and tool(p) == "stand"]
    assert len(stand) >= 12
    first = min(order.index(point) for point in stand)
    assert set(order[first : first + len(stand)]) == set(stand)


@pytest.mark.parametrize("name", EDITIONS)
def test_balance_is_said_when_shoulder_and_stifle_were_felt_and_steadiness_at_the_end(name):
    order = [stop.point.id for stop in walk(name)]
    felt = [point for point in order if point.startswith(("forequarters.", "hindquarters.")) and "." in point]
    assert order.index("general.balance") > max(order.index(point) for point in felt)
    assert order[-1] == "temperament.steadiness"


@pytest.mark.parametrize("name", EDITIONS)
def test_regions_are_listed_in_their_order_and_jumped_to_where_most_of_them_is(name):
    ruleset = LIBRARY.load(name)
    session = Session.model_validate({"ruleset": {"id": name}, "dog": {"sex": "male"}})
    rows = progress(walk(name), session)
    regions = [region.id for region in ruleset.regions]
    assert [row.region.id for row in rows] == [r for r in regions if r in {row.region.id for row in rows}]
    assert [row.number for row in rows] == list(range(1, len(rows) + 1))
    for row in rows:
        assert walk(name)[row.first].region.id == row.region.id
    by_region = {row.region.id: walk(name)[row.first].point.id for row in rows}
    assert by_region["hindquarters"].startswith("hindquarters.")


@pytest.mark.parametrize("name", EDITIONS)
def test_nothing_asked_for_is_lost_or_asked_twice(name):
    ruleset = LIBRARY.load(name)
    order = [point.id for point in ruleset.walk_points]
    assert len(order) == len(set(order))
    assert set(ruleset.edition.walk.measures) <= set(order)
