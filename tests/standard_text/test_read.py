"""A standard's text gives what a reader finds in it: figures, faults with their classes."""

import re
import tomllib
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hands_on.notes import build_lexicon
from hands_on.standard_text import read_standard
from hands_on.standard_text.cut import sentences
from hands_on.standard_text.numbers import figures, plain_numbers
from hands_on.store.library import Library
from hands_on.store.wording import wording

ROOT = Path(__file__).parents[2]
TEXTS = ROOT / "tests" / "data" / "standards"
EXPECTED = tomllib.loads((TEXTS / "expected.toml").read_text(encoding="utf-8"))


@cache
def lexicon():
    return build_lexicon(wording(Library([ROOT / "rulesets"]), "any-dog"))


@cache
def read(name):
    return read_standard((TEXTS / f"{name}.txt").read_text(encoding="utf-8"), lexicon())


def proposed(name, kind):
    """The last proposal of each key: what the keeper has who confirms all."""
    return {p.key: p.table for one in read(name).reads for p in one.proposals if p.kind == kind}


def fits(row, table):
    asked = table["asked"]
    ends = {key: row[key] for key in ("from", "to", "above", "below") if key in row}
    if any(asked.get(key) != value for key, value in ends.items()):
        return False
    if "ours" in row and not asked.get("from", asked.get("above", 0)) < row["ours"] < asked.get("to", 0):
        return False
    known = {value for band in table.get("bands", ()) for value in band.values() if isinstance(value, float)}
    return set(row.get("beyond", ())) <= known


def classes_of(name):
    out = {}
    for table in proposed(name, "rulings").values():
        for fault in table["faults"]:
            out.setdefault(fault, set()).update(table.get("by_degree", {}).values() or {table["class"]})
    return out


@pytest.mark.parametrize("name", EXPECTED)
def test_at_least_80_of_100_figures_are_proposed_rightly(name):
    limits = proposed(name, "limits")
    rows = EXPECTED[name]["figures"]
    wrong = [row for row in rows if row["limit"] not in limits or not fits(row, limits[row["limit"]])]
    assert len(wrong) <= 0.2 * len(rows), wrong


@pytest.mark.parametrize("name", EXPECTED)
def test_at_least_70_of_100_faults_are_proposed_with_their_class(name):
    given_classes = classes_of(name)
    rows = [(cls, fault) for cls, faults in EXPECTED[name]["faults"].items() for fault in faults]
    wrong = [(cls, fault) for cls, fault in rows if cls not in given_classes.get(fault, ())]
    assert len(wrong) <= 0.3 * len(rows), wrong


@pytest.mark.parametrize("name", EXPECTED)
def test_every_sentence_is_told_and_those_without_a_proposal_are_listed(name):
    text = read(name)
    kept = re.sub(r"\W", "", " ".join(one.sentence.text for one in text.reads)).lower()
    for line in (TEXTS / f"{name}.txt").read_text(encoding="utf-8").splitlines():
        last = re.findall(r"[a-z]{4,}(?=[.;]$)", line.strip())
        assert not last or last[-1] in kept, line
    assert {one.sentence.number for one in text.unread} == {
        one.sentence.number for one in text.reads if not one.proposals and not one.sentence.heading
    }


@pytest.mark.parametrize("name", EXPECTED)
def test_no_run_of_five_words_of_the_text_stands_in_a_rule(name):
    words = re.findall(r"[a-z]+", " ".join(one.sentence.text for one in read(name).reads).lower())
    runs = {" ".join(words[n : n + 5]) for n in range(len(words) - 4)}
    for one in read(name).reads:
        for proposal in one.proposals:
            if proposal.kind in ("general_clause", "remarks"):
                continue  # fixed words of ours
            for key in ("text", "words", "note", "label"):
                said = re.findall(r"[a-z]+", str(proposal.table.get(key, "")).lower())
                assert not runs & {" ".join(said[n : n + 5]) for n in range(len(said) - 4)}, proposal


