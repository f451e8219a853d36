"""Critiques: nothing that was not recorded, nothing twice, in whole sentences, in two languages."""

import re
from itertools import pairwise

import pytest

from hands_on.evaluate.evaluation import evaluate
from hands_on.exam.session import Session
from hands_on.ruleset.base import DEGREES
from hands_on.store.critiques import critique_language, critique_languages, critique_plan
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from hands_on.wording.critique.check import lacking_in_language, lacking_in_plan
from hands_on.wording.critique.draft import LENGTHS, draft
from tests.wording.random_sessions import session_of

LIBRARY = Library([shipped_rulesets()])
EDITIONS = [head.id for head in LIBRARY.heads()]
PLAN = critique_plan(LIBRARY)
ENGLISH = critique_language(LIBRARY, "en")
GERMAN = critique_language(LIBRARY, "de")
FIFTY = [(EDITIONS[seed % len(EDITIONS)], seed) for seed in range(50)]


def drafted(session, language=ENGLISH, length="page"):
    return draft(session, evaluate(LIBRARY.load(session.ruleset.id), session), language, PLAN, length)


def sentences(critique):
    return [one for paragraph in critique.paragraphs for one in paragraph]


def held(edition="hovawart-fci-190", sex="male", born="2021-05-14", **rows):
    tables = {"ruleset": {"id": edition}, "dog": {"sex": sex, "born": born, "call_name": "Arko"}}
    tables["examination"] = {"started": "2026-05-02T09:30:00+02:00"}
    return Session.model_validate(tables | rows)


def seen(point, fault=None, **more):
    return {"point": point, **({"fault": fault} if fault else {"as_asked": True}), **more}


# --- what is recorded, and nothing else --------------------------------------------------------------------


def recorded(session):
    """Ids of what the session holds, read from its rows."""
    rows = (*session.takes, *session.grades, *session.choices)
    found = {row.point for row in rows} | {"dog.name", "dog.sex", "dog.born", "dog"}
    found |= {"mouth.teeth", "teeth-count"} if session.teeth is not None else set()
    return found | ({"summary.outcome"} if session.summary.outcome else set())


@pytest.mark.parametrize(("edition", "seed"), FIFTY)
def test_every_sentence_of_fifty_critiques_traces_to_recorded_answers(edition, seed):
    session = session_of(LIBRARY.load(edition), seed)
    there = recorded(session)
    for length in LENGTHS:
        for one in sentences(drafted(session, length=length)):
            assert one.answers, one.text
            gaps = one.text.startswith(("Not examined", "Examined only in part"))
            wrong = set(one.answers) & there if gaps else set(one.answers) - there
            assert not wrong, (one.text, wrong)


DEGREE_WORDS = sorted({*ENGLISH.degrees.values(), *ENGLISH.degrees_too.values()})
FILLED = {
    "it": "(?:he|she|it)",
    "its": "(?:his|her|its)",
    "them": "(?:him|her|it)",
    "d": f"(?:(?:{'|'.join(DEGREE_WORDS)}) )?",
    "s": "(?: on the left| on the right| on both sides)?",
    "x": ".{1,60}?",
}
FILLED["t"] = FILLED["d"]


def stem(clause):
    """A clause of the language data as a pattern, each slot with what may fill it."""
    slots = re.split(r"\{([a-z]+)\}( ?)", clause)
    pattern = ""
    for place in range(0, len(slots), 3):
        pattern += re.escape(slots[place])
        if place + 1 < len(slots):
            name, blank = slots[place + 1], slots[place + 2]
            pattern += FILLED[name] + (blank if name not in ("d", "t") else "")
    return re.compile(f"(?<![a-z])(?<!of ){pattern}", re.IGNORECASE)


FAULTS = {fault: [stem(part) for part in clause.split("|")] for fault, clause in ENGLISH.faults.items()}


@pytest.mark.parametrize(("edition", "seed"), FIFTY[:20])
def test_what_is_said_is_what_was_recorded_read_back_from_the_words(edition, seed):
    """The clauses of the language data are looked for in the text: what they name must be in the session."""
    rules = LIBRARY.load(edition)
    session = session_of(rules, seed, measured=False)
    # without pronouns for repeated subjects, so that each clause stands as it is in the data
    text = drafted(session, ENGLISH.model_copy(update={"subjects": {}})).text
    graded = {row.fault for row in session.grades if row.fault}
    chosen = {
        option.fault
        for row in session.choices
        for option in rules.points[row.point].options
        if option.id in row.choice
    }
    stepped = {
        step.fault
        for row in session.grades
        if row.step is not None
        for step in rules.points[row.point].steps
        if step.value == row.step
    }
    toothless = {"mouth.teeth-missing"} if session.teeth is not None and session.teeth.missing else set()
    named = {fault for fault, stems in FAULTS.items() if any(one.search(text) for one in stems)}
    assert named <= graded | chosen | stepped | toothless
    right = {row.point for row in session.grades if row.as_asked or row.step is not None}
    right |= {row.point for row in session.choices} | {"mouth.teeth"}
    for merit in ENGLISH.merits:
        if stem(merit.text).search(text) and not any(
            one.search(merit.text) for f in named for one in FAULTS[f]
        ):
            assert set(merit.points) <= right, merit.text


