"""What the uncertainty of a measurement rests on, in words."""

from __future__ import annotations

from hands_on.measure.hand import OwnHand
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
    takes += f" on {basis.stands} stands" if basis.stands > 1 else ""
    how = "by judgement" if default.basis == "judgement" else default.basis
    if own is not None:
        whose = "hand of the evaluators of your rounds" if own.of_round else "own hand"
        rest = f"{whose} from {own.n_repeats} takes of {own.n_dogs} dogs, lasting part {_lasting(own, how)}"
    else:
        rest = f"default {how}"
    by_default = own is None or own.lasting is None
    if by_default and default.source and default.basis != "judgement":  # judgement is ours
        rest += f" ({default.source})"
    if default.factor > 1.0:
        rest += f", {default.factor:.1f} times as large: {' and '.join(default.because)}"
    if basis.floored:
        rest += ", not below the instrument's resolution"
    return f"{takes}, {rest}"


def _lasting(own: OwnHand, how: str) -> str:
    known = own.lasting
    return how if known is None else f"from rounds: {known.evaluators} evaluators on {known.dogs} dogs"
