"""Sixel graphics read back, as strictly as xterm does: a colour that is defined is not yet selected.

The format is that of the DEC VT330/VT340 Programmer Reference Manual, chapter 14.
"""

from __future__ import annotations

import re

_TOKEN = re.compile(r"#(\d+)(;2;\d+;\d+;\d+)?|!(\d+)([?-~])|([?-~])|([$-])")

Colour = tuple[int, int, int]
"""Shares of red, green and blue in per cent."""


def decoded(sixels: str) -> list[list[Colour | None]]:
    """Rows of pixels; None where nothing was painted."""
    found = re.fullmatch(r'\x1bP[\d;]*q"1;1;(\d+);(\d+)(.*)\x1b\\', sixels, re.DOTALL)
    assert found, sixels[:40]
    wide, high = int(found[1]), int(found[2])
    pixels: list[list[Colour | None]] = [[None] * wide for _ in range(high)]
    registers: dict[int, Colour] = {}
    colour: Colour | None = None
    x = y = 0
    end = 0
    for token in _TOKEN.finditer(found[3]):
        assert token.start() == end, found[3][end : end + 20]
        end = token.end()
        number, definition, times, repeated, single, control = token.groups()
        if definition:
            red, green, blue = map(int, definition.split(";")[2:])
            registers[int(number)] = red, green, blue
        elif number:
            colour = registers[int(number)]
        elif control == "$":
            x = 0
        elif control == "-":
            x, y = 0, y + 6
        else:
            bits = ord(repeated or single) - 63
            run = int(times or 1)
            for row in range(6):
                if bits >> row & 1:
                    assert colour is not None, "painted before any colour was selected"
                    pixels[y + row][x : x + run] = [colour] * run
            x += run
    assert end == len(found[3])
    return pixels
