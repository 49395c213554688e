"""The documents that words and habits of this program come from, besides those of the profiles."""
from generator.terms.source import Known, Source

SIGNAL_WORDS = Source("ANSI Z535.4, 4.14", "2007", Known.SECOND_HAND, "a standards FAQ that quotes it")
ORDER = Source("The order of zone numbers, hold points and tests without a source of their own", "", Known.PRACTICE, "")
