"""A session under the two Weimaraner editions differs exactly where the published texts differ, and says why.

Sources: FCI-Standard N° 99 Weimaraner, English text of 26.05.2015 ("FCI"), and American Kennel Club, Official
Standard for the Weimaraner, approved 14 December 1971 ("American").
"""

import json
import tomllib
from dataclasses import replace
from pathlib import Path

import pytest

from hands_on.cli import main
from hands_on.compare.editions.rule_by_rule import compare_editions
from hands_on.compare.editions.under_another import changes
from hands_on.evaluate import evaluate
from hands_on.exam.session import Session
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from hands_on.wording.another_edition import before_and_after, change_why
from tests.evaluate.build import edition, grade, session, take

FCI, AMERICAN = "weimaraner-fci-99", "weimaraner-american"
DATA = Path(__file__).parents[1] / "data"
ANSWERS = ("dog", "examination", "takes", "grades", "choices", "teeth", "notes", "decisions")

LIBRARY = Library([shipped_rulesets()])

DOG = {"sex": "male", "born": "2020-01-01", "variety": "short-haired"}
EXAMINATION = {"started": "2024-06-01T09:00:00+02:00"}


def held(own, row):
    examination = EXAMINATION | row.get("examination", {})
    answers = {key: row[key] for key in ANSWERS if key in row}
    return Session.model_validate({"ruleset": {"id": own}, "dog": DOG, **answers, "examination": examination})


def changed(held_session, own=FCI, other=AMERICAN):
    a, b = LIBRARY.load(own), LIBRARY.load(other)
    return changes(evaluate(a, held_session), evaluate(b, held_session), a, b)


ROWS = tomllib.loads((DATA / "weimaraner_changes.toml").read_text(encoding="utf-8"))["rows"]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["name"])
def test_what_differs_is_what_the_published_texts_do_not_say_alike(row):
    assert set(row) <= {"name", "why", "findings", "rules", *ANSWERS}
    told = changed(held(FCI, row))
    given = {one.id: [name or "" for name in one.classes] for one in told if one.kind == "finding"}
    assert given == row.get("findings", {})
    assert [one.id for one in told if one.kind == "rule"] == row.get("rules", [])
    assert all(change_why(one) for one in told)


def height(cm):
    return {"takes": [{"point": "height", "value": cm}] * 3}


def test_the_reason_names_both_figures_in_both_units():
    told = {one.kind: one for one in changed(held(FCI, height(60)))}
    for kind in ("finding", "rule"):
        assert "59 to below 60.96 cm (23.23 to below 24 in)" in change_why(told[kind])
        assert f"as asked in {FCI}" in change_why(told[kind])
        assert told[kind].cause == "limit"
    assert (told["rule"].before.verdict, told["rule"].after.verdict) == ("inside", "outside")
    assert "1971" in told["rule"].after.source


def test_a_silence_is_named_as_the_reason():
    told = changed(held(FCI, {"takes": [{"point": "weight", "value": 46}]}))
    assert {one.cause for one in told} == {"silence"}
    assert {before_and_after(one)[1] for one in told} == {"not found", "no rule"}


def cases():
    rows = []
    for own in (FCI, AMERICAN):
        text = (DATA / "edition_cases" / f"{own}.toml").read_text(encoding="utf-8")
        rows += [pytest.param(own, one, id=f"{own}: {one['name']}") for one in tomllib.loads(text)["cases"]]
    return rows


@pytest.mark.parametrize(("own", "case"), cases())
def test_every_change_has_a_difference_of_the_editions_behind_it(own, case):
    """And the way back tells the same, turned round; against itself nothing changes."""
    other = AMERICAN if own == FCI else FCI
    one = held(own, {"dog": {}, **case})
    told = changed(one, own, other)
    back = changed(one, other, own)
    assert changed(one, own, own) == ()
    assert sorted((x.id, x.kind, *before_and_after(x)) for x in told) == sorted(
        (x.id, x.kind, *reversed(before_and_after(x))) for x in back
    )
    differences = compare_editions(LIBRARY.load(own), LIBRARY.load(other))
    every = {(row.kind, row.id) for section in differences.sections for row in section.pairs}
    names = {limit.id: limit.name for name in (own, other) for limit in LIBRARY.load(name).edition.limits}
    limited = {name for kind, name in every if kind == "limit"}
    for change in told:
        if change.kind == "rule":
            assert names[change.id] in limited
        else:
            by_class = ("ruling", change.id) in every or ("general-clause", "general-clause") in every
            assert by_class or change.cause in ("limit", "silence", "not-asked")


