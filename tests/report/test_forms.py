"""The forms of a report: what was typed is text in each of them, HTML is sound, JSON keeps its schema."""

import csv
import io
import json
from contextlib import redirect_stdout
from functools import cache
from pathlib import Path

import html5lib
import jsonschema
import pytest

from hands_on.cli import main
from tests.report.hostile import HOSTILE

DEMO = sorted(Path("sessions").glob("*.toml"))
SVG = "{http://www.w3.org/2000/svg}"
ROUND = [str(path) for path in DEMO]


def reported(capsys, *arguments):
    assert main(["report", *map(str, arguments)]) == 0
    return capsys.readouterr().out


def parsed(text):
    """The page by the algorithm of the HTML standard; an error in it fails."""
    return html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(text)


@cache
def page_of(demo):
    """The page of a demo session, read once for all tests that look at it."""
    printed = io.StringIO()
    with redirect_stdout(printed):
        assert main(["report", str(demo), "--to", "html"]) == 0
    return parsed(printed.getvalue())


@pytest.fixture
def hostile(tmp_path):
    path = tmp_path / "hostile.toml"
    path.write_text(HOSTILE, encoding="utf-8")
    return path


@pytest.mark.parametrize("demo", DEMO, ids=lambda path: path.stem)
def test_html_parses_without_an_error_and_asks_for_nothing_from_outside(demo):
    page = page_of(demo)
    assert page.get("lang") == "en"
    assert page.find("head/title").text.strip()
    assert [page.findall(f".//{name}") for name in ("script", "link", "img", "iframe", "object")] == [[]] * 5
    for element in page.iter():
        assert not any(name in element.attrib for name in ("src", "onclick", "onload", "style")), element.tag
        assert element.get("href", "#").startswith("#")
    assert "@import" not in page.find("head/style").text
    assert "url(" not in page.find("head/style").text


