"""Keys are said once: bindings, footer and help all come from the one table and fit each other."""

from __future__ import annotations

import importlib
import pkgutil

import pytest
from rich.cells import cell_len
from textual.binding import Binding

from hands_on.tui import keys, questions, screens
from hands_on.tui.frame import Frame
from hands_on.tui.screens.help import help_text
from hands_on.tui.widgets.lines import footer_content
from tests.tui.driving import begun, sitting


def frames() -> list[type[Frame]]:
    for package in (screens, questions):
        for module in pkgutil.iter_modules(package.__path__):
            importlib.import_module(f"{package.__name__}.{module.name}")
    found, left = [], [Frame]
    while left:
        frame = left.pop()
        left += frame.__subclasses__()
        found += [frame] if frame.NAME else []
    return found


def test_every_screen_has_its_keys_in_the_table_and_every_table_its_screen():
    assert {frame.NAME for frame in frames()} | {"note"} == set(keys.KEYS)


@pytest.mark.parametrize("frame", frames(), ids=lambda frame: frame.__name__)
def test_every_action_that_a_key_names_exists(frame):
    for binding in frame.BINDINGS:
        assert isinstance(binding, Binding)
        name = binding.action.split("(")[0]
        assert hasattr(frame, f"action_{name}"), binding.action


@pytest.mark.parametrize("screen", keys.KEYS)
def test_no_key_is_given_out_twice_on_a_screen(screen):
    given = [name for key in keys.KEYS[screen] if key.action for name in key.keys.split(",")]
    assert len(given) == len(set(given))


@pytest.mark.parametrize("screen", keys.KEYS)
def test_the_footer_names_all_its_keys_on_two_lines_of_80_columns_at_most(screen):
    told = keys.footer(screen)
    rows = str(footer_content(screen, 78, 2)).split("\n")
    assert len(rows) <= (2 if screen in ("walk", "sheet", "review") else 1)
    assert all(cell_len(row) <= 78 for row in rows)
    assert " ".join(rows).split() == " ".join(f"{shown} {label}" for shown, label in told).split()


@pytest.mark.parametrize("screen", sorted({"walk", "sheet", "review"}))
def test_the_footer_names_calls_next_open_outline_and_leaving_where_they_act(screen):
    told = {shown.split()[0]: label for shown, label in keys.footer(screen)}
    acting = {name for key in keys.KEYS[screen] for name in key.keys.split(",")}
    assert {name for name in "colq" if name in acting} <= set(told)
    assert "F1" in " ".join(told)


@pytest.mark.parametrize("screen", keys.KEYS)
def test_f1_tells_the_keys_everywhere(screen):
    assert any("f1" in key.keys.split(",") for key in keys.KEYS[screen])


@pytest.mark.parametrize("screen", keys.KEYS)
def test_help_tells_every_key(screen):
    text = help_text(screen)[0].text
    for key in keys.KEYS[screen]:
        assert key.tells in text


async def test_the_footer_on_the_screen_is_the_one_of_the_table(folder):
    begun(folder)
    async with sitting(folder) as table:
        await table.press("g")
        rows = table.text.rstrip("\n").split("\n")
        last = " ".join(rows[-2:])
        assert last.split() == " ".join(f"{a} {b}" for a, b in keys.footer("walk")).split()


async def test_h_tells_the_keys_of_the_screen_that_has_the_focus(folder):
    begun(folder)
    async with sitting(folder, size=(120, 60)) as table:
        for screen, way in {"start": (), "walk": ("g",), "sheet": ("t",), "review": ("r",)}.items():
            await table.press(*way, "h")
            told = " ".join(table.text.split())
            for key in keys.KEYS[screen]:
                assert key.tells in told
            await table.press("escape")
            assert screen == table.app.screen.NAME
