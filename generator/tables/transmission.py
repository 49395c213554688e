"""Categories of a transmission to a station, and what carries a path.

The ten categories and how many paths each has: EN 50136-1, table 1, read on a page that shows it. How soon a failed path must be
known stands in the profiles, from memory.
"""
from generator.terms.source import Known, Source

CATEGORIES = Source("EN 50136-1, table 1", "2012 with A1:2018", Known.READ, "")

# Each kind of category from the mildest to the strictest.
SINGLE, DUAL = ("SP1", "SP2", "SP3", "SP4", "SP5", "SP6"), ("DP1", "DP2", "DP3", "DP4")
PATHS_OF = {**dict.fromkeys(SINGLE, 1), **dict.fromkeys(DUAL, 2)}

# What carries a path, in the words of the pages.
CARRIED_BY = {"broadband": "broadband", "mobile": "mobile network", "phone-line": "analogue telephone line", "radio": "radio network"}
# An analogue line is fed by the exchange (common practice, no source).
FED_FROM_OUTSIDE = ("phone-line",)
ANALOGUE = "phone-line"
