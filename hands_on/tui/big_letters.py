"""Letters three rows high, drawn with half blocks, to be read from the back of a room."""

from __future__ import annotations

import unicodedata

__all__ = ["HEIGHT", "big", "big_lines"]

HEIGHT = 3
"""Rows a line of big letters takes."""

_SHAPES = """
A .#. #.# ### #.# #.#|B ##. #.# ##. #.# ##.|C .## #.. #.. #.. .##|D ##. #.# #.# #.# ##.
E ### #.. ##. #.. ###|F ### #.. ##. #.. #..|G .## #.. #.# #.# .##|H #.# #.# ### #.# #.#
I ### .#. .#. .#. ###|J ..# ..# ..# #.# .#.|K #.# #.# ##. #.# #.#|L #.. #.. #.. #.. ###
M #...# ##.## #.#.# #...# #...#|N #..# ##.# #.## #..# #..#|O .#. #.# #.# #.# .#.|P ##. #.# ##. #.. #..
Q .##. #..# #..# #.## .###|R ##. #.# ##. #.# #.#|S .## #.. .#. ..# ##.|T ### .#. .#. .#. .#.
U #.# #.# #.# #.# ###|V #.# #.# #.# #.# .#.|W #...# #...# #.#.# ##.## #...#|X #.# #.# .#. #.# #.#
Y #.# #.# .#. .#. .#.|Z ### ..# .#. #.. ###|0 ### #.# #.# #.# ###|1 .#. ##. .#. .#. ###
2 ##. ..# .#. #.. ###|3 ##. ..# .#. ..# ##.|4 #.# #.# ### ..# ..#|5 ### #.. ##. ..# ##.
6 .## #.. ### #.# ###|7 ### ..# .#. .#. .#.|8 ### #.# ### #.# ###|9 ### #.# ### ..# ##.
. . . . . #|, .. .. .. .# #.|- .. .. ## .. ..|+ ... .#. ### .#. ...|± .#. ### .#. ... ###
/ ..# ..# .#. #.. #..|: . # . # .|; .. .# .. .# #.|' # # . . .
( .# #. #. #. .#|) #. .# .# .# #.|% #.# ..# .#. #.. #.#
° ## ## .. .. ..|? ##. ..# .#. ... .#.
"""
"""Each letter with its five rows of dots; they fill two and a half rows of the terminal."""

_LETTERS = {
    shape[0]: shape[2:].split(" ") for line in _SHAPES.strip().splitlines() for shape in line.split("|")
}
_LETTERS[" "] = [".."] * 5

_HALVES = {(False, False): " ", (True, False): "▀", (False, True): "▄", (True, True): "█"}


def big(text: str) -> list[str] | None:
    """`text` in big letters, `HEIGHT` rows; None where it has a letter that is not drawn here.

    Accents are left out, small letters become capitals.
    """
    shapes = []
    for letter in unicodedata.normalize("NFD", text.upper()):
        if unicodedata.combining(letter):
            continue
        if letter not in _LETTERS:
            return None
        shapes.append(_LETTERS[letter])
    dots = [".".join(shape[row] for shape in shapes) for row in range(5)]
    dots.append("." * len(dots[0]))
    return [
        "".join(_HALVES[upper == "#", lower == "#"] for upper, lower in zip(*pair, strict=True)).rstrip()
        for pair in zip(dots[::2], dots[1::2], strict=True)
    ]


def big_lines(text: str, width: int, most: int) -> list[str] | None:
    """`text` in big letters broken between words at `width` cells, an empty row between the lines.

    None where it does not fit into `most` lines, or cannot be drawn.
    """
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and _wide(longer) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    if not lines or len(lines) > most:
        return None
    rows: list[str] = []
    for line in lines:
        drawn = big(line)
        if drawn is None or _wide(line) > width:
            return None
        rows += [*([""] if rows else []), *drawn]
    return rows


def _wide(text: str) -> int:
    drawn = big(text)
    return max(map(len, drawn)) if drawn else len(text) * 6
