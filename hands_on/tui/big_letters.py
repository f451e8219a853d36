"""Letters of three rows and more, drawn with half blocks, to be read from the back of a room."""

from __future__ import annotations

import unicodedata

__all__ = ["big", "big_lines", "height"]

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
"""Each letter with its five rows of dots."""

_LETTERS = {
    shape[0]: shape[2:].split(" ") for line in _SHAPES.strip().splitlines() for shape in line.split("|")
}
_LETTERS[" "] = [".."] * 5

_HALVES = {(False, False): " ", (True, False): "▀", (False, True): "▄", (True, True): "█"}


def big(text: str, scale: int = 1) -> list[str] | None:
    """`text` in big letters, `height(scale)` rows; None where it has a letter that is not drawn here.

    Accents are left out, small letters become capitals. At `scale` 1 a dot is half a row high.
    """
    shapes = []
    for letter in unicodedata.normalize("NFD", text.upper()):
        if unicodedata.combining(letter):
            continue
        if letter not in _LETTERS:
            return None
        shapes.append(_LETTERS[letter])
    lines = [".".join(shape[row] for shape in shapes) for row in range(5)]
    dots = ["".join(dot * scale for dot in line) for line in lines for _ in range(scale)]
    if len(dots) % 2:
        dots.append("." * len(dots[0]))
    return [
        "".join(_HALVES[upper == "#", lower == "#"] for upper, lower in zip(*pair, strict=True)).rstrip()
        for pair in zip(dots[::2], dots[1::2], strict=True)
    ]


def height(scale: int) -> int:
    """Rows a line of letters of that scale takes: 3, 5, 8, 10."""
    return (5 * scale + 1) // 2


def big_lines(text: str, width: int, most: int, scale: int = 1) -> list[str] | None:
    """`text` in big letters broken between words at `width` cells, an empty row between the lines.

    None where it does not fit into `most` lines, or cannot be drawn.
    """
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and _wide(longer, scale) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    if not lines or len(lines) > most:
        return None
    rows: list[str] = []
    for line in lines:
        drawn = big(line, scale)
        if drawn is None or _wide(line, scale) > width:
            return None
        rows += [*([""] if rows else []), *drawn]
    return rows


def _wide(text: str, scale: int) -> int:
    drawn = big(text, scale)
    return max(map(len, drawn)) if drawn else len(text) * 6 * scale