# --- what the two real editions do not have ---------------------------------------------------------------


def between(rules_a, rules_b, answers):
    a, b = edition(rules_a), edition(rules_b)
    one = session(answers)
    return changes(evaluate(a, one), evaluate(b, one), a, b)


def test_faults_counted_together_in_one_edition_only():
    together = """
[[combinations]]
all = ["general.fat", "general.odd"]
class = "out"
source = "reading"
"""
    told = between("", together, grade("general.fat") + grade("general.odd"))
    assert {(one.id, *one.classes, one.cause) for one in told} == {
        ("general.fat", "fault", "out", "together"),
        ("general.odd", "fault", "out", "together"),
    }


def test_a_measured_fault_and_a_seen_one_are_one_finding_whatever_the_side():
    """Under one edition a figure speaks for the fault too, under the other the eye alone."""
    angle = """
[walk]
measures = ["hock-angle"]
[[limits]]
id = "hock"
measure = "hock-angle"
asked = { to = 150 }
bands = [{ above = 150, fault = "hindquarters.straight", class = "severe" }]
source = "reading"
"""
    answers = take("hock-angle", 160, side="left") + grade("hindquarters.straight", "slight")
    told = [one for one in between("", angle, answers) if one.kind == "finding"]
    assert [(one.id, *one.classes) for one in told] == [("hindquarters.straight", "fault", "severe")]


def test_a_class_of_the_same_name_and_one_that_disqualifies_under_another_name_are_no_change():
    rules = '[[rulings]]\nfaults = ["general.fat"]\nclass = "out"\nsource = "reading"\n'
    a = edition(rules)
    renamed = a.edition.model_copy(
        update={
            "classes": tuple(
                one.model_copy(update={"id": "barred", "label": "Barred"}) if one.disqualifies else one
                for one in a.edition.classes
            ),
            "rulings": tuple(one.model_copy(update={"class_": "barred"}) for one in a.edition.rulings),
        }
    )
    b = replace(a, edition=renamed)
    one = session(grade("general.fat") + grade("general.thin"))
    assert changes(evaluate(a, one), evaluate(b, one), a, b) == ()


# --- the command -----------------------------------------------------------------------------------------

FILE = (
    f"""
format = 1
[ruleset]
id = "{FCI}"
[dog]
call_name = "Moor"
sex = "male"
born = 2020-01-01
[examination]
evaluator = "E. Example"
started = 2024-06-01T09:00:00+02:00
"""
    + 3 * '[[takes]]\npoint = "height"\nvalue = 60\n'
)


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "moor.toml"
    path.write_text(FILE, encoding="utf-8")
    return path


def test_assess_under_another_edition_tells_what_changes(file, capsys):
    assert main(["assess", str(file), "--ruleset", AMERICAN]) == 0
    text = capsys.readouterr().out
    section = " ".join(text.split(f"\nWhat changes against {FCI}\n")[1].split())
    assert "Under height: not found -> Disqualification" in section
    assert "Height at the withers (measured): inside -> outside, Disqualification" in section
    assert max(map(len, text.splitlines())) <= 100


def test_assess_json_has_the_changes_only_under_another_edition(file, capsys):
    assert main(["assess", str(file), "--ruleset", AMERICAN, "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["against"] == FCI
    assert {"id", "kind", "before", "after", "why"} <= document["changes"][0].keys()
    assert [(one["id"], one["kind"]) for one in document["changes"]] == [
        ("general.under-height", "finding"),
        ("height-male", "rule"),
    ]
    for arguments in ([], ["--ruleset", FCI]):
        assert main(["assess", str(file), *arguments, "--json"]) == 0
        assert "changes" not in json.loads(capsys.readouterr().out)


def test_where_the_sessions_own_edition_is_not_here_the_rest_is_told(file, capsys):
    file.write_text(FILE.replace(FCI, "weimaraner-fci-98"), encoding="utf-8")
    assert main(["assess", str(file), "--ruleset", AMERICAN]) == 0
    text = capsys.readouterr().out
    assert "Under height: Disqualification" in text
    assert "What changes cannot be told" in text
    assert main(["assess", str(file), "--ruleset", AMERICAN, "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["changes"] is None
    assert "weimaraner-fci-98" in document["changes_problem"]
