"""Sessions of invented dogs, drawn at random: every kind of answer that an edition knows."""

import random

from hands_on.exam.session import Session
from hands_on.ruleset.base import DEGREES
from hands_on.ruleset.points import ChoicePoint, GradePoint, MeasurePoint, ScalePoint


def session_of(ruleset, seed, *, faults=0.15, gaps=0.08, measured=True, born="2022-03-01"):
    """About every seventh point departs and every twelfth is left open, unless told otherwise."""
    draw = random.Random(seed)
    sex = draw.choice(["male", "female"])
    rows = {"grades": [], "choices": [], "takes": []}
    for point in ruleset.walk_points:
        if point.only_sex not in (None, sex) or draw.random() < gaps:
            continue
        departs = draw.random() < faults
        if isinstance(point, MeasurePoint):
            if measured and point.quantity != "count":
                low, high = point.plausible
                rows["takes"].append({"point": point.id, "value": round(draw.uniform(low, high), 1)})
        elif isinstance(point, GradePoint):
            known = [fault for fault in point.departures if ruleset.faults[fault].only_sex in (None, sex)]
            rows["grades"].append(
                {"point": point.id, **_departure(ruleset, known, draw)}
                if departs
                else {"point": point.id, "as_asked": True}
            )
        elif isinstance(point, ScalePoint):
            steps = [step.value for step in point.steps if bool(step.fault) == departs]
            rows["grades"].append({"point": point.id, "step": draw.choice(steps)})
        elif isinstance(point, ChoicePoint):
            options = [one.id for one in point.options if bool(one.fault) == departs]
            rows["choices"].append(
                {"point": point.id, "choice": draw.choice(options or [point.options[0].id])}
            )
        else:
            rows["teeth"] = {"missing": [draw.choice([105, 206, 311])]} if departs else {}
    tables = {
        "ruleset": {"id": ruleset.id},
        "dog": {"sex": sex, "born": born, "call_name": draw.choice(["Arko", "Fenja", "Brumo"])},
        "examination": {"started": "2026-05-02T09:30:00+02:00"},
    }
    return Session.model_validate(tables | rows)


def _departure(ruleset, known, draw):
    row = {"fault": draw.choice(known)}
    if draw.random() < 0.9:
        row["degree"] = draw.choice(DEGREES)
    if ruleset.faults[row["fault"]].sides and draw.random() < 0.6:
        row["side"] = draw.choice(["left", "right", "both"])
    if draw.random() < 0.1:
        row["status"] = "unsure"
    return row
