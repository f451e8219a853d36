"""Free-text notes of an evaluator -> defined faults, measurements, and what was not understood.

tokens.py -> matching.py (lexicon.py, tries.py, slips.py) -> clauses.py -> binding.py (context.py, sharing.py)
-> guesses.py (likeness.py) -> status.py (extent.py, corrections.py, standing.py, tone.py) -> confidence.py
-> reading.py; numbers: numbers.py, measure_names.py, measures.py
"""

from hands_on.notes.lexicon import Lexicon, build_lexicon
from hands_on.notes.measures import FoundMeasure
from hands_on.notes.reading import FoundFault, Reading, read_note
from hands_on.notes.source import FaultWords, MeasureWords, WordingSource, wording_from_documents

CommonWording = WordingSource

__all__ = [
    "CommonWording",
    "FaultWords",
    "FoundFault",
    "FoundMeasure",
    "Lexicon",
    "MeasureWords",
    "Reading",
    "WordingSource",
    "build_lexicon",
    "read_note",
    "wording_from_documents",
]
