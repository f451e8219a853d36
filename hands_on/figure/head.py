"""The head from the side and from in front: skull, stop, muzzle, lips, ear, eye and nose."""

from __future__ import annotations

import math

from hands_on.figure.curves import Node, Point
from hands_on.figure.shapes import Pen, leaf
from hands_on.figure.shapes import Shape as Curve
from hands_on.figure.skeleton import Landmarks, Shape
from hands_on.frozen import dataclass

__all__ = ["SideHead", "front_head", "side_head"]


@dataclass(frozen=True)
class SideHead:
    """The head's share of the body's outline, and what lies on it."""

    top: tuple[Node, ...]
    """From the nose over the skull to the occiput."""
    under: tuple[Node, ...]
    """From the throat along the jaw to the lips."""
    shapes: tuple[Curve, ...]


def side_head(s: Shape, at: Landmarks, scale: float) -> SideHead:
    """Seen from the side; `at` are landmarks in heights."""
    long = s["head-length"]
    (ox, oz), (nx, nz) = at["occiput"], at["nose"]
    span = math.hypot(nx - ox, nz - oz) or 1.0
    ex, ez = (nx - ox) / span, (nz - oz) / span

    def place(along: float, up: float) -> Point:
        """In head lengths from the occiput towards the nose, and up from that line."""
        return (ox + long * (along * ex - up * ez), oz + long * (along * ez + up * ex))

    muzzle, deep = s["muzzle-share"], s["muzzle-depth"]
    stop = -s["stop-below"] / long
    skull = 1 - muzzle
    end = deep * s["muzzle-end"]
    pen = Pen(scale).on("muzzle")
    pen.to(*place(1.0, -0.012))
    pen.to(*place(0.985, 0.026))
    pen.to(*place(1 - 0.5 * muzzle, (0.026 + stop) / 2 + s["bridge-curve"]))
    pen.on("stop").to(*place(skull + 0.012, stop))
    brow = stop + s["stop-depth"]
    pen.on("skull").to(*place(skull - 0.085, brow))
    pen.to(*place(skull * 0.5, brow * 0.62 + 0.012 + s["skull-dome"]))
    pen.to(*place(0.0, 0.004))
    top = tuple(pen.nodes)

    pen = Pen(scale).on("throat")
    pen.to(*place(0.16, -s["skull-depth"]))
    lower = s["jaw-shift"]
    pen.on("muzzle").to(*place(skull * 0.72, -s["skull-depth"] * 0.86 - 0.01))
    pen.to(*place(skull + 0.30 * muzzle, stop - deep - 0.02))
    pen.to(*place(0.90 + lower, -end - 0.075))
    pen.to(*place(0.945 + lower, -end - 0.03))
    lips = s["lip-depth"]
    pen.to(*place(0.955, -end * 0.72 - lips * 0.35))
    pen.to(*place(0.985, -0.055))
    under = tuple(pen.nodes)

    lip = Pen(scale).on("muzzle")
    lip.to(*place(0.968, -0.07)).to(*place(0.93, -end - lips * 0.55))
    lip.to(*place(1 - 0.45 * muzzle, -deep * 0.8 - 0.01 - lips)).to(*place(skull + 0.08, -deep * 0.78 + stop))
    nose = Pen(scale).on("muzzle")
    nose.to(*place(1.0, -0.012)).to(*place(0.985, 0.024)).to(*place(0.945, 0.012)).to(*place(0.965, -0.045))
    eye = Pen(scale).on("skull")
    x, z, r = skull - 0.10, stop - 0.034, 0.026
    eye.to(*place(x - r * 1.3, z)).to(*place(x, z + r)).to(*place(x + r * 1.3, z)).to(*place(x, z - r * 0.8))
    shapes = (lip.shape("fold", closed=False), nose.shape("dark"), eye.shape("dark"), _ear(s, place, scale))
    return SideHead(top, under, shapes)


