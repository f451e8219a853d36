"""The point the walk stands at: what it is, what the edition asks, how the hand finds it."""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static

from hands_on.tui.show import fitted, plain


class PointHead(Static):
    """Fitted to its width; the full text is a key away."""

    def __init__(self) -> None:
        super().__init__("", markup=False)
        self._texts = ("", "", "", "")
        self._lines = 2

    def show(self, place: str, label: str, asked: str, find: str, lines: int) -> None:
        """`place`: where in the walk; `lines`: how many each text may take."""
        self._texts, self._lines = (place, label, asked, find), lines
        self._draw()

    def on_resize(self) -> None:
        """Fit again."""
        self._draw()

    def _draw(self) -> None:
        width = self.content_size.width
        if not width:
            return
        place, label, asked, find = self._texts
        rows = [Content.assemble(plain(label, "bold"), plain(f"  {place}", "dim"))]
        if asked:
            rows.append(plain(fitted(f"Asked: {asked}", width, self._lines)))
        if find:
            rows.append(plain(fitted(f"Find: {find}", width, self._lines), "dim"))
        self.update(Content("\n").join(rows))
