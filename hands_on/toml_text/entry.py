"""A table of a TOML text put in, or changed where it stands; comments and order stay as they are."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Mapping
from typing import Any

from hands_on.frozen import dataclass
from hands_on.toml_text.lines import blocks

__all__ = ["put_entry", "take_out", "toml_value"]


@dataclass(frozen=True)
class _Place:
    start: int
    end: int
    pairs: dict[str, tuple[int, int]]


def toml_value(value: Any) -> str:
    """A value as it is written in TOML. Raises TypeError for what TOML has not."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        # A JSON string is a TOML basic string, save that TOML wants DEL escaped (TOML 1.0, String).
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    if isinstance(value, int):
        return str(value)
    if isinstance(value, float):
        return str(int(value)) if value.is_integer() and abs(value) < 1e15 else repr(value)
    if isinstance(value, Mapping):
        return "{ " + ", ".join(f"{toml_key(key)} = {toml_value(one)}" for key, one in value.items()) + " }"
    if isinstance(value, list | tuple):
        short = "[" + ", ".join(map(toml_value, value)) + "]"
        if len(short) <= 90 and not any(isinstance(one, Mapping) for one in value[1:]):
            return short
        return "[\n" + "".join(f"    {toml_value(one)},\n" for one in value) + "]"
    raise TypeError(f"TOML has no {type(value).__name__}")


def toml_key(key: str) -> str:
    """A key, in quotes where it must be."""
    return key if re.fullmatch(r"[A-Za-z0-9_-]+", key) else toml_value(key)


def put_entry(
    text: str,
    header: str,
    table: Mapping[str, Any],
    same: Callable[[Mapping[str, Any]], bool] | None = None,
    before: Callable[[Mapping[str, Any]], bool] | None = None,
) -> str:
    """`text` with `table` under `header`, for instance `[[limits]]` or `[asked."eyes.colour"]`.

    The entry of `header` that `same` recognises is changed in its place: values are replaced, keys that
    `table` lacks are taken out, comments stay. Without one the table is put before the first entry of
    `header` that `before` recognises, above its comments, or else behind the last of its kind.
    `text` must be sound TOML.
    """
    raw = text.encode()
    found = [place for name, place in _places(text) if name == _plain(header)]
    known = [place for place in found if same is None or same(_values(raw, place))]
    if known:
        return _changed(raw, known[0], table).decode()
    kind = _kind(header)
    alike = [place for name, place in _places(text) if _kind_of(name) == kind]
    lines = f"{header}\n" + "".join(f"{toml_key(k)} = {toml_value(v)}\n" for k, v in table.items())
    ahead = [place for place in found if before is not None and before(_values(raw, place))]
    if ahead:
        at = _above_comments(raw, ahead[0].start)
        return (raw[:at] + lines.encode() + b"\n" + raw[at:]).decode()
    if alike:
        at = _end_of(raw, alike[-1])
        return (raw[:at].rstrip(b"\n") + b"\n\n" + lines.encode() + b"\n" + raw[at:].lstrip(b"\n")).decode()
    return text.rstrip("\n") + "\n\n" + lines


def _above_comments(raw: bytes, at: int) -> int:
    """Where the comment lines right above `at` begin."""
    while at:
        start = raw.rfind(b"\n", 0, at - 1) + 1
        if not raw[start:at].lstrip().startswith(b"#"):
            break
        at = start
    return at


def take_out(text: str, header: str, same: Callable[[Mapping[str, Any]], bool] | None = None) -> str:
    """`text` without the entries of `header` that `same` recognises; comments above them stay."""
    raw = text.encode()
    for name, place in reversed(_places(text)):
        if name == _plain(header) and (same is None or same(_values(raw, place))):
            raw = raw[: place.start] + raw[_end_of(raw, place) :].lstrip(b"\n")
    return raw.decode()


def _places(text: str) -> list[tuple[str, _Place]]:
    return [(_plain(name), _Place(start, end, pairs)) for name, start, end, pairs in blocks(text)]


def _plain(header: str) -> str:
    return re.sub(r"\s+", "", header)


def _kind(header: str) -> str:
    return _kind_of(_plain(header))


def _kind_of(name: str) -> str:
    return re.split(r"[.\]]", name.strip("["))[0]


def _values(raw: bytes, place: _Place) -> Mapping[str, Any]:
    import tomllib

    body = b"".join(raw[start:end] + b"\n" for start, end in place.pairs.values())
    return tomllib.loads(body.decode())


def _end_of(raw: bytes, place: _Place) -> int:
    """Behind the entry's last value: comments after it belong to what follows."""
    last = max((end for _, end in place.pairs.values()), default=raw.find(b"\n", place.start))
    line = raw.find(b"\n", last)
    return len(raw) if line < 0 else line + 1


def _changed(raw: bytes, place: _Place, table: Mapping[str, Any]) -> bytes:
    fresh = {toml_key(key): toml_value(value) for key, value in table.items()}
    edits: list[tuple[int, int, bytes]] = []
    for key, (start, end) in place.pairs.items():
        if key not in fresh:
            line = raw.find(b"\n", end)
            edits.append((start, len(raw) if line < 0 else line + 1, b""))
        elif _values(raw, _Place(0, 0, {key: (start, end)})) != {_bare(key): _parsed(fresh[key])}:
            edits.append((start, end, f"{key} = {fresh[key]}".encode()))
    missing = "".join(f"{key} = {value}\n" for key, value in fresh.items() if key not in place.pairs)
    if missing:
        at = _end_of(raw, place)
        lead = b"" if raw[:at].endswith(b"\n") else b"\n"
        edits.append((at, at, lead + missing.encode()))
    for start, end, new in sorted(edits, reverse=True):
        raw = raw[:start] + new + raw[end:]
    return raw


def _bare(key: str) -> str:
    return str(json.loads(key)) if key.startswith('"') else key


def _parsed(value: str) -> Any:
    import tomllib

    return tomllib.loads(f"v = {value}")["v"]
