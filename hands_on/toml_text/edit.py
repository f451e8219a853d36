"""One value of a TOML text changed; comments, layout and everything else stay as they are."""

from __future__ import annotations

import json

from hands_on.toml_text.lines import top_level_values

__all__ = ["with_text"]


def with_text(text: str, key: str, value: str) -> str:
    """`text` with the value of the top-level `key` replaced by `value`, written as a TOML string.

    Raises KeyError where there is no such key before the first table.
    """
    start, end = top_level_values(text)[key]
    raw = text.encode()
    # A JSON string is a TOML basic string, save that TOML wants DEL escaped (TOML 1.0, String).
    written = json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    return (raw[:start] + written.encode() + raw[end:]).decode()
