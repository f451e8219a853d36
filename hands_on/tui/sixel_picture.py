"""A picture in Sixel graphics, for all terminals that say they have them. Part of the extra `pictures`."""

from __future__ import annotations

import re
from collections.abc import Iterable

from rich.control import Control
from rich.segment import Segment
from textual.app import ComposeResult
from textual_image._sixel import BackgroundColor, SixelOptions
from textual_image.widget.sixel import Image, _ImageSixelImpl, _NoopRenderable

_DEFINED = re.compile(r"#(\d+);2;\d+;\d+;\d+")


def each_selected(sixels: str) -> str:
    """The same picture with every colour selected after it was defined.

    A definition selects too for most terminals, and textual-image relies on it; xterm (379 at least) goes on
    in the colour it had.
    """
    return _DEFINED.sub(r"\g<0>#\1", sixels)


class SixelPicture(Image, Renderable=_NoopRenderable):
    """An `image` to be set; see textual-image for the rest."""

    def compose(self) -> ComposeResult:
        """The part that sends it."""
        yield _Sent(self.image)


class _Sent(_ImageSixelImpl):
    def _image_to_sixels(
        self,
        image: object,
        sixel_options: SixelOptions | None = None,
        background: BackgroundColor | None = None,
    ) -> str:
        return each_selected(super()._image_to_sixels(image, sixel_options, background))  # type: ignore[arg-type]

    def _get_sixel_segments(self, sixel_data: str) -> Iterable[Segment]:
        """As the library's, but the cursor ends on the picture's last line, where text goes on beside it."""
        *sent, _ = super()._get_sixel_segments(sixel_data)
        region = self.screen.find_widget(self).visible_region
        return [*sent, Segment(Control.move_to(region.right, region.bottom - 1).segment.text, sent[0].style)]
