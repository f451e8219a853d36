"""Freakish texts are refused, with their line, before anything is built on them."""

from __future__ import annotations

import tomllib
import tracemalloc

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hands_on.exam.check import check_session
from hands_on.toml_text.bounds import DEEPEST, LARGEST_TEXT, LONGEST_WORD, MOST_VALUES
from hands_on.toml_text.problems import LONGEST, MOST_SHOWN, BadText
from hands_on.toml_text.tables import parse_tables

HEAD = 'format = 1\n[ruleset]\nid = "any-dog"\n'

FREAKS = {
    "a whole number of 6,000 digits": (HEAD + "[x]\ny = " + "9" * 6000, 5),
    "a format of 5,000 hexadecimal digits": ("\nformat = 0x" + "f" * 5000, 2),
    "a number of 65 bits": ("a = 1\nformat = 0x1" + "0" * 16, 2),
    "a number of 65 bits in a list": ("a = [[1], [-9223372036854775809]]", 1),
    "a number of 900 digits in a table of a list": ("[[a]]\nb = 1\n[[a]]\nb = {c = " + "9" * 900 + "}", 4),
    "a key of 20,000 parts": ("a = 1\n" + ".".join("k" * 20_000) + " = 1", 2),
    "a quoted key of 20,000 parts": (".".join(['"k"'] * 20_000) + " = 1", 1),
    "a key of spaced parts": (" . ".join("k" * 1000) + " = 1", 1),
    "a header of 20,000 parts": ("[" + ".".join("k" * 20_000) + "]", 1),
    "brackets in brackets": ("\n\na = " + "[" * 5000, 3),
    "tables in tables": ("a = " + "{b.c.d = " * 100, 1),
    "a list of millions": ("a = [" + "1," * (MOST_VALUES + 1) + "]", 1),
    "headers by the thousand": (
        "".join(f"[k{n}]\n" for n in range(MOST_VALUES + 1)),
        MOST_VALUES + 1,
    ),
    "a key of 2,000 letters": ("k" * (2 * LONGEST_WORD) + " = 1", 1),
    "a text of many megabytes": ("# " + "x" * LARGEST_TEXT, None),
}


@pytest.mark.parametrize("name", FREAKS)
def test_what_no_session_or_ruleset_is_like_is_refused_with_its_line(name: str) -> None:
    text, line = FREAKS[name]
    with pytest.raises(BadText) as caught:
        parse_tables(text, "freak.toml")
    (problem,) = caught.value.problems
    assert problem.line == line
    assert problem.right
    assert len(str(problem)) < 500


def test_a_key_of_many_parts_takes_no_memory() -> None:
    """The parser would take 1.6 GB for these 40 KB."""
    text = ".".join("k" * 20_000) + " = 1"
    tracemalloc.start()
    with pytest.raises(BadText):
        parse_tables(text, "freak.toml")
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < 1_000_000


@pytest.mark.parametrize(
    "text",
    [
        "a = 9223372036854775807\nb = -9223372036854775808",
        "a = [" + "[" * (DEEPEST - 1) + "]" * DEEPEST,
        ".".join("k" * (DEEPEST + 1)) + " = 1",
        'a = "' + "[" * 1000 + '"',
        "a = '" + "." * 1000 + "'",
        'a = """\n' + "[.=,\n" * 1000 + '""""',
        "a = '''\n" + "{.\n" * 1000 + "''''",
        "# " + "[." * 1000,
        "\n".join(f"k{n} = 1.5" for n in range(100)),
        "a = [\n" + "1.5,\n" * 100 + "]",
        'a = "\\"' + "[" * 1000 + '"',
        "k" * LONGEST_WORD + " = 1",
    ],
)
def test_what_toml_allows_within_bounds_is_read_as_the_standard_library_reads_it(text: str) -> None:
    assert parse_tables(text, "a.toml") == tomllib.loads(text)


@given(st.text(alphabet="[]{}.,=\n\"'#\\ ab19x_-", max_size=60))
def test_any_text_is_read_as_the_standard_library_reads_it_or_refused_with_words(text: str) -> None:
    """So short a text is never refused for its size."""
    try:
        expected = tomllib.loads(text)
    except ValueError:
        with pytest.raises(BadText):
            parse_tables(text, "a.toml")
    else:
        assert parse_tables(text, "a.toml") == expected


def test_of_very_many_problems_the_first_are_told_and_the_others_counted() -> None:
    """A list of wrong rows: as the model finds them."""
    found = check_session(HEAD + "[[takes]]\nvalue = 1\n" * 5000, "a.toml", None, [])
    assert len(found) == MOST_SHOWN + 1
    assert "4900 more errors" in found[-1].what


def test_equal_rows_are_told_once_each_and_only_so_many_of_them(rules) -> None:
    """Each row against the first of its like, not against every other one."""
    row = '[[grades]]\npoint = "hindquarters.hocks"\nfault = "hindquarters.cow-hocks"\n'
    text = f'format = 1\n[ruleset]\nid = "{rules.id}"\n' + row * 1000
    found = check_session(text, "a.toml", rules, [])
    assert any("recorded here twice, the first time in grades[1]" in problem.what for problem in found)
    assert len(found) <= 2 * MOST_SHOWN + 2
    assert sum(len(str(problem)) for problem in found) < 50_000


def test_a_long_word_is_quoted_in_part_only() -> None:
    text = 'format = 1\n[ruleset]\nid = "' + "x" * 100_000 + '"\n'
    assert all(len(problem.what) <= LONGEST for problem in check_session(text, "a.toml", None, []))
