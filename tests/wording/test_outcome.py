"""What is said of the best outcome left open."""

from __future__ import annotations

from hands_on.wording.labels import label_words
from hands_on.wording.outcome import outcome_reasons
from tests.evaluate.answers import ODD
from tests.evaluate.build import grade, judge
from tests.evaluate.test_whole import OUTCOMES

CAPS = (
    OUTCOMES
    + """
[[caps]]
class = "fault"
from_degree = "moderate"
at_most = "good"
source = "reading"
[[caps]]
class = "fault"
at_most = "disqualified"
optional = true
source = "reading"
"""
)


def test_a_cap_names_what_makes_it_hold_and_practice_says_that_it_is_not_applied() -> None:
    found = judge(CAPS, grade(ODD, "marked"))
    label = label_words(found.findings[0].named)
    source = found.classes.ruleset.source_text(("reading",))
    assert outcome_reasons(found) == (
        f"Good at most: {label} ({source})",
        f"practice beside the standard, not applied: Disqualified at most: {label} ({source})",
    )


def test_a_degree_that_was_not_said_is_told_with_the_degree_that_would_matter() -> None:
    found = judge(CAPS, grade(ODD))
    assert outcome_reasons(found)[0] == (
        f"{label_words(found.findings[0].named)}: no degree to go by; from moderate up good at most"
    )
