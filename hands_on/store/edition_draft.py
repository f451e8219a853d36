"""An edition's file while it is written: each answer on disk at once, in TOML that hands can mend."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any

from hands_on.ruleset.assemble import read_edition_file
from hands_on.ruleset.check import check_edition
from hands_on.standard_text import CLASSES, OUTSIDE_THE_LADDER, Proposal
from hands_on.store.atomic import write_atomic
from hands_on.store.library import Library
from hands_on.store.text_file import decode, read_bytes
from hands_on.toml_text.edit import with_text
from hands_on.toml_text.entry import put_entry, take_out
from hands_on.toml_text.tables import parse_tables

__all__ = ["LADDER", "SOURCE", "EditionDraft", "measures_of"]

SOURCE = "STANDARD"
"""The key of the standard itself among the sources of an edition begun here."""
_SIZE = "size"
"""The attribute that the height sorts into."""
_ANSWERED = ("id", "measure", "ratio", "unit", "when", "asked", "bands", "about", "ideal", "reading")
"""Keys of a limit that the questions answer."""
LADDER: Mapping[str, tuple[str, bool]] = {
    name: CLASSES[name] for name in ("minor", "fault", "serious", "severe", "disqualifying")
}
"""The classes that are offered, the lightest first: label, and whether it disqualifies."""


class EditionDraft:
    """The file at `path`; it is there and sound TOML. Every method that changes it writes it."""

    def __init__(self, path: Path, library: Library) -> None:
        self.path, self.library = path, library
        self._read: tuple[str, dict[str, Any]] = ("", {})

    @property
    def text(self) -> str:
        """The file as it is now: other hands may have mended it. Raises BadText."""
        return decode(read_bytes(self.path), str(self.path))

    @property
    def tables(self) -> dict[str, Any]:
        """What the file says. Raises BadText where it is no sound TOML."""
        text = self.text
        if text != self._read[0]:
            self._read = (text, parse_tables(text, str(self.path)))
        return self._read[1]

    def head(self, key: str, value: str) -> None:
        """A key at the head of the file: breed, body, number, edition, title, note."""
        self._write(with_key(self.text, key, value))

    def source(self, words: str) -> None:
        """What the standard is called among the sources."""
        known = self.tables.get("sources", {})
        self._write(put_entry(self.text, "[sources]", {**known, SOURCE: words}))

    def put(self, header: str, table: Mapping[str, Any], *keys: str) -> None:
        """A table under `header`; with `keys`, in place of the one that has the same values there."""
        self._write(put_entry(self.text, header, table, _same(table, keys) if keys else None))

    def put_limit(self, table: Mapping[str, Any]) -> None:
        """A limit answered question by question; what hands added to it stays."""
        rows = self.tables.get("limits", [])
        known: dict[str, Any] = next((row for row in rows if row.get("id") == table["id"]), {})
        for name in _classes_in(table):
            self.add_class(name)
        kept = {key: value for key, value in known.items() if key not in _ANSWERED}
        source = kept.pop("source", [SOURCE, "reading"] if table.get("reading") else SOURCE)
        if table.get("reading") and "reading" not in source:
            source = [*([source] if isinstance(source, str) else source), "reading"]
        if not table.get("reading") and isinstance(source, list) and "reading" not in kept:
            source = [one for one in source if one != "reading"]
            source = source[0] if len(source) == 1 else source
        self.put("[[limits]]", {**kept, **table, "source": source}, "id")
        self._ask_for(measures_of(table))

    def put_exempt(self, names: list[str]) -> None:
        """The teeth that are not counted when they are missing."""
        head = {key: value for key, value in self._teeth().items() if key != "rules"}
        self.put("[teeth]", {**head, "exempt": names})

    def put_teeth_rule(self, rule: Mapping[str, Any]) -> None:
        """A class for missing teeth; in place of the rule on the same teeth and number."""
        for name in _classes_in(rule):
            self.add_class(name)
        if "teeth" not in self.tables:
            self.put("[teeth]", self._teeth())
        self.put("[[teeth.rules]]", rule, "of", "not_of", "at_least")

    def _teeth(self) -> dict[str, Any]:
        known: dict[str, Any] = self.tables.get("teeth", {})
        return known or {"text": "Teeth of the standard.", "source": SOURCE}

    def size_names(self) -> list[tuple[str, float | None]]:
        """The sizes that the height sorts into, the smallest first: what each is called and its upper end."""
        options = self.tables.get("attributes", {}).get(_SIZE, {}).get("options", {})
        rows = [row for row in self.tables.get("limits", []) if row.get("classifies") == _SIZE]
        bands = rows[0].get("bands", []) if rows else []
        return [(options[band["value"]], band.get("to")) for band in bands if band.get("value") in options]

    def put_sizes(self, sizes: list[tuple[str, float | None]], unit: str) -> None:
        """Sizes of the breed by height, the smallest first; none takes them out."""
        if not sizes:
            self.drop("[[limits]]", {"id": _SIZE}, "id")
            self.drop(f"[attributes.{_SIZE}]", {})
            return
        names = [re.sub(r"[^a-z0-9]+", "-", label.lower()).strip("-") or "size" for label, _ in sizes]
        bands: list[dict[str, Any]] = []
        before: float | None = None
        for name, (_, end) in zip(names, sizes, strict=True):
            band: dict[str, Any] = {} if before is None else {"above": before}
            bands.append(band | ({} if end is None else {"to": end}) | {"value": name})
            before = end
        if before is not None:
            bands.append({"above": before, "fault": "general.over-height"})
        options = dict(zip(names, (label for label, _ in sizes), strict=True))
        attribute = {"label": "Size", "options": options, "derived": True, "source": SOURCE}
        self.put(f"[attributes.{_SIZE}]", attribute)
        limit = {"id": _SIZE, "measure": "height", "unit": unit, "bands": bands, "classifies": _SIZE}
        self.put("[[limits]]", {**limit, "source": SOURCE}, "id")
        self._ask_for(["height"])

    def drop(self, header: str, table: Mapping[str, Any], *keys: str) -> None:
        """Take a table out again."""
        self._write(take_out(self.text, header, _same(table, keys) if keys else None))

    # --- proposals

    def take(self, proposal: Proposal) -> None:
        """Put a confirmed proposal into the file, with its source and what else it needs."""
        for name in _classes_in(proposal.table):
            self.add_class(name)
        table = dict(proposal.table)
        if proposal.kind == "classes":
            self.add_class(proposal.key, table)
            return
        if proposal.kind == "teeth" and proposal.key != "exempt" and "teeth" not in self.tables:
            self.put("[teeth]", {"text": "Teeth of the standard.", "source": SOURCE})
        if proposal.kind == "points":
            self.put_own_point(table, {})
            return
        header, keys = _place(proposal)
        if proposal.kind == "teeth" and proposal.key == "exempt":
            table = {**self.tables.get("teeth", {}), **table}
            table.pop("rules", None)
        # A ruling under a condition stands before the plain one: the first that fits counts.
        plain = proposal.kind == "rulings" and "when" in table
        before = (lambda row: row.get("faults") == table["faults"] and "when" not in row) if plain else None
        self._write(
            put_entry(
                self.text, header, _sourced(proposal, table), _same(table, keys) if keys else None, before
            )
        )
        if proposal.kind == "limits":
            self._ask_for(measures_of(table))
        if proposal.kind == "asked":
            self._walk_again(proposal.key)

    def take_all(self, proposals: Iterable[Proposal]) -> None:
        """Put several in, each on disk before the next."""
        for one in proposals:
            self.take(one)

    def taken(self, proposal: Proposal) -> bool:
        """Whether the file says already what is proposed."""
        tables = self.tables
        wanted = dict(proposal.table)
        if proposal.kind in ("limits", "rulings", "classes", "remarks", "points"):
            rows = tables.get(proposal.kind, [])
        elif proposal.kind == "asked":
            rows = [tables.get("asked", {}).get(proposal.key, {})]
        elif proposal.kind in ("attributes", "switches"):
            rows = [tables.get(proposal.kind, {}).get(proposal.key, {})]
        elif proposal.kind == "teeth" and proposal.key != "exempt":
            rows = tables.get("teeth", {}).get("rules", [])
        else:
            rows = [tables.get(proposal.kind, {})]
        if proposal.kind == "classes":
            wanted = {"id": proposal.key}
        return any(all(row.get(key) == value for key, value in wanted.items()) for row in rows)

    def add_class(self, name: str, table: Mapping[str, Any] | None = None) -> None:
        """A class that texts name, before the first heavier one."""
        rows = self.tables.get("classes", [])
        if any(row.get("id") == name for row in rows) or name not in CLASSES:
            return
        label, out = CLASSES[name]
        new = dict(table or {"id": name, "label": label})
        if out:
            new |= {"disqualifies": True, "leads_to": new.get("leads_to", "The dog is out.")}
        if name in OUTSIDE_THE_LADDER:
            new["ladder"] = False
        order = list(CLASSES)
        heavier = [
            row for row in rows if row.get("id") in order and order.index(row["id"]) > order.index(name)
        ]
        text = self.text
        for row in heavier:  # the file's order is the edition's, the lightest first
            text = take_out(text, "[[classes]]", _same(row, ("id",)))
        for row in [{**new, "source": SOURCE}, *heavier]:
            text = put_entry(text, "[[classes]]", row, _same(row, ("id",)))
        self._write(text)

    def put_asked(self, point: str, words: str, reading: str = "") -> None:
        """What is asked at a point, in the keeper's words; a point left out of the walk is in it again."""
        known = dict(self.tables.get("asked", {}).get(point, {}))
        source = [SOURCE, "reading"] if reading else known.get("source", SOURCE)
        table = {**known, "text": words, "source": source}
        self.put(f'[asked."{point}"]', table | ({"reading": reading} if reading else {}))
        self._walk_again(point)

    # --- the law, the edition's own points, other languages

    def put_switched(self, name: str, switch: Mapping[str, Any], fault: str, cls: str) -> None:
        """A fault that counts, as `cls`, only where the switch `name` is chosen; recorded everywhere."""
        self.put(f"[switches.{name}]", switch)
        rows = self.tables.get("rulings", [])
        plain = any(row.get("faults") == [fault] and not row.get("when") for row in rows)
        recorded = {"faults": [fault], "class": "observation", "text": "Recorded; counted only where chosen."}
        if not plain:
            self.put("[[rulings]]", {**recorded, "source": SOURCE}, "faults", "when")
        self.put_class_of(fault, cls, {"switch": name})

    def drop_switched(self, ruling: Mapping[str, Any]) -> None:
        """Take such a rule out again, and its switch where no other rule hangs on it."""
        name = ruling["when"]["switch"]
        recorded = {"faults": ruling["faults"], "class": "observation"}
        text = take_out(self.text, "[[rulings]]", _same(ruling, ("faults", "when")))
        text = take_out(text, "[[rulings]]", _same(recorded, ("faults", "class", "when")))
        others = [row for row in parse_tables(text, "").get("rulings", []) if name in _switches_of(row)]
        self._write(text if others else take_out(text, f"[switches.{name}]"))

    def put_own_point(self, table: Mapping[str, Any], faults: Mapping[str, Mapping[str, Any]]) -> None:
        """A point of the edition's own and the faults that its answers name; measured ones join the walk."""
        text = self.text
        for name, fault in faults.items():
            text = put_entry(text, f'[faults."{name}"]', fault)
        row = {**table, "source": table.get("source", SOURCE)}
        self._write(put_entry(text, "[[points]]", row, _same(row, ("id",))))
        if table.get("kind") == "measure":
            self._ask_for([str(table["id"])])

    def drop_own_point(self, table: Mapping[str, Any]) -> None:
        """Take a point of the edition's own out, with its faults, its limit and their classes."""
        name, faults = str(table["id"]), list(table.get("other", ()))
        text = take_out(self.text, "[[points]]", _same(table, ("id",)))
        text = take_out(text, "[[limits]]", _same({"measure": name}, ("measure",)))
        for fault in faults:
            text = take_out(text, f'[faults."{fault}"]')
            text = take_out(text, "[[rulings]]", _same({"faults": [fault]}, ("faults",)))
        self._write(text)
        walk = self.tables.get("walk", {})
        if name in walk.get("measures", ()):
            self.put("[walk]", {**walk, "measures": [one for one in walk["measures"] if one != name]})

    def put_class_of(self, fault: str, cls: str, when: Mapping[str, Any] | None = None) -> None:
        """The class of a fault, or `none`, `observation`; under a condition it comes before the plain one."""
        self.add_class(cls)
        table = {"faults": [fault], **({"when": when} if when else {}), "class": cls, "source": SOURCE}
        before = (lambda row: row.get("faults") == [fault] and "when" not in row) if when else None
        self._write(put_entry(self.text, "[[rulings]]", table, _same(table, ("faults", "when")), before))

    def put_attribute(self, name: str, label: str, options: Mapping[str, str]) -> None:
        """What else of the dog decides rules; what hands added to it stays."""
        known = self.tables.get("attributes", {}).get(name, {"source": SOURCE})
        self.put(f"[attributes.{name}]", {**known, "label": label, "options": dict(options)})

    def put_grades(self, name: str) -> None:
        """The grades an examination ends in: a set of common, of which what disqualifies leaves one; none."""
        cap = {"class": "disqualifying", "at_most": "disqualified", "source": SOURCE}
        if name:
            self.add_class("disqualifying")
            text = put_entry(self.text, "[[caps]]", cap, _same(cap, ("class",)))
            self._write(with_key(text, "outcomes_from", name))
        else:
            text = take_out(self.text, "[[caps]]", _same(cap, ("class",)))
            self._write(re.sub(r"(?m)^outcomes_from = .*\n", "", text, count=1))

    def put_tongue(self, code: str, kind: str, texts: Mapping[str, str]) -> None:
        """Labels or asked texts (`kind`) in a language, beside those that stand."""
        known = self.tables.get("languages", {}).get(code, {}).get(kind, {})
        self.put(f"[languages.{code}.{kind}]", {**known, **texts})

    def put_silent(self, about: str, points: list[str]) -> None:
        """The standard says nothing of these points, beside those told under the same name before."""
        rows = self.tables.get("silent", [])
        before = next((list(row.get("points", [])) for row in rows if row.get("about") == about), [])
        told = list(dict.fromkeys([*before, *points]))
        self.put("[[silent]]", {"about": about, "points": told, "source": SOURCE}, "about")

    def _walk_again(self, point: str) -> None:
        walk = self.tables.get("walk", {})
        if point in walk.get("leave_out", ()):
            self.put("[walk]", {**walk, "leave_out": [one for one in walk["leave_out"] if one != point]})

    def _ask_for(self, measures: list[str]) -> None:
        walk = self.tables.get("walk", {})
        known = list(walk.get("measures", []))
        fresh = [name for name in measures if name not in known]
        if fresh:
            self.put("[walk]", {**walk, "measures": [*known, *fresh]})

    # --- is it sound

    def problems(self) -> list[str]:
        """What `hands-on check` says of it."""
        library = self.library

        def of(name: str) -> Any:
            path = next((head.path for head in library.heads() if head.id == name), None)
            return read_edition_file(decode(read_bytes(path), str(path)), str(path)) if path else None

        return [str(one) for one in check_edition(self.text, self.path.name, library.common(), of)]

    def _write(self, text: str) -> None:
        parse_tables(text, str(self.path))
        write_atomic(self.path, text)


