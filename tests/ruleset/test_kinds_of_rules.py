"""The examples of rulesets/kinds-of-rules.md: sound as they stand, and each does what its heading says.

Breed and standard are invented, so the figures stand for nothing but themselves.
"""

import re

import pytest

from hands_on.evaluate import evaluate
from hands_on.exam.session import Session
from hands_on.exam.walk import stops
from hands_on.ruleset.assemble import assemble, read_edition_file
from hands_on.ruleset.check import check_edition
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets

TEXT = (shipped_rulesets() / "kinds-of-rules.md").read_text(encoding="utf-8")
EXAMPLES = re.findall(r"```toml\n(.*?)```", TEXT, re.DOTALL)
FIRST, SECOND = "\n".join(EXAMPLES[:-1]), EXAMPLES[-1]
COMMON = Library([shipped_rulesets()]).common()


def edition_of(name):
    return read_edition_file(FIRST, "moor-hound.toml") if name == "moor-hound" else None


RULES = assemble([read_edition_file(FIRST, "moor-hound.toml")], COMMON)
NEWER = assemble([RULES.edition, read_edition_file(SECOND, "moor-hound-2024.toml")], COMMON)


@pytest.mark.parametrize(("text", "name"), [(FIRST, "moor-hound"), (SECOND, "moor-hound-2024")])
def test_the_examples_are_one_sound_edition_and_one_that_builds_on_it(text, name):
    assert list(map(str, check_edition(text, f"{name}.toml", COMMON, edition_of))) == []


def test_nothing_that_a_file_may_hold_is_left_without_an_example():
    for model in (read_edition_file(FIRST, "a"), read_edition_file(SECOND, "b")):
        shown = {name for name in type(model).model_fields if name in model.model_fields_set}
        missing = set(type(model).model_fields) - shown
        if model.id == "moor-hound":
            # told in words, said by the newer edition, or in README.md
            assert missing <= {"note", "valid", "drop", "derived", "outcomes_from"}
        else:
            assert "drop" in shown


# --- each kind does what it says --------------------------------------------------------------------------


def judged(ruleset, **answers):
    dog = {"sex": "male", "born": "2020-01-01"} | answers.pop("dog", {})
    examination = {"started": "2024-06-01T09:00:00+02:00"} | answers.pop("examination", {})
    held = {"ruleset": {"id": ruleset.id}, "dog": dog, "examination": examination} | answers
    return evaluate(ruleset, Session.model_validate(held))


def takes(**values):
    return {"takes": [{"point": name.replace("_", "-"), "value": value} for name, value in values.items()]}


def seen(fault, degree=None, **more):
    point = RULES.points_of_fault[fault][0]
    return {"grades": [{"point": point, "fault": fault} | ({"degree": degree} if degree else {}) | more]}


def chosen(point, choice):
    return {"choices": [{"point": point, "choice": choice}]}


BITCH = {"sex": "female"}
TAIL = "croup-tail.tail-state"
RIDGE = {"grades": [{"point": "coat-skin.ridge", "step": 2}]}

