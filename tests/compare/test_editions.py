"""Two editions compared: what is told is what the published texts do not say alike.

Sources of all figures here: FCI-Standard N° 99 Weimaraner, English text of 26.05.2015 ("FCI"), and American
Kennel Club, Official Standard for the Weimaraner, approved 14 December 1971 ("American"). An inch is 2.54 cm
exactly (international yard and pound agreement of 1959).
"""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hands_on.cli import main
from hands_on.compare.editions.rule_by_rule import compare_editions
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from hands_on.wording.two_editions import told
from tests.evaluate.build import edition

FCI, AMERICAN = "weimaraner-fci-99", "weimaraner-american"


@pytest.fixture(scope="module")
def library():
    return Library([shipped_rulesets()])


@pytest.fixture(scope="module")
def found(library):
    return told(compare_editions(library.load(FCI), library.load(AMERICAN)))


def at(row, value):
    """What both editions say of a value; None where the row does not tell them apart there."""
    for one in row.stretches:
        above = one.low is None or value > one.low or (value == one.low and not one.low_open)
        below = one.high is None or value < one.high or (value == one.high and not one.high_open)
        if above and below:
            return one.a, one.b
    return None


# --- where the two Weimaraner editions pull against each other ------------------------------------------


@pytest.mark.parametrize(
    ("sex", "cm", "fci", "american"),
    [
        # dogs: FCI 59-70, 2 cm either way a fault; American 25-27 in, an inch either way penalised
        ("dogs", 56.9, None, None),  # both disqualify
        ("dogs", 57.0, "Fault", "Disqualification"),
        ("dogs", 60.0, "as asked", "Disqualification"),
        ("dogs", 60.96, "as asked", "Penalised"),  # 24 in itself is allowed
        ("dogs", 63.5, None, None),  # 25 in: both ask for it
        ("dogs", 68.58, None, None),  # 27 in
        ("dogs", 69.0, "as asked", "Penalised"),
        ("dogs", 71.12, "Fault", "Penalised"),  # 28 in itself is allowed
        ("dogs", 71.13, "Fault", "Disqualification"),
        ("dogs", 72.0, "Fault", "Disqualification"),
        ("dogs", 72.01, None, None),
        # bitches: FCI 57-65; American 23-25 in
        ("bitches", 55.0, "Fault", "Disqualification"),
        ("bitches", 56.0, "Fault", "Penalised"),
        ("bitches", 58.0, "as asked", "Penalised"),
        ("bitches", 60.0, None, None),
        ("bitches", 65.0, "as asked", "Penalised"),
        ("bitches", 66.04, "Fault", "Penalised"),  # 26 in itself
        ("bitches", 67.0, "Fault", "Disqualification"),
        ("bitches", 67.1, None, None),
    ],
)
def test_height(found, sex, cm, fci, american):
    row = found.row("limit", "height", sex)
    assert {"figures", "unit", "class"} <= set(row.differs)
    said = at(row, cm)
    if fci is None:
        assert said is None
    else:
        assert tuple(text.split(", ")[-1] for text in said) == (fci, american)


def test_figures_are_shown_in_both_units(found):
    row = found.row("limit", "height", "dogs")
    assert "59 to 70 cm (23.23 to 27.56 in)" in row.a
    assert "25 to 27 in (63.5 to 68.58 cm)" in row.b
    assert "W15" in row.source_a
    assert "WA" in row.source_b


@pytest.mark.parametrize(
    ("ratio", "fci", "american"),
    [
        (0.95, "short muzzle, Fault", "as asked"),
        (1.0, "short muzzle, Fault", "as asked"),  # slightly longer is asked, equal is not enough
        (1.05, None, None),
        (1.2, "as asked", "long muzzle"),
    ],
)
def test_muzzle_to_skull_slightly_over_one_against_equal(found, ratio, fci, american):
    said = at(found.row("limit", "muzzle-length/skull-length"), ratio)
    if fci is None:
        assert said is None
    else:
        assert said[0] == fci
        assert said[1].startswith(american)


@pytest.mark.parametrize(
    ("point", "fci", "american"),
    [
        ("head.stop", "Extremely slight.", "Moderate."),
        ("eyes.colour", "Amber, from dark to pale", "Light amber, grey or blue-grey."),
        ("croup-tail.set", "A little low.", "Not low."),
        ("croup-tail.tail-state", "Natural", "Docked."),
        ("back.underline", "not tucked up", "Moderate tuck-up."),
        ("chest.depth", "almost to the elbow", "brisket to the elbow"),
        ("coat-skin.length", "Long-haired: long", "distinctly long disqualifies"),
        ("mouth.teeth", "Complete.", "greatly to be desired"),
        ("back.back-proportion", "slightly long back is a trait", "Moderate in length."),
        ("colour.white-marks", "chest and toes", "on the chest is allowed, nothing else"),
    ],
)
def test_what_is_asked_for_stands_side_by_side(found, point, fci, american):
    row = found.row("asked", point)
    assert fci in row.a
    assert american in row.b