@pytest.mark.parametrize("demo", DEMO, ids=lambda path: path.stem)
def test_html_can_be_found_ones_way_in_by_reader_and_keyboard(demo):
    page = page_of(demo)
    assert [len(page.findall(f".//{name}")) for name in ("header", "main", "footer", "h1")] == [1, 1, 1, 1]
    ids = [element.get("id") for element in page.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    for link in page.findall(".//nav//a"):
        assert link.get("href")[1:] in ids
    for section in page.findall(".//section"):
        assert section.get("aria-labelledby") in ids
    for table in page.findall(".//table"):
        assert table.find("caption").text.strip()
        assert all(cell.get("scope") == "col" for cell in table.findall("thead//th"))
        assert all(row.find("th").get("scope") == "row" for row in table.findall("tbody/tr"))
    drawings = page.findall(f".//{SVG}svg")
    assert drawings
    for drawing in drawings:
        assert drawing.get("role") == "img"
        assert all(name in ids for name in drawing.get("aria-labelledby").split())


def test_html_holds_every_part_that_a_report_has():
    page = page_of(DEMO[1])
    titles = [title.text.strip() for title in page.findall(".//h2")]
    assert titles == [
        "How the dog stands", "Dog and examination", "Critique", "Findings", "No fault here",
        "Measurements and proportions",
        "Drawing", "The evaluator's own", "Notes", "What was examined", "Not examined", "What was recorded",
        "Cautions", "Edition and sources",
    ]  # fmt: skip


def text_of(element):
    return "".join(element.itertext())


def test_hostile_words_are_text_in_html(hostile, capsys):
    page = parsed(reported(capsys, hostile, "--to", "html"))
    assert page.findall(".//script") == page.findall(".//img") == page.findall(".//body//b") == []
    told = text_of(page.find("body"))
    for words in (
        "<script>alert(1)</script>=cmd()", "<img src=x onerror=alert(2)>", "</style><script>1</script>",
        "</body><script>alert(3)</script>", "<h1>big</h1>", "<script>alert(4)</script>", "<i>coat</i>",
        "=HYPERLINK(1)</table>", "<b>why</b>", "<i>best</i>",
    ):  # fmt: skip
        assert words in told, words
    assert "\x1b" not in told
    assert "\u202e" not in told
    assert "␛[31m" in told


def test_hostile_words_are_text_in_markdown(hostile, capsys):
    from markdown_it import MarkdownIt

    source = reported(capsys, hostile)
    tokens = MarkdownIt("commonmark").enable("table").parse(source)
    kinds = {token.type for token in tokens} | {
        child.type for token in tokens for child in token.children or () if token.type == "inline"
    }
    assert not kinds & {
        "html_block",
        "html_inline",
        "link_open",
        "image",
        "code_inline",
        "fence",
        "code_block",
    }
    headings = [tokens[n + 1].content for n, token in enumerate(tokens) if token.type == "heading_open"]
    assert "no heading" not in " ".join(headings)
    assert "heading" not in headings
    assert "\x1b" not in source


def cells(text):
    return list(csv.reader(io.StringIO(text)))


def test_no_cell_of_a_table_begins_a_formula(hostile, capsys):
    rows = cells(reported(capsys, hostile, "--to", "csv"))
    assert rows[0][:7] == ["session", "dog", "evaluator", "date", "edition", "region", "point"]
    found = {cell for row in rows for cell in row}
    assert "'=cmd()|'/C calc'!A0 <b>xxxxx</b>" in found
    assert any(cell.startswith("'=HYPERLINK(1)") for cell in found)
    numbers = [rows[0].index(name) for name in ("value", "u")]
    for row in rows[1:]:
        for place, cell in enumerate(row):
            if place not in numbers:
                assert cell[:1] not in ("=", "+", "-", "@", "\t", "\r", "＝", "＋")
            elif cell:
                float(cell)


def test_a_table_has_one_row_a_recorded_point_and_units_of_their_own(capsys):
    rows = list(csv.DictReader(io.StringIO(reported(capsys, DEMO[1], "--to", "csv"))))
    points = [row["point"] for row in rows]
    assert len(points) == len(set(points))
    height = next(row for row in rows if row["point"] == "height")
    # three takes of 68.0, 68.5 and 68.0 cm
    assert (height["value"], height["unit"], height["takes"]) == ("68.1667", "cm", "3")
    hocks = next(row for row in rows if row["point"] == "hindquarters.hocks")
    assert (hocks["faults"], hocks["degrees"], hocks["sides"]) == ("hindquarters.cow-hocks", "slight", "left")
    skipped = next(row for row in rows if row["point"] == "white-chest-size")
    assert (skipped["state"], skipped["answer"]) == ("skipped", "no white there to measure")


@pytest.fixture(scope="module")
def schema():
    text = Path("hands_on/report/report.schema.json").read_text(encoding="utf-8")
    found = json.loads(text)
    jsonschema.Draft202012Validator.check_schema(found)
    return found


@pytest.mark.parametrize("demo", DEMO, ids=lambda path: path.stem)
def test_json_keeps_the_published_schema(demo, schema, capsys):
    document = json.loads(reported(capsys, demo, "--to", "json"))
    jsonschema.Draft202012Validator(schema).validate(document)


def test_json_of_a_hostile_session_and_the_schema_that_is_printed(hostile, schema, capsys):
    document = json.loads(reported(capsys, hostile, "--to", "json"))
    jsonschema.Draft202012Validator(schema).validate(document)
    assert document["critiques"]["page"]["edited"] is True
    assert document["critiques"]["page"]["text"].startswith("<script>alert(4)")
    assert document["critiques"]["paragraph"]["edited"] is False
    assert json.loads(reported(capsys, "--schema")) == schema


def test_a_document_that_lacks_a_key_falls_short_of_the_schema(schema, capsys):
    document = json.loads(reported(capsys, DEMO[0], "--to", "json"))
    del document["findings"]
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.Draft202012Validator(schema).validate(document)


# --- critique alone ----------------------------------------------------------------------------------------


def test_the_critique_alone_and_what_each_sentence_rests_on(capsys):
    text = reported(capsys, DEMO[1], "--critique", "--length", "catalogue")
    assert len(text.strip().splitlines()) == 3
    german = reported(capsys, DEMO[1], "--critique", "--language", "de")
    assert "Brumo vom Beispielhof ist ein Rüde" in german
    told = reported(capsys, DEMO[1], "--critique", "--answers")
    assert "hindquarters.hocks" in told
    assert main(["report", str(DEMO[1]), "--critique", "--language", "xx"]) == 2
    assert "Known here: en, de." in capsys.readouterr().err


def test_the_words_that_the_evaluator_edited_are_those_of_the_report(hostile, capsys):
    assert "alert(4)" in reported(capsys, hostile, "--critique")
    assert "alert(4)" not in reported(capsys, hostile, "--critique", "--length", "paragraph")


# --- several -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "title"),
    [("comparison", "What differs"), ("agreement", "Disagreed on most")],
)
def test_several_sessions_in_html(kind, title, capsys):
    page = parsed(reported(capsys, *ROUND, "--as", kind, "--to", "html"))
    assert title in [found.text.strip() for found in page.findall(".//h2")]


