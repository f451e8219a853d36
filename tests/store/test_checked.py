"""What was read once and is kept: the same again, never used for other texts, harmless when broken."""

from __future__ import annotations

import hashlib
import os
import pickle
import shutil

import pytest

from hands_on.store import checked
from hands_on.store.library import Library
from hands_on.store.places import shipped_rulesets

EDITION = "weimaraner-american"


@pytest.fixture
def place(tmp_path, monkeypatch):
    monkeypatch.setattr(checked, "_folder", lambda: tmp_path / "cache" / "checked")
    return tmp_path / "cache" / "checked"


@pytest.fixture
def folder(tmp_path):
    """Rulesets of the test's own, to be changed."""
    made = tmp_path / "rulesets"
    made.mkdir()
    for path in shipped_rulesets().glob("w*.toml"):
        shutil.copy(path, made)
    shutil.copytree(shipped_rulesets() / "common", made / "common")
    return made


@pytest.fixture
def reads(monkeypatch):
    """How often an edition's text is read in earnest."""
    from hands_on.ruleset import assemble

    seen = []
    read = assemble.read_edition_file
    monkeypatch.setattr(
        assemble, "read_edition_file", lambda text, file: seen.append(file) or read(text, file)
    )
    return seen


def test_what_was_kept_gives_the_same_editions(place, folder, reads):
    fresh = Library((folder,)).load(EDITION)
    assert reads
    reads.clear()
    again = Library((folder,))
    assert again.load(EDITION) == fresh
    assert again.load(EDITION).digest == fresh.digest
    assert again.heads() == Library((folder,)).heads()
    assert not reads, "nothing was read in earnest"


def test_another_byte_of_an_edition_is_read_anew(place, folder):
    before = Library((folder,)).load(EDITION)
    path = folder / f"{EDITION}.toml"
    path.write_text(path.read_text("utf-8").replace('title = "', 'title = "Another ', 1), "utf-8")
    after = Library((folder,)).load(EDITION)
    assert after.edition.title == "Another " + before.edition.title
    assert after.digest != before.digest
    assert [head.title for head in Library((folder,)).heads() if head.id == EDITION] == [after.edition.title]


def test_another_byte_of_a_common_file_is_read_anew(place, folder):
    before = Library((folder,)).load(EDITION)
    path = folder / "common" / "head.toml"
    path.write_text(path.read_text("utf-8").replace('label = "Head"', 'label = "Its head"', 1), "utf-8")
    after = Library((folder,)).load(EDITION)
    assert {one.id: one.label for one in after.regions}["head"] == "Its head"
    assert {one.id: one.label for one in before.regions}["head"] == "Head"


def test_an_edition_is_read_anew_when_the_one_it_builds_on_changes(place, folder):
    (folder / "child.toml").write_text(
        f'format = 1\nid = "child"\nbuilds_on = "{EDITION}"\nbreed = "X"\ntitle = "X"\nedition = "1"\n',
        "utf-8",
    )
    before = Library((folder,)).load("child")
    path = folder / f"{EDITION}.toml"
    path.write_text(
        path.read_text("utf-8").replace("confidence = 0.95", "", 1) + '\n[languages.xx.labels]\nhead = "X"\n',
        "utf-8",
    )
    assert Library((folder,)).load("child").digest != before.digest


def test_another_program_does_not_use_it(place, folder, reads, monkeypatch):
    Library((folder,)).load(EDITION)
    reads.clear()
    monkeypatch.setattr(checked, "_program", lambda readers: b"a later version")
    Library((folder,)).load(EDITION)
    assert reads


def test_a_file_that_breaks_is_told_though_it_was_sound(place, folder):
    Library((folder,)).load(EDITION)
    path = folder / f"{EDITION}.toml"
    path.write_text(path.read_text("utf-8") + "\n[nonsense\n", "utf-8")
    with pytest.raises(ValueError, match=EDITION):
        Library((folder,)).load(EDITION)


