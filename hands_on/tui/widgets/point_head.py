"""The point the walk stands at: what it is, what the edition asks, how the hand finds it."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content
from textual.widgets import Static

from hands_on.tui.show import fitted, plain


class PointHead(Static):
    """Fitted to its width; the full text is a key away."""

    def __init__(self) -> None:
        super().__init__("", markup=False)
        self._label = self._place = ""
        self._texts: tuple[tuple[str, str], ...] = ()
        self._lines = 2

    def show(self, label: str, place: str, texts: Sequence[tuple[str, str]], lines: int) -> None:
        """`place`: where in the walk; `texts`: each with a word before it; `lines`: how many each has."""
        self._label, self._place = label, place
        self._texts, self._lines = tuple(texts), lines
        self._draw()

    def on_resize(self) -> None:
        """Fit again."""
        self._draw()

    def _draw(self) -> None:
        width = self.content_size.width
        if not width:
            return
        rows = [Content.assemble(plain(self._label, "bold"), plain(f"  {self._place}", "dim"))]
        for number, (word, text) in enumerate(self._texts):
            if text:
                rows.append(plain(fitted(f"{word}: {text}", width, self._lines), "dim" if number else ""))
        self.update(Content("\n").join(rows))
