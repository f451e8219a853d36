"""The second opinion on words, against scikit-learn's classifier, and what it adds to the reading."""

from collections import Counter

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sklearn.feature_extraction.text import TfidfVectorizer
from sklearn.naive_bayes import MultinomialNB

from hands_on.notes import WordingSource, build_lexicon, read_note
from hands_on.notes.language import Language
from hands_on.notes.likeness import NEITHER, NOTHING, RIGHT, Sample, _evidence, learn
from hands_on.notes.phrase_trie import END
from hands_on.notes.source import Example, examples_from_notes

NAMES = {
    "ear": {END: [("P", "ear")]},
    "hang": {"low": {END: [("Q", "set-low")]}},
    "low": {END: [("Q", "low")]},
}
WORDS = ("ear", "low", "hang", "tail", "set", "gay", "rain", "owner", "flat")
SAMPLES = [
    Sample(("ear", "low"), "ears", "ears.low-set"),
    Sample(("ear", "hang", "low"), "ears", "ears.low-set"),
    Sample(("tail", "gay"), "croup-tail", "croup-tail.carried-high"),
    Sample(("tail", "set", "low"), "croup-tail", "croup-tail.set-low"),
    Sample(("feet", "flat", "flat"), "forefeet", "forefeet.flat"),
    Sample(("rain", "again"), None, NOTHING),
    Sample(("owner", "set", "again"), "ears", NOTHING),
]


@given(words=st.lists(st.sampled_from(WORDS), min_size=1, max_size=6), region=st.sampled_from([None, "ears"]))
@settings(max_examples=60, deadline=None)
def test_scores_are_those_of_scikit_learn(words, region):
    """As of sklearn's MultinomialNB on its TfidfVectorizer (alpha 0.15, uniform prior), no pair met once."""
    own = learn(SAMPLES, NAMES)
    notes = [_evidence(s.stems, s.region, NAMES) for s in SAMPLES]
    times = Counter(name for note in notes for name in set(note))
    once = {name for name, n in times.items() if n == 1 and " " in name}
    vectorizer = TfidfVectorizer(
        analyzer=lambda found: [n for n in found if n not in once], sublinear_tf=True
    )
    x = vectorizer.fit_transform(notes)
    model = MultinomialNB(alpha=0.15, fit_prior=False).fit(x, [s.fault for s in SAMPLES])
    log_likelihood = model.predict_joint_log_proba(vectorizer.transform([_evidence(words, region, NAMES)]))[
        0
    ] - np.log(1 / len(model.classes_))
    theirs = dict(zip(model.classes_, log_likelihood, strict=True))
    assert own.scores(words, region) == pytest.approx(theirs, abs=1e-9)


def test_labelled_notes_of_another_form_teach_nothing():
    odd = [{"note": "x", "faults": ["cow"]}, {"note": "x"}, {"note": 3, "faults": []}, {"faults": [{}]}]
    two = {"note": "cow hocks, flat feet", "faults": [{"id": "a.b"}, {"id": "c.d"}]}
    assert examples_from_notes([*odd, two]) == ()
    good = [{"note": "cow hocks", "region": None, "faults": [{"id": "hindquarters.cow-hocks"}]}]
    assert examples_from_notes(good) == (Example("cow hocks", None, "hindquarters.cow-hocks"),)


def test_a_note_teaches_the_one_point_it_calls_right_or_that_it_calls_none():
    """Of two points each may be meant by any of the words; where nobody told, nothing is known."""

    def taught(note):
        return [example.right for example in examples_from_notes([{"note": "x", "faults": []} | note])]

    assert taught({"affirmed": ["neck.throat"]}) == [("neck.throat",)]
    assert taught({"affirmed": []}) == [()]
    assert taught({}) == [None]
    source = WordingSource(
        language=Language(),
        examples=(
            Example("dry under the jaw", "neck", None, ("neck.throat",)),
            Example("gate shut", None, None, ()),
            Example("all of it fine", None, None, ("neck.throat", "mouth.bite")),
            Example("parked outside", None, None),
        ),
    )
    learned = build_lexicon(source).likeness
    assert set(learned.faults) == {NOTHING, NEITHER, RIGHT + "neck.throat"}
    dry = learned.scores(["dry", "jaw"], "neck")
    assert max(dry, key=dry.__getitem__) == RIGHT + "neck.throat"


def test_unknown_words_are_like_nothing_at_all():
    assert learn(SAMPLES, NAMES).scores(["xylophone"], "ears") == {}


@pytest.mark.parametrize(
    ("note", "region", "fault"),
    [
        ("The stop is not sufficiently marked", "head", "head.stop-lacking"),
        ("overbuilt, stands downhill from rump to withers", "movement", "back.croup-high"),
    ],
)
def test_what_no_wording_names_is_offered_by_its_likeness(note, region, fault, lexicon):
    found = read_note(note, lexicon, region=region).faults
    assert [(f.id, f.status) for f in found] == [(fault, "present")]


@pytest.mark.parametrize(
    ("note", "region"),
    [
        ("photographer stood on my foot", "forefeet"),
        ("lunch late, the soup was thin", "coat-skin"),
        ("long discussion with the breed warden about the entry sheet", "head"),
    ],
)
def test_chatter_is_like_no_fault(note, region, lexicon):
    assert read_note(note, lexicon, region=region).faults == ()