def test_a_broken_cache_costs_time_alone(place, folder):
    Library((folder,)).load(EDITION)
    sizes = {path: len(path.read_bytes()) for path in place.iterdir()}
    for broken in (b"", b"\xff\xfe", b"nonsense", None):
        for path, size in sizes.items():
            path.write_bytes(broken if broken is not None else path.read_bytes()[: size // 2])
        assert Library((folder,)).load(EDITION).points
        assert {path: len(path.read_bytes()) for path in place.iterdir()} == sizes, "made again"


class _Runs:
    """A pickle of it would run a command."""

    def __init__(self, path):
        self.path = path

    def __reduce__(self):
        return os.mkdir, (str(self.path),)


def test_what_others_wrote_there_runs_nothing(place, folder, tmp_path):
    Library((folder,)).load(EDITION)
    trace = tmp_path / "it ran"
    data = pickle.dumps(_Runs(trace))
    for path in place.iterdir():
        path.write_bytes(hashlib.sha256(data).digest() + data)
    assert Library((folder,)).load(EDITION).points
    assert not trace.exists()
    pickle.loads(data)
    assert trace.exists(), "the trap works"


@pytest.mark.skipif(not hasattr(os, "getuid"), reason="permissions of POSIX")
@pytest.mark.parametrize(("which", "mode"), [("folder", 0o755), ("file", 0o644), ("file", 0o620)])
def test_what_others_may_write_or_read_is_not_used(place, which, mode):
    name = checked.digest_of("a thing", [b"text"])
    checked.keep(name, ("found",))
    assert checked.kept(name, tuple) == ("found",)
    os.chmod(place if which == "folder" else place / name, mode)
    assert checked.kept(name, tuple) is None


def test_a_link_is_not_followed(place, tmp_path):
    name = checked.digest_of("a thing", [b"text"])
    checked.keep(name, ("found",))
    os.rename(place / name, tmp_path / "elsewhere")
    os.symlink(tmp_path / "elsewhere", place / name)
    assert checked.kept(name, tuple) is None


def test_texts_are_told_apart_by_where_they_end(place):
    assert checked.digest_of("a", [b"xy", b"z"]) != checked.digest_of("a", [b"x", b"yz"])
    assert checked.digest_of("a", [b"x"]) != checked.digest_of("b", [b"x"])


def test_the_oldest_make_room(place, monkeypatch):
    monkeypatch.setattr(checked, "_MOST", 3)
    for n in range(5):
        checked.keep(name := checked.digest_of("a thing", [str(n).encode()]), (n,))
        os.utime(place / name, ns=(n, n))
    assert len(list(place.iterdir())) == 3
    assert checked.kept(name, tuple) == (4,)


def test_the_oldest_make_room_where_they_are_large(place, monkeypatch):
    names = [checked.digest_of("a thing", [str(n).encode()]) for n in range(4)]
    for n, name in enumerate(names):
        checked.keep(name, ("x" * 1000,))
        os.utime(place / name, ns=(n, n))
    monkeypatch.setattr(checked, "_ROOM", 2500)
    monkeypatch.setattr(checked, "_LARGE", 1000)
    checked.keep("newest", ("x" * 1000,))
    assert {path.name for path in place.iterdir()} == {"newest", names[3]}
    monkeypatch.setattr(checked, "_ROOM", 10)
    checked.keep("larger than all room", ("x" * 1000,))
    assert {path.name for path in place.iterdir()} == {"larger than all room"}


def test_a_cache_folder_that_can_not_be_written_is_done_without(tmp_path, folder, monkeypatch):
    (tmp_path / "file").write_text("")
    monkeypatch.setattr(checked, "_folder", lambda: tmp_path / "file" / "checked")
    assert Library((folder,)).load(EDITION).points


def test_a_second_check_of_an_edition_tells_the_same_and_a_changed_one_is_checked_anew(place, folder, reads):
    from hands_on.commands.check import Checker
    from hands_on.ruleset import check

    path = folder / f"{EDITION}.toml"
    text = (
        path.read_text("utf-8") + '\n[[rulings]]\nfaults = ["no.such"]\nclass = "none"\nsource = "reading"\n'
    )
    path.write_text(text, "utf-8")

    def problems():
        checker = Checker(Library((folder,)))
        checker.check(path)
        return checker.problems

    seen = []
    with pytest.MonkeyPatch.context() as patch:
        done = check.check_edition
        patch.setattr(check, "check_edition", lambda *given: seen.append(1) or done(*given))
        first = problems()
        assert any("no.such" in str(one) for one in first)
        assert (problems(), len(seen)) == (first, 1)
        path.write_text(text.replace("no.such", "no.other"), "utf-8")
        assert [str(one).replace("no.other", "no.such") for one in problems()] == [str(one) for one in first]
        assert len(seen) == 2