@pytest.mark.parametrize(("edition", "seed"), FIFTY[:20])
def test_every_finding_that_counts_is_named_on_the_page(edition, seed):
    session = session_of(LIBRARY.load(edition), seed)
    found = evaluate(LIBRARY.load(edition), session).findings
    told = {answer for one in sentences(drafted(session)) for answer in one.answers}
    assert {point for one in found for point in one.points} <= told


def test_an_open_point_is_neither_praised_nor_faulted():
    text = drafted(held(grades=[seen("head.stop")])).text
    assert "The stop is as marked as it should be." in text
    assert "skull" not in text
    assert "Not examined: general appearance, mouth, eyes" in text


def test_what_the_evaluator_dismissed_is_not_said():
    cow = seen("hindquarters.hocks", "hindquarters.cow-hocks", degree="slight")
    decisions = [{"fault": "hindquarters.cow-hocks", "decision": "dismiss"}]
    assert "hocks" in drafted(held(grades=[cow])).text
    assert "hocks" not in drafted(held(grades=[cow], decisions=decisions)).text


def test_what_is_too_young_is_said_to_be_and_costs_nothing_yet():
    cow = seen("hindquarters.hocks", "hindquarters.cow-hocks", degree="slight")
    text = drafted(held(grades=[cow], born="2025-10-02")).text
    assert (
        "At 7 months it is too early to judge what was recorded here: the hocks are slightly turned in."
        in text
    )
    assert "sideways" not in text


# --- how it is said ----------------------------------------------------------------------------------------


def test_order_merit_before_fault_and_what_it_costs():
    grades = [
        seen("movement.reach"),
        seen("temperament.approach"),
        seen("head.type"),
        seen("hindquarters.muscle"),
        seen("hindquarters.hocks", "hindquarters.cow-hocks", degree="slight", side="left"),
        seen("eyes.colour", "eyes.light", degree="moderate", side="both"),
    ]
    text = drafted(held(grades=grades)).text
    assert (
        "The thighs are well muscled, but the hocks are slightly turned in on the left, "
        "which sends effort sideways." in text
    )
    assert "The eyes are rather too light." in text  # both sides add nothing there
    order = [
        "Arko is a dog, 4 years and 11 months old",
        "The head",
        "The eyes",
        "The thighs",
        "The front",
        "He met",
    ]
    places = [text.index(words) for words in order]
    assert places == sorted(places)


def test_the_same_in_german():
    cow = seen("hindquarters.hocks", "hindquarters.cow-hocks", degree="slight", side="left")
    short = seen("neck.length", "neck.short", degree="extreme")
    takes = [{"point": "height", "value": 66.5}]
    text = drafted(held(grades=[cow, short, seen("hindquarters.muscle")], takes=takes), GERMAN).text
    assert "Arko ist ein Rüde, 4 Jahre und 11 Monate alt, mit 66,5 cm Widerristhöhe." in text
    assert "Der Hals ist viel zu kurz, was den Vortritt verkürzt." in text
    assert (
        "Die Keulen sind gut bemuskelt, aber die Sprunggelenke stehen links leicht kuhhessig, "
        "was Kraft zur Seite verliert." in text
    )


def test_a_second_fault_of_the_same_cost_says_so_and_a_subject_is_not_said_twice():
    hocks = seen("hindquarters.hocks", "hindquarters.cow-hocks", degree="slight")
    stifles = seen("hindquarters.stifles", "hindquarters.stifles-out", degree="marked")
    chest = [seen("chest.width"), seen("chest.depth", "chest.shallow", degree="slight")]
    text = drafted(held(grades=[hocks, stifles, *chest])).text
    assert text.count("which sends effort sideways") == 1
    assert text.count("which again sends effort sideways") == 1
    assert "The chest is as wide as asked, but it is slightly too shallow, which leaves heart" in text


def test_a_missing_first_premolar_costs_nothing_and_a_canine_does():
    assert "grip" not in drafted(held(teeth={"missing": [105]})).text
    assert "104 missing, which weakens the grip" in drafted(held(teeth={"missing": [104]})).text


def test_a_disqualifying_finding_says_so():
    text = drafted(held(choices=[{"point": "mouth.bite", "choice": "undershot"}])).text
    assert "under this standard that disqualifies." in text


def test_a_fault_and_a_point_without_words_are_told_by_their_labels():
    bare = ENGLISH.model_copy(update={"faults": {}, "merits": ()})
    cow = seen("hindquarters.hocks", "hindquarters.cow-hocks", degree="slight")
    text = drafted(held(grades=[cow, seen("head.stop")]), bare).text
    assert "The fault “Cow hocks” is recorded as slightly present, which sends effort sideways." in text
    assert "Stop is as asked." in text


