"""Outline points: where measured places lie, and that what is assumed is said to be."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hands_on.measure.geometry import Landmark, angle_at
from hands_on.measure.outline import STROKES, outline

FULL = {
    "height": (58.0, 0.5),
    "body-length": (66.0, 1.0),
    "elbow-height": (32.5, 0.6),
    "chest-depth": (27.0, 0.6),
    "blade-length": (17.2, 0.7),
    "blade-slope": (54.5, 5.0),
    "upper-arm-length": (16.6, 0.7),
    "shoulder-angle": (98.2, 6.0),
    "hock-height": (15.5, 0.3),
}


def test_measured_places_lie_where_they_were_measured() -> None:
    dog = outline(FULL)
    assert dog["withers"].z == 58
    assert dog["point-of-shoulder"].x == 66
    assert dog["elbow"].z == 32.5
    assert dog["brisket"].z == 31
    assert dog["hock"].z == 15.5
    assert dog["buttock"].x == 0
    assert dog["ground-fore"].z == dog["ground-hind"].z == 0
    for name in ("withers", "point-of-shoulder", "elbow"):
        assert dog[name].measured, dog[name].reason


def test_the_drawn_shoulder_has_the_measured_angle_and_lengths() -> None:
    dog = outline(FULL)
    top, point, elbow = (
        Landmark(name, dog[name].x, dog[name].z) for name in ("withers", "point-of-shoulder", "elbow")
    )
    assert math.dist((top.x, top.z), (point.x, point.z)) == pytest.approx(17.2)
    # the elbow's height was measured too: the angle is drawn as nearly as the two agree
    assert angle_at(point, top, elbow).value == pytest.approx(98.2, abs=0.5)


def test_what_was_not_measured_is_marked_with_the_reason() -> None:
    dog = outline({"height": (60.0, 0.5)})
    assert dog["withers"].z_measured
    assert not dog["withers"].x_measured
    assert "assumed: body-length" in dog["withers"].reason
    assert not dog["elbow"].z_measured
    assert "elbow-height" in dog["elbow"].reason
    assert not any(point.measured for point in dog.points)


def test_a_measurement_moves_only_what_rests_on_it() -> None:
    base, changed = outline(FULL), outline(FULL | {"hock-height": (13.0, 0.3)})
    moved = {a.name for a, b in zip(base.points, changed.points, strict=True) if (a.x, a.z) != (b.x, b.z)}
    assert moved == {"hock"}


def test_the_scale_comes_from_the_body_length_where_the_height_is_missing() -> None:
    dog = outline({"body-length": (64.8, 1.0)})
    assert dog["withers"].z == pytest.approx(60.0)
    assert not dog["withers"].z_measured


@pytest.mark.parametrize("measures", [{}, {"chest-girth": (70.0, 1.0)}, {"height": (0.0, 0.1)}])
def test_without_a_scale_there_is_no_outline(measures: dict[str, tuple[float, float]]) -> None:
    assert outline(measures).points == ()


def test_an_upper_arm_too_short_to_reach_is_marked() -> None:
    dog = outline({"height": (60.0, 0.5), "elbow-height": (20.0, 0.5), "upper-arm-length": (10.0, 0.5)})
    assert "place below the point of shoulder" in dog["elbow"].reason
    assert dog["elbow"].x == dog["point-of-shoulder"].x


SIZES = st.floats(0.1, 120).map(lambda size: (size, 0.5))


@given(
    st.dictionaries(
        st.sampled_from(
            [
                *FULL,
                "tail-length",
                "loin-length",
                "croup-slope",
                "pastern-slope",
                "head-length",
                "skull-length",
                "muzzle-length",
                "neck-length",
            ]
        ),
        SIZES,
    )
)
def test_any_measures_give_a_drawable_outline(measures: dict[str, tuple[float, float]]) -> None:
    dog = outline(measures)
    if not {"height", "body-length"} & set(measures):
        assert dog.points == ()
        return
    assert {point.name for point in dog.points} == {name for stroke in STROKES for name in stroke}
    for point in dog.points:
        assert math.isfinite(point.x)
        assert math.isfinite(point.z)
        assert point.z >= 0
        assert point.reason


def test_an_unknown_point_is_a_key_error() -> None:
    with pytest.raises(KeyError):
        outline(FULL)["saddle"]
