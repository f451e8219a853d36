"""The point the walk stands at: what it is, what the edition asks, how the hand finds it."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content
from textual.widgets import Static

from hands_on.tui.show import line, plain

MORE = "more: PgDn"


class PointHead(Static):
    """All of it, as high as it is; what holds it scrolls."""

    def __init__(self) -> None:
        super().__init__("", markup=False)
        self._label = self._place = ""
        self._texts: tuple[tuple[str, str], ...] = ()
        self._more = False

    def show(self, label: str, place: str, texts: Sequence[tuple[str, str]]) -> None:
        """`place`: where in the walk; `texts`: each with a word before it, empty ones are left out."""
        self._label, self._place = label, place
        self._texts = tuple((word, text) for word, text in texts if text)
        self._draw()

    def tell_more(self, room: int) -> None:
        """Say beside the name when the texts are longer than their room."""
        more = self.size.height > room
        if more != self._more:
            self._more = more
            self._draw()

    def _draw(self) -> None:
        more = f"  ({MORE})" if self._more else ""
        rows = [Content.assemble(plain(self._label, "bold"), plain(f"  {self._place}{more}", "dim"))]
        for number, (word, text) in enumerate(self._texts):
            rows.append(line(f"{word}: {text}", "dim" if number and word != "Caution" else ""))
        self.update(Content("\n").join(rows))
