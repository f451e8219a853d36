"""Invented examinations: several editions, faultless and very faulty, young, unsigned, half done, hostile."""

import random
from datetime import UTC, datetime
from pathlib import Path

from hands_on.exam.session import Session
from hands_on.exam.signing import digest_of
from hands_on.figure.drawn import ideal
from hands_on.figure.reading import readings
from hands_on.figure.skeleton import skeleton
from hands_on.ruleset.points import MeasurePoint
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from hands_on.store.session_file import dump_session
from tests.report.hostile import HOSTILE
from tests.wording.random_sessions import session_of

KINDS = {
    "faultless": ("golden-retriever-fci-111", {"faults": 0.0, "gaps": 0.0}),
    "very-faulty": ("german-shepherd-fci-166", {"faults": 0.75, "gaps": 0.0}),
    "puppy": ("boxer-fci-144", {"faults": 0.15, "born": "2026-01-20"}),
    "half-done": ("bernese-fci-45", {"faults": 0.15, "gaps": 0.55}),
    "nothing": ("poodle-fci-172", {"faults": 0.0, "gaps": 1.0}),
    "one-fault": ("rottweiler-fci-147", {"faults": 0.03, "gaps": 0.0}),
    "terrier": ("border-terrier-fci-10", {"faults": 0.12}),
    "dachshund": ("dachshund-fci-148", {"faults": 0.2}),
    "poodle": ("poodle-fci-172", {"faults": 0.2}),
    "any-dog": ("any-dog", {"faults": 0.25}),
    "retriever": ("labrador-fci-122", {"faults": 0.1}),
    "american": ("weimaraner-american", {"faults": 0.15}),
    "pointer": ("vizsla-fci-57", {"faults": 0.3}),
}
"""By name the edition, and how much departs and is left open."""

SIGNED = ("very-faulty", "one-fault", "terrier", "retriever")


def invented(library: Library) -> dict[str, str]:
    """By name the text of a session's file."""
    found = {name: dump_session(_session(library, name, seed)) for seed, name in enumerate(KINDS)}
    return found | {"hostile": HOSTILE.lstrip()}


def _session(library: Library, name: str, seed: int) -> Session:
    edition, how = KINDS[name]
    ruleset = library.load(edition)
    session = session_of(ruleset, seed, measured=False, **how)
    draw = random.Random(f"{name} {seed}")
    shape = ideal(ruleset, session.dog.sex).shape
    landmarks, ways = skeleton(shape), readings(ruleset)
    takes = []
    for point in ruleset.walk_points:
        if (
            not isinstance(point, MeasurePoint)
            or point.id not in ways
            or draw.random() < how.get("gaps", 0.08)
        ):
            continue
        spread = 0.01 if how["faults"] < 0.05 else 0.05
        value = ways[point.id](shape, landmarks) * (1 + draw.gauss(0, spread))
        unit = "deg" if point.quantity == "angle" else "cm"
        takes += [
            {"point": point.id, "value": round(value * (1 + draw.gauss(0, 0.004)), 1), "unit": unit}
            for _ in range(draw.choice([1, 2, 3]))
        ]
    rows = session.model_dump(mode="json", by_alias=True, exclude_defaults=True) | {"takes": takes}
    rows["examination"] = {
        "evaluator": "R. Ostry", "place": "Barn at the Mill, Nowhere", "started": "2026-05-02T09:30:00+02:00",
    }  # fmt: skip
    rows["dog"]["registered_name"] = "Ulla vom Erlengrund zu den sieben Brunnen an der alten Strasse"
    if how.get("gaps", 0.0) < 0.5:
        rows["summary"] = {
            "text": "Shown in good light on a firm table.\n\nA dog to see again in a year.",
            "outcome": "very-good",
        }
    session = Session.model_validate(rows)
    if name in SIGNED:
        signature = {"name": "R. Ostry", "at": datetime(2026, 5, 2, 10, 30, tzinfo=UTC).isoformat()}
        amendment = {
            "at": datetime(2026, 5, 9, 18, tzinfo=UTC).isoformat(), "by": "R. Ostry",
            "reason": "The ear was written down at the wrong side.",
            "notes": [{"text": "Left ear, not right.", "region": "ears"}],
        }  # fmt: skip
        signature["digest"] = digest_of(session)
        session = Session.model_validate(
            session.model_dump(mode="json", by_alias=True, exclude_defaults=True)
            | {"signature": signature, "amendments": [amendment]}
        )
    return session


def write(folder: Path) -> list[Path]:
    """The sessions as files in `folder`."""
    folder.mkdir(parents=True, exist_ok=True)
    paths = []
    for name, text in invented(Library([shipped_rulesets()])).items():
        path = folder / f"{name}.toml"
        path.write_text(text, encoding="utf-8")
        paths.append(path)
    return paths
