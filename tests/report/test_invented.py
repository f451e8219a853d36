"""Invented examinations of several editions: each comes out in every form, and in print of one page."""

import csv
import io
import json

import html5lib
import jsonschema
import pytest

from hands_on.cli import main
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets
from tests.report.invented import KINDS, invented

TEXTS = invented(Library([shipped_rulesets()]))


def printed(capsys, *arguments):
    assert main(list(map(str, arguments))) == 0
    return capsys.readouterr().out


@pytest.mark.parametrize("name", TEXTS)
def test_every_form_comes_out_and_holds_the_same_dog(name, tmp_path, capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "100")
    path = tmp_path / f"{name}.toml"
    path.write_text(TEXTS[name], encoding="utf-8")
    page = html5lib.HTMLParser(strict=True).parse(printed(capsys, "report", path, "--to", "html"))
    assert page is not None
    document = json.loads(printed(capsys, "report", path, "--to", "json"))
    jsonschema.validate(document, json.loads(printed(capsys, "report", "--schema")))
    rows = list(csv.DictReader(io.StringIO(printed(capsys, "report", path, "--to", "csv"), newline="")))
    assert len(rows) == len({row["point"] for row in rows})
    text = printed(capsys, "assess", path)
    heads = [line.split(":")[0] for line in text.splitlines() if line[:1].strip()]
    assert heads[:5] == ["Dog", "As asked", "Counts most", "Outcome", "Missing"]
    sources = [line for line in text.split("\nSources\n")[-1].splitlines() if line.startswith("  [")]
    assert len(sources) == len({line.split("]")[1] for line in sources})
    # a page of 60 lines, and one for each departure; what an alarm says is told in full
    found = json.loads(printed(capsys, "assess", path, "--json"))
    more = len(found["findings"]) + len(found["allowed"]) + 2 * len(found["alarms"])
    assert len(text.splitlines()) <= 60 + more


def test_the_kinds_are_what_they_are_named_after():
    assert set(TEXTS) == {*KINDS, "hostile"}
    assert "as_asked = true" in TEXTS["faultless"]
    assert "fault" not in TEXTS["faultless"]
    assert "[signature]" in TEXTS["terrier"]
    assert "[signature]" not in TEXTS["puppy"]


def test_a_reading_of_ours_is_told_in_the_short_text_where_the_class_is(tmp_path, capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "100")
    held = (
        'format = 1\n[ruleset]\nid = "hovawart-fci-190"\n[dog]\ncall_name = "Ado"\nsex = "male"\n'
        "born = 2020-01-01\n[examination]\nstarted = 2026-05-02T09:00:00+02:00\n"
        '[[takes]]\npoint = "muzzle-length"\nvalue = 8.6\n[[takes]]\npoint = "skull-length"\nvalue = 11.6\n'
    )
    (tmp_path / "ado.toml").write_text(held, encoding="utf-8")
    text = " ".join(printed(capsys, "assess", tmp_path / "ado.toml").split())
    (limit,) = [
        one
        for one in Library([shipped_rulesets()]).load("hovawart-fci-190").edition.limits
        if one.id == "muzzle-to-skull"
    ]
    assert f"Short muzzle. Read so: {limit.reading.rstrip('.')}" in text
