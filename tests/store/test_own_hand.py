"""The evaluator's own hand from the sessions kept: which takes count, what they give, at what cost."""

import os
import random
from pathlib import Path

import numpy as np
import pytest

import hands_on.store.records as module
from hands_on.cli import main
from hands_on.store.library import Library
from hands_on.store.own_hand import SESSIONS, hands_of
from hands_on.store.places import shipped_rulesets

RULES = Library([shipped_rulesets()]).load("hovawart-fci-190")
SIGNED = '[signature]\nname = "E. Example"\nat = 2026-05-02T10:00:00+02:00\n'


def write(
    folder, number, takes, *, dog="", evaluator="E. Example", day=2, more="", more_takes="", end=SIGNED
):
    """A session of heights; by default of a dog of its own, signed."""
    rows = "".join(f'[[takes]]\npoint = "height"\nvalue = {value}\n{more_takes}' for value in takes)
    path = folder / f"session-{number}.toml"
    path.write_text(
        f'format = 1\n[ruleset]\nid = "hovawart-fci-190"\n[dog]\ncall_name = "Arko"\nsex = "male"\n'
        f'chip = "{dog or number}"\nborn = 2021-05-14\n[examination]\nevaluator = "{evaluator}"\n'
        f'scribe = "J. Sandt"\nstarted = 2026-05-{day:02}T09:00:00+02:00\n{more}\n{rows}{end}',
        encoding="utf-8",
    )
    return path


@pytest.fixture
def folder(tmp_path):
    place = tmp_path / "sessions"
    place.mkdir()
    return place


def hands(folder, evaluator="E. Example", file=Path("elsewhere.toml")):
    return hands_of(folder, folder.parent / "index.sqlite", RULES, evaluator, file)


def pairs(count, seed=7, sigma=0.3):
    chosen = random.Random(seed)
    return [
        [round(chosen.gauss(height, sigma), 1) for _ in range(2)]
        for height in (60 + number for number in range(count))
    ]


def test_ten_dogs_taken_twice_make_a_hand(folder):
    """TEM = sqrt(sum d^2 / 2n) (Ulijaszek and Kerr 1999, Br J Nutr 82: 165-177), recomputed with numpy."""
    taken = pairs(12)
    for number, takes in enumerate(taken[:9]):
        write(folder, number, takes)
    assert hands(folder) == {}
    for number, takes in enumerate(taken[9:], 9):
        write(folder, number, takes)
    hand = hands(folder)["height"]
    differences = np.diff(np.array(taken))
    assert hand.tem == pytest.approx(np.sqrt(np.sum(differences**2) / 24))
    assert (hand.n_dogs, hand.n_repeats, hand.dof) == (12, 24, 12)
    assert hands(folder, "e.  EXAMPLE") == hands(folder)  # a name is a name
    assert hands(folder, "M. Quill") == {}
    assert hands(folder, "") == {}


def test_sessions_of_one_dog_on_one_day_are_repeats_and_on_two_days_are_not(folder):
    for number, (first, second) in enumerate(pairs(10)):
        write(folder, f"{number}-a", [first], dog=f"d{number}")
        write(folder, f"{number}-b", [second], dog=f"d{number}")
    hand = hands(folder)["height"]
    assert (hand.n_dogs, hand.n_repeats, hand.n_sets) == (10, 20, 10)
    for number in range(10):
        write(folder, f"{number}-b", [75.0], dog=f"d{number}", day=9)  # grown or not: another day
    assert hands(folder) == {}