@pytest.mark.parametrize("language", [ENGLISH, GERMAN], ids=["en", "de"])
@pytest.mark.parametrize("length", LENGTHS)
@pytest.mark.parametrize("edition", EDITIONS)
def test_critiques_are_clean_text(edition, length, language):
    for seed in range(3):
        text = drafted(session_of(LIBRARY.load(edition), seed), language, length).text
        assert not re.search(r"[{}|]|  | [,.;]|[,;]\.|\.\.|\bNone\b", text), text
        told = [
            one.text for one in sentences(drafted(session_of(LIBRARY.load(edition), seed), language, length))
        ]
        assert len(set(told)) == len(told)
        for one in told:
            assert one[0].isupper() or one[0].isdigit(), one
            assert one.endswith("."), one


@pytest.mark.parametrize("edition", EDITIONS)
def test_a_catalogue_has_three_lines_at_most(edition):
    for seed in range(3):
        critique = drafted(session_of(LIBRARY.load(edition), seed), length="catalogue")
        assert 1 <= len(critique.text.splitlines()) <= 3


def clauses(sentence):
    """Main clauses of a sentence, by the joints of the language."""
    return 1 + len(re.findall(r", and |; |, but ", sentence))


@pytest.mark.parametrize("language", [ENGLISH, GERMAN], ids=["en", "de"])
@pytest.mark.parametrize("edition", EDITIONS)
def test_the_critique_of_a_faultless_dog_does_not_read_like_a_list(edition, language):
    session = session_of(LIBRARY.load(edition), 7, faults=0.0, gaps=0.0, measured=False)
    told = [one.text for one in sentences(drafted(session, language))]
    # a walk of 40 points and more, in sentences of two things on the average
    assert len(told) <= 0.5 * len(recorded(session))
    joints = re.compile(r"[,;] (?:and|und) |; |, (?:with|mit) | (?:and|und) ")
    assert sum(bool(joints.search(one)) for one in told) >= 0.55 * len(told)
    assert not any(
        re.search(r"^\W|\n|: ", one) for one in told[1:] if "xamin" not in one and "untersucht" not in one
    )
    starts = [" ".join(one.split()[:3]) for one in told]
    assert all(first != second for first, second in pairwise(starts))


# --- language data -----------------------------------------------------------------------------------------


def known():
    rules = [LIBRARY.common(), *(LIBRARY.load(name) for name in EDITIONS)]
    points = {name: point for one in rules for name, point in one.points.items()}
    faults = {name: fault for one in rules for name, fault in one.faults.items()}
    return [region.id for region in LIBRARY.common().regions], points, faults


@pytest.mark.parametrize("name", critique_languages(LIBRARY))
def test_every_language_has_words_for_every_region_point_fault_and_cost(name):
    assert list(lacking_in_language(critique_language(LIBRARY, name), PLAN, *known())) == []


def test_a_lack_is_told():
    faults = {name: clause for name, clause in GERMAN.faults.items() if name != "neck.short"}
    wrong = GERMAN.model_copy(update={"faults": faults | {"neck.longer": "der Hals {y}"}})
    told = [lack.what for lack in lacking_in_language(wrong, PLAN, *known())]
    assert told == [
        "the fault neck.short has no words.",
        "there is no fault neck.longer.",
        "nothing fills {y} in “der Hals {y}”.",
    ]


def test_the_plan_speaks_of_every_region_and_knows_the_cost_of_every_fault():
    assert list(lacking_in_plan(PLAN, *known())) == []


def test_german_has_a_label_for_every_measurement():
    _, points, _ = known()
    assert {name for name, point in points.items() if point.kind == "measure"} <= set(GERMAN.labels)


@pytest.mark.parametrize("language", [ENGLISH, GERMAN], ids=["en", "de"])
def test_every_fault_reads_well_at_every_degree_and_side(language):
    """Alone as a sentence: a capital, a stop, no slot left, the degree's word in it."""
    rules = LIBRARY.load("hovawart-fci-190")
    tried = 0
    for fault, entry in rules.faults.items():
        places = rules.points_of_fault.get(fault, ())
        point = next((name for name in places if rules.points[name].kind == "grade"), None)
        if point is None or rules.waived(fault):
            continue
        for degree in DEGREES:
            row = seen(point, fault, degree=degree, side="left")
            session = held(sex=entry.only_sex or "female", grades=[row])
            if not evaluate(rules, session).findings:  # no fault in this edition
                continue
            text = drafted(session, language).text
            words = (language.degrees[degree], language.degrees_too[degree])
            if re.search(r"\{[dt]\}", language.faults[fault]):
                assert any(word in text for word in words), text
            assert language.sides["left"] in text
            assert not re.search(r"[{}|]|  ", text), text
            tried += 1
    assert tried > 4 * 180
