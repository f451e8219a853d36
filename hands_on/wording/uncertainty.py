"""What the uncertainty of a measurement rests on, in words."""

from __future__ import annotations

from hands_on.measure.takes import BasisOfU, Counted, Taken

__all__ = ["basis_words"]


def basis_words(basis: BasisOfU) -> str:
    """How many takes, whose figures, and from where."""
    return _counted(basis) if isinstance(basis, Counted) else _taken(basis)


def _counted(basis: Counted) -> str:
    if basis.by_chart:
        return "counted from the tooth chart"
    return "counts differ: " + ", ".join(map(str, basis.counts)) if basis.counts else "counted"


def _taken(basis: Taken) -> str:
    default, own = basis.default, basis.own
    takes = "one take" if basis.n == 1 else f"{basis.n} takes"
    how = "by judgement" if default.basis == "judgement" else default.basis
    if own is not None:
        rest = f"own hand from {own.n_repeats} takes of {own.n_dogs} dogs, lasting part {how}"
    else:
        rest = f"default {how}"
    if default.source and default.basis != "judgement":  # judgement has no other source than ourselves
        rest += f" ({default.source})"
    if basis.floored:
        rest += ", not below the instrument's resolution"
    return f"{takes}, {rest}"