CASES = [
    ("tolerance, penalised", takes(height=49), {"general.under-height": "undesirable"}),
    ("out beyond it", takes(height=46), {"general.under-height": "out"}),
    ("tiers on one side", {"dog": BITCH} | takes(height=52), {"general.over-height": "minor"}),
    ("none on the other", {"dog": BITCH} | takes(height=44.5), {"general.under-height": "out"}),
    (
        "native unit, for the working dog",
        {"examination": {"purpose": "work"}} | takes(weight=25),  # 55 lb
        {"general.overweight": "minor"},
    ),
    ("not for another", {"examination": {"purpose": "companion"}} | takes(weight=25), {}),
    ("ratio, far out", takes(height=50, body_length=65), {"general.body-long": "out"}),
    ("direction only", takes(muzzle_length=10, skull_length=13), {"head.muzzle-short": "minor"}),
    ("one-sided share", takes(height=52, chest_depth=30), {"chest.too-deep": "minor"}),
    (
        "one derived length against another",
        takes(height=52, elbow_height=26, elbow_midpastern=18),
        {"general.low-on-leg": "minor"},
    ),
    ("target that is a limit", takes(height=52, chest_girth=56), {"chest.weak": "major"}),
    ("angle, tolerated further end", takes(shoulder_angle=105), {}),
    ("angle, beyond it", takes(shoulder_angle=125), {"forequarters.shoulder-steep": "minor"}),
    ("signed distance", takes(tail_end_to_hock=-8), {"croup-tail.tail-short": "out"}),
    ("size of a mark", takes(white_spot_diameter=6), {"colour.white": "major"}),
    ("2 mm and more", takes(overshot_gap=4), {"mouth.overshot": "out"}),
    ("does not apply to the breed", seen("chest.narrow", "marked"), {}),
    ("a slight degree is no fault", seen("head.roman-nose", "slight"), {}),
    ("a moderate one is", seen("head.roman-nose", "moderate"), {"head.roman-nose": "minor"}),
    ("a marked one is out", seen("head.roman-nose", "marked"), {"head.roman-nose": "out"}),
    ("ceiling", chosen("head.nose", "liver"), {"head.nose-pigment": "minor"}),
    ("one side is enough", seen("eyes.wall", side="left"), {"eyes.wall": "out"}),
    ("by colour", {"dog": {"colour": "dapple"}} | seen("eyes.wall"), {}),
    ("by age", {"dog": {"born": "2024-04-01"}} | seen("eyes.wall"), {}),
    ("by variety", {"dog": {"variety": "long"}} | seen("coat-skin.long", "marked"), {}),
    ("the other one", {"dog": {"variety": "short"}} | seen("coat-skin.long"), {"coat-skin.long": "out"}),
    ("place of a mark", chosen("colour.white-marks", "toes"), {"colour.white": "major"}),
    ("another place", chosen("colour.white-marks", "chest-small"), {}),
    (
        "use and country",
        {"examination": {"purpose": "companion", "country": "DE"}} | chosen(TAIL, "docked"),
        {"croup-tail.docked": "undesirable"},
    ),
    (
        "another purpose, another country",
        {"examination": {"purpose": "companion", "country": "DE"}} | chosen(TAIL, "altered"),
        {"croup-tail.tail-altered": "undesirable"},
    ),
    ("the purpose left out", {"examination": {"purpose": "work", "country": "DE"}} | chosen(TAIL, "altered"),
     {"croup-tail.tail-altered": "minor"}),
    ("the purpose not known", {"examination": {"country": "DE"}} | chosen(TAIL, "altered"),
     {"croup-tail.tail-altered": "minor"}),
    (
        "follows from the dog alone",
        {"dog": {"variety": "long", "colour": "dapple"}},
        {"colour.wrong-shade": "out"},
    ),
    ("observation", chosen(TAIL, "docked"), {}),
    ("off until chosen", chosen(TAIL, "natural"), {}),
    (
        "chosen",
        {"examination": {"switches": ["docking-judged"]}} | chosen(TAIL, "natural"),
        {"croup-tail.natural": "major"},
    ),
    ("group phrase", seen("forefeet.flat", "slight"), {"forefeet.flat": "major"}),
    ("yes or no", chosen("chest-span", "no"), {"chest.not-spannable": "major"}),
    ("outside the ladder", seen("movement.pacing"), {"movement.pacing": "undesirable"}),
    ("unclear text", chosen("mouth.bite", "level"), {"mouth.level-bite": "unclassed"}),
    ("general clause", seen("neck.ewe", "slight"), {"neck.ewe": "minor"}),
    ("exempt tooth", {"teeth": {"missing": [311, 411]}}, {}),
    ("named teeth", {"teeth": {"missing": [105]}}, {"mouth.teeth-missing": "minor"}),
    ("pooled", {"teeth": {"missing": [105, 205, 306]}}, {"mouth.teeth-missing": "major"}),
    ("pattern", {"teeth": {"missing": [107, 105]}}, {"mouth.teeth-missing": "out"}),
    ("one and nothing else", {"teeth": {"missing": [110, 311]}}, {"mouth.teeth-missing": "minor"}),
    ("not with another", {"teeth": {"missing": [110, 105]}}, {"mouth.teeth-missing": "major"}),
    ("unseen is missing", {"teeth": {"unseen": [108]}}, {"mouth.teeth-missing": "major"}),
    ("a scale of the breed's own", RIDGE, {"coat-skin.ridge-short": "minor"}),
]  # fmt: skip


@pytest.mark.parametrize(
    ("answers", "expected"), [case[1:] for case in CASES], ids=[case[0] for case in CASES]
)
def test_each_kind_of_rule(answers, expected):
    result = judged(RULES, **dict(answers))
    assert {one.id: one.cls for one in result.findings if one.counts or one.cls == "unclassed"} == expected


