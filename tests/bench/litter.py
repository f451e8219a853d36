"""A litter of nine, all invented, to look at as a cohort; one of them is examined twice.

    python -m tests.bench.litter FOLDER [--seed 1]
    hands-on cohort FOLDER --litter Q

Each is like one of the demo dogs of its sex, with its own name, heights and gradings.
"""

from __future__ import annotations

import argparse
import datetime
import random
from pathlib import Path

from hands_on.exam.session import Grade, Session
from hands_on.ruleset.points import GradePoint
from hands_on.store.library import Library
from hands_on.store.places import ruleset_folders, shipped_sessions
from hands_on.store.session_file import dump_session, read_session

BORN = datetime.date(2023, 3, 18)
NAMES = {
    "male": ("Quarro", "Quint", "Quasar", "Quebo"),
    "female": ("Quiva", "Querla", "Quitta", "Quanja", "Quendel"),
}
EDITION = "hovawart-fci-190"


def litter(seed: int = 1) -> list[Session]:
    """Ten sessions of nine dogs."""
    chance = random.Random(seed)
    ruleset = Library(ruleset_folders(Path("nothing-here"))).load(EDITION)
    points = [point for point in ruleset.walk_points if isinstance(point, GradePoint)]
    models: dict[str, Session] = {}
    for path in sorted(shipped_sessions().glob("*.toml")):
        session = read_session(path)
        if session.ruleset.id == EDITION and session.takes:
            models.setdefault(session.dog.sex or "", session)
    made: list[Session] = []
    for sex, names in NAMES.items():
        for name in names:
            n = len(made) + 1
            size = chance.gauss(0.0, 1.4)
            own = {take.point: chance.gauss(0.0, 1.2) for take in models[sex].takes}
            takes = tuple(
                take.model_copy(
                    update={"value": round(take.value * (1 + (size + own[take.point]) / 65.0), 1)}
                )
                if isinstance(take.value, float)
                else take
                for take in models[sex].takes
            )
            grades = {point.id: Grade(point=point.id, as_asked=True) for point in points}
            for point in chance.sample(points, 3):
                fault = chance.choice(point.departures)
                degree = chance.choice(("slight", "slight", "moderate"))
                grades[point.id] = Grade(point=point.id, fault=fault, degree=degree)
            dog = models[sex].dog.model_copy(
                update={
                    "call_name": name,
                    "registered_name": f"{name} vom Beispielhof",
                    "born": BORN,
                    "chip": f"9990000000005{n:02d}",
                    "registration": f"EX 23/05{n:02d}",
                    "litter": "Q",
                    "sire": "Arvid vom Beispielhof",
                    "dam": "Quenda vom Probenbach",
                }
            )
            made.append(
                models[sex].model_copy(
                    update={
                        "dog": dog,
                        "takes": takes,
                        "grades": tuple(grades.values()),
                        "notes": (),
                        "signature": None,
                        "amendments": (),
                    }
                )
            )
    again = made[0]
    held = again.examination.model_copy(update={"started": _later(again), "finished": None})
    return [*made, again.model_copy(update={"examination": held})]


def _later(session: Session) -> datetime.datetime:
    return (session.examination.started or datetime.datetime(2026, 1, 1)) + datetime.timedelta(days=90)


def main() -> None:
    """Write them into a folder."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("folder", type=Path)
    options.add_argument("--seed", type=int, default=1)
    given = options.parse_args()
    given.folder.mkdir(parents=True, exist_ok=True)
    for n, session in enumerate(litter(given.seed), 1):
        path = given.folder / f"{n:02d}-{session.dog.call_name.lower()}.toml"
        path.write_text(dump_session(session), encoding="utf-8")


if __name__ == "__main__":
    main()
