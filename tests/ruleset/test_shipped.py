"""The rulesets that come with the program: sound, complete in their identifiers, as the guide says."""

import re
import tomllib
from pathlib import Path

import pytest

from hands_on.ruleset.assemble import assemble, read_common_file, read_edition_file
from hands_on.ruleset.check import check_common, check_edition
from hands_on.ruleset.points import faults_of
from hands_on.store.library import Library

ROOT = Path(__file__).parents[2]
RULESETS = ROOT / "rulesets"
GUIDE = (RULESETS / "README.md").read_text(encoding="utf-8")
EXAMPLES = re.findall(r"```toml\n(.*?)```", GUIDE, re.DOTALL)
VOCABULARY = tomllib.loads((ROOT / "tests/data/vocabulary.toml").read_text(encoding="utf-8"))
EDITIONS = sorted(path.stem for path in RULESETS.glob("*.toml"))
NO_RULES = {"language.toml", "cautions.toml"}
"""Files of common/ in formats of their own."""


@pytest.fixture(scope="module")
def library():
    return Library([RULESETS])


def edition_file(name):
    path = RULESETS / f"{name}.toml"
    return read_edition_file(path.read_text(encoding="utf-8"), path.name) if path.is_file() else None


def test_the_common_files_have_no_problem():
    files = [path for path in (RULESETS / "common").glob("*.toml") if path.name not in NO_RULES]
    assert list(map(str, check_common({path.name: path.read_text(encoding="utf-8") for path in files}))) == []


@pytest.mark.parametrize("name", EDITIONS)
def test_each_edition_has_no_problem(name, library):
    text = (RULESETS / f"{name}.toml").read_text(encoding="utf-8")
    found = check_edition(text, f"{name}.toml", library.common(), edition_file)
    assert list(map(str, found)) == []


def test_both_first_editions_are_there():
    assert {"any-dog", "hovawart-fci-190"} <= set(EDITIONS) <= set(VOCABULARY["editions"])


def test_no_identifier_of_the_vocabulary_is_missing(library):
    common = library.common()
    assert set(VOCABULARY["faults"]) - set(common.faults) == set()
    assert set(VOCABULARY["points"]) - set(common.points) == set()
    assert [region.id for region in common.regions] == VOCABULARY["regions"]


def test_the_generic_edition_names_a_class_for_every_fault_it_can_meet(library):
    """It has no general clause, so a fault that no ruling names would come out as `unclassed`."""
    rules = library.load("any-dog")
    ruled = {fault for ruling in rules.edition.rulings for fault in ruling.faults}
    offered = {fault for point in rules.walk_points for fault in faults_of(point)}
    assert offered - ruled == {"mouth.teeth-missing"}  # which the teeth rules class


def test_the_guides_common_examples_load_together():
    file = read_common_file("\n".join(EXAMPLES[:7]), "guide.toml")
    assert {point.kind for point in file.points} == {"measure", "grade", "scale", "choice", "teeth"}
    assert len(file.derived) == 1
    assert [place.id for place in file.landmarks] == ["elbow"]
    assert [(one.id, one.factor) for one in file.harder] == [("long-coat", 1.5)]
    assert [one.measures for one in file.standing] == [("height", "body-length")]
    assert len(file.closures) == 2
    assert len(file.fences) == 1
    assert [row.id for row in file.outcome_sets["fci"]] == ["excellent", "promising"]
    assert file.figure is not None
    assert list(file.figure.seen) == ["forequarters.shoulder-steep"]


def test_the_guides_edition_is_sound_and_builds_on_common(library):
    text = EXAMPLES[7]
    assert list(map(str, check_edition(text, "hovawart-fci-190.toml", library.common(), edition_file))) == []
    rules = assemble([read_edition_file(text, "guide.toml")], library.common())
    assert [limit.id for limit in rules.edition.limits] == ["height-male", "height-female"]


def test_the_generic_edition_asks_nothing_that_needs_a_breed(library):
    rules = library.load("any-dog")
    assert rules.edition.limits == ()
    assert rules.edition.general_clause is not None
    assert rules.edition.general_clause.class_ == "observation", "nothing that needs a breed may count"
    regions = {point.region for point in rules.walk_points if point.kind != "measure"}
    assert regions.isdisjoint({"head", "ears", "neck", "colour"})


FIGURES = {
    # FCI-Standard N° 190, 28.03.2025: sizes and importance of proportions, disqualifying faults
    "height-male": ([63, 70], [63, 70, 73, 73]),
    "height-female": ([58, 65], [58, 65, 68, 68]),
    "body-length-to-height": ([1.10, 1.15], [1.00, 1.00, 1.10, 1.15, 1.20, 1.20]),
    "tail-end-to-hock": ([0], [-5, 0, -5]),
}


@pytest.mark.parametrize("name", FIGURES)
def test_the_hovawarts_figures_are_those_published(name, library):
    limit = next(entry for entry in library.load("hovawart-fci-190").edition.limits if entry.id == name)
    asked, bands = FIGURES[name]

    def ends(stretch):
        return [end for end in (stretch.from_, stretch.above, stretch.to, stretch.below) if end is not None]

    assert ends(limit.asked) == asked
    assert sorted(end for band in limit.bands for end in ends(band)) == sorted(bands)


def test_the_hovawart_has_two_classes_and_knows_the_three_colours(library):
    """FCI-Standard N° 190, 28.03.2025: faults and disqualifying faults; no severe class."""
    rules = library.load("hovawart-fci-190")
    assert [entry.id for entry in rules.edition.classes] == ["fault", "disqualifying"]
    assert set(rules.edition.attributes["colour"].options) == {"black", "black-and-tan", "blond"}
    assert "weight" not in {point.id for point in rules.walk_points}
