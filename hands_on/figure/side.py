"""The dog from the side, facing right: an outline laid round its landmarks."""

from __future__ import annotations

import math

from hands_on.figure.curves import Node, Point
from hands_on.figure.head import side_head
from hands_on.figure.shapes import Drawing, Pen
from hands_on.figure.shapes import Shape as Curve
from hands_on.figure.skeleton import Landmarks, Shape, skeleton, tail_line
from hands_on.frozen import dataclass

__all__ = ["side_view"]

_BONES = (
    ("blade-top", "point-of-shoulder", "elbow", "wrist", "forefoot"),
    ("point-of-hip", "point-of-buttock"),
    ("great-trochanter", "stifle", "outer-hock", "hindfoot"),
)
"""Landmarks between which bones are felt."""

_BONE_PARTS = {
    "blade-top": "shoulder", "point-of-shoulder": "upper-arm", "elbow": "foreleg", "wrist": "pastern",
    "point-of-hip": "croup", "great-trochanter": "thigh", "stifle": "lower-thigh",
    "outer-hock": "rear-pastern",
}  # fmt: skip
"""To which part the bone that begins at a landmark belongs."""


def side_view(shape: Shape) -> Drawing:
    """Body, legs, head, ear and tail; the bones that carry the angles; every landmark of the side."""
    marks = skeleton(shape)
    scale = shape["height"]
    units = {name: (x / scale, z / scale) for name, (x, z) in marks.items()}
    side = _Side(shape, units, scale)
    head = side_head(shape, units, scale)
    shapes = (
        side.far_foreleg(),
        side.far_hindleg(),
        side.tail(),
        side.body(head.top, head.under),
        *side.folds(),
        *_bones(marks),
        *head.shapes,
        *side.nails(),
    )
    return Drawing("side", shapes, marks)


def _bones(marks: Landmarks) -> list[Curve]:
    found = []
    for names in _BONES:
        nodes = tuple(
            Node(*marks[name], _BONE_PARTS.get(name, _BONE_PARTS.get(names[-2], "")), corner=True)
            for name in names
        )
        found.append(Curve("bone", nodes, closed=False))
    return found


