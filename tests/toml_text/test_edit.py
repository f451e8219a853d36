"""A value changed in a TOML text: the new one is read and everything else as before."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hands_on.toml_text.edit import with_text

TEXT = '''# a comment with id = "x"
id = "old" # beside it
other = """
title = "not this one"
"""
"title" = """
two
lines"""
[table]
id = "deeper"
'''


@given(value=st.text(st.characters(exclude_categories=["Cs"])))
@pytest.mark.parametrize("key", ["id", "title"])
@pytest.mark.parametrize("ends", ["\n", "\r\n"])
def test_only_the_named_value_changes(key, ends, value):
    text = TEXT.replace("\n", ends)
    changed = with_text(text, key, value)
    assert tomllib.loads(changed) == tomllib.loads(text) | {key: value}
    assert "# beside it" in changed
    assert changed.count(ends) >= text.count(ends) - 2


def test_a_key_of_a_table_or_none_at_all_is_refused():
    for key in ("deeper", "table", "nothing"):
        with pytest.raises(KeyError):
            with_text(TEXT, key, "x")