@pytest.mark.parametrize(
    ("fault", "when", "fci", "american"),
    [
        ("head.stop-lacking", "", "no fault", "unclassed"),
        ("eyes.dark", "", "Fault (general clause)", "Very serious fault"),
        ("eyes.wrong-shade", "", "under 6 months: no fault; otherwise Fault", "Very serious fault"),
        ("croup-tail.set-low", "", "slight no fault, from moderate Fault", "Major fault"),
        ("croup-tail.natural", "", "no fault", "only when chosen: docking-judged: Very serious fault"),
        ("croup-tail.docked", "", "otherwise recorded, never counted", "no fault"),
        ("back.tuck-up-excess", "", "from marked Disqualifying fault", "unclassed"),
        ("back.tuck-up-lacking", "", "no fault", "unclassed"),
        ("coat-skin.long", "", "long-haired: no fault", "from marked Disqualification"),
        ("back.long", "", "slight no fault", "Major fault"),
        ("colour.white", "toes", "no fault", "Very serious fault"),
        ("colour.white", "paw", "Severe fault", "Very serious fault"),
    ],
)
def test_classes_of_faults(found, fault, when, fci, american):
    row = found.row("ruling", fault, when)
    assert fci in row.a
    assert american in row.b


def test_white_on_the_chest_is_alike(found):
    """A small mark on the chest is allowed by both."""
    assert found.row("ruling", "colour.white", "chest-small") is None


def test_missing_teeth(found):
    """FCI: more than two P1 or M3 disqualify; American: more than four of any kind is a major fault."""
    two = found.row("teeth", "3 or more missing of P1, M3")
    assert (two.a, two.b, two.differs) == ("Disqualifying fault", "", ("only-a",))
    five = found.row("teeth", "5 or more missing")
    assert (five.a, five.b, five.differs) == ("", "Major fault", ("only-b",))


def test_silences_ladders_and_the_general_clause(found):
    assert found.row("limit", "weight", "dogs").b == "silent: Weight"
    assert found.row("silence", "croup-slope").a.startswith("silent: Angles")
    assert found.row("silence", "weight").b.startswith("silent")
    assert found.row("class", "ladder").b.startswith("Minor fault < Major fault < Very serious fault <")
    assert found.row("general-clause", "general-clause").b == "no general clause: unclassed"
    assert (found.row("edition", "unit").a, found.row("edition", "unit").b) == ("cm", "in")


# --- of any two editions ---------------------------------------------------------------------------------


def test_an_edition_against_itself_differs_in_nothing(library):
    for head in library.heads():
        rules = library.load(head.id)
        again = compare_editions(rules, rules)
        assert [pair for section in again.sections for pair in section.pairs] == []
        limits = next((one for one in again.sections if one.key == "limits"), None)
        assert (limits.same if limits else 0) >= len(rules.edition.limits)


def test_the_other_way_round_the_same_rows_stand_the_other_way_round(library, found):
    back = told(compare_editions(library.load(AMERICAN), library.load(FCI)))
    for section, other in zip(found.sections, back.sections, strict=True):
        there = {(row.kind, row.id, row.when): (row.a, row.b) for row in section.rows}
        here = {(row.kind, row.id, row.when): (row.b, row.a) for row in other.rows}
        assert there == here
        assert section.same == other.same


def limit(asked, *bands, when="", unit="cm"):
    rows = ", ".join(
        f'{{ {band}, fault = "general.{fault}-height", class = "{cls}" }}' for band, fault, cls in bands
    )
    return (
        f'[[limits]]\nid = "h{when}"\nmeasure = "height"\nunit = "{unit}"\nasked = {{ {asked} }}\n'
        + (f'when = {{ sex = "{when}" }}\n' if when else "")
        + f'bands = [{rows}]\nsource = "reading"\n'
    )


def test_an_open_and_a_closed_end_differ_in_one_number():
    """Over 70 against 70 and more: only a reading of exactly 70 tells them apart."""
    a = edition(limit("to = 70", ("above = 70", "over", "fault")))
    b = edition(limit("below = 70", ("from = 70", "over", "fault")))
    (row,) = [row for section in told(compare_editions(a, b)).sections for row in section.rows]
    assert row.differs == ("ends",)
    (only,) = row.stretches
    assert (only.low, only.high, only.text) == (70, 70, "70 cm")


