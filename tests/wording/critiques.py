"""Critiques drafted for tests: invented sessions, judged once, and sessions written out."""

from functools import cache

from hands_on.evaluate.evaluation import evaluate
from hands_on.exam.session import Session
from hands_on.store.critiques import critique_language, critique_plan
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from hands_on.wording.critique.draft import draft
from tests.wording.random_sessions import session_of

LIBRARY = Library([shipped_rulesets()])
EDITIONS = [head.id for head in LIBRARY.heads()]
PLAN = critique_plan(LIBRARY)
ENGLISH = critique_language(LIBRARY, "en")
GERMAN = critique_language(LIBRARY, "de")


@cache
def invented(edition, seed, **options):
    """A session of an invented dog, drawn once and judged once for all that is said of it."""
    session = session_of(LIBRARY.load(edition), seed, **options)
    _JUDGED[id(session)] = session, evaluate(LIBRARY.load(edition), session)
    return session


_JUDGED = {}
"""What an invented session gave, by its identity; the session is kept, so that no other gets its number."""


def judged(session):
    """What a session gives under its edition."""
    if id(session) in _JUDGED:
        return _JUDGED[id(session)][1]
    return evaluate(LIBRARY.load(session.ruleset.id), session)


def drafted(session, language=ENGLISH, length="page"):
    return draft(session, judged(session), language, PLAN, length)


def sentences(critique):
    return [one for paragraph in critique.paragraphs for one in paragraph]


def held(edition="hovawart-fci-190", sex="male", born="2021-05-14", **rows):
    tables = {"ruleset": {"id": edition}, "dog": {"sex": sex, "born": born, "call_name": "Arko"}}
    tables["examination"] = {"started": "2026-05-02T09:30:00+02:00"}
    return Session.model_validate(tables | rows)


def seen(point, fault=None, **more):
    return {"point": point, **({"fault": fault} if fault else {"as_asked": True}), **more}
