"""What copper conductors have of resistance: published tables, and the constants for sizes that they do not hold."""
from generator.terms.source import Known, Source

# IEC 60228, largest resistance at 20 °C of a plain copper conductor in ohm per km, by its section in mm².
SOLID_OR_STRANDED = {0.5: 36.0, 0.75: 24.5, 1.0: 18.1, 1.5: 12.1, 2.5: 7.41}
FLEXIBLE = {0.5: 39.0, 0.75: 26.0, 1.0: 19.5, 1.5: 13.3, 2.5: 7.98}
_TABLE_SEEN = "an engineering knowledge base on cables, whose author says that they are maxima"
CLASS_1_2 = Source("IEC 60228, conductors of insulated cables, classes 1 and 2", "", Known.SECOND_HAND, _TABLE_SEEN)
CLASS_5 = Source("IEC 60228, conductors of insulated cables, class 5", "", Known.SECOND_HAND, _TABLE_SEEN)
# The same standard's correction for temperature, per °C from 20 °C.
TABLE_ALPHA = 0.004
TABLE_ALPHA_SOURCE = Source("IEC 60228, correction of resistance for temperature", "", Known.MEMORY, "")

# Annealed copper at 20 °C: ohm of a metre of 1 mm², and what it gains per °C.
RHO = 0.017241
ALPHA = 0.00393
COPPER = Source("International annealed copper standard", "", Known.MEMORY, "")

# American wire gauge: diameter in mm = 0.127 × 92^((36 − n) / 39).
GAUGE_MM, GAUGE_RATIO, GAUGE_FROM, GAUGE_STEPS = 0.127, 92.0, 36, 39
GAUGE = Source("ASTM B258, diameters of solid round wire by gauge", "", Known.MEMORY, "")
LEAST_GAUGE, MOST_GAUGE = 0, 40
# A stranded conductor of a gauge is that much worse than a solid one: its strands are longer than the cable. The largest
# ratio of stranded to solid, 12 to 18 AWG.
LAY = 1.98 / 1.93
LAY_SOURCE = Source("NFPA 70, chapter 9, table 8, ratio of stranded to solid", "2011", Known.SECOND_HAND,
                    "two design pages that quote the table")

# Longer than any run in a home: beyond it nothing is asked of the drop.
LONGEST_RUN_M = 1000.0

# What is to be had for wired loads of alarms, the thinnest first. Common practice, no source.
SIZES_MM2 = (0.22, 0.5, 0.75, 1.0, 1.5, 2.5)
SIZES_AWG = (24, 22, 20, 18, 16, 14)
