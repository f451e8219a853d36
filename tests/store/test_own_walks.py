"""The user's own walks: known in every edition, checked with line and key, and no reason for one to fail."""

from pathlib import Path

from hands_on.commands import check
from hands_on.store import places
from hands_on.store.edition_heads import OWN_WALKS
from hands_on.store.library import Library

SOUND = """format = 1

[[walks]]
id = "front"
label = "Front"
regions = ["forequarters"]
points = ["height"]
source = "common practice"
"""


def library(folder: Path, text: str) -> Library:
    folder.mkdir(exist_ok=True)
    (folder / OWN_WALKS).write_text(text)
    return Library((places.shipped_rulesets(), folder))


def test_a_walk_of_ones_own_is_there_in_every_edition(tmp_path):
    found = library(tmp_path / "own", SOUND)
    for head in found.heads():
        walk = found.load(head.id).walks["front"]
        assert walk.asks(found.load(head.id).points["height"])
    assert OWN_WALKS.removesuffix(".toml") not in {head.id for head in found.heads()}, "it is no edition"


def test_it_is_checked_with_line_and_what_would_be_right(tmp_path, capsys):
    found = library(tmp_path / "own", SOUND)
    path = tmp_path / "own" / OWN_WALKS
    assert check.run([str(path)], as_json=False, library=found) == 0
    path.write_text(SOUND.replace("forequarters", "forequaters").replace('"height"', '"heigth"'))
    assert check.run([str(path)], as_json=False, library=found) == 1
    told = capsys.readouterr().out
    assert f"{path}:6" in told
    assert "forequarters" in told
    assert f"{path}:7" in told
    path.write_text(SOUND.replace('label = "Front"\n', ""))
    assert check.run([str(path)], as_json=False, library=found) == 1


def test_a_broken_file_of_walks_hides_no_edition(tmp_path):
    found = library(tmp_path / "own", SOUND.replace("[[walks]]", "[[walks]"))
    assert "front" not in found.load("any-dog").walks
    assert "structure" in found.load("any-dog").walks
