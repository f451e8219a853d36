"""A table put into a TOML text: only its own values change."""

import tomllib

from hypothesis import given
from hypothesis import strategies as st

from hands_on.toml_text.entry import put_entry, take_out, toml_value

TEXT = """# head
id = "x"

[sources]
S = "a"   # read twice

# heights by sex
[[limits]]
id = "height-male"    # dogs
# the ends belong
asked = { from = 50, to = 55 }
note = "old"

# teeth come next
[teeth]
exempt = ["M3"]
"""


def by_id(name):
    return lambda row: row.get("id") == name


def test_an_entry_is_changed_where_it_stands_and_comments_stay():
    new = {"id": "height-male", "asked": {"from": 51, "to": 55}, "unit": "cm"}
    text = put_entry(TEXT, "[[limits]]", new, by_id("height-male"))
    assert tomllib.loads(text)["limits"] == [new]
    for comment in (
        "# head",
        "# read twice",
        "# heights by sex",
        "# dogs",
        "# the ends belong",
        "# teeth come next",
    ):
        assert comment in text
    assert text.index("[[limits]]") < text.index("# teeth come next") < text.index("[teeth]")


def test_a_new_entry_stands_behind_the_last_of_its_kind():
    text = put_entry(TEXT, "[[limits]]", {"id": "height-female"}, by_id("height-female"))
    assert [row["id"] for row in tomllib.loads(text)["limits"]] == ["height-male", "height-female"]
    assert text.index("height-female") < text.index("# teeth come next")


def test_a_table_of_a_new_kind_stands_at_the_end():
    text = put_entry(TEXT, '[asked."eyes.colour"]', {"text": 'a "b"\n'})
    assert tomllib.loads(text)["asked"] == {"eyes.colour": {"text": 'a "b"\n'}}


def test_what_is_taken_out_leaves_the_rest():
    text = take_out(TEXT, "[[limits]]", by_id("height-male"))
    assert tomllib.loads(text) == {"id": "x", "sources": {"S": "a"}, "teeth": {"exempt": ["M3"]}}


values = st.recursive(
    st.booleans()
    | st.integers(-(10**6), 10**6)
    | st.floats(-1e6, 1e6).map(lambda n: round(n, 3))
    | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(min_size=1), inner, max_size=3),
    max_leaves=8,
)


@given(values)
def test_a_value_is_read_as_it_was_written(value):
    assert tomllib.loads(f"v = {toml_value(value)}")["v"] == value


def test_an_entry_goes_before_the_one_that_it_must_precede_and_above_its_comments():
    text = put_entry(TEXT, "[[limits]]", {"id": "height-toy"}, by_id("height-toy"), by_id("height-male"))
    assert [row["id"] for row in tomllib.loads(text)["limits"]] == ["height-toy", "height-male"]
    assert text.index("height-toy") < text.index("# heights by sex") < text.index("height-male")
