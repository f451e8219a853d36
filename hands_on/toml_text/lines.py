"""On which line of a TOML text does a key stand?

The standard library's parser forgets lines; the tree-sitter grammar keeps them, and it recovers from
broken text, so one walk over its tree gives every key's line.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tree_sitter import Node

__all__ = ["Path", "blocks", "key_lines", "line_of", "top_level_values"]

Path = tuple[str | int, ...]


def key_lines(text: str) -> dict[Path, int]:
    """Map the path of each key, table and list entry to its line, counted from 1.

    A path is made of keys and list positions: `("limits", 0, "asked", "from")`.
    """
    found: dict[Path, int] = {}
    counts: dict[Path, int] = {}
    for node in _root(text).children:
        if node.type == "pair":
            _pair(node, (), found)
        elif node.type in ("table", "table_array_element"):
            _table(node, found, counts)
    return found


def top_level_values(text: str) -> dict[str, tuple[int, int]]:
    """Where the values of the keys before the first table stand: first byte and the one behind the last."""
    found: dict[str, tuple[int, int]] = {}
    for node in _root(text).children:
        if node.type == "pair" and len(node.named_children) > 1:
            keys, value = _keys(node.named_children[0]), node.named_children[1]
            if len(keys) == 1:
                found.setdefault(str(keys[0]), (value.start_byte, value.end_byte))
    return found


def _root(text: str) -> Node:
    import tree_sitter_toml
    from tree_sitter import Language, Parser

    return Parser(Language(tree_sitter_toml.language())).parse(text.encode("utf-8", "replace")).root_node


def line_of(found: dict[Path, int], path: Path) -> int | None:
    """The line of `path`, or of the nearest thing around it that stands in the text."""
    while path:
        if path in found:
            return found[path]
        path = path[:-1]
    return None


def _table(node: Node, found: dict[Path, int], counts: dict[Path, int]) -> None:
    named = [child for child in node.named_children if child.type != "comment"]
    if not named:
        return
    path = _inside_arrays(_keys(named[0]), counts)
    if node.type == "table_array_element":
        position = counts.get(path, 0)
        counts[path] = position + 1
        found.setdefault(path, _line(node))
        path = (*path, position)
    found.setdefault(path, _line(node))
    for child in named[1:]:
        if child.type == "pair":
            _pair(child, path, found)


def _inside_arrays(keys: Path, counts: dict[Path, int]) -> Path:
    """`points.steps` after `[[points]]` means the newest point: put its position into the path."""
    path: Path = ()
    for index, key in enumerate(keys):
        path = (*path, key)
        if path in counts and index < len(keys) - 1:
            path = (*path, counts[path] - 1)
    return path


def _pair(node: Node, path: Path, found: dict[Path, int]) -> None:
    named = node.named_children
    if len(named) < 2:
        return
    for key in _keys(named[0]):
        path = (*path, key)
        found.setdefault(path, _line(node))
    _value(named[1], path, found)


def _value(node: Node, path: Path, found: dict[Path, int]) -> None:
    if node.type == "inline_table":
        for child in node.named_children:
            if child.type == "pair":
                _pair(child, path, found)
    elif node.type == "array":
        entries = [child for child in node.named_children if child.type != "comment"]
        for position, child in enumerate(entries):
            found[(*path, position)] = _line(child)
            _value(child, (*path, position), found)


def _keys(node: Node) -> Path:
    if node.type == "dotted_key":
        return tuple(key for child in node.named_children for key in _keys(child))
    raw = (node.text or b"").decode()
    if node.type == "quoted_key":
        import tomli

        try:
            return (next(iter(tomli.loads(f"{raw} = 0"))),)
        except tomli.TOMLDecodeError:
            return (raw.strip("\"'"),)
    return (raw,)


def _line(node: Node) -> int:
    return int(node.start_point[0]) + 1


def blocks(text: str) -> list[tuple[str, int, int, dict[str, tuple[int, int]]]]:
    """Each table and list entry: its header, first byte, the one behind its last, and each pair's place."""
    found: list[tuple[str, int, int, dict[str, tuple[int, int]]]] = []
    raw = text.encode()
    for node in _root(text).children:
        if node.type not in ("table", "table_array_element"):
            continue
        named = [child for child in node.named_children if child.type != "comment"]
        opened = raw[node.start_byte : named[0].end_byte].decode() if named else ""
        brackets = "]]" if node.type == "table_array_element" else "]"
        pairs = {
            raw[pair.named_children[0].start_byte : pair.named_children[0].end_byte].decode(): (
                pair.start_byte,
                pair.end_byte,
            )
            for pair in named[1:]
            if pair.type == "pair"
        }
        found.append((opened + brackets, node.start_byte, node.end_byte, pairs))
    return found
