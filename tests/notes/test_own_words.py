"""The evaluator's own words: kept as text, known again, never silently against a clear phrase."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hands_on.notes import OwnWords, build_lexicon, read_note, vocabulary
from hands_on.notes.own_words import (
    LONGEST,
    as_examples,
    dump_own_words,
    in_words,
    parse_own_words,
    remembered,
    without,
)
from hands_on.toml_text.problems import BadText
from tests.bench.load import shipped_wording
from tests.notes.crossing import FAULTS

PLANK = OwnWords(said="a real plank", means="back.level")
DROPPED = OwnWords(said="shelly", read_as="general.bone-fine")

names = st.sampled_from(["", "back.level", "eyes.light", "neck.ewe"])
texts = st.text(min_size=1, max_size=LONGEST).filter(lambda t: t.strip() == t and t.strip())


@st.composite
def phrases(draw):
    means, read_as = draw(st.tuples(names, names).filter(lambda pair: pair[0] != pair[1]))
    return OwnWords(said=draw(texts), means=means, read_as=read_as, region=draw(names))


@given(st.lists(phrases(), max_size=5))
@settings(deadline=None, max_examples=60)
def test_what_is_written_is_read_again_whatever_was_said(words):
    text = dump_own_words(words)
    assert parse_own_words(text, "own.toml") == tuple(words)
    assert text.count("[[words]]\n") >= len(words), "a table a phrase, to be mended by hand"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('[[words]]\nsaid = ""\nmeans = "eyes.light"', "said"),
        ('[[words]]\nsaid = "x"', "own.toml:1"),
        ('[[words]]\nsaid = "x"\nmeans = "a"\nread_as = "a"', "it means what was read"),
        ('[[words]]\nsaid = "x"\nmeans = 3', "own.toml:3"),
        ('[[words]]\nsaid = "x"\nmeant = "a"', "meant"),
        ("format = 9", "format 9"),
        ("[[words]\n", "own.toml:1"),
    ],
)
def test_a_text_that_is_no_such_list_is_told_with_its_line(text, told):
    with pytest.raises(BadText, match=r"own\.toml") as caught:
        parse_own_words(text, "own.toml")
    assert told in str(caught.value)


def test_a_phrase_said_again_gives_way_to_what_it_means_now():
    later = OwnWords(said="A  Real Plank", means="back.soft")
    other = PLANK.model_copy(update={"region": "back"})
    assert remembered((PLANK, DROPPED), (later, other)) == (DROPPED, later, other)
    assert without((PLANK, DROPPED), PLANK) == (DROPPED,)


def test_what_a_phrase_means_in_words():
    assert in_words(PLANK, str.upper) == "means BACK.LEVEL"
    assert in_words(DROPPED, str.upper) == "does not mean GENERAL.BONE-FINE"
    both = PLANK.model_copy(update={"read_as": "back.soft"})
    assert in_words(both, str.upper) == "means BACK.LEVEL, not BACK.SOFT"


def known(lexicon, own, note, region=None):
    return vocabulary(own, lexicon).hold_against(read_note(note, lexicon, region=region), region)


@pytest.mark.parametrize(
    ("note", "degree", "side", "status"),
    [
        ("a real plank", None, None, "present"),
        ("Slightly a real plank.", "slight", None, "present"),
        ("eyes dark, real plank on the left", None, "left", "present"),
        ("not a real plank", None, None, "absent"),
        ("perhaps a real plank", None, None, "unsure"),
    ],
)
def test_a_phrase_is_known_again_with_what_stands_beside_it(lexicon, note, degree, side, status):
    (found,) = known(lexicon, [PLANK], note).faults
    assert (found.id, found.degree, found.side, found.status) == ("back.level", degree, side, status)
    assert found.accepted
    assert found.own


def test_more_said_in_the_clause_is_asked_about(lexicon):
    (found,) = known(lexicon, [PLANK], "a real plank blorp fnord").faults
    assert (found.id, found.accepted) == ("back.level", False)


def test_a_phrase_of_one_region_is_not_known_under_another(lexicon):
    own = [PLANK.model_copy(update={"region": "back"})]
    assert not known(lexicon, own, "a real plank", "head").faults
    assert known(lexicon, own, "a real plank", "back").faults
    assert known(lexicon, own, "a real plank").faults


def test_a_list_made_from_one_before_reads_as_one_made_anew(lexicon):
    before = vocabulary([PLANK, DROPPED], lexicon)
    more = [PLANK, OwnWords(said="blorps", means="eyes.light")]
    assert vocabulary(more, lexicon, before) == vocabulary(more, lexicon)


def test_words_of_an_unknown_fault_change_nothing(lexicon):
    own = [OwnWords(said="a real plank", means="back.of-another-edition")]
    assert known(lexicon, own, "a real plank") == read_note("a real plank", lexicon)


def test_a_vague_reading_gives_way_and_stays_as_the_other_meaning(lexicon):
    note = "a real plank"
    vague = replace(
        read_note("cow hocks", lexicon).faults[0], id="neck.ewe", span=(0, 12), accepted=False, confidence=0.6
    )
    reading = replace(read_note(note, lexicon), faults=(vague,))
    (found,) = vocabulary([PLANK], lexicon).hold_against(reading).faults
    assert (found.id, found.accepted, found.alternatives) == ("back.level", True, ("neck.ewe",))
    dropped = OwnWords(said=note, read_as="neck.ewe")
    assert not vocabulary([dropped], lexicon).hold_against(reading).faults


@pytest.mark.parametrize("fault", FAULTS[::8], ids=lambda f: f[0])
def test_a_clear_phrase_is_never_silenced(lexicon, fault):
    """Whatever was remembered of its words, a clear phrase stays, and is asked about at the most."""
    note = fault[0]
    clear = [f for f in read_note(note, lexicon).faults if f.accepted]
    for found in clear:
        other = "eyes.wall" if found.id != "eyes.wall" else "neck.ewe"
        for own in (
            OwnWords(said=note, read_as=found.id),
            OwnWords(said=note, means=other, read_as=found.id),
            OwnWords(said=note, means=other),
        ):
            after = {f.id: f for f in known(lexicon, [own], note).faults}
            assert found.id in after, own
            assert not (other in after and after[other].accepted), own


def test_what_had_no_reading_teaches_the_likeness_and_nothing_else_does(lexicon):
    put_right = PLANK.model_copy(update={"read_as": "back.soft"})
    assert {e.note for e in as_examples([PLANK, put_right, DROPPED])} == {"a real plank"}
    source = shipped_wording()
    own = OwnWords(said="walks like a wound-up toy soldier", means="movement.stilted")
    taught = build_lexicon(replace(source, examples=(*source.examples, *as_examples([own]))))
    note = "walks like a toy soldier"
    assert {f.id for f in read_note(note, taught).faults} == {"movement.stilted"}
    assert not read_note(note, lexicon).faults
