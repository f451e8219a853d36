"""The blank sheet: every point of every edition, in the order of the walk, as sound HTML."""

import html5lib
import pytest

from hands_on.cli import main
from hands_on.exam.session import RulesetRef, Session
from hands_on.exam.walk import stops
from hands_on.report.blank import blank_html, blank_markdown, blank_sheet
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets

LIBRARY = Library([shipped_rulesets()])


@pytest.mark.parametrize("edition", [head.id for head in LIBRARY.heads()])
def test_every_point_stands_on_the_sheet_in_the_order_of_the_walk(edition):
    rules = LIBRARY.load(edition)
    walk = [stop.point.label for stop in stops(rules, Session(ruleset=RulesetRef(id=edition)))]
    page = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(blank_html(blank_sheet(rules)))
    assert [title.text for title in page.findall(".//main//h3")] == walk
    text = blank_markdown(blank_sheet(rules))
    assert next(line for line in text.splitlines() if line.startswith("**")).startswith(f"**{walk[0]}**")
    assert text.count("\n**") == len(walk)


def test_takes_scales_sides_and_teeth_have_their_room():
    sheet = blank_sheet(LIBRARY.load("hovawart-fci-190"), sex="male")
    lines = {line.label: line for region in sheet.regions for line in region.lines}
    assert (lines["Height at the withers"].takes, lines["Height at the withers"].unit) == (3, "cm")
    hocks = lines["Hocks from behind"]
    assert [box.text for box in hocks.boxes][:2] == ["as asked", "Cow hocks"]
    assert hocks.sides
    # 20 teeth above and 22 below (dental formula of the dog), the dog's right on the left of the sheet
    upper, lower = lines["Teeth"].teeth
    assert (len(upper), len(lower)) == (20, 22)
    assert (upper[0], upper[9], upper[10], lower[0], lower[-1]) == (110, 101, 201, 411, 311)


def test_a_shorter_walk_and_the_other_sex_leave_points_out():
    rules = LIBRARY.load("hovawart-fci-190")
    whole, short = blank_sheet(rules), blank_sheet(rules, rules.walks["structure"])
    assert 0 < len(short.regions) < len(whole.regions)
    assert "Testicles" not in blank_markdown(blank_sheet(rules, sex="female"))


def test_the_command_prints_writes_and_names_what_is_known(tmp_path, capsys):
    assert main(["blank", "any-dog"]) == 0
    assert capsys.readouterr().out.startswith("<!DOCTYPE html>")
    out = tmp_path / "sheet.md"
    assert main(["blank", "any-dog", "--out", str(out)]) == 0
    assert out.read_text(encoding="utf-8").startswith("# Any dog")
    assert main(["blank", "any-dog", "--out", str(out)]) == 2
    capsys.readouterr()
    assert main(["blank", "any-dog", "--walk", "nope"]) == 2
    assert "structure" in capsys.readouterr().err
