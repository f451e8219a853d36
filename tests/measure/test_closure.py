"""Closure: limits derived from the default uncertainties, for a dog of 60 and one of 30 cm."""

from __future__ import annotations

import math

import pytest
from scipy import integrate, special

from hands_on.measure.closure import (
    Misfit,
    check_agreement,
    check_fence,
    check_girth,
    check_head,
    check_left_right,
    check_order,
    check_sum,
    ellipse_perimeter,
)
from hands_on.measure.derived import Ref, Sum

# proposed defaults a, b of one careful take (mostly judgement), and two that have no id of their own
DEFAULTS = {
    "height": (0.40, 0.006),
    "elbow-height": (0.50, 0.008),
    "withers-elbow": (0.50, 0.02),
    "chest-depth": (0.50, 0.012),
    "brisket-ground": (0.50, 0.008),
    "rib-length": (0.80, 0.020),
    "loin-length": (0.80, 0.020),
    "back": (0.80, 0.015),
    "head-length": (0.30, 0.010),
    "muzzle-length": (0.25, 0.020),
    "skull-length": (0.30, 0.020),
    "chest-width": (0.40, 0.015),
    "chest-girth": (0.60, 0.012),
}
LARGE = {
    "height": 60.0,
    "elbow-height": 32.0,
    "withers-elbow": 28.0,
    "chest-depth": 27.0,
    "brisket-ground": 33.0,
    "rib-length": 30.0,
    "loin-length": 14.0,
    "back": 44.0,
    "head-length": 24.8,
    "muzzle-length": 11.0,
    "skull-length": 14.0,
    "chest-width": 19.0,
    "chest-girth": 71.5,
}


def values(**changed: float) -> dict[str, tuple[float, float]]:
    sizes = LARGE | {name.replace("_", "-"): value for name, value in changed.items()}
    return {
        name: (size, math.hypot(DEFAULTS[name][0], DEFAULTS[name][1] * size)) for name, size in sizes.items()
    }


def halved() -> dict[str, tuple[float, float]]:
    return {
        name: (size / 2, math.hypot(DEFAULTS[name][0], DEFAULTS[name][1] * size / 2))
        for name, size in LARGE.items()
    }


def some(misfit: Misfit | None) -> Misfit:
    assert misfit is not None
    return misfit


@pytest.mark.parametrize(
    ("parts", "whole", "large", "small"),
    [
        (("elbow-height", "withers-elbow"), "height", (1.1, 2.2, 3.2), (0.9, 1.8, 2.7)),
        (("chest-depth", "brisket-ground"), "height", (1.0, 2.0, 2.9), (0.9, 1.7, 2.6)),
        (("rib-length", "loin-length"), "back", (1.7, 3.3, 5.0), (1.5, 2.9, 4.4)),
    ],
)
def test_limits_of_what_must_add_up(
    parts: tuple[str, ...], whole: str, large: tuple[float, ...], small: tuple[float, ...]
) -> None:
    """u_w, warning and alarm as printed to one decimal (derived from the defaults)."""
    for given, printed in ((values(), large), (halved(), small)):
        misfit = some(check_sum(parts, whole, given))
        assert misfit.level == "ok"
        assert (misfit.u_w, 2 * misfit.u_w, 3 * misfit.u_w) == pytest.approx(printed, abs=0.11)


def test_an_elbow_entered_ten_centimetres_off_raises_the_alarm() -> None:
    for elbow in (42.0, 22.0):
        misfit = some(check_sum(("elbow-height", "withers-elbow"), "height", values(elbow_height=elbow)))
        assert misfit.level == "alarm"
        assert abs(misfit.w) == pytest.approx(10.0, abs=0.2)
        assert misfit.ids == ("elbow-height", "withers-elbow", "height")
    assert (
        some(check_sum(("elbow-height", "withers-elbow"), "height", values(elbow_height=32.8))).level == "ok"
    )


def test_two_and_three_u_are_the_steps() -> None:
    given = {"a": (10.0, 3.0), "b": (10.0, 4.0)}
    for w, level in ((9.9, "ok"), (10.1, "warn"), (14.9, "warn"), (15.1, "alarm")):
        for sign in (1, -1):
            assert some(check_sum(("a",), "b", given | {"a": (10 + sign * w, 3.0)})).level == level


