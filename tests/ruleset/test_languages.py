"""An edition with texts in another language shows them where it is chosen, and judges alike in all."""

from pathlib import Path

import pytest

from hands_on.store.critiques import critique_tongue
from hands_on.store.library import Library

SHIPPED = Path(__file__).parents[2] / "rulesets"
MORE = """
[languages.de.labels]
"eyes.light" = "Helles Auge"
disqualifying = "Ausschließender Fehler"
[languages.de.asked]
"eyes.colour" = "braun oder haselnussfarben"
"""


def loaded(folder, more=MORE):
    text = (SHIPPED / "labrador-fci-122.toml").read_text(encoding="utf-8")
    (folder / "lab.toml").write_text(text.replace('"labrador-fci-122"', '"lab"', 1) + more, encoding="utf-8")
    return Library([SHIPPED, folder]).load("lab")


@pytest.mark.parametrize(
    ("code", "label"), [("de_DE.UTF-8", "Helles Auge"), ("fr", "Light eyes"), ("", "Light eyes")]
)
def test_labels_and_asked_texts_of_the_language_chosen(tmp_path, monkeypatch, code, label):
    monkeypatch.setenv("HANDS_ON_LANG", code)
    monkeypatch.setenv("LC_ALL", "C")
    rules = loaded(tmp_path)
    assert rules.faults["eyes.light"].label == label
    german = label == "Helles Auge"
    assert (rules.edition.asked["eyes.colour"].text == "braun oder haselnussfarben") is german
    assert (rules.classes["disqualifying"].label == "Ausschließender Fehler") is german


def test_the_rules_and_their_digest_are_the_same_in_every_language(tmp_path, monkeypatch):
    monkeypatch.setenv("HANDS_ON_LANG", "de")
    german = loaded(tmp_path)
    monkeypatch.setenv("HANDS_ON_LANG", "en")
    english = loaded(tmp_path)
    assert german.digest == english.digest
    assert german.edition.rulings == english.edition.rulings


def test_a_text_for_an_unknown_id_is_an_error(tmp_path):
    from hands_on.ruleset.check import check_edition

    text = (SHIPPED / "labrador-fci-122.toml").read_text(encoding="utf-8")
    text += '\n[languages.de.labels]\n"eyes.lihgt" = "Helles Auge"\n'
    found = list(
        map(str, check_edition(text, "labrador-fci-122.toml", Library([SHIPPED]).common(), lambda _: None))
    )
    assert any("eyes.lihgt" in one for one in found)


GERMAN = ("boxer-fci-144", "bernese-fci-45")


@pytest.mark.parametrize("name", GERMAN)
def test_what_is_shipped_in_german_leaves_no_walked_point_and_no_ruled_fault_in_english(name, monkeypatch):
    monkeypatch.setenv("HANDS_ON_LANG", "en")
    english = Library([SHIPPED]).load(name)
    monkeypatch.setenv("HANDS_ON_LANG", "de")
    german = Library([SHIPPED]).load(name)
    tongue = german.edition.languages["de"]
    assert {one.id for one in german.regions} <= set(tongue.labels)
    assert {point.id for point in german.walk_points} <= set(tongue.labels)
    options = {
        f"{point.id}.{one.id}" for point in german.walk_points for one in getattr(point, "options", ())
    }
    assert options <= set(tongue.labels)
    assert {*german.classes, *(one.id for one in german.edition.outcomes)} <= set(tongue.labels)
    assert set(tongue.asked) == set(english.edition.asked)
    ruled = {fault for ruling in german.edition.rulings if ruling.class_ != "none" for fault in ruling.faults}
    assert ruled <= set(tongue.labels)
    assert german.digest == english.digest


def test_a_choice_shows_its_options_in_the_language_chosen(monkeypatch):
    monkeypatch.setenv("HANDS_ON_LANG", "de")
    bite = Library([SHIPPED]).load("bernese-fci-45").points["mouth.bite"]
    assert {one.id: one.label for one in bite.options}["scissors"] == "Schere"


def test_a_noun_stays_large_within_a_german_sentence(monkeypatch):
    for code, label in (("de", "Kuhhessig"), ("en", "cow hocks")):
        monkeypatch.setenv("HANDS_ON_LANG", code)
        assert Library([SHIPPED]).load("boxer-fci-144").label_within("hindquarters.cow-hocks") == label


def test_a_critique_is_drafted_in_the_language_that_the_edition_is_shown_in_where_there_is_one(monkeypatch):
    library = Library([SHIPPED])
    monkeypatch.setenv("LC_ALL", "C")
    for code, edition, tongue in (
        ("de", "bernese-fci-45", "de"),
        ("de", "hovawart-fci-190", "en"),  # no German texts in that edition
        ("en", "bernese-fci-45", "en"),
    ):
        monkeypatch.setenv("HANDS_ON_LANG", code)
        assert critique_tongue(library, Library([SHIPPED]).load(edition).language) == tongue
    assert critique_tongue(library, "fr") == "en"
