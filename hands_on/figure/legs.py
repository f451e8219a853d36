"""Legs and paws as they are seen from in front or from behind."""

from __future__ import annotations

import math
from collections.abc import Mapping

from hands_on.figure.curves import Node, Point
from hands_on.figure.shapes import Pen
from hands_on.figure.shapes import Shape as Curve
from hands_on.figure.skeleton import Shape
from hands_on.frozen import dataclass

__all__ = ["FOREFOOT", "HINDFOOT", "Foot", "Leg", "mirrored", "paw"]


@dataclass(frozen=True)
class Leg:
    """The middle of the leg at its joints, in heights: how far from the middle of the dog, and how high."""

    places: Mapping[str, Point]


@dataclass(frozen=True)
class Foot:
    """Which proportions a foot is drawn from."""

    part: str
    turn: str
    long: str
    arch: str
    spread: str
    nails: str
    behind: bool


FOREFOOT = Foot(
    "forefoot", "forefoot-turn", "fore-foot-length", "fore-toe-arch", "fore-toe-spread", "fore-nails", False
)
HINDFOOT = Foot(
    "hindfoot", "hindfoot-turn", "hind-foot-length", "hind-toe-arch", "hind-toe-spread", "hind-nails", True
)


def mirrored(nodes: list[Node]) -> list[Node]:
    """The other half of a body: its nodes from the ground up, so that the curve goes on round the dog.

    The first and the last node lie in the middle and belong to both halves: they are left out.
    """
    parts = [node.part for node in nodes]
    inner = list(enumerate(nodes))[1:-1]
    return [Node(-node.x, node.z, parts[n - 1], node.corner) for n, node in reversed(inner)]


def paw(s: Shape, foot: Foot, x: float, sign: int, scale: float) -> list[Curve]:
    """A foot with its toes: a foot that turns shows more of its length to the side it turns to.

    `x` is the middle of the leg above it, `sign` 1 at the right of the picture.
    """
    turn = math.radians(s[foot.turn])
    spread = s[foot.spread]
    half = 0.58 * s["bone"] + spread + 0.004
    aside = s[foot.long] * 0.95 * math.sin(turn)
    arch = s[foot.arch] * 1.05
    out, back = x + half + max(0.0, aside), x - half + min(0.0, aside)
    tall = arch * (0.82 if foot.behind else 1.0)
    lead = 0.5 + 0.4 * max(-1.0, min(1.0, aside / (2 * half)))

    def at(share: float) -> float:
        return sign * (back + share * (out - back))

    pen = Pen(scale).on(foot.part)
    pen.to(at(0.0) + 0.0, 0.016).to(at(0.07), tall * (0.85 - 0.35 * max(0.0, lead - 0.5)))
    pen.to(at(0.5 - 0.3 * (lead - 0.5)), tall * 1.12)
    pen.to(at(0.93), tall * (0.85 + 0.35 * min(0.0, lead - 0.5) - 0.35 * max(0.0, lead - 0.5)))
    pen.to(at(1.0), 0.016).to(at(0.9), 0.0).to(at(0.1), 0.0)
    found = [pen.shape("body")]
    for share in (0.26, 0.5, 0.74):
        top = tall * (0.55 if share != 0.5 else 0.72)
        slant = aside * 0.4 / max(0.02, out - back)
        pen = Pen(scale).on(foot.part)
        pen.to(at(min(0.97, max(0.03, share + slant * 0.5))), 0.004)
        pen.to(at(min(0.95, max(0.05, share - slant * 0.5))), top)
        found.append(pen.shape("fold", closed=False))
    nails = s[foot.nails]
    if nails >= 0.004 and not foot.behind:
        for share in (0.14, 0.38, 0.62, 0.86):
            pen = Pen(scale).on(foot.part)
            pen.to(at(share) - 0.005, 0.012, corner=True).to(at(share) + 0.005, 0.012, corner=True)
            pen.to(at(share), 0.012 - min(0.016, nails), corner=True)
            found.append(pen.shape("dark"))
    return found
