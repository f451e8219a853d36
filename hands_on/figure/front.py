"""The dog from in front: head, chest between the shoulders, forelegs and how the feet point."""

from __future__ import annotations

from collections.abc import Mapping

from hands_on.figure.curves import Node
from hands_on.figure.head import front_head
from hands_on.figure.legs import FOREFOOT, Leg, mirrored, paw
from hands_on.figure.shapes import Drawing, Pen
from hands_on.figure.shapes import Shape as Curve
from hands_on.figure.skeleton import Shape, skeleton

__all__ = ["front_view"]


def front_view(sides: Mapping[str, Shape]) -> Drawing:
    """`sides` holds a shape for the dog's `left`, at the right of the picture, and for its `right`."""
    whole = sides["left"]
    scale = whole["height"]
    at = {name: (x / scale, z / scale) for name, (x, z) in skeleton(whole).items()}
    halves = {1: _half(sides["left"], scale), -1: _half(sides["right"], scale)}
    body = Curve("body", (*halves[1], *mirrored(halves[-1])))
    marks = {}
    shapes = [body]
    for sign, side in ((1, "left"), (-1, "right")):
        shape = sides[side]
        leg = _leg(shape, scale)
        place = leg.places
        shapes += paw(shape, FOREFOOT, place["foot"][0], sign, scale)
        shapes.append(_elbow(shape, scale, sign))
        if sign > 0:
            marks = {name: (x * scale, z * scale) for name, (x, z) in place.items() if name != "foot"}
    keel = 1 - whole["chest-depth"]
    width = whole["chest-width"] / 2
    chest = Pen(scale).on("brisket")
    chest.to(-width * 0.42, keel + 0.13).to(-width * 0.3, keel + 0.035).to(0.0, keel + 0.006)
    chest.to(width * 0.3, keel + 0.035).to(width * 0.42, keel + 0.13)
    shapes.append(chest.shape("fold", closed=False))
    out = 0.012 + 0.25 * max(0.0, whole["forechest"])
    bone = Pen(scale).on("forechest")
    z = whole["shoulder-height"] - 0.045
    bone.to(-out, z + out).to(0.0, z - out * 1.2).to(out, z + out)
    shapes.append(bone.shape("fold", closed=False))
    shapes += front_head(whole, at, scale)
    marks |= {"sternum": (0.0, keel * scale), "prosternum": (0.0, z * scale)}
    return Drawing("front", tuple(shapes), marks)


def _leg(s: Shape, scale: float) -> Leg:
    width = s["front-width"] / 2
    at = {name: z / scale for name, (_, z) in skeleton(s).items()}
    bow = s["foreleg-bow"]
    return Leg(
        places={
            "point-of-shoulder": (s["chest-width"] / 2 - 0.015, s["shoulder-height"]),
            "elbow": (width + s["elbow-out"], at["elbow"]),
            "middle": (width + s["elbow-out"] * 0.45 + bow, (at["elbow"] + at["wrist"]) / 2),
            "wrist": (width - 0.25 * bow + s["wrist-out"], at["wrist"]),
            "foot": (width + s["forefoot-out"], 0.06),
        }
    )


def _half(s: Shape, scale: float) -> list[Node]:
    """From the neck in the middle down the outside of a foreleg and up its inside to the breastbone."""
    leg = _leg(s, scale)
    (shx, shz), (ex, ez) = leg.places["point-of-shoulder"], leg.places["elbow"]
    (mx, mz), (wx, wz), (fx, fz) = leg.places["middle"], leg.places["wrist"], leg.places["foot"]
    bone = s["bone"]
    keel = 1 - s["chest-depth"]
    nose = skeleton(s)["nose"][1] / scale
    neck = 0.095 + s["neck-thickness"] * 0.8 + s["throat-skin"] * 0.5
    load = s["shoulder-load"]
    pen = Pen(scale).on("neck")
    pen.to(0.0, max(nose + 0.02, 0.9))
    pen.to(neck, max(nose, 0.88))
    pen.on("shoulder").to(max(neck + 0.01, shx * 0.78), 0.90)
    pen.to(shx + 0.012 + load * 1.3, shz + 0.09)
    pen.on("upper-arm").to(shx + 0.026 + load * 0.9, shz - 0.01)
    pen.to(max(shx + 0.012, ex + 0.012) + load * 0.3, (shz + ez) / 2)
    upper = 0.56 * bone
    pen.on("elbow").to(ex + upper + 0.006 + 0.25 * max(0.0, s["elbow-out"]), ez)
    pen.on("foreleg").to(ex + upper * 0.95, ez - 0.05)
    pen.to(mx + upper * 0.9, mz)
    pen.to(wx + 0.50 * bone, wz + 0.03)
    pen.on("pastern").to(wx + 0.52 * bone, wz - 0.01)
    pen.to(fx + 0.47 * bone, fz + 0.025)
    pen.on("forefoot").to(fx + 0.47 * bone, 0.02)
    pen.to(fx - 0.47 * bone, 0.02)
    pen.on("pastern").to(fx - 0.47 * bone, fz + 0.025)
    pen.on("foreleg").to(wx - 0.50 * bone, wz)
    pen.to(wx - 0.47 * bone, wz + 0.04)
    pen.to(mx - upper * 0.85, mz)
    inner = min(ex - upper * 0.95, shx - 0.02)
    pen.to(inner, min(ez, keel) - 0.05)
    pen.on("brisket").to(max(0.012, inner * 0.8), min(ez, keel) + 0.012)
    pen.to(0.0, keel if inner > 0.03 else min(ez, keel) + 0.01)
    return pen.nodes


def _elbow(s: Shape, scale: float, sign: int) -> Curve:
    """The inner line of the upper arm, from the shoulder to the elbow."""
    place = _leg(s, scale).places
    (shx, shz), (ex, ez) = place["point-of-shoulder"], place["elbow"]
    bone = s["bone"]
    pen = Pen(scale).on("upper-arm")
    pen.to(sign * (shx - 0.05), shz - 0.02).to(sign * (ex - 0.62 * bone), ez + 0.06)
    pen.to(sign * (ex - 0.5 * bone), ez - 0.06)
    return pen.shape("fold", closed=False)