def test_a_dog_over_age_is_plotted_with_the_band_that_is_asked(tmp_path, capsys):
    paths = []
    for number, (day, height) in enumerate(
        [("2024-05-01", 66.0), ("2025-05-01", 67.0), ("2026-05-01", 67.2)]
    ):
        path = tmp_path / f"{number}.toml"
        path.write_text(
            'format = 1\n[ruleset]\nid = "hovawart-fci-190"\n[dog]\ncall_name = "A</title><b>"\n'
            'chip = "1"\nsex = "male"\nborn = 2022-05-14\n[examination]\nevaluator = "E"\n'
            f"started = {day}T09:30:00+02:00\n"
            f'[[takes]]\npoint = "height"\nvalue = {height}\n',
            encoding="utf-8",
        )
        paths.append(path)
    page = parsed(reported(capsys, *paths, "--to", "html"))
    plot, then_and_now = page.findall(f".//{SVG}svg")
    assert "Over it, in chain lines: then, at" in text_of(then_and_now)
    assert len(plot.findall(f".//{SVG}circle")) == 3
    assert len(plot.findall(f".//{SVG}rect")) == 1
    # FCI 190 asks 63 to 70 cm of a dog
    assert "asked of the grown dog, 63 to 70" in text_of(plot)
    assert page.findall(".//body//b") == []


# --- the file ----------------------------------------------------------------------------------------------


def test_a_file_that_is_there_stays_unless_it_is_said_to_go(tmp_path, capsys):
    out = tmp_path / "report.html"
    out.write_text("mine")
    assert main(["report", str(DEMO[0]), "--out", str(out)]) == 2
    assert out.read_text() == "mine"
    assert "--force" in capsys.readouterr().err
    assert main(["report", str(DEMO[0]), "--out", str(out), "--force"]) == 0
    assert out.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")


def test_the_ending_of_the_file_tells_the_form_and_a_folder_is_refused(tmp_path, capsys):
    assert main(["report", str(DEMO[0]), "--out", str(tmp_path / "a.csv")]) == 0
    assert (tmp_path / "a.csv").read_text(encoding="utf-8").startswith("session,dog,")
    assert main(["report", str(DEMO[0]), "--out", str(tmp_path)]) == 2
    assert "folder" in capsys.readouterr().err
    assert main(["report"]) == 2


@pytest.mark.parametrize("kind", ["comparison", "pairing", "history"])
def test_two_sessions_come_out_as_each_kind_with_both_dogs_drawn(kind, capsys):
    pair = ROUND[:2] if kind == "history" else [ROUND[1], ROUND[3]]
    page = parsed(reported(capsys, *pair, "--as", kind, "--to", "html"))
    words = " ".join(page.find(".//main").itertext())
    assert "Chain line" in words
    drawings = page.findall(f".//{SVG}svg")
    assert all("Over it, in chain lines" in "".join(one.itertext()) for one in drawings[-1:])
    if kind == "pairing":
        assert words.index("Conformation is not genetics") < words.index("Faults that both have")
        assert "One mends the other" in words
        document = json.loads(reported(capsys, *pair, "--as", kind, "--to", "json"))
        assert (document["sire"], document["dam"]) == ("Brumo", "Fenja")


def test_a_pairing_is_of_two(capsys):
    assert main(["report", *ROUND[:3], "--as", "pairing"]) == 2
    assert "a pairing is of two sessions" in capsys.readouterr().err


@pytest.mark.parametrize("command", [["report", str(DEMO[0])], ["cohort", *map(str, DEMO)]])
def test_csv_that_is_printed_is_that_of_the_file_with_the_line_ends_of_text(command, tmp_path, capsys):
    written = tmp_path / "table.csv"
    assert main([*command, "--to", "csv", "--out", str(written)]) == 0
    capsys.readouterr()
    assert main([*command, "--to", "csv"]) == 0
    printed = capsys.readouterr().out
    rows = list(csv.reader(io.StringIO(written.read_bytes().decode("utf-8"))))
    assert list(csv.reader(io.StringIO(printed))) == rows
    assert len(rows) > 3
    assert "\r\n" in written.read_bytes().decode("utf-8")
