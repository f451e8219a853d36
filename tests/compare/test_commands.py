"""compare, agree and the re-check plan as commands: text, JSON, errors, and anything at all as input."""

from __future__ import annotations

import datetime
import json
import shutil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hands_on.commands import agree, compare, recheck_plan
from hands_on.commands.shared import CommandError, Context
from hands_on.compare.agreement.by_point import agreement
from hands_on.compare.dogs.changed import recheck
from hands_on.compare.dogs.history import history
from hands_on.compare.dogs.pairing import pairing
from hands_on.compare.dogs.recheck import plan
from hands_on.compare.dogs.side_by_side import side_by_side
from hands_on.compare.examined import examined
from hands_on.exam.session import Choice, Dog, Examination, Grade, RulesetRef, Session, Take, Teeth
from hands_on.ruleset.base import DEGREES
from hands_on.ruleset.points import ChoicePoint, GradePoint, MeasurePoint, ScalePoint
from hands_on.store.library import Library
from hands_on.wording.documents.dogs import comparison_document, history_document
from tests.compare.build import RULESET
from tests.strategies import sessions

SHIPPED = Path(__file__).parents[2]
DEMO = SHIPPED / "sessions"

VERDICTS = (
    None, "real", "different", "disagree", "within-hand-error", "explained-by-growth", "too-young",
)  # fmt: skip


@pytest.fixture(scope="module")
def context():
    found = Context(None, None)
    found.library = Library((SHIPPED / "rulesets",))
    return found


def _demo(*names):
    return [str(next(DEMO.glob(f"*-{name}.toml"))) for name in names]


PAIR = ("brumo-m-quill", "fenja-m-quill")


def _compare(context, files, **more):
    given = {"pairing": False, "plain": True, "as_json": False} | more
    return compare.run(files, context=context, **given)


def test_compare_prints_within_a_page(context, capsys):
    assert _compare(context, _demo(*PAIR, "tovik-m-quill")) == 0
    text = capsys.readouterr().out
    assert max(map(len, text.splitlines())) <= 100
    assert "Height at the withers" in text
    assert "No order: one of them is too young" in text  # Tovik is seven months old
    assert "Tovik" in text


def test_an_order_that_is_not_settled_says_so(context, capsys):
    _compare(context, _demo(*PAIR))
    text = capsys.readouterr().out
    assert "is uncertain" in text
    assert "is not settled" in text
    assert "It depends on" in text
    assert "What this rests on" in text


def test_compare_as_json(context, capsys):
    assert _compare(context, _demo(*PAIR), as_json=True) == 0
    document = json.loads(capsys.readouterr().out)
    assert [dog["name"] for dog in document["dogs"]] == ["Brumo", "Fenja"]
    assert all(row["verdict"] in VERDICTS for row in document["points"])


def test_pairing_as_text_and_json(context, capsys):
    assert _compare(context, _demo(*PAIR), pairing=True) == 0
    text = capsys.readouterr().out
    assert "Sire Brumo" in text
    assert "no health test" in text
    assert _compare(context, _demo(*PAIR), pairing=True, as_json=True) == 0
    assert json.loads(capsys.readouterr().out)["dam"] == "Fenja"


def test_pairing_wants_two(context):
    with pytest.raises(CommandError, match="two sessions"):
        _compare(context, _demo(*PAIR, "tovik-m-quill"), pairing=True)


@pytest.mark.parametrize("files", [["nowhere.toml", "nowhere-else.toml"], [str(DEMO / "README.md")] * 2])
def test_what_cannot_be_read_is_an_error(context, files):
    with pytest.raises(CommandError):
        _compare(context, files)


def test_one_session_is_not_compared(context):
    with pytest.raises(CommandError, match="two to 6"):
        _compare(context, _demo("brumo-m-quill"))


def test_agree_on_a_folder_leaves_broken_files_out_and_says_so(context, capsys, tmp_path):
    for name in _demo("brumo-m-quill", "brumo-a-thornby", "fenja-m-quill", "fenja-a-thornby"):
        shutil.copy(name, tmp_path)
    (tmp_path / "broken.toml").write_text("format = ", encoding="utf-8")
    assert agree.run(agree.Request([str(tmp_path)]), as_json=False, context=context) == 0
    captured = capsys.readouterr()
    assert "M. Quill, A. Thornby" in captured.out or "A. Thornby, M. Quill" in captured.out
    assert "broken.toml" in captured.err
    assert max(map(len, captured.out.splitlines())) <= 100
    assert agree.run(agree.Request([str(tmp_path)]), as_json=True, context=context) == 0
    document = json.loads(capsys.readouterr().out)
    assert {row["level"] for row in document["points"]} == {"measurement", "ordinal", "nominal", "order"}


def test_agree_on_a_round_takes_the_sessions_that_name_it(context, capsys, tmp_path):
    (tmp_path / "round.toml").write_text(
        'format = 1\n[round]\nid = "r1"\n[ruleset]\nid = "hovawart-fci-190"\n[[dogs]]\nnumber = "1"\n',
        encoding="utf-8",
    )
    for number, name in enumerate(_demo("brumo-m-quill", "brumo-a-thornby", "fenja-m-quill")):
        text = Path(name).read_text(encoding="utf-8")
        if number < 2:
            text = text.replace('kind = "round"', 'kind = "round"\nround = "r1"\nround_dog = "1"')
        (tmp_path / f"{number}.toml").write_text(text, encoding="utf-8")
    assert agree.run(agree.Request([str(tmp_path / "round.toml")]), as_json=True, context=context) == 0
    assert json.loads(capsys.readouterr().out)["dogs"] == ["Brumo"]