def _same(table: Mapping[str, Any], keys: tuple[str, ...]) -> Callable[[Mapping[str, Any]], bool]:
    return lambda row: all(row.get(key) == table.get(key) for key in keys)


def _place(proposal: Proposal) -> tuple[str, tuple[str, ...]]:
    match proposal.kind:
        case "limits":
            return "[[limits]]", ("id",)
        case "rulings":
            return "[[rulings]]", ("faults", "when")
        case "asked":
            return f'[asked."{proposal.key}"]', ()
        case "attributes":
            return f"[attributes.{proposal.key}]", ()
        case "switches":
            return f"[switches.{proposal.key}]", ()
        case "remarks":
            return "[[remarks]]", ("text",)
        case "teeth":
            return (
                ("[teeth]", ())
                if proposal.key == "exempt"
                else ("[[teeth.rules]]", ("of", "not_of", "at_least"))
            )
        case _:
            return "[general_clause]", ()


def _sourced(proposal: Proposal, table: dict[str, Any]) -> dict[str, Any]:
    if proposal.kind == "switches":
        return table
    out = {**table, "source": [SOURCE, "reading"] if table.get("reading") else SOURCE}
    rule = proposal.kind == "teeth" and proposal.key != "exempt"
    if proposal.paragraph and (proposal.kind in ("limits", "rulings", "asked", "attributes") or rule):
        out["note"] = f"Paragraph: {proposal.paragraph}."
    return out


def with_key(text: str, key: str, value: str) -> str:
    """`text` with a key of its head; a new one stands before `unit`."""
    try:
        return with_text(text, key, value)
    except KeyError:
        return with_text(text.replace("\nunit = ", f'\n{key} = ""\nunit = ', 1), key, value)


def _switches_of(row: Mapping[str, Any]) -> list[str]:
    named = row.get("when", {}).get("switch", [])
    return [named] if isinstance(named, str) else list(named)


def measures_of(table: Mapping[str, Any]) -> list[str]:
    """The measurements that a limit needs."""
    named = (
        [table["measure"]]
        if "measure" in table
        else list(table.get("ratio") or table.get("difference") or ())
    )
    return [name for name in named if isinstance(name, str)]


def _classes_in(table: Mapping[str, Any]) -> list[str]:
    found = [table.get("class"), *table.get("by_degree", {}).values()]
    found += [band.get("class") for band in table.get("bands", ())]
    return [name for name in found if name in CLASSES]
