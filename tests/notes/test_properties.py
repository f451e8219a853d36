"""Any text gets an answer: no exception, spans inside the text, and work that grows with its length only."""

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hands_on.notes import matching, read_note
from hands_on.notes.tokens import MAX_TOKENS, tokenise
from tests.bench.load import shipped_lexicon

REGIONS = [None, "general", "ears", "forequarters", "hindquarters", "movement", "mouth", "nowhere"]
WORDS = [
    *(
        "no",
        "not",
        "neither",
        "nor",
        "or",
        "and",
        "but",
        "too",
        "short",
        "long",
        "steep",
        "shoulder",
        "hocks",
    ),
    *("cow", "a touch", "very", "left", "both", "?", ",", ".", "64,5", "cm", "inches", '25 1/2"', "maybe"),
    *(
        "free of",
        "++",
        "lovely",
        "owner",
        "tail",
        "set",
        "low",
        "in",
        "out",
        "elbows",
        "ears",
        "12",
        "ft",
        "'",
    ),
    *("½", "²", "٣", "犬", "ß"),
]


def check(text, region, point=None):
    reading = read_note(text, shipped_lexicon(), region=region, point=point)
    spans = [f.span for f in reading.faults] + [m.span for m in reading.measures] + list(reading.unread)
    assert all(0 <= a < b <= len(text) for a, b in spans)
    assert all(0.0 <= f.confidence <= 1.0 for f in reading.faults)
    assert all(f.status in ("present", "absent", "unsure") for f in reading.faults)
    assert len({f.id for f in reading.faults}) == len(reading.faults)
    assert reading.note == text
    return reading


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.text(max_size=300), st.sampled_from(REGIONS), st.sampled_from([None, "height", "blade-slope", "x"]))
def test_any_text_of_any_script(text, region, point):
    check(text, region, point)


@settings(max_examples=150, deadline=None)
@given(st.lists(st.sampled_from(WORDS), max_size=25), st.sampled_from(REGIONS))
def test_any_string_of_trade_words(words, region):
    check(" ".join(words), region)


@settings(
    max_examples=8, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
@given(st.lists(st.sampled_from(WORDS), min_size=1, max_size=6), st.sampled_from(REGIONS))
def test_ten_thousand_characters(words, region):
    text = (" ".join(words) + " ") * 10000
    check(text[:10000], region)


def test_reading_is_the_same_twice():
    note = "a touch steep in shoulder, elbows out left, no haw"
    assert read_note(note, shipped_lexicon()) == read_note(note, shipped_lexicon())


def test_no_more_words_than_the_limit_are_looked_at():
    tokens = tokenise(
        "a " * 5000, shipped_lexicon().contractions, shipped_lexicon().shorthand, shipped_lexicon().spoken
    )
    assert len(tokens) == MAX_TOKENS


def test_steps_of_matching_grow_with_the_words_and_no_faster(monkeypatch):
    """Counted in trie steps, not seconds: four times the words, about four times the steps."""
    steps = []
    plain = matching._note

    def counted(*args):
        steps.append(1)
        plain(*args)

    monkeypatch.setattr(matching, "_note", counted)
    text = "slightly short long and steep in shoulder, no haw "
    read_note(text * 10, shipped_lexicon())
    few = len(steps)
    steps.clear()
    read_note(text * 40, shipped_lexicon())
    assert len(steps) <= 4.2 * few
