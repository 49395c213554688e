"""The documents that words and habits of this program come from, besides those of the profiles."""
from generator.terms.source import Known, Source

SIGNAL_WORDS = Source("ANSI Z535.4, 4.14", "2007", Known.SECOND_HAND, "a standards FAQ that quotes it")
ORDER = Source("The order of zone numbers, hold points and tests without a source of their own", "", Known.PRACTICE, "")

# Where a rule comes from whose limit stands in no profile.
PRACTICE = "common practice of the trade, no document"
SHEET = "the unit's equipment sheet, which the company writes from the unit's own papers"
JOB_FILE = "the job file, which contradicts itself"
