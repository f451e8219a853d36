"""Sire and dam side by side."""

from __future__ import annotations

import pytest

from hands_on.compare.dogs.pairing import pairing
from hands_on.wording.documents.dogs import pairing_document
from hands_on.wording.pairing import pairing_remarks, sided_sentence
from tests.compare.build import asked, held
from tests.evaluate.build import grade, take

HOCKS = "hindquarters.hocks"


def _hocks(fault, degree):
    return grade(f"hindquarters.{fault}", degree, point=HOCKS)


def _sire(answers="", **more):
    return held(answers, name="Sire", sex="male", **more)


def _dam(answers="", **more):
    return held(answers, name="Dam", **more)


def test_sire_and_dam_by_sex_whichever_is_given_first():
    sire, dam = _sire(), _dam()
    for found in (pairing(sire, dam), pairing(dam, sire)):
        assert (found.sire.dog, found.dam.dog) == ("Sire", "Dam")
        assert found.remarks == ()


@pytest.mark.parametrize(
    ("degrees", "adds_up"), [(("moderate", "marked"), True), (("slight", "marked"), False)]
)
def test_a_shared_fault_beyond_slight_in_both_adds_up(degrees, adds_up):
    found = pairing(_sire(_hocks("cow-hocks", degrees[0])), _dam(_hocks("cow-hocks", degrees[1])))
    (shared,) = found.shared
    assert shared.faults == ("hindquarters.cow-hocks",)
    assert shared.adds_up is adds_up
    assert (found.mended, found.opposite, found.open) == ((), (), ())


def test_one_mends_the_other_where_the_other_is_as_asked():
    found = pairing(_sire(_hocks("cow-hocks", "moderate")), _dam(asked(HOCKS)))
    (row,) = found.mended
    assert (row.parent, row.fault) == ("sire", "hindquarters.cow-hocks")
    assert sided_sentence(row, found) == "Cow hocks, moderate in the sire; dam: as asked"


def test_a_point_not_examined_mends_nothing():
    found = pairing(_sire(_hocks("cow-hocks", "moderate")), _dam())
    assert found.mended == ()
    assert [row.other for row in found.open] == ["not-examined"]


def test_an_unsure_answer_mends_nothing():
    unsure = '[[grades]]\npoint = "hindquarters.hocks"\nas_asked = true\nstatus = "unsure"\n'
    assert pairing(_sire(_hocks("cow-hocks", "moderate")), _dam(unsure)).mended == ()


def test_opposite_extremes_are_no_mending():
    found = pairing(_sire(_hocks("cow-hocks", "marked")), _dam(_hocks("bowed-hocks", "marked")))
    assert found.mended == ()
    assert {row.fault for row in found.opposite} == {"hindquarters.cow-hocks", "hindquarters.bowed-hocks"}


def test_a_measured_fault_is_mended_by_a_measurement_within():
    over, within = take("height", 68.0, 68.0), take("height", 62.5, 62.5)
    found = pairing(_sire(over), _dam(within))
    (row,) = found.mended
    assert row.fault == "general.over-height"
    assert row.other.verdict == "inside"
    assert pairing(_sire(over), _dam(take("height", 64.8))).mended == ()


def test_both_at_one_end_of_what_is_asked_is_told():
    # The outer fifth of 60 to 65 begins at 64.
    found = pairing(_sire(take("height", 64.2)), _dam(take("height", 64.5)))
    assert [one.end for one in found.same_end] == ["high"]
    assert pairing(_sire(take("height", 64.2)), _dam(take("height", 62.0))).same_end == ()


def test_it_is_said_that_this_is_neither_genetics_nor_a_health_test():
    told = " ".join(pairing_document(pairing(_sire(), _dam()))["cautions"])
    assert "not genetics" in told
    assert "no health test" in told
    assert "veterinarian" in told


def test_a_sex_that_does_not_fit_is_remarked_on():
    found = pairing(held(name="Ada"), held(name="Bea"))
    assert pairing_remarks(found) == ("Ada stands here as the sire; the sex in its file is female.",)
    assert "Both files speak of the same dog." in pairing_remarks(pairing(held(), held()))
