"""Free-text notes of an evaluator -> defined faults, measurements, and what was not understood.

`read_note` is the way in, `Reading` what comes out. Inside: tokens -> matching (lexicon, phrase_trie, slips)
-> clauses -> binding (context, shared_quality) -> guesses (likeness) -> status (degrees_sides, corrections,
no_fault, tone) -> second_look -> confidence; numbers: numbers, measure_names, measures. What an
evaluator put right by hand: own_words, own_reading. The data: language, language_check.
"""

from hands_on.notes.affirmed import FoundAffirmed
from hands_on.notes.explain import Steps, explain
from hands_on.notes.lexicon import Lexicon, build_lexicon
from hands_on.notes.measures import FoundMeasure
from hands_on.notes.own_reading import Vocabulary, vocabulary
from hands_on.notes.own_words import OwnWords
from hands_on.notes.reading import FoundFault, Reading, read_note
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
