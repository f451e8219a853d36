"""The evaluator's own hand from the sessions kept: which takes count, what they give, at what cost."""

import os
import random
from pathlib import Path

import numpy as np
import pytest

import hands_on.store.records as module
from hands_on.cli import main
from hands_on.store import places
from hands_on.store.library import Library
from hands_on.store.own_hand import SESSIONS, hands_of
from hands_on.store.places import shipped_rulesets

RULES = Library([shipped_rulesets()]).load("hovawart-fci-190")
SIGNED = '[signature]\nname = "E. Example"\nat = 2026-05-02T10:00:00+02:00\n'


def write(
    folder,
    number,
    takes,
    *,
    dog="",
    evaluator="E. Example",
    day=2,
    more="",
    more_takes="",
    end=SIGNED,
    hidden=True,
):
    """A session of heights, signed; by default of a dog of its own, and each take hidden from the next."""
    rows = "".join(
        f'[[takes]]\npoint = "height"\nvalue = {value}\n{more_takes}'
        + ("hidden = true\n" if number_of and hidden else "")
        for number_of, value in enumerate(takes)
    )
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


def scaled_tem(taken):
    """TEM of pairs in units of a careful take, sqrt(0.4^2 + (0.006 x)^2) cm, at the mean size."""
    means = np.mean(taken, axis=1)

    def careful(size):
        return np.hypot(0.4, 0.006 * size)

    differences = np.diff(np.array(taken))[:, 0] / careful(means)
    return np.sqrt(np.sum(differences**2) / (2 * len(taken))) * careful(np.mean(means))


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
    assert hand.tem == pytest.approx(scaled_tem(taken))
    assert (hand.n_dogs, hand.n_repeats, hand.dof) == (12, 24, 12)
    assert hands(folder, "e.  EXAMPLE") == hands(folder)  # a name is a name
    assert hands(folder, "M. Quill") == {}
    assert hands(folder, "") == {}


def test_sessions_of_one_dog_on_one_day_make_one_set_and_on_two_days_two(folder):
    for number, (first, second) in enumerate(pairs(10)):
        write(folder, f"{number}-a", [first, second], dog=f"d{number}")
        write(folder, f"{number}-b", [second, first], dog=f"d{number}")
    hand = hands(folder)["height"]
    assert (hand.n_dogs, hand.n_repeats, hand.n_sets) == (10, 40, 10)
    for number in range(10):
        write(folder, f"{number}-b", [75.0, 75.5], dog=f"d{number}", day=9)  # grown or not: another day
    hand = hands(folder)["height"]
    assert (hand.n_dogs, hand.n_repeats, hand.n_sets) == (10, 40, 20)


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
    rows = "".join(
        f'[[amendments.takes]]\npoint = "height"\nvalue = {value}\n{hidden}'
        for value, hidden in ((66.0, ""), (66.2, "hidden = true\n"))
    )
    write(folder, "amended", [66.0], end=SIGNED + amended + rows)
    assert hands(folder)["height"].n_repeats == 20


def test_the_session_being_evaluated_does_not_count_for_itself(folder):
    files = [write(folder, number, takes) for number, takes in enumerate(pairs(11))]
    assert hands(folder)["height"].n_dogs == 11
    assert hands(folder, file=files[3])["height"].n_dogs == 10
    assert hands(folder, file=Path("/nowhere") / files[3].name)["height"].n_dogs == 11


def test_units_and_sides_are_kept_apart(folder):
    for number, (first, second) in enumerate(pairs(10)):
        inches = f'[[takes]]\npoint = "height"\nvalue = "{second / 2.54:.6f} in"\nhidden = true\n'
        sides = "".join(
            f'[[takes]]\npoint = "thigh-length"\nvalue = {value}\nside = "{side}"\n{hidden}'
            for value, side, hidden in (
                (24.0, "left", ""),
                (24.4, "left", "hidden = true\n"),
                (25.5, "right", ""),
                (25.5, "right", "hidden = true\n"),
            )
        )
        write(folder, number, [first], end=inches + sides + SIGNED)
    found = hands(folder)
    assert found["height"].tem == pytest.approx(scaled_tem(pairs(10)), rel=1e-5)
    thigh = found["thigh-length"]
    assert (thigh.n_dogs, thigh.n_sets, thigh.n_repeats) == (10, 20, 40)
    # left pairs 0.4 apart, right pairs alike: sqrt(10 * 0.16 / 2 / 20)
    assert thigh.tem == pytest.approx(0.2, rel=0.03)  # scaled to the mean of 24.2 and 25.5 cm


