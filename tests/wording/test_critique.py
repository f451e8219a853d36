"""Critiques: nothing that was not recorded, nothing twice, in whole sentences, in two languages."""

import re
from itertools import pairwise

import pytest

from hands_on.wording.critique.draft import LENGTHS
from hands_on.wording.critique.sentence import Clause, linked
from hands_on.wording.critique.sentence import sentences as sentences_of
from tests.wording.critiques import (
    EDITIONS,
    ENGLISH,
    GERMAN,
    LIBRARY,
    PLAN,
    drafted,
    held,
    invented,
    judged,
    seen,
    sentences,
)

FIFTY = [(EDITIONS[seed % len(EDITIONS)], seed) for seed in range(50)]


# --- what is recorded, and nothing else --------------------------------------------------------------------


def recorded(session):
    """Ids of what the session holds, read from its rows."""
    rows = (*session.takes, *session.grades, *session.choices)
    found = {row.point for row in rows} | {"dog.name", "dog.sex", "dog.born", "dog"}
    found |= {"mouth.teeth", "teeth-count"} if session.teeth is not None else set()
    return found | ({"summary.outcome"} if session.summary.outcome else set())


@pytest.mark.parametrize(("edition", "seed"), FIFTY)
def test_every_sentence_of_fifty_critiques_traces_to_recorded_answers(edition, seed):
    session = invented(edition, seed)
    there = recorded(session)
    for length in LENGTHS:
        for one in sentences(drafted(session, length=length)):
            assert one.answers, one.text
            gaps = one.text.startswith(("Not examined", "Examined only in part", "Nothing was examined"))
            wrong = set(one.answers) & there if gaps else set(one.answers) - there
            assert not wrong, (one.text, wrong)


# The words of the language data that the answers of a session allow, built here from its rows alone: a
# sentence is proved by being made of nothing else. Pronouns and measured values other tests look at.

JOINT = "(?:, and |; |, but )"
PLAIN = ENGLISH.model_copy(update={"subjects": {}})


def answered(rules, session):
    """Fault, degree, side, status and detail of each row of the session, and points said to be right."""
    faults, right = [], set()
    for row in session.grades:
        step = next(
            (one for one in getattr(rules.points[row.point], "steps", ()) if one.value == row.step), None
        )
        fault = row.fault or (step.fault if step is not None else None)
        degree = row.degree or (step.degree if step is not None else None)
        if fault is None:
            right.add(row.point)
        else:
            faults.append((fault, degree, row.side, row.status, ""))
    for row in session.choices:
        for one in (option for option in rules.points[row.point].options if option.id in row.choice):
            if one.fault is None or one.id == rules.points[row.point].as_asked:
                right.add(row.point)
            if one.fault is not None:
                faults.append((one.fault, one.degree, one.side, row.status, one.detail or ""))
    teeth = [str(tooth) for tooth in session.teeth.missing] if session.teeth is not None else []
    if teeth:
        faults.append(("mouth.teeth-missing", None, None, "present", ", ".join(teeth)))
    elif session.teeth is not None:
        right.add("mouth.teeth")
    return faults, right


def squeezed(text):
    return re.sub(r" {2,}", " ", text).replace(" ,", ",").strip()


def of_dog(session, text):
    for slot, word in zip(("{it}", "{its}", "{them}"), ENGLISH.pronouns[session.dog.sex], strict=True):
        text = text.replace(slot, word)
    return text


def fault_words(rules, session, row, disqualifying):
    """A fault as a pattern: its clause with degree, side and detail, and what its status and class add."""
    fault, degree, side, status, detail = row
    plain, _, detailed = ENGLISH.faults[fault].partition("|")
    clause = detailed if detailed and detail else plain
    region = rules.faults[fault].region
    beside = ENGLISH.sides[side] if side and not (side == "both" and region in PLAN.both_unsaid) else ""
    clause = clause.replace("{s}", " {s}") if "{s}" in clause else clause + " {s}"
    said = ENGLISH.details.get(f"{fault} {detail}", detail)
    for slot, word in (
        ("{d}", ENGLISH.degrees[degree] if degree else ""),
        ("{t}", ENGLISH.degrees_too[degree] if degree else ""),
        ("{x}", said),
        ("{s}", beside),
    ):
        clause = clause.replace(slot, word)
    pattern = re.escape(squeezed(of_dog(session, clause)))
    kind = PLAN.cost_of(
        fault, [int(tooth) for tooth in detail.split(", ")] if "teeth" in fault and detail else ()
    )
    if status == "unsure":
        return pattern + "(?:, though this is not sure and should be seen again)?"
    cost = re.escape(ENGLISH.costs[kind]) if kind not in (None, "none") else "(?!)"
    bar = "(?:; under this standard that disqualifies)?" if fault in disqualifying else ""
    return f"{pattern}(?:, which (?:again )?{cost}|; all this {cost})?{bar}"