FIGURES = {
    # common ways of writing sizes; ends by plain reading of the English
    "dogs 56-61 cm (22-24 in)": [(56, 61, "cm")],
    "between twenty-two and twenty-four and one-half inches": [(22, 24.5, "in")],
    '23\u00bd" to 25"': [(23.5, 25, "in")],
    "not over 70 lbs": [(None, 70, "lb")],
    "at least 42 teeth": [(42, None, None)],
    "24 inches (61 cm) to 26 inches (66 cm)": [(24, 26, "in")],
    "64,5 cm": [(64.5, 64.5, "cm")],
    "22 inches or under": [(None, 22, "in")],
    "over 28 cm up to 35 cm": [(28, 35, "cm")],
    "half an inch": [(0.5, 0.5, "in")],
    "an angle of about 45\u00b0": [(45, 45, "deg")],
    "27 inches/68.5 cm": [(27, 27, "in")],
    "ratio 9 : 10": [],
}


@pytest.mark.parametrize("said", FIGURES)
def test_figures_however_they_are_written(said):
    plain = plain_numbers(said.replace("\u00bd", " 1/2"))
    assert [(one.low, one.high, one.unit) for one in figures(plain)] == FIGURES[said]


def test_what_a_pdf_adds_is_taken_away():
    """Running heads, page numbers, words broken at line ends, two columns side by side."""
    left = [
        "HEAD",
        "Skull broad and slightly arch-",
        "ed between the ears, never",
        "coarse.",
        "NECK",
        "Long.",
    ]
    right = [
        "TAIL",
        "Set on low, carried level with",
        "the back in movement, never",
        "curled.",
        "COAT",
        "Dense.",
    ]
    page = "\n".join(f"{a:<34}{b}" for a, b in zip(left, right, strict=True))
    text = f"Standard of the Nowhere Dog\n{page}\n1\n\fStandard of the Nowhere Dog\nFEET: Round.\n2\n"

    said = [(one.paragraph, one.text) for one in sentences(text)]

    assert said == [
        ("HEAD", "Skull broad and slightly arched between the ears, never coarse."),
        ("NECK", "Long."),
        ("TAIL", "Set on low, carried level with the back in movement, never curled."),
        ("COAT", "Dense."),
        ("FEET", "Round."),
    ]


def test_a_heavier_class_for_a_greater_degree_stands_above_the_lighter_one():
    text = "FAULTS\nRoach back.\nDISQUALIFYING FAULTS\nStrongly roached back.\n"
    tables = [
        p.table for one in read_standard(text, lexicon()).reads for p in one.proposals if p.kind == "rulings"
    ]
    assert tables[-1]["by_degree"] == {"slight": "fault", "marked": "disqualifying"}


@settings(max_examples=40, deadline=None)
@given(st.text(alphabet=st.sampled_from('abc ABC.,;:-\n\f012/"()\u00b0\u2022%'), max_size=200))
def test_no_text_is_too_odd_to_read(text):
    read_standard(text, lexicon())


def test_numbered_headings_and_small_headings_within_a_list_in_capitals():
    text = (
        "1. Head\nSkull broad.\n2. Size\n2.1 Height: males 24-26 in at the shoulder.\n\n"
        "FAULTS\nHead\nSnipy muzzle.\nTail\nKinked.\nDISQUALIFYING FAULTS\nWry jaw.\n"
    )
    said = [(one.paragraph, one.cls, one.text) for one in sentences(text) if not one.heading]
    assert said == [
        ("Head", "", "Skull broad."),
        ("Size / Height", "", "males 24-26 in at the shoulder."),
        ("FAULTS / Head", "fault", "Snipy muzzle."),
        ("FAULTS / Tail", "fault", "Kinked."),
        ("DISQUALIFYING FAULTS", "disqualifying", "Wry jaw."),
    ]
