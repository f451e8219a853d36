"""Sessions of a round brought together from folders and zip files: new, here already, copies."""

from __future__ import annotations

import zipfile

import pytest

from hands_on.exam.round import parse_round
from hands_on.store.errors import NotSaved
from hands_on.store.gather import gather
from hands_on.store.session_file import read_session
from hands_on.toml_text.problems import BadText

ROUND = parse_round(
    'format = 1\n[round]\nid = "spring"\n[ruleset]\nid = "hovawart-fci-190"\n'
    '[[dogs]]\nnumber = "1"\nsex = "male"\n[[dogs]]\nnumber = "2"\nagain = "1"\n',
    "round.toml",
)


def session(who="A. Example", dog="1", round_id="spring", height="66.5", minute="05"):
    return (
        f'format = 1\n[ruleset]\nid = "hovawart-fci-190"\n[examination]\nevaluator = "{who}"\n'
        f"started = 2026-05-02T09:{minute}:00+02:00\n"
        f'kind = "round"\nround = "{round_id}"\nround_dog = "{dog}"\n'
        f'[[takes]]\npoint = "height"\nvalue = {height}\nunit = "cm"\n'
    )


@pytest.fixture
def stick(tmp_path):
    """A stick with folders, a zip, things of other rounds and things that are broken."""
    stick = tmp_path / "stick"
    (stick / "deep" / "deeper").mkdir(parents=True)
    (stick / "a.toml").write_text(session())
    (stick / "deep" / "deeper" / "b.toml").write_text(session("B. Sample"))
    (stick / "other.toml").write_text(session(round_id="autumn"))
    (stick / "round.toml").write_text('format = 1\n[round]\nid = "spring"\n[[dogs]]\nnumber = "1"\n')
    (stick / "broken.toml").write_text("# spring\nformat = ")
    (stick / "picture.png").write_bytes(b"\x89PNG")
    with zipfile.ZipFile(stick / "c.zip", "w") as archive:
        archive.writestr("anywhere/../c.toml", session("C. Third"))
    (stick / "torn.zip").write_bytes(b"PK\x03\x04 torn")
    return stick


def test_folders_in_folders_and_zip_files_are_looked_through(stick, tmp_path):
    found = gather(stick, ROUND, tmp_path / "spring")
    people = {one.examination.evaluator for _, one in found.taken}
    assert people == {"A. Example", "B. Sample", "C. Third"}
    assert {path.parent for path, _ in found.taken} == {tmp_path / "spring"}, (
        "no name leads out of the folder"
    )
    assert found.others == 2
    assert sorted(text.split(":")[0].rsplit("/", 1)[-1] for text in found.unread) == [
        "broken.toml",
        "torn.zip",
    ]
    assert len(list((tmp_path / "spring").iterdir())) == 3


def test_what_is_here_already_is_not_taken_twice(stick, tmp_path):
    gather(stick, ROUND, tmp_path / "spring")
    again = gather(stick, ROUND, tmp_path / "spring")
    assert (again.taken, again.copies, len(again.there)) == ([], [], 3)
    assert len(list((tmp_path / "spring").iterdir())) == 3


def test_another_state_of_an_examination_is_kept_beside_and_told(stick, tmp_path):
    into = tmp_path / "spring"
    gather(stick, ROUND, into)
    (stick / "a.toml").write_text(session(height="67"))
    found = gather(stick / "a.toml", ROUND, into)
    assert found.copies == [("a.toml", "a-2.toml")]
    assert [read_session(into / name).takes[0].value for name in ("a.toml", "a-2.toml")] == [66.5, 67]


def test_the_same_name_from_two_people_overwrites_nothing(tmp_path):
    for who in ("A. Example", "B. Sample"):
        folder = tmp_path / who
        folder.mkdir()
        (folder / "height.toml").write_text(session(who))
        gather(folder, ROUND, tmp_path / "spring")
    assert sorted(path.name for path in (tmp_path / "spring").iterdir()) == ["height-2.toml", "height.toml"]


def test_a_source_that_is_not_there_and_a_folder_that_cannot_be_written_are_told(stick, tmp_path):
    with pytest.raises(BadText, match="no such file"):
        gather(tmp_path / "nowhere", ROUND, tmp_path / "spring")
    (tmp_path / "spring").write_text("a file where the folder should be")
    with pytest.raises(NotSaved):
        gather(stick, ROUND, tmp_path / "spring")


def test_a_zip_that_unpacks_to_more_than_a_session_may_hold_is_left_out(tmp_path):
    with zipfile.ZipFile(tmp_path / "bomb.zip", "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("bomb.toml", b"#" * (9 * 2**20))
    found = gather(tmp_path / "bomb.zip", ROUND, tmp_path / "spring")
    assert (found.taken, len(found.unread)) == ([], 1)
    assert "too large" in found.unread[0]