def test_a_check_without_its_measurements_says_nothing() -> None:
    assert check_sum(("elbow-height", "withers-elbow"), "height", {"height": (60, 0.5)}) is None
    assert check_order("elbow-height", "height", {"height": (60, 0.5)}) is None
    assert check_head({"head-length": (25, 0.4)}) is None
    assert check_girth({"chest-girth": (70, 1)}) is None
    assert check_agreement("a", "b", {"a": (1, 1)}) is None


def test_counts_must_add_up_exactly() -> None:
    teeth = {"upper": (20.0, 0.0), "lower": (22.0, 0.0), "teeth-count": (42.0, 0.0)}
    assert some(check_sum(("upper", "lower"), "teeth-count", teeth, unit="teeth")).level == "ok"
    teeth["lower"] = (21.0, 0.0)
    assert some(check_sum(("upper", "lower"), "teeth-count", teeth, unit="teeth")).level == "alarm"


def test_the_same_measurement_on_both_sides_cancels() -> None:
    misfit = some(
        check_sum(("a", "b"), Sum((Ref("a"), Ref("c"))), {"a": (10, 5), "b": (4, 0.3), "c": (4, 0.4)})
    )
    assert misfit.u_w == pytest.approx(0.5)


@pytest.mark.parametrize(("elbow", "level"), [(32.0, "ok"), (60.5, "warn"), (63.0, "alarm")])
def test_order(elbow: float, level: str) -> None:
    assert some(check_order("elbow-height", "height", values(elbow_height=elbow))).level == level


def test_rib_and_loin_together_are_shorter_than_the_body() -> None:
    given = {"rib-length": (30.0, 1.0), "loin-length": (14.0, 0.85), "body-length": (66.0, 0.96)}
    parts = Sum((Ref("rib-length"), Ref("loin-length")))
    assert some(check_order(parts, "body-length", given)).level == "ok"
    assert some(check_order(parts, "body-length", given | {"body-length": (36.0, 0.96)})).level == "alarm"


@pytest.mark.parametrize(
    ("muzzle", "skull", "head"),
    [(12.03, 11.53, 23.53), (16.58, 10.30, 27.20)],
)
def test_published_heads_close(muzzle: float, skull: float, head: float) -> None:
    """Means of Serbian Yellow Hounds (Drobnjak 2012) and Akbash (Urosevic 2020) close within error."""
    given = {"muzzle-length": (muzzle, 0.33), "skull-length": (skull, 0.41), "head-length": (head, 0.39)}
    assert some(check_head(given)).level == "ok"


def test_the_head_closes_on_one_side_only() -> None:
    """Limits 0.7, 1.3, 2.0 cm for a large head; up to 1.8 cm for a stop that breaks by 45 degrees."""
    flat = some(check_head(values()))
    assert flat.level == "ok"
    assert (flat.u_w, 2 * flat.u_w, 3 * flat.u_w) == pytest.approx((0.7, 1.3, 2.0), abs=0.11)
    assert some(check_head(values(head_length=25 - 1.8))).level == "ok"
    assert some(check_head(values(head_length=25 + 1.6))).level == "warn"
    assert some(check_head(values(head_length=25 + 2.5))).level == "alarm"
    assert some(check_head(values(head_length=25 - 1.8 - 1.6))).level == "warn"
    assert some(check_head(values(head_length=25 - 5.0))).level == "alarm"
    assert some(check_head(values(head_length=28))).w < 0


@pytest.mark.parametrize(("degrees", "excess"), [(10, 0.1), (15, 0.2), (20, 0.4), (30, 0.8), (45, 1.8)])
def test_break_at_the_stop(degrees: float, excess: float) -> None:
    """The excess printed for a large head (muzzle 11, skull 14 cm), by the law of cosines."""
    m, s = 11.0, 14.0
    head = math.sqrt(m * m + s * s + 2 * m * s * math.cos(math.radians(degrees)))
    assert m + s - head == pytest.approx(excess, abs=0.11)
    assert some(check_head(values(head_length=head))).level == "ok"


