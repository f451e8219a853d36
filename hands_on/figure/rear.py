"""The dog from behind: croup and tail, thighs, hocks and how the hind feet point."""

from __future__ import annotations

import math
from collections.abc import Mapping

from hands_on.figure.curves import Node
from hands_on.figure.legs import HINDFOOT, Leg, mirrored, paw
from hands_on.figure.shapes import Drawing, Pen, leaf
from hands_on.figure.shapes import Shape as Curve
from hands_on.figure.skeleton import Shape, skeleton, tail_line

__all__ = ["rear_view"]


def rear_view(sides: Mapping[str, Shape]) -> Drawing:
    """`sides` holds a shape for `left` and `right`: the dog's left is on the left of the picture."""
    whole = sides["left"]
    scale = whole["height"]
    at = {name: (x / scale, z / scale) for name, (x, z) in skeleton(whole).items()}
    shapes = _beyond(whole, at, scale)
    halves = {1: _half(sides["right"], scale), -1: _half(sides["left"], scale)}
    shapes.append(Curve("body", (*halves[1], *mirrored(halves[-1]))))
    marks: dict[str, tuple[float, float]] = {}
    for sign, side in ((1, "right"), (-1, "left")):
        place = _leg(sides[side], scale).places
        shapes += paw(sides[side], HINDFOOT, place["foot"][0], sign, scale)
        hx, hz = place["hock"]
        bone = sides[side]["bone"]
        pen = Pen(scale).on("hock")
        for x, z in ((hx - 0.16 * bone, hz + 0.07), (hx - 0.28 * bone, hz + 0.01), (hx, hz - 0.02),
                     (hx + 0.28 * bone, hz + 0.01), (hx + 0.16 * bone, hz + 0.07)):  # fmt: skip
            pen.to(sign * x, z)
        shapes.append(pen.shape("fold", closed=False))
        if sign > 0:
            marks = {name: (x * scale, z * scale) for name, (x, z) in place.items() if name != "foot"}
    shapes.append(_tail(whole, at, scale))
    marks |= {name: (0.0, at[name][1] * scale) for name in ("croup-top", "tail-root")}
    return Drawing("rear", tuple(shapes), marks)


def _leg(s: Shape, scale: float) -> Leg:
    at = {name: z / scale for name, (_, z) in skeleton(s).items()}
    width, bow = s["rear-width"] / 2, s["hock-out"]
    return Leg(
        places={
            "stifle": (width + 0.035 + s["stifle-out"], at["stifle"]),
            "hock": (width + bow, at["hock"]),
            "hindfoot": (width - 0.3 * bow + s["hindfoot-out"], 0.1),
            "foot": (width - 0.35 * bow + s["hindfoot-out"], 0.06),
        }
    )


def _half(s: Shape, scale: float) -> list[Node]:
    """From the croup in the middle down the outside of a hind leg and up its inside."""
    place = _leg(s, scale).places
    (kx, kz), (hx, hz), (fx, fz) = place["stifle"], place["hock"], place["foot"]
    bone, full = s["bone"] * 0.9, s["thigh-fullness"]
    croup = s["croup-height"]
    wide = s["loin-width"] / 2
    hip = s["rear-width"] / 2
    pen = Pen(scale).on("croup")
    pen.to(0.0, croup)
    pen.to(wide * 0.78, croup - 0.025)
    pen.on("thigh").to(max(wide, hip + 0.015 + 0.3 * full), croup - 0.13)
    pen.to(hip + 0.03 + 0.42 * full + 0.4 * s["stifle-out"], (croup + kz) / 2 - 0.02)
    pen.on("stifle").to(kx + 0.025 + 0.16 * full, kz + 0.03)
    pen.on("lower-thigh").to((kx + hx) / 2 + 0.02 + 0.12 * full, (kz + hz) / 2)
    pen.on("hock").to(hx + 0.44 * bone, hz + 0.03)
    pen.on("rear-pastern").to(hx + 0.46 * bone, hz - 0.03)
    pen.to(fx + 0.44 * bone, fz + 0.02)
    pen.on("hindfoot").to(fx + 0.44 * bone, 0.02)
    pen.to(fx - 0.44 * bone, 0.02)
    pen.on("rear-pastern").to(fx - 0.44 * bone, fz + 0.02)
    pen.to(hx - 0.42 * bone, hz - 0.03)
    pen.on("hock").to(hx - 0.40 * bone, hz + 0.03)
    pen.on("lower-thigh").to((kx + hx) / 2 - 0.045 - 0.1 * full, (kz + hz) / 2 + 0.02)
    inner = max(0.014, hip - 0.03 - 0.42 * full)
    pen.on("thigh").to(inner, kz + 0.02)
    pen.to(0.012, kz + 0.075)
    pen.to(0.0, kz + 0.10)
    return pen.nodes


def _beyond(s: Shape, at: Mapping[str, tuple[float, float]], scale: float) -> list[Curve]:
    """Head, ears and ribs, seen over and beside the croup."""
    top = max(at["occiput"][1], 1.02)
    half = s["skull-width"] / 2
    found = []
    erect = math.sin(math.radians(s["ear-rise"]))
    for sign in (-1, 1):
        base = (
            sign * half * (0.66 if erect > 0.3 else 0.9),
            top - (0.055 if erect > 0.3 else 0.03) + s["ear-set"],
        )
        tip = (base[0] + sign * s["ear-length"] * 0.18, base[1] + s["ear-length"] * erect * 0.97)
        found.append(
            leaf(
                (base[0] * scale, base[1] * scale),
                (tip[0] * scale, tip[1] * scale),
                s["ear-width"] * scale * 0.9,
                "far-head",
                "far",
                pointed=s["ear-point"] > 0.5,
            )
        )
    pen = Pen(scale).on("far-head")
    neck = 0.085 + s["neck-thickness"] * 0.8
    outline = (
        (half * 0.8, top - 0.015),
        (half, top - 0.07),
        (max(neck, half * 0.85), top - 0.15),
        (neck + 0.03, 0.93),
    )
    pen.to(0.0, top)
    for x, z in outline:
        pen.to(x, z)
    for x, z in reversed(outline):
        pen.to(-x, z)
    found.append(pen.shape("far"))
    width, keel = s["chest-width"] / 2, 1 - s["chest-depth"]
    middle, tall = (1 + keel) / 2, (1 - keel) / 2
    square = s["rib-spring"]
    pen = Pen(scale).on("ribs")
    for turn in range(12):
        angle = math.radians(90 - 30 * turn)
        c, d = math.cos(angle), math.sin(angle)
        bulge = 1 + square * abs(c) * abs(d)
        pen.to(width * c * bulge, middle + tall * d * 0.98)
    found.append(pen.shape("far"))
    return found


def _tail(s: Shape, at: Mapping[str, tuple[float, float]], scale: float) -> Curve:
    """The tail as it hangs or is held, in front of everything."""
    line = tail_line(s, at["tail-root"])
    aside, thick = s["tail-aside"], s["tail-thickness"]
    left, right = [], []
    far = len(line) - 1
    for n, (_, z) in enumerate(line):
        half = thick * (1 - 0.75 * n / far) / 2
        x = aside * (n / far) ** 1.3
        bump = s["tail-kink"] if n == 5 else 0.0
        left.append(Node((x - half + bump) * scale, z * scale, "tail"))
        right.append(Node((x + half + bump) * scale, z * scale, "tail"))
    return Curve("tail", (*left, *reversed(right)))
