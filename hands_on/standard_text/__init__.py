"""The text of a breed standard -> proposals of rules, each beside the sentence it was read in.

`read_standard` is the way in. Inside: pages (what a PDF gives) -> cut (headings, sentences) -> read (numbers,
sizes, proportions, teeth, fault_words, asked). Nothing of the text itself goes into a proposal: figures, ids,
single words of the trade, and the name of the paragraph.
"""

from hands_on.standard_text.cut import Sentence
from hands_on.standard_text.proposal import Proposal, Read, StandardText
from hands_on.standard_text.read import read_standard

__all__ = ["Proposal", "Read", "Sentence", "StandardText", "read_standard"]