@dataclass(frozen=True)
class _Side:
    """Lengths in heights; `at` holds the landmarks."""

    s: Shape
    at: Landmarks
    scale: float

    def body(self, top: tuple[Node, ...], under: tuple[Node, ...]) -> Curve:
        """From the nose over the back to the hind leg, along the belly to the foreleg, up the throat."""
        pen = Pen(self.scale)
        pen.nodes += top
        self._neck_top(pen)
        self._back(pen)
        self._croup(pen)
        self._hindleg(pen, 0.0)
        self._belly(pen)
        self._foreleg(pen, 0.0, near=True)
        self._breast(pen)
        pen.nodes += under
        return pen.shape("body")

    # --- above

    def _neck_top(self, pen: Pen) -> None:
        (ox, oz), (wx, wz) = self.at["occiput"], self.at["withers"]
        dx, dz = wx - ox, wz - oz
        crest = self.s["neck-crest"]
        pen.on("neck")
        for share, lift in ((0.3, 0.9), (0.62, 1.0)):
            pen.to(ox + share * dx + dz * crest * lift, oz + share * dz - dx * crest * lift)
        pen.to(wx + 0.07, wz + 0.047 + 0.4 * (self.s["withers-mark"] - 0.02))

    def _back(self, pen: Pen) -> None:
        (wx, wz), (cx, cz) = self.at["withers"], self.at["croup-top"]
        mark, arch, loin = self.s["withers-mark"], self.s["back-arch"], self.s["loin-arch"]
        pen.on("withers").to(wx, wz)
        start = (wx - 0.11, wz - mark)
        pen.on("back").to(*start)
        for share in (0.33, 0.62, 0.85):
            x = start[0] + share * (cx - start[0])
            level = start[1] + share * (cz - start[1])
            bow = arch * math.sin(math.pi * share) + loin * math.exp(-(((share - 0.78) / 0.16) ** 2))
            pen.to(x, level + bow)
            if share > 0.5:
                pen.on("loin")

    def _croup(self, pen: Pen) -> None:
        (cx, cz), (rx, rz), (bx, bz) = self.at["croup-top"], self.at["tail-root"], self.at["point-of-buttock"]
        pen.on("croup").to(cx, cz)
        pen.to((cx + rx) / 2, (cz + rz) / 2 + 0.016)
        pen.to(rx - 0.008, rz)
        pen.on("buttock").to(rx - 0.016, rz - 0.4 * (rz - bz))
        pen.to(bx - 0.004, bz)

    # --- behind

    def _hindleg(self, pen: Pen, shift: float) -> None:
        """Down the back of the leg, round the foot, and up its front to the flank."""
        s = self.s
        bone, full = s["bone"], s["thigh-fullness"]
        (bx, bz), (hx, hz) = self.at["point-of-buttock"], self.at["hock"]
        (ox, oz), (fx, fz), (kx, kz) = self.at["outer-hock"], self.at["hindfoot"], self.at["stifle"]
        gx, gz = (kx + ox) / 2, (kz + oz) / 2
        wide = 0.46 * full + bone * 0.32
        nx, nz = _off(self.at["stifle"], self.at["outer-hock"])
        pen.on("thigh")
        if not shift:
            pen.to(bx + 0.004, bz - 0.3 * (bz - gz))
        rear = (gx + nx * wide, gz + nz * wide)
        pen.to(bx + 0.35 * (rear[0] - bx) + 0.006 + shift, bz - 0.62 * (bz - gz))
        pen.on("lower-thigh").to(rear[0] + shift, rear[1])
        pen.to(hx + 0.3 * (ox - hx) + 0.30 * (rear[0] - hx) + shift, hz + 0.30 * (rear[1] - hz))
        pen.on("hock").to(hx + shift, hz + 0.008)
        width = bone * 0.92
        lean = (fx - ox) / max(0.05, oz - fz)
        pen.on("rear-pastern").to(hx + 0.012 + shift, hz - 0.05)
        pen.to(fx - 0.62 * width + shift - lean * 0.02, 0.085)
        self._foot(pen, fx + shift, fz, width, "hind")
        pen.on("rear-pastern").to(fx + 0.42 * width + shift, 0.105)
        pen.to(ox + 0.5 * width - 0.02 * lean + shift, oz - 0.06)
        pen.on("hock").to(ox + 0.6 * width + shift, oz + 0.02)
        pen.on("lower-thigh").to(gx - nx * (wide * 0.66) + shift, gz - nz * (wide * 0.66))
        pen.on("thigh").to(kx + 0.046 + shift, kz - 0.012)
        pen.to(kx + 0.070 + shift, kz + 0.05)

    def _belly(self, pen: Pen) -> None:
        (kx, kz), (sx, sz) = self.at["stifle"], self.at["sternum"]
        tuck = self.s["tuck-up"]
        span = sx - kx
        pen.on("underline").to(kx + 0.10, max(kz + 0.10, sz + tuck - 0.03))
        pen.to(kx + 0.16 * span + 0.06, sz + tuck)
        pen.to(kx + 0.5 * span, sz + tuck * 0.55)
        pen.on("brisket").to(kx + 0.8 * span, sz + tuck * 0.12)
        pen.to(sx, sz)

    # --- in front

    def _foreleg(self, pen: Pen, shift: float, *, near: bool) -> None:
        bone = self.s["bone"]
        (ex, ez), (wx, wz), (fx, fz) = self.at["elbow"], self.at["wrist"], self.at["forefoot"]
        _, sz = self.at["sternum"]
        axis = ex + self.s["forearm-lean"]
        top = min(ez, sz) - 0.012
        upper, lower = 0.84 * bone, 0.56 * bone
        pen.on("foreleg")
        if near:
            pen.to(ex + 0.004, top, corner=sz < ez)
            pen.to(axis - 0.85 * upper + shift, top - 0.35 * (top - wz))
        else:
            pen.to(axis - upper + shift, ez + 0.04)
        pen.to(wx - lower * 1.02 + shift, wz + 0.055)
        pen.on("pastern").to(wx - lower * 1.22 + shift, wz - 0.008)
        mx, mz = (wx + fx) / 2, (wz + fz) / 2
        pen.to(mx - lower * 0.92 + shift, mz)
        self._foot(pen, fx + shift, fz, bone, "fore")
        pen.on("pastern").to(mx + lower * 0.86 + shift, mz + 0.01)
        pen.on("foreleg").to(wx + lower * 1.02 + shift, wz + 0.005)
        pen.to(axis + lower * 1.0 + shift, wz + 0.07)
        pen.to(axis + upper * 0.98 + shift, top - 0.30 * (top - wz))
        pen.to(axis + upper * 1.25 + 0.012 + shift, max(top, ez - 0.02))

    def _foot(self, pen: Pen, x: float, z: float, bone: float, which: str) -> None:
        """The paw, heel to toe; `x`, `z` is where the pastern ends."""
        s = self.s
        arch, long = s[f"{which}-toe-arch"], s[f"{which}-foot-length"]
        part = "forefoot" if which == "fore" else "hindfoot"
        back = x - 0.40 * bone - 0.012
        tip = back + long
        pen.on(part).to(back - 0.002, 0.034)
        pen.to(back + 0.010, 0.002)
        pen.to(tip - 0.014, 0.0)
        pen.to(tip, 0.016 + 0.1 * arch)
        pen.to(tip - 0.30 * long, arch)

    def _breast(self, pen: Pen) -> None:
        (px, pz), (tx, tz) = self.at["prosternum"], self.at["throat"]
        ex = self.at["elbow"][0] + self.s["forearm-lean"] + 0.9 * self.s["bone"] + 0.012
        low = max(1 - self.s["chest-depth"], self.at["elbow"][1] - 0.02)
        pen.on("forechest").to(ex + 0.45 * (px - ex), low + 0.30 * (pz - low))
        pen.to(ex + 0.86 * (px - ex), low + 0.66 * (pz - low))
        pen.to(px, pz)
        nx, nz = px - 0.012 - 0.35 * max(0.0, self.s["forechest"]), pz + 0.10
        pen.on("neck").to(nx, nz)
        dx, dz = tx - nx, tz - nz
        thick, sag = self.s["neck-thickness"], self.s["throat-skin"]
        for share, hang in ((0.36, 0.4), (0.66, 1.0), (0.88, 0.9)):
            out = thick * math.sin(math.pi * min(1.0, share)) + sag * hang
            pen.on("throat" if share > 0.5 else "neck")
            pen.to(nx + share * dx + dz * out * 0.9, nz + share * dz - dx * out - sag * hang * 0.25)

    # --- beside

    def far_foreleg(self) -> Curve:
        """The off foreleg, a little in front of the near one."""
        pen = Pen(self.scale)
        self._foreleg(pen, 0.055, near=False)
        return Curve("far", _as_part(pen.nodes, "far-leg"))

    def far_hindleg(self) -> Curve:
        """The off hind leg, a little in front of the near one."""
        pen = Pen(self.scale)
        self._hindleg(pen, 0.075)
        (kx, kz) = self.at["stifle"]
        pen.to(kx + 0.06, kz + 0.10)
        pen.to(kx - 0.02, kz + 0.14)
        return Curve("far", _as_part(pen.nodes, "far-leg"))

    def tail(self) -> Curve:
        """A tapering tail along its line."""
        rx, rz = self.at["tail-root"]
        line = tail_line(self.s, (rx, rz))
        line[0] = (rx + 0.03, rz - 0.02)
        thick = self.s["tail-thickness"]
        kink = self.s["tail-kink"]
        left, right = [], []
        for n, (x, z) in enumerate(line[:-1]):
            nx, nz = _off(line[n], line[n + 1])
            half = thick * (1 - 0.72 * n / (len(line) - 1)) / 2
            bump = kink if n == 5 else 0.0
            left.append(
                Node((x + nx * (half + bump)) * self.scale, (z + nz * (half + bump)) * self.scale, "tail")
            )
            right.append(
                Node((x - nx * (half - bump)) * self.scale, (z - nz * (half - bump)) * self.scale, "tail")
            )
        tip = Node(line[-1][0] * self.scale, line[-1][1] * self.scale, "tail")
        return Curve("tail", (*left, tip, *reversed(right)))

    def folds(self) -> list[Curve]:
        """Lines within the outline: the elbow, the thigh, the flank, the shoulder's bulge."""
        (ex, ez), (kx, kz) = self.at["elbow"], self.at["stifle"]
        sz, tuck = self.at["sternum"][1], self.s["tuck-up"]
        pen = Pen(self.scale).on("foreleg")
        pen.to(ex + 0.012, ez - 0.055).to(ex - 0.004, ez - 0.005).to(ex + 0.02, ez + 0.05)
        elbow = pen.shape("fold", closed=False)
        pen = Pen(self.scale).on("thigh")
        pen.to(kx + 0.10, max(kz + 0.10, sz + tuck - 0.03)).to(kx + 0.085, kz + 0.19).to(
            kx + 0.035, kz + 0.27
        )
        flank = pen.shape("fold", closed=False)
        found = [elbow, flank]
        if (load := self.s["shoulder-load"]) > 0.002:
            (bx, bz), (px, pz) = self.at["blade-top"], self.at["point-of-shoulder"]
            for out in (load, -load):
                pen = Pen(self.scale).on("shoulder")
                mx, mz = (bx + px) / 2, (bz + pz) / 2
                nx, nz = _off((bx, bz), (px, pz))
                pen.to(bx + nx * out * 0.6, bz + nz * out * 0.6 - 0.02)
                pen.to(mx + nx * out * 2, mz + nz * out * 2)
                pen.to(px + nx * out * 0.8 - 0.02, pz + nz * out * 0.8 - 0.02)
                found.append(pen.shape("fold", closed=False))
        return found

    def nails(self) -> list[Curve]:
        """Nails in front of the toes, where they are long enough to be seen."""
        found = []
        for which, mark in (("fore", "forefoot"), ("hind", "hindfoot")):
            long = self.s[f"{which}-nails"]
            if long < 0.004:
                continue
            bone = self.s["bone"] * (1.0 if which == "fore" else 0.92)
            tip = self.at[mark][0] - 0.40 * bone - 0.012 + self.s[f"{which}-foot-length"]
            part = "forefoot" if which == "fore" else "hindfoot"
            pen = Pen(self.scale).on(part)
            pen.to(tip - 0.006, 0.026, corner=True).to(tip + 0.6 * long, 0.016).to(
                tip + long, 0.0, corner=True
            )
            pen.to(tip - 0.002, 0.008, corner=True)
            found.append(pen.shape("dark"))
        return found


def _off(a: Point, b: Point) -> Point:
    """The unit vector to the right of the way from a to b: behind a leg that is gone down."""
    dx, dz = b[0] - a[0], b[1] - a[1]
    length = math.hypot(dx, dz) or 1.0
    return (dz / length, -dx / length)


def _as_part(nodes: list[Node], part: str) -> tuple[Node, ...]:
    return tuple(Node(node.x, node.z, part, node.corner) for node in nodes)
