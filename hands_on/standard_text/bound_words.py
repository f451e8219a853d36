"""Words before a figure that make it an end: which end, and whether the figure itself belongs."""

from __future__ import annotations

from typing import Final

__all__ = ["BEFORE"]

BEFORE: Final = (
    (
        "at_most_closed",
        r"(?:not|no|nor|never|without|may not|must not|should not|cannot)\s+(?:to\s+)?(?:be\s+)?(?:more than|over|above|exceed(?:ing)?|greater than|beyond|taller than|heavier than|higher than|longer than|larger than|bigger than|wider than|broader than|deeper than)|up to(?: a maximum of)?|max(?:imum|\.)?(?: of| height| weight)*(?: is)?:?|at (?:the )?most|upper limit(?: of| is)?:?|<=|\u2264",
    ),
    (
        "at_least_closed",
        r"(?:not|no|nor|never|may not|must not|should not|cannot)\s+(?:to\s+)?(?:be\s+)?(?:less than|under|below|fewer than|smaller than|shorter than|lighter than)|at (?:the )?least|min(?:imum|\.)?(?: of| height| weight| length| depth| width| size)*(?: is)?:?|from|upwards of|lower limit(?: of| is)?:?|>=|\u2265",
    ),
    (
        "above_open",
        r"more than|over|above|exceed(?:s|ing)?|greater than|in excess of|beyond|taller than|larger than|heavier than|higher than|longer than|bigger than|wider than|broader than|an? excess of|>",
    ),
    ("below_open", r"less than|under|below|fewer than|smaller than|shorter than|lighter than|lower than|<"),
)
