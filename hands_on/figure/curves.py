"""Smooth closed and open curves through points: cubic Bezier pieces, and the same as many short lines.

At each point the curve runs parallel to the line from the point before to the point after (Catmull and Rom
1974, "A class of local interpolating splines"), with a third of the piece's own length as the arm, so that a
long piece beside a short one makes no loop. A corner has no common direction.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

__all__ = ["Node", "Piece", "Point", "bent", "pieces", "places"]

Point = tuple[float, float]
"""Along and up, cm."""


@dataclass(frozen=True, slots=True)
class Node:
    """A point of an outline and the part of the dog that the stretch from here on belongs to."""

    x: float
    z: float
    part: str
    corner: bool = False


@dataclass(frozen=True, slots=True)
class Piece:
    """A cubic Bezier curve: start, two arms, end; and the part it belongs to."""

    start: Point
    first: Point
    second: Point
    end: Point
    part: str


def pieces(nodes: Sequence[Node], *, closed: bool) -> tuple[Piece, ...]:
    """The curve through the nodes; a closed one leads from the last back to the first."""
    count = len(nodes)
    if count < 2:
        return ()
    slopes = [_direction(nodes, n, closed=closed) for n in range(count)]
    made = []
    for n in range(count if closed else count - 1):
        a, b = nodes[n], nodes[(n + 1) % count]
        arm = math.hypot(b.x - a.x, b.z - a.z) / 3
        (ax, az), (bx, bz) = slopes[n], slopes[(n + 1) % count]
        if a.corner or (ax, az) == (0.0, 0.0):
            first = (a.x + (b.x - a.x) / 3, a.z + (b.z - a.z) / 3)
        else:
            first = (a.x + ax * arm, a.z + az * arm)
        if b.corner or (bx, bz) == (0.0, 0.0):
            second = (b.x - (b.x - a.x) / 3, b.z - (b.z - a.z) / 3)
        else:
            second = (b.x - bx * arm, b.z - bz * arm)
        made.append(Piece((a.x, a.z), first, second, (b.x, b.z), a.part))
    return tuple(made)


def _direction(nodes: Sequence[Node], n: int, *, closed: bool) -> Point:
    """The unit vector along which the curve passes the node; none at an end."""
    count = len(nodes)
    if not closed and n in (0, count - 1):
        return (0.0, 0.0)
    before, after = nodes[(n - 1) % count], nodes[(n + 1) % count]
    x, z = after.x - before.x, after.z - before.z
    length = math.hypot(x, z)
    return (x / length, z / length) if length else (0.0, 0.0)


def bent(piece: Piece, steps: int) -> list[Point]:
    """Places on the piece, its end included and its start left out."""
    (x0, z0), (x1, z1), (x2, z2), (x3, z3) = piece.start, piece.first, piece.second, piece.end
    found = []
    for step in range(1, steps + 1):
        t = step / steps
        s = 1 - t
        a, b, c, d = s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t
        found.append((a * x0 + b * x1 + c * x2 + d * x3, a * z0 + b * z1 + c * z2 + d * z3))
    return found


def places(made: Sequence[Piece], steps: int = 5) -> list[Point]:
    """The whole curve as places."""
    if not made:
        return []
    found = [made[0].start]
    for piece in made:
        found += bent(piece, steps)
    return found