def test_a_reading_taken_in_sight_of_the_first_is_no_repeat(folder):
    """It leans on the first: it would make every hand look surer than it is."""
    for number, takes in enumerate(pairs(12)):
        write(folder, number, takes, hidden=False)
    assert hands(folder) == {}
    for number, (first, second) in enumerate(pairs(12)):
        seen = f'[[takes]]\npoint = "height"\nvalue = {first}\n'
        write(folder, number, [first, second], end=seen + SIGNED)  # a third, in sight of both
    assert hands(folder)["height"].n_repeats == 24


def test_the_same_files_give_the_same_hand_at_every_call(folder):
    """More files than are looked at, read or not read by the index before: never another result."""
    taken = pairs(10) * (SESSIONS // 10 + 4)
    for number, takes in enumerate(taken):
        path = write(folder, number, takes, day=1 + number // 10)
        os.utime(path, ns=(number, number))
    for number in range(50):
        write(folder, f"other-{number}", [60.0, 64.0], hidden=False)
    first = hands(folder)
    assert first["height"].n_dogs == SESSIONS
    assert hands(folder) == first
    with module.Records(folder, folder.parent / "index.sqlite") as records:
        while records.refresh(at_most=77).left:
            assert hands(folder) == first
    assert hands(folder) == first
    assert (
        hands_of(folder, folder.parent / "a new index.sqlite", RULES, "E. Example", Path("x.toml")) == first
    )


def test_nothing_is_read_twice_and_only_what_can_have_repeats(folder, monkeypatch):
    for number in range(20):
        write(folder, number, [60.0, 60.4])
    for number in range(20):
        write(folder, f"seen-{number}", [60.0, 60.4], hidden=False)
    read = []
    header_of = module.header_of

    def counted(path):
        read.append(path.name)
        return header_of(path)

    monkeypatch.setattr(module, "header_of", counted)
    assert hands(folder)["height"].n_dogs == 20
    assert sorted(read) == sorted(f"session-{number}.toml" for number in range(20))
    hands(folder)
    assert len(read) == 20
    write(folder, 3, [61.0, 61.2], hidden=False)  # no longer a repeat: read again, and forgotten
    assert hands(folder)["height"].n_dogs == 19
    assert read[20:] == ["session-3.toml"]


def test_the_hand_is_scaled_to_the_size_of_the_dog(folder):
    """A careful take's error grows with size (height: 0.40 cm and 0.6 % of the reading), and so a hand's."""
    for number, takes in enumerate(pairs(12)):
        write(folder, number, takes)
    hand = hands(folder)["height"]
    small, large = (hand.tem_for(size, lambda x: np.hypot(0.4, 0.006 * x)) for size in (30.0, 75.0))
    assert small / large == pytest.approx(np.hypot(0.4, 0.18) / np.hypot(0.4, 0.45))


def test_assess_uses_the_hand_and_says_so(folder, tmp_path, capsys, monkeypatch):
    monkeypatch.setattr("hands_on.store.places.user_cache", lambda: tmp_path / "cache")
    for number, takes in enumerate(pairs(12)):
        write(folder, number, takes)
    file = write(tmp_path, "now", [66.0])
    assert main(["--sessions", str(folder), "assess", str(file)]) == 0
    text = " ".join(capsys.readouterr().out.split())
    assert "one take, own hand from 24 takes of 12 dogs, lasting part derived" in text
    assert "; one take of it ± 0." in text
    assert "rest on the evaluator's own hand (1)" in text
    assert main(["--sessions", str(folder), "assess", str(file), "--no-own-hand"]) == 0
    assert "own hand" not in capsys.readouterr().out
    nobody = write(tmp_path, "nobody", [66.0], evaluator="")
    assert main(["--sessions", str(folder), "assess", str(nobody)]) == 0
    text = " ".join(capsys.readouterr().out.split())
    assert "default derived" in text
    assert "By general figures: nobody is named as evaluator, and a hand is known by its name" in text
    assert main(["--sessions", str(tmp_path / "none"), "assess", str(file)]) == 0
    assert "default derived" in " ".join(capsys.readouterr().out.split())


def test_every_command_says_the_same_while_the_index_grows(folder, tmp_path, capsys, monkeypatch):
    """With what the index holds at first, with 200 files more in it, and with all: byte for byte the same."""
    monkeypatch.setattr("hands_on.store.places.user_cache", lambda: tmp_path / "cache")
    for number, takes in enumerate(pairs(12) * 20):
        write(folder, number, takes, hidden=number % 7 == 0)
    first, second = (write(tmp_path, f"now-{day}", [66.0 + day / 9], dog="now", day=day) for day in (3, 9))
    other = write(tmp_path, "other", [65.0], dog="now", evaluator="B. Example")
    calls = [
        [*words, *form]
        for words in (
            ["assess", str(first)],
            ["compare", str(first), str(other)],
            ["agree", str(first), str(other)],
            ["recheck", str(first), str(second)],
            ["recheck", str(first), "--plan"],
        )
        for form in ([], ["--json"])
    ]

    def said():
        told = []
        for words in calls:
            assert main(["--sessions", str(folder), *words]) == 0, words
            told.append(capsys.readouterr().out)
        return told

    at_first = said()
    assert "own hand" in at_first[0]
    with module.Records(folder, places.index_path(folder)) as records:
        assert records.refresh(at_most=200).left
        assert said() == at_first
        records.refresh()
    assert said() == at_first


# --- rounds --------------------------------------------------------------------------------------------


def seminar(folder, people=5, dogs=8, *, lean=0.5, both=0.2, hand=0.3, seed=3):
    """Each evaluator takes each dog twice, the first reading hidden; the deviations as they were drawn."""
    chance = random.Random(seed)
    leans = [chance.gauss(0, lean) for _ in range(people)]
    rows = []
    for dog in range(dogs):
        row = []
        for who, shift in enumerate(leans):
            middle = 60 + dog + shift + chance.gauss(0, both)
            takes = [round(middle + chance.gauss(0, hand), 1) for _ in range(2)]
            write(folder, f"r{dog}-{who}", takes, dog=f"round-{dog}", evaluator=f"Judge {who}")
            row.append(takes)
        rows.append(row)
    return np.array(rows)


def careful(size):
    return np.hypot(0.4, 0.006 * size)


def test_a_round_with_repeats_measures_what_lasts_in_a_hand(folder):
    """Mean squares of a crossed table (ISO 5725-2), recomputed with numpy."""
    cells = seminar(folder)
    n, k, r = cells.shape
    size = cells.mean(axis=(1, 2))
    cells = (cells - size[:, None, None]) / careful(size)[:, None, None]
    means = cells.mean(axis=2)
    one = n * r * np.var(means.mean(axis=0), ddof=1)
    rest = means - means.mean(axis=0) - means.mean(axis=1)[:, None] + means.mean()
    both = r * np.sum(rest**2) / ((n - 1) * (k - 1))
    within = np.sum((cells - means[:, :, None]) ** 2) / (n * k * (r - 1))
    lasting = np.sqrt((one - both) / (n * r) + (both - within) / r)
    found = hands(folder, "N. Newcomer")["height"]
    assert found.of_round
    assert found.tem == pytest.approx(np.sqrt(within) * careful(size.mean()))
    assert found.lasting.sd == pytest.approx(lasting * careful(size.mean()))
    assert (found.lasting.evaluators, found.lasting.dogs) == (5, 8)
    # what one hand has in common on all dogs is the part between evaluators
    between, by_dog = (one - both) / (n * r), (both - within) / r
    assert found.lasting.shared == pytest.approx(between / (between + by_dog))
    # Satterthwaite: no more than the evaluators' own freedom allows
    assert 2 < found.lasting.dof < 8 * 5


def test_assess_names_the_rounds_and_no_study_that_they_replace(folder, tmp_path, capsys, monkeypatch):
    monkeypatch.setattr("hands_on.store.places.user_cache", lambda: tmp_path / "cache")
    seminar(folder)
    file = write(tmp_path, "now", [66.0], evaluator="N. Newcomer")
    assert main(["--sessions", str(folder), "assess", str(file)]) == 0
    text = " ".join(capsys.readouterr().out.split())
    assert (
        "one take, hand of the evaluators of your rounds from 80 takes of 8 dogs, lasting part from rounds: "
        "5 evaluators on 8 dogs; one take of it" in text
    )


def test_an_own_hand_stays_and_takes_over_what_the_round_measured(folder):
    seminar(folder)
    for number, takes in enumerate(pairs(12)):
        write(folder, number, takes)
    own = hands(folder)["height"]
    assert own.tem == pytest.approx(scaled_tem(pairs(12)))
    assert not own.of_round
    assert own.lasting is not None


@pytest.mark.parametrize(("people", "dogs"), [(2, 8), (5, 4)])
def test_too_small_a_round_says_nothing_of_what_lasts(folder, people, dogs):
    seminar(folder, people, dogs)
    found = hands(folder, "N. Newcomer").get("height")
    assert found is None or found.lasting is None


def test_dogs_taken_months_apart_are_no_round(folder):
    seminar(folder)
    for dog in range(4):  # one evaluator came later: four dogs are left, too few
        path = folder / f"session-r{dog}-0.toml"
        path.write_text(path.read_text().replace("2026-05-02T09", "2026-08-02T09"), encoding="utf-8")
    assert hands(folder, "N. Newcomer") == {}