def test_the_same_length_in_inches_is_another_unit_and_no_other_figure():
    """10 in are 25.4 cm exactly."""
    a = edition(limit("to = 25.4", ("above = 25.4", "over", "fault")))
    b = edition(limit("to = 10", ("above = 10", "over", "fault"), unit="in"))
    (row,) = [row for section in told(compare_editions(a, b)).sections for row in section.rows]
    assert row.differs == ("unit",)
    assert row.stretches == ()


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ('words = "25.4 to 50.8 cm."', "25.4 to 50.8 cm (10 to 20 in)"),
        (
            'words = "25.4 to 50.8 cm, both ends included."',
            "25.4 to 50.8 cm (10 to 20 in), both ends included",
        ),
        (
            'words = "The ideal is 25.4 to 50.8 cm."\nideal = true',
            "The ideal is 25.4 to 50.8 cm (10 to 20 in)",
        ),
        ('words = "25.4 to 50.8 cm."\nideal = true', "25.4 to 50.8 cm (10 to 20 in), an ideal"),
        ('words = "25.4 to 50.8 cm."\nabout = true', "about 25.4 to 50.8 cm (10 to 20 in)"),
        ('words = "About 25.4 to 50.8 cm."\nabout = true', "About 25.4 to 50.8 cm (10 to 20 in)"),
        ('words = "Not 125.4 to 50.8 cm."', "25.4 to 50.8 cm (10 to 20 in) (Not 125.4 to 50.8 cm)"),
        (
            'words = "Of middle size."\nideal = true',
            "25.4 to 50.8 cm (10 to 20 in), an ideal (Of middle size)",
        ),
        ("", "25.4 to 50.8 cm (10 to 20 in)"),
    ],
)
def test_a_figure_that_the_edition_says_in_words_is_told_once(more, said):
    a = edition(limit("from = 25.4, to = 50.8", ("above = 50.8", "over", "fault")) + more + "\n")
    kind = "ideal = true\n" if "ideal = true" in more else ""
    b = edition(limit("from = 10, to = 22", ("above = 22", "over", "fault"), unit="in") + kind)
    row = told(compare_editions(a, b)).row("limit", "height")
    assert row.a == f"{said}; above 50.8 cm (above 20 in): over height, Fault"


def test_a_limit_for_both_sexes_stands_against_one_for_each():
    a = edition(limit("to = 70", ("above = 70", "over", "fault")))
    b = edition(
        limit("to = 70", ("above = 70", "over", "fault"), when="male")
        + limit("to = 65", ("above = 65", "over", "fault"), when="female")
    )
    (row,) = [row for section in told(compare_editions(a, b)).sections for row in section.rows]
    assert (row.when, row.stretches[0].text) == ("bitches", "above 65 to 70 cm")


@settings(max_examples=60)
@given(
    ends=st.lists(st.integers(200, 1100), min_size=4, max_size=4, unique=True).map(sorted),
    value=st.integers(150, 1150),
)
def test_a_value_is_in_a_stretch_exactly_where_the_editions_class_it_differently(ends, value):
    low, high, other_low, other_high = (end / 10 for end in (ends[0], ends[2], ends[1], ends[3]))
    a = edition(
        limit(
            f"from = {low}, to = {high}",
            (f"below = {low}", "under", "fault"),
            (f"above = {high}", "over", "severe"),
        )
    )
    b = edition(
        limit(
            f"from = {other_low}, to = {other_high}",
            (f"below = {other_low}", "under", "out"),
            (f"above = {other_high}", "over", "severe"),
        )
    )
    row = told(compare_editions(a, b)).row("limit", "height")
    x = value / 10

    def cls(start, end, under):
        return under if x < start else "severe" if x > end else ""

    differ = cls(low, high, "fault") != cls(other_low, other_high, "out")
    assert (at(row, x) is not None) == differ


# --- the command -----------------------------------------------------------------------------------------


def test_the_command_prints_what_differs_with_sources_in_lines_of_80_to_100(capsys):
    assert main(["rulesets", FCI, "--against", AMERICAN]) == 0
    text = capsys.readouterr().out
    flat = " ".join(text.split())
    assert "59 to below 60.96 cm (23.23 to below 24 in): as asked | under height, Disqualification" in flat
    assert "W15: FCI-Standard N° 99" in flat
    assert max(map(len, text.splitlines())) <= 100


def test_the_command_gives_one_json_document(capsys):
    assert main(["rulesets", FCI, "--against", AMERICAN, "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert (document["a"]["id"], document["b"]["id"]) == (FCI, AMERICAN)
    rows = [row for section in document["sections"] for row in section["rows"]]
    assert {"kind", "id", "label", "when", "a", "b", "differs", "source_a", "source_b", "stretches"} <= rows[
        0
    ].keys()


def test_two_breeds_are_said_to_be_two(capsys):
    assert main(["rulesets", FCI, "--against", "hovawart-fci-190"]) == 0
    assert "These are two breeds: Weimaraner and Hovawart." in capsys.readouterr().out


def test_an_edition_that_is_not_here_is_told(capsys):
    assert main(["rulesets", FCI, "--against", "weimaraner-americana"]) == 2
    captured = capsys.readouterr()
    assert captured.out == ""
    assert AMERICAN in captured.err