@pytest.mark.parametrize(
    ("u", "warn", "alarm"),
    [
        (0.71, 1.2, 1.8),
        (0.56, 1.0, 1.4),
        (0.34, 0.6, 0.9),
        (0.47, 0.8, 1.2),
        (5.0, 8, 13),
        (4.0, 7, 10),
        (6.0, 10, 15),
    ],
)
def test_left_against_right(u: float, warn: float, alarm: float) -> None:
    """Printed limits 1.7 u and 2.5 u of single takes, of which the share 0.6 is repeatable."""
    part = 0.6 * u
    unit = 1.0 if u > 3 else 0.1
    below = check_left_right("x", 20, 20 - warn + 0.6 * unit, part, part)
    above = check_left_right("x", 20, 20 - warn - 0.6 * unit, part, part)
    assert (below.level, above.level) == ("ok", "warn")
    assert check_left_right("x", 20 - alarm - 0.6 * unit, 20, part, part).level == "alarm"
    assert check_left_right("x", 40, 20, part, part).level == "alarm"


def test_girth_against_the_ellipse_of_depth_and_width() -> None:
    """Akbash means: 77.86 over 80.05 = 0.973 (Urosevic and others 2020)."""
    akbash = {"chest-girth": (77.86, 1.1), "chest-depth": (29.58, 0.6), "chest-width": (21.02, 0.5)}
    misfit = some(check_girth(akbash))
    assert ellipse_perimeter(29.58, 21.02) == pytest.approx(80.05, abs=0.005)
    assert misfit.w == pytest.approx(0.973, abs=5e-4)
    assert misfit.level == "ok"
    assert some(check_girth(values())).level == "ok"
    assert some(check_girth(akbash | {"chest-girth": (68.5, 1.1)})).level == "warn"
    assert some(check_girth(akbash | {"chest-girth": (97.86, 1.1)})).level == "alarm"


@pytest.mark.parametrize("axes", [(20.0, 20.0), (29.58, 21.02), (30.0, 8.0)])
def test_ellipse_perimeter_agrees_with_the_elliptic_integral(axes: tuple[float, float]) -> None:
    a, b = max(axes) / 2, min(axes) / 2
    assert ellipse_perimeter(*axes) == pytest.approx(4 * a * special.ellipe(1 - (b / a) ** 2), rel=1e-6)
    arc = integrate.quad(lambda t: math.hypot(a * math.sin(t), b * math.cos(t)), 0, 2 * math.pi)[0]
    assert ellipse_perimeter(*axes) == pytest.approx(arc, rel=1e-6)


def test_a_slope_read_from_the_other_side_is_recognised() -> None:
    given = {"direct": (35.5, 5.0), "landmarks": (54.5, 3.0)}
    misfit = some(check_agreement("direct", "landmarks", given, complement=True))
    assert misfit.level == "alarm"
    assert misfit.turned
    plain = some(check_agreement("direct", "landmarks", given))
    assert not plain.turned


@pytest.mark.parametrize(
    ("us", "u_w", "warn", "alarm"),
    [((6.0, 5.3), 8, 16, 24), ((5.0, 3.0), 6, 12, 17)],
)
def test_two_ways_of_taking_an_angle(us: tuple[float, float], u_w: float, warn: float, alarm: float) -> None:
    misfit = some(check_agreement("one", "two", {"one": (98.0, us[0]), "two": (98.5, us[1])}))
    assert misfit.level == "ok"
    assert (misfit.u_w, 2 * misfit.u_w, 3 * misfit.u_w) == pytest.approx((u_w, warn, alarm), abs=0.55)


@pytest.mark.parametrize(("ratio", "level"), [(1.1, "ok"), (1.5, "warn"), (2.3, "alarm"), (0.8, "alarm")])
def test_fences_against_typing_errors(ratio: float, level: str) -> None:
    """Body length over height: 0.88 to 2.1 possible, asked above 1.35 (judgement on breed means)."""
    found = check_fence(("body-length", "height"), ratio, 0.02, warn=(0.88, 1.35), alarm=(0.88, 2.1))
    assert found.level == level
