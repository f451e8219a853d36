"""The text of a breed standard -> proposals of rules, each beside the sentence it was read in.

`read_standard` is the way in. Inside: pages (what a PDF gives) -> cut (headings, sentences) -> read (numbers,
sizes, proportions, teeth, fault_words, asked). Nothing of the text itself goes into a proposal: figures, ids,
single words of the trade, and the name of the paragraph. `figure_limit` makes the same rules of figures that
are answered one after another.
"""

from hands_on.standard_text.cut import Sentence
from hands_on.standard_text.headings import CLASSES, OUTSIDE_THE_LADDER
from hands_on.standard_text.law import LAWS, Law
from hands_on.standard_text.own_figures import (
    ANGLES,
    RATIOS,
    FigureAnswers,
    answers_of,
    figure_limit,
    figure_number,
    figure_unit,
)
from hands_on.standard_text.own_points import OWN_KINDS, own_fault, own_point, own_slug
from hands_on.standard_text.proposal import Proposal, Read, StandardText
from hands_on.standard_text.read import read_standard
from hands_on.standard_text.short_forms import in_full

__all__ = [
    "ANGLES",
    "CLASSES",
    "LAWS",
    "OUTSIDE_THE_LADDER",
    "OWN_KINDS",
    "RATIOS",
    "FigureAnswers",
    "Law",
    "Proposal",
    "Read",
    "Sentence",
    "StandardText",
    "answers_of",
    "figure_limit",
    "figure_number",
    "figure_unit",
    "in_full",
    "own_fault",
    "own_point",
    "own_slug",
    "read_standard",
]
