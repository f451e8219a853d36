"""Angles and slopes: worked triangles and landmarks, `uncertainties`, Monte Carlo of numpy."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat, umath

from hands_on.measure.geometry import (
    GeometryProblem,
    Landmark,
    angle_at,
    angle_from_lengths,
    distance,
    impossible_share,
    law_of_cosines,
    slope,
    slope_from_height_and_length,
)


@pytest.mark.kind("angle")
def test_angle_from_three_lengths(case: dict[str, Any], agree: Any) -> None:
    i = case["inputs"]
    angle = law_of_cosines(i["a"], i["b"], i["c"], i["u_a"], i["u_b"], i["u_c"])
    agree(
        case,
        {"angle_deg": angle.value, "u_deg": angle.u, "mc_share_impossible": angle.impossible},
        leave_out=("mc_low", "mc_high"),
    )
    if angle.impossible < 0.01:  # where first order is used, its 95 % range is near the simulated one
        assert angle.value - 1.96 * angle.u == pytest.approx(case["expected"]["mc_low"], abs=0.2)
        assert angle.value + 1.96 * angle.u == pytest.approx(case["expected"]["mc_high"], abs=0.2)


@pytest.mark.parametrize(
    ("lengths", "us", "angle", "u"),
    [
        # shoulder of an invented dog; computed with `uncertainties` 3.2.3, checked by 400 000 draws
        ((17.2, 16.6, 25.6), (0.4, 0.4, 0.4), 98.5, 3.0),
        ((17.2, 16.6, 25.6), (0.5, 0.5, 0.5), 98.5, 3.8),
        ((17.2, 16.6, 25.6), (0.7, 0.7, 0.7), 98.5, 5.3),
        ((17.2, 16.6, 28.5), (0.7, 0.7, 0.7), 115.0, 6.9),
        # stifle from upper thigh, lower thigh and the distance from hip to hock
        ((19.0, 19.5, 34.5), (0.8, 0.7, 0.7), 127.3, 7.9),
        ((19.0, 19.5, 36.5), (0.8, 0.7, 0.7), 142.9, 11.5),
    ],
)
def test_worked_joints(
    lengths: tuple[float, float, float], us: tuple[float, float, float], angle: float, u: float
) -> None:
    found = law_of_cosines(*lengths, *us)
    assert found.value == pytest.approx(angle, abs=0.06)  # the printed lengths are rounded
    assert found.u == pytest.approx(u, abs=0.051)


def test_sensitivities_of_the_worked_shoulder() -> None:
    """-3.98, -3.88 and +5.19 degrees a centimetre: the third side matters most."""
    found = law_of_cosines(17.2, 16.6, 25.6, names=("blade", "arm", "across"))
    assert found.sensitivity["blade"] == pytest.approx(-3.98, abs=0.006)
    assert found.sensitivity["arm"] == pytest.approx(-3.88, abs=0.006)
    assert found.sensitivity["across"] == pytest.approx(5.19, abs=0.006)


@pytest.mark.parametrize(("across", "share"), [(34.5, 0.0009), (36.5, 0.058)])
def test_share_of_triangles_that_cannot_be(across: float, share: float) -> None:
    """0.09 % and 5.8 % of 400 000 simulated stifles form no triangle."""
    assert impossible_share(19.0, 19.5, across, 0.8, 0.7, 0.7) == pytest.approx(share, abs=0.0006)
    rng = np.random.default_rng(5)
    a, b, c = (rng.normal(x, u, 400_000) for x, u in ((19.0, 0.8), (19.5, 0.7), (across, 0.7)))
    assert impossible_share(19.0, 19.5, across, 0.8, 0.7, 0.7) == pytest.approx(np.mean(c > a + b), abs=0.002)


def test_a_nearly_straight_joint_is_refused() -> None:
    with pytest.raises(GeometryProblem) as caught:
        angle_from_lengths(19.0, 19.5, 36.5, 0.8, 0.7, 0.7)
    assert caught.value.kind == "ill-conditioned"
    with pytest.raises(GeometryProblem) as caught:
        angle_from_lengths(8.0, 8.0, 14.5, 1.5, 1.5, 1.5)  # 130 degrees, but hopeless lengths
    assert caught.value.kind == "ill-conditioned"
    assert angle_from_lengths(19.0, 19.5, 34.5, 0.8, 0.7, 0.7).value == pytest.approx(127.3, abs=0.05)


@pytest.mark.parametrize(
    ("lengths", "named"), [((17, 16, 34), "across"), ((40, 16, 20), "blade"), ((10, 36, 20), "arm")]
)
def test_an_impossible_triangle_names_the_side_that_is_too_long(
    lengths: tuple[float, float, float], named: str
) -> None:
    with pytest.raises(GeometryProblem) as caught:
        law_of_cosines(*lengths, names=("blade", "arm", "across"))
    assert caught.value.kind == "impossible"
    assert f"triangle: {named}" in caught.value.message


@pytest.mark.parametrize("lengths", [(0, 1, 1), (-1, 1, 1), (math.nan, 1, 1), (1, math.inf, 1)])
def test_lengths_that_are_none_are_refused(lengths: tuple[float, float, float]) -> None:
    with pytest.raises(GeometryProblem):
        law_of_cosines(*lengths)


@given(st.floats(4, 30), st.floats(4, 30), st.floats(0.15, 2.8), st.floats(0.01, 0.5))
def test_any_triangle_agrees_with_the_uncertainties_package(
    a: float, b: float, angle: float, u: float
) -> None:
    c = math.sqrt(a * a + b * b - 2 * a * b * math.cos(angle))
    x, y, z = ufloat(a, u), ufloat(b, u), ufloat(c, u)
    wanted = umath.acos((x * x + y * y - z * z) / (2 * x * y))
    found = law_of_cosines(a, b, c, u, u, u)
    assert found.value == pytest.approx(math.degrees(wanted.n), rel=1e-6)
    assert found.u == pytest.approx(math.degrees(wanted.s), rel=1e-5, abs=1e-9)


def shoulder(u_z: float, u_x: float, scale: float = 1.0) -> tuple[Landmark, Landmark, Landmark]:
    """Top of the blade, point of shoulder and elbow of the worked dog."""
    places = {"T": (0.0, 58.0), "P": (10.0, 44.0), "E": (-2.0, 32.5)}
    top, point, elbow = (Landmark(n, x * scale, z * scale, u_x, u_z) for n, (x, z) in places.items())
    return top, point, elbow


@pytest.mark.parametrize(
    ("u_z", "u_x", "scale", "lay", "arm", "joint", "blade"),
    [
        (0.3, 0.4, 1.0, (54.5, 1.7), (43.8, 1.7), (98.2, 2.7), (17.2, 0.5)),
        (0.5, 0.7, 1.0, (54.5, 3.0), (43.8, 2.9), (98.2, 4.7), (17.2, 0.8)),
        (0.5, 1.0, 1.0, (54.5, 4.1), (43.8, 3.8), (98.2, 6.5), (17.2, 1.0)),
        (0.4, 0.5, 0.45, (54.5, 4.9), (43.9, 4.9), (98.4, 7.5), (7.7, 0.6)),  # a small dog
    ],
)
def test_slopes_from_landmarks(
    u_z: float,
    u_x: float,
    scale: float,
    lay: tuple[float, float],
    arm: tuple[float, float],
    joint: tuple[float, float],
    blade: tuple[float, float],
) -> None:
    """Computed with `uncertainties` 3.2.3, checked by 400 000 draws; one or two decimals were printed.

    The small dog's values were printed from rounded coordinates, hence its wider tolerance.
    """
    top, point, elbow = shoulder(u_z, u_x, scale)
    near = 0.06 if scale == 1.0 else 0.25
    for found, (value, u) in (
        (slope(top, point), lay),
        (angle_at(point, top, elbow), joint),
        (distance(top, point), blade),
    ):
        assert found.value == pytest.approx(value, abs=near)
        assert found.u == pytest.approx(u, abs=0.06)
    rising = slope(elbow, point)  # rises forwards
    assert (-rising.value, rising.u) == (pytest.approx(arm[0], abs=near), pytest.approx(arm[1], abs=0.06))


def test_the_shared_point_of_shoulder_correlates_the_slopes() -> None:
    """+0.22 between the two slopes, 4.7 degrees and not 4.2 for the joint."""
    top, point, elbow = shoulder(0.5, 0.7)
    lay, arm = slope(top, point), slope(elbow, point)
    shared = sum(
        lay.sensitivity[f"P.{axis}"] * -arm.sensitivity[f"P.{axis}"] * u**2
        for axis, u in (("x", 0.7), ("z", 0.5))
    )
    assert shared / (lay.u * arm.u) == pytest.approx(0.22, abs=0.006)
    joint = angle_at(point, top, elbow)
    assert joint.value == pytest.approx(lay.value - arm.value)
    assert joint.u == pytest.approx(math.sqrt(lay.u**2 + arm.u**2 + 2 * shared))
    assert math.hypot(lay.u, arm.u) == pytest.approx(4.2, abs=0.06)


def test_landmarks_and_lengths_tell_of_the_same_dog() -> None:
    top, point, elbow = shoulder(0, 0)
    sides = [distance(*pair).value for pair in ((top, point), (point, elbow), (top, elbow))]
    assert sides == pytest.approx([17.2, 16.6, 25.6], abs=0.05)
    assert law_of_cosines(*sides).value == pytest.approx(angle_at(point, top, elbow).value)


COORDINATE = st.floats(-60, 60)


@given(st.lists(COORDINATE, min_size=6, max_size=6), st.floats(0.01, 1))
def test_any_landmarks_agree_with_the_uncertainties_package(places: list[float], u: float) -> None:
    (tx, tz), (px, pz), (ex, ez) = zip(places[::2], places[1::2], strict=True)
    cross = (tx - px) * (ez - pz) - (tz - pz) * (ex - px)
    if abs(cross) < 1.0 or math.hypot(tx - px, tz - pz) < 0.5:
        return
    points = [Landmark(n, x, z, u, u) for n, x, z in (("T", tx, tz), ("P", px, pz), ("E", ex, ez))]
    (ux, uz), (vx, vz), (wx, wz) = ((ufloat(p.x, u), ufloat(p.z, u)) for p in points)
    one, other = umath.atan2(uz - vz, ux - vx), umath.atan2(wz - vz, wx - vx)
    turn = one - other if one.n >= other.n else other - one
    joint = angle_at(points[1], points[0], points[2])
    assert joint.value == pytest.approx(math.degrees(min(turn.n, 2 * math.pi - turn.n)), abs=1e-6)
    assert joint.u == pytest.approx(math.degrees(turn.s), rel=1e-5)
    fall = slope(points[0], points[1])
    wanted = umath.atan2(uz - vz, vx - ux)
    assert fall.value == pytest.approx(math.degrees(wanted.n), abs=1e-9)
    assert fall.u == pytest.approx(math.degrees(wanted.s), rel=1e-9)


def test_slope_from_height_and_length_is_a_check_only() -> None:
    """54.5 degrees at 14.0 over 17.2 cm; at 15.5 cm 4.3 % of draws are impossible, so it is refused."""
    found = slope_from_height_and_length(14.0, 17.2, 0.7, 0.7)
    wanted = umath.asin(ufloat(14.0, 0.7) / ufloat(17.2, 0.7))
    assert found.value == pytest.approx(54.5, abs=0.05)
    assert found.u == pytest.approx(math.degrees(wanted.s), rel=1e-6)
    with pytest.raises(GeometryProblem) as caught:
        slope_from_height_and_length(15.5, 17.2, 0.7, 0.7)
    assert caught.value.kind == "ill-conditioned"
    with pytest.raises(GeometryProblem):
        slope_from_height_and_length(18, 17.2, 0.7, 0.7)


def test_points_that_coincide_or_lie_on_a_line_are_refused() -> None:
    a, b, c = Landmark("a", 0, 0), Landmark("b", 0, 0), Landmark("c", 2, 2)
    for refused in (lambda: slope(a, b), lambda: distance(a, b), lambda: angle_at(a, b, c)):
        with pytest.raises(GeometryProblem):
            refused()
    with pytest.raises(GeometryProblem):
        angle_at(Landmark("m", 1, 1), a, c)


@pytest.mark.parametrize(("angle", "refused"), [(134.0, False), (136.0, True)])
def test_above_135_degrees_even_exact_lengths_give_no_angle(angle: float, refused: bool) -> None:
    across = math.sqrt(2 * 18.0**2 * (1 - math.cos(math.radians(angle))))
    if refused:
        with pytest.raises(GeometryProblem, match="too straight"):
            angle_from_lengths(18, 18, across, 0.05, 0.05, 0.05)
    else:
        assert angle_from_lengths(18, 18, across, 0.05, 0.05, 0.05).value == pytest.approx(angle)