@pytest.mark.parametrize(("edition", "seed"), FIFTY)
def test_every_statement_of_fifty_critiques_is_made_of_recorded_answers_and_nothing_else(edition, seed):
    rules = LIBRARY.load(edition)
    session = invented(edition, seed, measured=False)
    faults, right = answered(rules, session)
    merits = [one.text for one in ENGLISH.merits if right.issuperset(one.points)]
    regions = {stop.region for stop in rules.walk_points}
    whole = [ENGLISH.regions[one].clause for one in regions if right.issuperset(PLAN.needs.get(one, ["-"]))]
    rights = [re.escape(of_dog(session, text)) for text in (*merits, *filter(None, whole))]
    rights += [
        re.escape(f"{rules.points[point].label} is as asked") for point in right if point in rules.points
    ]
    disqualifying = judged(session).disqualifying
    named = [fault_words(rules, session, row, disqualifying) for row in faults]
    one = f"(?:{'|'.join(sorted({*named, *rights}, key=len, reverse=True))})"
    clauses = re.compile(
        f"(?:Not sure, and to be seen again: )?{one}(?:{JOINT}{one}|, {one})*", re.IGNORECASE
    )
    age = r", 4 years(?: and (?:one month|\d+ months))? old"
    nouns = {ENGLISH.regions[one].noun for one in regions}
    # what is no statement of the dog's build: who it is, what was not examined, where to see a veterinarian
    others = re.compile(
        rf"{session.dog.call_name} is a (?:dog|bitch){age}"
        r"|Where no cost is named, it is a matter of looks and type"
        rf"|(?:Not examined|Examined only in part|What was found here should be shown to a veterinarian)"
        rf": (?:(?:{'|'.join(nouns)})(?:, and | and |, )?)+"
    )
    for length in ("paragraph", "page"):
        for said in sentences(drafted(session, PLAIN, length)):
            text = said.text.removesuffix(".")
            assert others.fullmatch(text) or clauses.fullmatch(text), text


@pytest.mark.parametrize(("edition", "seed"), FIFTY[:20])
def test_every_finding_that_counts_is_named_on_the_page(edition, seed):
    session = invented(edition, seed)
    found = judged(session).findings
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


@pytest.mark.parametrize(
    ("side", "english", "german"),
    [
        ("left", "on both sides, more on the left", "beidseits (links stärker)"),
        ("right", "on both sides, more on the right", "beidseits (rechts stärker)"),
    ],
)
def test_of_both_sides_the_worse_is_named(side, english, german):
    heard = [
        {"fault": "hindquarters.cow-hocks", "degree": "slight", "side": "both", "worse": side},
        {"fault": "eyes.light", "degree": "moderate", "side": "both", "worse": side},
        {"fault": "forequarters.elbows-out", "degree": "slight", "side": "both"},
    ]
    rows = [{"at": "2026-05-02T09:40:00+02:00", "text": "hocks, eyes, elbows", "findings": heard}]
    session = held(notes=rows)
    text = drafted(session).text
    assert f"The hocks are slightly turned in {english}, which again sends effort sideways." in text
    assert f"The eyes are rather too light {english}." in text, "said where both sides alone add nothing"
    assert "The elbows are slightly turned out on both sides, which" in text
    assert f"Die Sprunggelenke stehen {german} leicht kuhhessig" in drafted(session, GERMAN).text