def test_agree_without_a_session(context, tmp_path):
    with pytest.raises(CommandError, match="no session"):
        agree.run(agree.Request([str(tmp_path)]), as_json=False, context=context)


def test_the_plan_and_the_verdicts(context, capsys, tmp_path):
    (file,) = _demo("tovik-m-quill")
    assert recheck_plan.run([file], as_json=False, context=context) == 0
    text = capsys.readouterr().out
    assert "growth: measure it again" in text
    assert "62.2" not in text, "the earlier answer is not given away"
    later = tmp_path / "later.toml"
    text = Path(file).read_text(encoding="utf-8").replace("2026-09-19 ", "2027-09-19 ")
    later.write_text(text, encoding="utf-8")
    assert recheck_plan.run([str(later), file], as_json=False, context=context) == 0
    # A year without growing: no change shown, and that is what is remarkable.
    text = " ".join(capsys.readouterr().out.split())
    assert "Height at the withers: 62.2 ± 0.5 cm at 7 months, 62.2 ± 0.5 cm at 19 months" in text
    assert "growth let expect" in text
    assert recheck_plan.run([str(later), file], as_json=True, context=context) == 0
    assert json.loads(capsys.readouterr().out)["then"]["date"] == "2026-09-19"


def test_a_recheck_of_two_dogs_is_refused(context):
    with pytest.raises(CommandError, match="another dog"):
        recheck_plan.run(_demo(*PAIR), as_json=False, context=context)


def test_names_are_shown_as_typed(context, capsys, tmp_path):
    odd = "\\u001b[31m[b]=cmd()<b>"
    files = []
    for name in _demo(*PAIR):
        text = (
            Path(name).read_text(encoding="utf-8").replace('evaluator = "M. Quill"', f'evaluator = "{odd}"')
        )
        files.append(tmp_path / Path(name).name)
        files[-1].write_text(text, encoding="utf-8")
    _compare(context, [str(file) for file in files])
    agree.run(agree.Request([str(file) for file in files]), as_json=False, context=context)
    out = capsys.readouterr().out
    assert "\x1b" not in out
    assert "␛[31m[b]=cmd()<b>" in out


_points = [*RULESET.points.values()]
_degree = st.sampled_from([None, *DEGREES])
_side = st.sampled_from([None, "left", "right", "both"])
_status = st.sampled_from(["present", "unsure", "absent"])


@st.composite
def _answered(draw):
    """A session with answers, fitting and odd, at the points of the test edition."""
    rows = {"takes": [], "grades": [], "choices": []}
    for point in draw(st.lists(st.sampled_from(_points), max_size=12)):
        if isinstance(point, MeasurePoint):
            value = draw(st.one_of(st.floats(*point.plausible), st.floats()))
            rows["takes"].append(Take(point=point.id, value=value, side=draw(_side)))
        elif isinstance(point, ChoicePoint):
            option = draw(st.sampled_from([*(one.id for one in point.options), "none-such"]))
            rows["choices"].append(Choice(point=point.id, choice=(option,), status=draw(_status)))
        elif isinstance(point, ScalePoint):
            rows["grades"].append(Grade(point=point.id, step=draw(st.integers(0, 9)), status=draw(_status)))
        elif isinstance(point, GradePoint):
            fault = draw(st.sampled_from([None, *point.departures, "no.such"]))
            more = {"status": draw(_status), "side": draw(_side)}
            given = {"as_asked": True} if fault is None else {"fault": fault, "degree": draw(_degree)}
            rows["grades"].append(Grade(point=point.id, **given, **more))
    dog = Dog(
        call_name=draw(st.sampled_from(["", "Ada", "Bea"])),
        sex=draw(st.sampled_from([None, "male", "female"])),
        born=draw(st.sampled_from([None, datetime.date(2020, 1, 1), datetime.date(2024, 3, 1)])),
    )
    examination = Examination(
        evaluator=draw(st.sampled_from(["", "E0", "E1"])),
        started=draw(st.sampled_from([None, datetime.datetime(2024, 6, 1), datetime.datetime(2025, 6, 1)])),
    )
    teeth = draw(st.sampled_from([None, Teeth(), Teeth(missing=(105,), unseen=(405,))]))
    return Session(dog=dog, examination=examination, ruleset=RulesetRef(id="test"), teeth=teeth, **rows)


_slow = settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))


@given(st.lists(st.one_of(_answered(), sessions), min_size=2, max_size=3))
@_slow
def test_whatever_stands_in_the_files_nothing_breaks(found):
    held = [examined(RULESET, one, name=f"{n}.toml") for n, one in enumerate(found)]
    document = comparison_document(side_by_side(held))
    for row in document["order"]:
        assert sum(row["p_place"]) == pytest.approx(1.0)
    list(compare.lines(side_by_side(held)))
    list(compare.pairing_lines(pairing(held[0], held[1])))
    list(agree.lines(agreement(held)))
    list(recheck_plan.plan_lines(held[0], plan(held[0])))
    list(recheck_plan.verdict_lines(recheck(held[0], held[1])))
    history_document(history(held))
