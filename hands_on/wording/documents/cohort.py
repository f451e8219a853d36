"""A cohort as a JSON document."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from hands_on.compare.cohort.cohort import Cohort
from hands_on.compare.cohort.shares import LEVEL, Share
from hands_on.compare.cohort.trends import Trend
from hands_on.wording.cohort import about_sentences, trend_sentences
from hands_on.wording.labels import label_words

__all__ = ["cohort_document"]


def cohort_document(found: Cohort) -> dict[str, Any]:
    """As `hands-on cohort --json` prints it."""
    return {
        "wanted": {key: value for key, value in asdict(found.wanted).items() if value not in (None, "")},
        "dogs": len(found.members),
        "left_out": found.left_out,
        "level": LEVEL,
        "members": [
            {
                "session": one.name,
                "call_name": one.call_name,
                "registered_name": one.registered_name,
                "sex": one.sex,
                "born": one.born,
                "sire": one.sire,
                "dam": one.dam,
                "litter": one.litter,
                "evaluator": one.evaluator,
                "day": one.day,
                "signed": one.signed,
                "ruleset": one.edition,
            }
            for one in found.members
        ],
        "faults": [
            {
                "id": one.fault,
                "label": label_words(one.named),
                **_share(one.share),
                "classes": dict(one.classes),
                "degrees": dict(one.degrees),
                "too_young": one.too_young,
            }
            for one in found.frequencies
        ],
        "sizes": [
            {
                "id": one.id,
                "label": label_words(one.named),
                "sex": one.sex,
                "unit": one.unit,
                "n": one.n,
                "mean": one.mean,
                "mean_low": one.low,
                "mean_high": one.high,
                "sd": one.sd,
                "least": one.least,
                "most": one.most,
                "u": one.u,
                "asked": None if one.asked is None else list(one.asked),
                "outside": None if one.outside is None else _share(one.outside),
            }
            for one in found.spreads
        ],
        "trends": list(map(_trend, found.trends)),
        "drift": list(map(_trend, found.drift)),
        "remarks": [*about_sentences(found), *trend_sentences(found)],
    }


def _share(share: Share) -> dict[str, Any]:
    return {"count": share.count, "n": share.n, "share": share.value, "low": share.low, "high": share.high}


def _trend(one: Trend) -> dict[str, Any]:
    return {
        "of": one.kind,
        "id": one.about,
        "label": label_words(one.named),
        "sex": one.sex,
        "unit": one.unit,
        "n": one.n,
        "years": one.years,
        "slope": one.slope,
        "low": one.low,
        "high": one.high,
        "p": one.p,
        "p_corrected": one.p_corrected,
        "clear": one.clear,
    }
