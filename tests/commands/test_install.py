"""An edition that somebody sent: checked, put in place, and never over another unasked."""

import pytest

from hands_on.cli import main
from hands_on.store.places import shipped_rulesets


@pytest.fixture
def own(tmp_path):
    folder = tmp_path / "own"
    folder.mkdir()
    return folder


def sent(tmp_path, name="sent-labrador", note="as sent"):
    text = (shipped_rulesets() / "labrador-fci-122.toml").read_text(encoding="utf-8")
    file = tmp_path / "mail.toml"
    file.write_text(text.replace('"labrador-fci-122"', f'"{name}"', 1) + f"\n# {note}\n", encoding="utf-8")
    return file


def install(own, file, *more):
    return main(["--rulesets", str(own), "rulesets", "--install", str(file), *more])


def test_a_sound_edition_is_put_in_place_and_editions_of_the_breed_are_named(tmp_path, own, capsys):
    assert install(own, sent(tmp_path)) == 0
    assert (own / "sent-labrador.toml").is_file()
    assert "--against labrador-fci-122" in capsys.readouterr().out


def test_another_of_that_id_stays_unless_it_is_to_be_replaced(tmp_path, own, capsys):
    assert install(own, sent(tmp_path, note="first")) == 0
    assert install(own, sent(tmp_path, note="second")) == 2
    assert "--replace" in capsys.readouterr().err
    assert "# first" in (own / "sent-labrador.toml").read_text(encoding="utf-8")
    assert install(own, sent(tmp_path, note="second"), "--replace") == 0
    assert "# second" in (own / "sent-labrador.toml").read_text(encoding="utf-8")


def test_the_id_of_a_shipped_edition_is_refused(tmp_path, own, capsys):
    assert install(own, sent(tmp_path, name="labrador-fci-122"), "--replace") == 2
    assert list(own.iterdir()) == []


def test_what_is_not_sound_is_told_and_not_installed(tmp_path, own, capsys):
    file = sent(tmp_path)
    file.write_text(
        file.read_text(encoding="utf-8").replace('"eyes.light"', '"eyes.lihgt"'), encoding="utf-8"
    )
    text = (
        file.read_text(encoding="utf-8")
        + '\n[[rulings]]\nfaults = ["eyes.lihgt"]\nclass = "fault"\nsource = "L22"\n'
    )
    file.write_text(text, encoding="utf-8")
    assert install(own, file) == 1
    assert "eyes.lihgt" in capsys.readouterr().err
    assert list(own.iterdir()) == []
