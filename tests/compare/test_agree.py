"""Agreement of evaluators over sessions: which statistic where, who leans, where the group disagrees."""

from __future__ import annotations

import json

import pytest

from hands_on.compare.agreement.alpha import alpha
from hands_on.compare.agreement.by_point import AgreementRemark, agreement
from hands_on.compare.agreement.icc import icc
from hands_on.compare.agreement.kappa import weighted_kappa
from hands_on.wording.agreement import reason_words, remark_words
from hands_on.wording.documents.agreement import agreement_document
from tests.compare.build import PLAIN, asked, chosen, held
from tests.evaluate.build import grade, take

HOCKS = "hindquarters.hocks"
DEGREES = ("slight", "moderate", "marked", "extreme")


def _hocks(place):
    if place == 0:
        return asked(HOCKS)
    fault = "hindquarters.cow-hocks" if place < 0 else "hindquarters.bowed-hocks"
    return grade(fault, DEGREES[abs(place) - 1], point=HOCKS)


def _sessions(table, answer):
    """A session for each cell of a table of dogs by evaluators; None leaves the point open."""
    return [
        held("" if x is None else answer(x), name=f"Dog {d}", by=f"E{e}")
        for d, row in enumerate(table)
        for e, x in enumerate(row)
    ]


def _point(found, name):
    return next(one for one in found.points if one.id == name)


HEIGHTS = [[62.0, 62.4, 61.8], [64.5, 65.0, 64.9], [60.2, 60.1, 60.9], [67.0, 67.5, 66.0], [63.0, 63.1, 63.3]]
GRADES = [[-1, -2, 0], [0, 0, 0], [1, 2, 1], [-3, -3, -1], [0, 1, 0], [2, 2, 4]]


def test_measurements_by_the_intraclass_correlation():
    found = _point(agreement(_sessions(HEIGHTS, lambda x: take("height", x))), "height")
    assert (found.level, found.estimate) == ("measurement", icc(HEIGHTS))
    # Pairs apart by more than 1.96 sqrt(2) 0.5 = 1.386 cm: 67.5 and 66.0 alone, of 15.
    assert found.apart == pytest.approx(1 / 15)


def test_grades_of_three_by_ordinal_alpha():
    found = _point(agreement(_sessions(GRADES, _hocks)), HOCKS)
    assert (found.level, found.estimate) == ("ordinal", alpha(GRADES, "ordinal"))
    # Two steps or more apart: -2|0, -3|-1 twice, 2|4 twice: 5 of 18 pairs.
    assert found.apart == pytest.approx(5 / 18)


def test_grades_of_two_by_weighted_kappa_over_the_whole_scale():
    two = [row[:2] for row in GRADES]
    found = _point(agreement(_sessions(two, _hocks)), HOCKS)
    assert found.estimate == weighted_kappa(two, range(-4, 5))
    assert found.beside.statistic == "AC2"


def test_choices_by_nominal_alpha():
    names = [
        ["scissors", "level", "scissors"],
        ["level", "level", "level"],
        ["scissors"] * 3,
        ["overshot", "level", "level"],
    ]
    found = _point(agreement(_sessions(names, lambda x: chosen("mouth.bite", x))), "mouth.bite")
    codes = [[sorted({"scissors", "level", "overshot"}).index(x) for x in row] for row in names]
    assert found.level == "nominal"
    assert found.estimate.value == pytest.approx(alpha(codes, "nominal").value)


def test_gaps_are_taken_as_gaps():
    table = [[x if (d + e) % 5 else None for e, x in enumerate(row)] for d, row in enumerate(GRADES)]
    found = _point(agreement(_sessions(table, _hocks)), HOCKS)
    assert found.estimate == alpha(table, "ordinal")


def test_measurements_with_too_many_gaps_go_to_alpha():
    table = [
        [x if e == d % 3 or e == (d + 1) % 3 else None for e, x in enumerate(row)]
        for d, row in enumerate(HEIGHTS)
    ]
    found = _point(agreement(_sessions(table, lambda x: take("height", x))), "height")
    assert found.estimate == alpha(table, "interval")


def test_a_departure_off_the_scale_makes_the_point_one_of_words():
    sessions = _sessions(GRADES, _hocks)
    note = grade("croup-tail.natural", "slight", point="croup-tail.carriage")
    other = grade("croup-tail.curled", "slight", point="croup-tail.carriage")
    sessions = [
        held(note if n % 2 else other, name=one.dog, by=one.evaluator) for n, one in enumerate(sessions)
    ]
    assert _point(agreement(sessions), "croup-tail.carriage").level == "nominal"