def test_a_measured_mark_and_white_elsewhere_are_two_findings():
    both = judged(
        RULES, **takes(white_spot_diameter=6), **chosen("colour.white-marks", ["toes", "chest-small"])
    )
    assert [(one.detail, one.cls) for one in both.findings] == [("chest-large", "major"), ("toes", "major")]
    within = judged(RULES, **takes(white_spot_diameter=2), **chosen("colour.white-marks", "toes"))
    assert [one.detail for one in within.findings] == ["toes"]
    assert "contradiction" not in {alarm.kind for alarm in within.alarms}


def test_a_point_for_some_dogs_only():
    def asked(**dog):
        session = Session.model_validate({"ruleset": {"id": "moor-hound"}, "dog": dog})
        return "coat-skin.furnishings" in {stop.point.id for stop in stops(RULES, session)}

    assert asked(variety="long")
    assert asked()  # not known: asked
    assert not asked(variety="short")


@pytest.mark.parametrize(
    ("born", "offered", "best"),
    [
        # the examination is on 1 June 2024: nine months old on that very day, and a day short of it
        ("2023-09-01", ["excellent", "very-good"], "very-good"),
        ("2023-09-02", ["promising"], "promising"),
    ],
)
def test_the_age_on_the_day_decides_which_grades_are_given(born, offered, best):
    result = judged(RULES, dog={"born": born}, **seen("temperament.shy", "moderate"))
    assert list(result.outcomes) == [*offered, "disqualified", "cannot-be-judged"]
    assert result.outcome_at_most == best


def test_without_an_age_the_grades_of_every_age_are_left_open():
    result = judged(RULES, dog={"born": None})
    assert len(result.outcomes) == len(RULES.edition.outcomes)
    assert result.outcome_at_most == "excellent"
    assert [one.kind for one in result.outcome_reasons] == ["age-not-known"]


def test_unsure_is_kept_apart():
    result = judged(RULES, **seen("temperament.shy", "slight", status="unsure"))
    assert (result.totals["minor"], result.unsure["minor"]) == (0, 1)


def test_counted_only_together():
    narrow, weak = (
        seen(f"hindquarters.{name}", "marked")["grades"][0] for name in ("narrow", "undermuscled")
    )
    alone = judged(RULES, grades=[narrow])
    both = judged(RULES, grades=[narrow, weak])
    assert [one.cls for one in alone.findings] == ["minor"]
    assert {one.cls for one in both.findings} == {"major"}


def test_a_value_that_sorts_waits_for_its_age():
    grown = judged(RULES, **takes(chest_girth=55))
    young = judged(RULES, dog={"born": "2023-12-01"}, **takes(chest_girth=55))
    assert [(one.verdict, one.band) for one in grown.rules if one.id == "size"] == [("inside", "Small")]
    assert [one.verdict for one in young.rules if one.id == "size"] == ["not-yet"]


def test_practice_beside_the_standard_is_told_and_never_counted():
    result = judged(RULES, **takes(height=60))
    (rule,) = [one for one in result.rules if one.id == "height-practice"]
    assert (rule.verdict, rule.optional) == ("outside", True)
    told = [one.names for one in result.outcome_reasons if one.kind == "practice"]
    assert [[name.own for name in names] for names in told] == [["height-practice"]]


def test_near_a_limit_nothing_disqualifies():
    result = judged(RULES, **takes(height=57.2))
    assert result.disqualifying == ()
    assert {"near-limit", "undecided-class"} & {alarm.kind for alarm in result.alarms}


@pytest.mark.parametrize(
    ("answers", "best"),
    [
        (seen("neck.ewe", "slight"), "excellent"),
        (seen("neck.ewe", "moderate"), "very-good"),
        (seen("general.bitchy-dog", "slight"), "very-good"),
        (seen("temperament.aggressive"), "disqualified"),
    ],
)
def test_what_rules_a_grade_out(answers, best):
    assert judged(RULES, **answers).outcome_at_most == best


def test_the_newer_edition_says_only_what_differs():
    low = seen("croup-tail.set-low", "slight")
    assert [one.cls for one in judged(NEWER, **low).findings] == ["major"]
    assert judged(RULES, **low).findings == ()
    limits = [limit.id for limit in NEWER.edition.limits]
    assert "height-practice" not in limits
    assert limits.count("height-female") == 1
    assert judged(NEWER, dog=BITCH, **takes(height=50.5)).findings == ()
    assert [one.cls for one in judged(NEWER, **seen("eyes.wall")).findings] == ["out"]