def _ear(s: Shape, place: object, scale: float) -> Curve:
    assert callable(place)
    rise = math.radians(s["ear-rise"])
    erect = math.sin(rise)
    x, z = place(0.13 + 0.07 * max(0.0, s["ear-forward"]), -0.055 + 0.02 * erect)
    z += s["ear-set"]
    long = s["ear-length"]
    tip = (x + long * math.cos(rise), z + long * erect)
    return leaf(
        (x * scale, z * scale), (tip[0] * scale, tip[1] * scale), s["ear-width"] * scale, "ear", "ear",
        pointed=s["ear-point"] > 0.5, bow=s["ear-bow"],
    )  # fmt: skip


def front_head(s: Shape, at: Landmarks, scale: float) -> list[Curve]:
    """Seen from in front, upright; `at` are the landmarks of the side in heights."""
    half = s["skull-width"] / 2
    snout = s["muzzle-width"] / 2
    nose = at["nose"][1]
    brow = at["stop"][1] + 0.05
    top = max(at["occiput"][1] - 0.01, brow + 0.05) + s["skull-dome"] * 0.3
    chin = nose - s["head-length"] * (s["muzzle-depth"] * 0.8 + 0.06)
    cheek = s["cheeks"]
    ears = [_front_ear(s, sign, half, top, scale) for sign in (-1, 1)]
    rows = (
        ("skull", 0.0, top),
        ("skull", half * 0.72, top - 0.012),
        ("skull", half * 1.0, brow + 0.005),
        ("cheek", half * 0.98 + cheek, brow - 0.055),
        ("cheek", (half + snout) / 2 + cheek * 0.6, nose + 0.035),
        ("muzzle", snout * 1.04, nose - 0.005),
        ("muzzle", snout * 0.92 + s["lip-depth"] * 0.15, chin + 0.03),
        ("muzzle", snout * 0.5, chin),
    )
    right = [Node(x * scale, z * scale, part) for part, x, z in rows]
    left = [Node(-node.x, node.z, node.part) for node in reversed(right[1:])]
    face = Curve("body", (*right, *left))
    found = [*(ears if s["ear-rise"] > 15 else []), face, *([] if s["ear-rise"] > 15 else ears)]
    for sign in (-1, 1):
        pen = Pen(scale).on("skull")
        x, z, r = sign * half * 0.5, brow - 0.035, 0.011
        pen.to(x - r * 1.3, z).to(x, z + r).to(x + r * 1.3, z).to(x, z - r)
        found.append(pen.shape("dark"))
    pen = Pen(scale).on("muzzle")
    w = snout * 0.5
    pen.to(-w, nose + 0.012).to(0.0, nose + 0.018).to(w, nose + 0.012).to(w * 0.5, nose - 0.016)
    pen.to(-w * 0.5, nose - 0.016)
    found.append(pen.shape("dark"))
    mouth = Pen(scale).on("muzzle")
    mouth.to(-snout * 0.7, nose - 0.055 - s["lip-depth"] * 0.2).to(0.0, nose - 0.035)
    mouth.to(snout * 0.7, nose - 0.055 - s["lip-depth"] * 0.2)
    found.append(mouth.shape("fold", closed=False))
    return found


def _front_ear(s: Shape, sign: int, half: float, top: float, scale: float) -> Curve:
    erect = math.sin(math.radians(s["ear-rise"]))
    long = s["ear-length"]
    base = (
        sign * half * (0.66 if erect > 0.3 else 0.86),
        top - (0.055 if erect > 0.3 else 0.03) + s["ear-set"],
    )
    out = 0.22 if erect > 0.3 else 0.16
    tip = (base[0] + sign * long * out, base[1] + long * erect * math.sqrt(1 - out * out))
    return leaf(
        (base[0] * scale, base[1] * scale), (tip[0] * scale, tip[1] * scale), s["ear-width"] * scale * 0.9,
        "ear", "ear", pointed=s["ear-point"] > 0.5,
    )  # fmt: skip