def test_a_dog_taken_on_many_days_is_still_one_dog(folder):
    for number, takes in enumerate(pairs(12)):
        write(folder, number, takes, dog=f"d{number % 6}", day=1 + number // 6)
    assert hands(folder) == {}


def test_what_does_not_count(folder):
    taken = pairs(10)
    for number, takes in enumerate(taken):
        write(folder, number, takes)
    before = hands(folder)
    apart = [66.0, 66.9]
    write(folder, "open", apart, end="")  # neither signed nor finished
    write(folder, "other", apart, evaluator="M. Quill")
    write(folder, "by", apart, more_takes='by = "M. Quill"\n')  # another hand in this session
    write(folder, "struck", apart, more_takes='struck = "dog moved"\n')
    write(folder, "nobody", apart, evaluator="")
    write(folder, "slip", [66.0, 76.0])  # mistyped
    write(folder, "odd", ['"sixty"', 66.0, 645.0])
    (folder / "broken.toml").write_text("format = 1\n[dog", encoding="utf-8")
    assert hands(folder) == before
    write(folder, "finished", apart, more="finished = 2026-05-02T10:00:00+02:00", end="")
    write(folder, "scribe", apart, more_takes='by = "J. Sandt"\n')  # the scribe typed what was called out
    assert hands(folder)["height"].n_dogs == 12


def test_amended_takes_stand_for_what_they_replace(folder):
    for number, takes in enumerate(pairs(9)):
        write(folder, number, takes)
    amended = '[[amendments]]\npoint = "height"\nreason = "misread"\n'
    rows = "".join(f'[[amendments.takes]]\npoint = "height"\nvalue = {value}\n' for value in (66.0, 66.2))
    write(folder, "amended", [66.0], end=SIGNED + amended + rows)
    assert hands(folder)["height"].n_repeats == 20


def test_the_session_being_evaluated_does_not_count_for_itself(folder):
    files = [write(folder, number, takes) for number, takes in enumerate(pairs(11))]
    assert hands(folder)["height"].n_dogs == 11
    assert hands(folder, file=files[3])["height"].n_dogs == 10
    assert hands(folder, file=Path("/nowhere") / files[3].name)["height"].n_dogs == 11


def test_units_and_sides_are_kept_apart(folder):
    for number, (first, second) in enumerate(pairs(10)):
        inches = f'[[takes]]\npoint = "height"\nvalue = "{second / 2.54:.6f} in"\n'
        sides = "".join(
            f'[[takes]]\npoint = "thigh-length"\nvalue = {value}\nside = "{side}"\n'
            for value, side in ((24.0, "left"), (24.4, "left"), (25.5, "right"), (25.5, "right"))
        )
        write(folder, number, [first], end=inches + sides + SIGNED)
    found = hands(folder)
    assert found["height"].tem == pytest.approx(np.sqrt(np.sum(np.diff(pairs(10)) ** 2) / 20), rel=1e-5)
    thigh = found["thigh-length"]
    assert (thigh.n_dogs, thigh.n_sets, thigh.n_repeats) == (10, 20, 40)
    # left pairs 0.4 apart, right pairs alike: sqrt(10 * 0.16 / 2 / 20)
    assert thigh.tem == pytest.approx(0.2)


def test_nothing_is_read_twice_and_never_more_than_so_many_files(folder, monkeypatch):
    for number in range(SESSIONS + 5):
        path = write(folder, number, [60.0, 60.4])
        os.utime(path, ns=(number, number))
    read = []
    header_of = module.header_of

    def counted(path):
        read.append(path.name)
        return header_of(path)

    monkeypatch.setattr(module, "header_of", counted)
    assert hands(folder)["height"].n_dogs == SESSIONS
    assert len(read) == SESSIONS
    assert "session-0.toml" not in read  # the newest first
    hands(folder)
    assert len(read) == SESSIONS + 5
    hands(folder)
    assert len(read) == SESSIONS + 5
    write(folder, 3, [61.0, 61.2])
    hands(folder)
    assert read[SESSIONS + 5 :] == ["session-3.toml"]


def test_assess_uses_the_hand_and_says_so(folder, tmp_path, capsys, monkeypatch):
    monkeypatch.setattr("hands_on.store.places.user_cache", lambda: tmp_path / "cache")
    for number, takes in enumerate(pairs(12)):
        write(folder, number, takes)
    file = write(tmp_path, "now", [66.0])
    assert main(["--sessions", str(folder), "assess", str(file)]) == 0
    text = " ".join(capsys.readouterr().out.split())
    assert "one take, own hand from 24 takes of 12 dogs, lasting part derived" in text
    assert "; one take of it ± 0." in text
    assert "1 on the evaluator's own hand" in text
    assert main(["--sessions", str(folder), "assess", str(file), "--no-own-hand"]) == 0
    assert "own hand" not in capsys.readouterr().out
    assert main(["--sessions", str(tmp_path / "none"), "assess", str(file)]) == 0
    assert "default derived" in capsys.readouterr().out