def test_the_lean_of_each_evaluator():
    # E1 reads 0.6 above and is named; E0 and E2 agree, and are then held against each other alone.
    table = [[60.0 + n, 60.6 + n, 60.0 + n] for n in range(6)]
    found = agreement(_sessions(table, lambda x: take("height", x)))
    leans = {one.evaluator: one for one in found.lean if one.point == "height"}
    assert leans["E1"].value == pytest.approx(0.6)
    assert leans["E0"].value == pytest.approx(0.0)
    # No spread at all, but the instrument reads to 0.1: u is 0.1/sqrt(12)/sqrt(6) (JCGM 100:2008, F.2.2.1).
    assert leans["E1"].u == pytest.approx(0.1 / 12**0.5 / 6**0.5, rel=1e-3)
    assert leans["E1"].clear
    assert leans["E1"].unit == "cm"


def test_a_lean_of_one_dog_is_never_clear():
    found = agreement(_sessions([[60.0, 63.0]], lambda x: take("height", x)))
    assert [(one.u, one.clear) for one in found.lean] == [(None, False)] * 2


def test_who_grades_farther_from_as_asked():
    table = [[1, 2], [0, 1], [-1, -2], [0, -1]]
    found = agreement(_sessions(table, _hocks))
    assert {one.evaluator: one.value for one in found.strictness} == {"E0": -1.0, "E1": 1.0}


def test_points_are_sorted_by_how_many_pairs_differ_by_more_than_hand_error():
    def answers(x):
        return _hocks(x) + chosen("mouth.bite", "level" if x > 2 else "scissors")

    found = agreement(_sessions([[0, 2], [1, 3], [0, 2], [1, 1]], answers))
    assert [one.id for one in found.most_apart] == [HOCKS, "mouth.bite"]


def test_the_order_of_the_dogs_by_kendalls_w():
    table = [[0, 0], [-1, -1], [-3, -3], [-4, -4]]
    found = agreement(_sessions(table, _hocks))
    assert found.order.estimate.value == pytest.approx(1.0)
    assert (found.order.level, found.order.estimate.n) == ("order", 4)


def test_what_is_too_little_is_said():
    one = agreement(_sessions([[60.0]], lambda x: take("height", x)))
    assert one.points == ()
    assert AgreementRemark("one-evaluator") in one.remarks
    few = agreement(_sessions([[60.0, 60.5], [62.0, 62.5]], lambda x: take("height", x)))
    assert AgreementRemark("few-dogs", count=2) in few.remarks
    assert "2 dogs only" in reason_words(_point(few, "height").estimate)


def test_a_point_that_never_varies_is_undefined_and_said_so():
    found = _point(agreement(_sessions([[0, 0, 0]] * 5, _hocks)), HOCKS)
    assert found.estimate.value is None
    assert "undefined" in reason_words(found.estimate)
    assert found.beside.value == pytest.approx(1.0)


def test_the_latest_session_counts_and_it_is_said():
    first = held(take("height", 60.0), by="E0", on="2024-06-01")
    again = held(take("height", 61.0), by="E0", on="2024-06-02")
    other = held(take("height", 62.0), by="E1")
    found = agreement([again, first, other])
    assert found.board.cells[0, 0] is again
    assert "E0 examined Ada more than once; the latest session counts." in map(remark_words, found.remarks)


def test_different_editions_have_no_order_in_common():
    found = agreement([held(_hocks(-1), by="E0"), held(_hocks(-1), by="E1", ruleset=PLAIN)])
    assert found.order is None
    assert AgreementRemark("different-editions") in found.remarks


def test_no_sessions_at_all():
    found = agreement([])
    assert (found.points, found.lean, found.order) == ((), (), None)


def test_the_json_contract():
    document = json.loads(json.dumps(agreement_document(agreement(_sessions(GRADES, _hocks)))))
    assert document["evaluators"] == ["E0", "E1", "E2"]
    assert document["dogs"] == [f"Dog {n}" for n in range(6)]
    wanted = {"id", "level", "statistic", "value", "low", "high", "n", "comparisons"}
    assert all(wanted <= set(row) for row in document["points"])
    assert all({"evaluator", "point", "value", "u"} <= set(row) for row in document["lean"])
    assert [row["level"] for row in document["points"]] == ["ordinal", "order"]


def test_a_step_that_the_scale_does_not_have_breaks_nothing():
    row = '[[grades]]\npoint = "body-condition"\nstep = {}\n'
    found = agreement(
        [
            held(row.format(step), name=dog, by=evaluator)
            for dog, steps in {"Ada": (0, 5), "Bea": (4, 4), "Cas": (6, 77)}.items()
            for evaluator, step in zip(("A. Example", "B. Example"), steps, strict=True)
        ]
    )
    assert [point.id for point in found.points] == ["body-condition"]
