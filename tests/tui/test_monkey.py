"""Random keys of a keypad take no recorded finding away; more of them: `tests.bench.monkey`."""

from __future__ import annotations

import pytest

from tests.bench.monkey import press_dialogues, run


@pytest.mark.parametrize(
    ("edition", "sex"), [("hovawart-fci-190", "male"), ("any-dog", "female"), ("dachshund-fci-148", "female")]
)
def test_no_keypad_key_but_taking_back_takes_a_finding_away(edition, sex):
    watch = press_dialogues(1000, 1, edition, sex)
    assert watch.most > 20, "the monkey recorded much"
    assert watch.lost == []


async def test_nor_does_any_on_the_screens(folder):
    watch = await run(60, 3, folder)
    assert watch.most
    assert watch.lost == []