def test_the_same_in_german():
    cow = seen("hindquarters.hocks", "hindquarters.cow-hocks", degree="slight", side="left")
    short = seen("neck.length", "neck.short", degree="extreme")
    takes = [{"point": "height", "value": 66.5}]
    text = drafted(held(grades=[cow, short, seen("hindquarters.muscle")], takes=takes), GERMAN).text
    assert "Arko ist ein Rüde, 4 Jahre und 11 Monate alt, mit 66,5 cm Widerristhöhe." in text
    assert "Der Hals ist viel zu kurz, was den Vortritt verkürzt." in text
    assert (
        "Die Keulen sind gut bemuskelt, aber die Sprunggelenke stehen links leicht kuhhessig, "
        "was Kraft zur Seite verpuffen lässt." in text
    )


def test_faults_of_one_cost_are_told_together_and_a_later_one_says_again():
    hocks = seen("hindquarters.hocks", "hindquarters.cow-hocks", degree="slight")
    stifles = seen("hindquarters.stifles", "hindquarters.stifles-out", degree="marked")
    elbows = seen("forequarters.elbows", "forequarters.elbows-out", degree="slight")
    chest = [seen("chest.width"), seen("chest.depth", "chest.shallow", degree="slight")]
    text = drafted(held(grades=[hocks, stifles, elbows, *chest])).text
    assert "The elbows are slightly turned out, which sends effort sideways." in text
    assert (
        "The stifles are markedly turned out, and the hocks are slightly turned in; "
        "all this sends effort sideways." in text
    )
    text = drafted(held(grades=[hocks, elbows])).text
    assert "The hocks are slightly turned in, which again sends effort sideways." in text


def test_a_subject_is_not_said_twice_where_its_pronoun_can_only_stand_for_it():
    chest = [seen("chest.width"), seen("chest.depth", "chest.shallow", degree="slight")]
    text = drafted(held(grades=chest)).text
    assert "The chest is as wide as asked, but it is slightly too shallow, which leaves heart" in text
    parts = ["the tail is even", "the croup is of good length", "the tail is well set"]
    told = linked(ENGLISH, sentences_of(ENGLISH, [Clause(text, ("x",)) for text in parts]))
    assert [one.text for one in told] == [
        "The tail is even, and the croup is of good length.",
        "The tail is well set.",  # "it" would be the croup
    ]


def test_what_is_not_sure_in_a_region_is_told_in_one_sentence():
    weak = seen("back.firmness", "back.soft", degree="slight", status="unsure")
    long = seen("back.length", "back.long", degree="marked", status="unsure")
    text = drafted(held(grades=[weak, long])).text
    assert text.count("to be seen again") == 1
    assert "Not sure, and to be seen again: the back is markedly too long; the back is slightly soft." in text


def test_german_names_the_dog_where_its_pronoun_could_be_a_part():
    pacing = seen("movement.gait", "movement.pacing", degree="marked")
    text = drafted(held(sex="female", grades=[seen("movement.topline"), pacing]), GERMAN).text
    assert ", aber die Hündin geht im Pass" in text


def test_a_catalogue_says_what_is_right_and_that_not_all_was_examined():
    text = drafted(held(grades=[seen("head.stop")]), length="catalogue").text
    assert "In all that was examined he is as the standard asks. Examined only in part." in text
    assert "Nothing was examined." in drafted(held(), length="catalogue").text


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
        critique = drafted(invented(edition, seed), language, length)
        text = critique.text
        assert not re.search(r"[{}|]|  | [,.;]|[,;]\.|\.\.|\bNone\b", text), text
        told = [one.text for one in sentences(critique)]
        assert len(set(told)) == len(told)
        for one in told:
            assert one[0].isupper() or one[0].isdigit(), one
            assert one.endswith("."), one


@pytest.mark.parametrize("edition", EDITIONS)
def test_a_catalogue_has_three_lines_at_most(edition):
    for seed in range(3):
        critique = drafted(invented(edition, seed), length="catalogue")
        assert 1 <= len(critique.text.splitlines()) <= 3


def clauses(sentence):
    """Main clauses of a sentence, by the joints of the language."""
    return 1 + len(re.findall(r", and |; |, but ", sentence))


@pytest.mark.parametrize("language", [ENGLISH, GERMAN], ids=["en", "de"])
@pytest.mark.parametrize("edition", EDITIONS)
def test_the_critique_of_a_faultless_dog_does_not_read_like_a_list(edition, language):
    session = invented(edition, 7, faults=0.0, gaps=0.0, measured=False)
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
