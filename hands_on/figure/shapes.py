"""What a view is made of: closed and open curves, each stretch of which belongs to a part of the dog."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import field
from functools import cached_property
from itertools import groupby
from typing import Literal

from hands_on.figure.curves import Node, Piece, Point, pieces, places
from hands_on.frozen import dataclass

__all__ = ["Drawing", "Kind", "Pen", "Shape", "ViewName", "leaf"]

ViewName = Literal["side", "front", "rear"]

Kind = Literal["far", "body", "tail", "ear", "fold", "bone", "dark"]
"""The legs behind, the body, what lies before or behind it, folds of the skin, bones felt under it, and what
is filled dark (eye, nose, nails)."""


@dataclass(frozen=True)
class Shape:
    """A curve through nodes."""

    kind: Kind
    nodes: tuple[Node, ...]
    closed: bool = True

    @cached_property
    def pieces(self) -> tuple[Piece, ...]:
        """Its Bezier pieces."""
        return pieces(self.nodes, closed=self.closed)

    @cached_property
    def places(self) -> tuple[Point, ...]:
        """The same as many short lines."""
        return tuple(places(self.pieces))

    @cached_property
    def runs(self) -> tuple[tuple[str, tuple[Point, ...]], ...]:
        """The same in stretches, each with the part it belongs to."""
        groups = groupby(self.pieces, key=lambda piece: piece.part)
        return tuple((part, tuple(places(list(run)))) for part, run in groups)


@dataclass(frozen=True)
class Drawing:
    """One view: what lies furthest back comes first. Lengths in cm, the ground at z = 0."""

    view: ViewName
    shapes: tuple[Shape, ...]
    marks: Mapping[str, Point] = field(default_factory=dict)
    """Landmarks that this view shows."""

    @cached_property
    def extent(self) -> tuple[float, float, float, float]:
        """Left, right, bottom and top of all that is drawn."""
        points = [point for shape in self.shapes for point in shape.places]
        xs, zs = [x for x, _ in points], [z for _, z in points]
        return min(xs), max(xs), min(0.0, *zs), max(zs)

    def scaled(self, factor: float) -> Drawing:
        """The same, so many times as large."""
        shapes = tuple(
            Shape(
                one.kind,
                tuple(Node(n.x * factor, n.z * factor, n.part, n.corner) for n in one.nodes),
                one.closed,
            )
            for one in self.shapes
        )
        marks = {name: (x * factor, z * factor) for name, (x, z) in self.marks.items()}
        return Drawing(self.view, shapes, marks)

    @cached_property
    def parts(self) -> frozenset[str]:
        """The parts that have a stretch of outline here."""
        return frozenset(node.part for shape in self.shapes for node in shape.nodes)


class Pen:
    """Collects the nodes of a curve; `part` names what the stretch after each node belongs to."""

    def __init__(self, scale: float) -> None:
        self.scale = scale
        self.nodes: list[Node] = []
        self.part = ""

    def on(self, part: str) -> Pen:
        """What follows belongs to this part."""
        self.part = part
        return self

    def to(self, x: float, z: float, *, corner: bool = False) -> Pen:
        """A node, in heights."""
        self.nodes.append(Node(x * self.scale, z * self.scale, self.part, corner))
        return self

    def shape(self, kind: Kind, *, closed: bool = True) -> Shape:
        """What was collected."""
        return Shape(kind, tuple(self.nodes), closed)


def leaf(
    base: Point, tip: Point, width: float, part: str, kind: Kind, *, pointed: bool = False, bow: float = 0.0
) -> Shape:
    """An ear: a leaf from the middle of its base to its tip, in cm; `bow` bends it to its left."""
    dx, dz = tip[0] - base[0], tip[1] - base[1]
    nx, nz = -dz, dx

    def at(along: float, off: float) -> Node:
        off += bow * along * (1 - along) * 4
        return Node(base[0] + along * dx + off * nx, base[1] + along * dz + off * nz, part)

    length = math.hypot(dx, dz)
    half = width / 2 / length if length else 0.0
    rows: Sequence[tuple[float, float]] = (
        ((0.0, half), (0.35, half * 0.95), (0.75, half * 0.42))
        if pointed
        else ((0.0, half * 0.8), (0.4, half * 1.15), (0.8, half * 0.8))
    )
    left = [at(along, off) for along, off in rows]
    right = [at(along, -off) for along, off in reversed(rows)]
    end = Node(tip[0], tip[1], part, corner=pointed)
    return Shape(kind, (*left, end, *right))
