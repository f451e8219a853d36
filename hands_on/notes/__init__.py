"""Free-text notes of an evaluator -> defined faults, measurements, and what was not understood.

`read_note` is the way in, `Reading` what comes out; DEVELOPERS.md has the picture of the steps between.
"""

from hands_on.notes.explain import Steps, explain
from hands_on.notes.lexicon import Lexicon, build_lexicon
from hands_on.notes.measures import FoundMeasure
from hands_on.notes.own_reading import Vocabulary, vocabulary
from hands_on.notes.own_words import OwnWords
from hands_on.notes.reading import FoundFault, Reading, read_note
from hands_on.notes.right_points import FoundAffirmed
from hands_on.notes.source import FaultWords, MeasureWords, WordingSource, wording_from_documents

__all__ = [
    "FaultWords",
    "FoundAffirmed",
    "FoundFault",
    "FoundMeasure",
    "Lexicon",
    "MeasureWords",
    "OwnWords",
    "Reading",
    "Steps",
    "Vocabulary",
    "WordingSource",
    "build_lexicon",
    "explain",
    "read_note",
    "vocabulary",
    "wording_from_documents",
]
