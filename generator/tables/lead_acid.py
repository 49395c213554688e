"""Sealed lead-acid batteries: the rate of their printed capacity, and what cold takes from it."""
from generator.terms.source import Known, Source

# Hours in which a battery gives the capacity that is printed on it.
RATED_H = 20.0
RATED = Source("Sealed lead-acid batteries are rated by their discharge in 20 h at 25 °C", "", Known.PRACTICE, "")

# Rated-hour form of Peukert's law.
PEUKERT = Source("Peukert's law in its rated-hour form", "", Known.MEMORY, "")

# The temperature for which the capacity is printed: the cold factor is 1 there.
BASE_C = 25.0
# Which temperature each of the profile's cold factors is for: the table is printed in °F, at 40, 50 and 60.
COLD_AT_C = {"battery_cold_4_factor": (40 - 32) / 1.8, "battery_cold_10_factor": (50 - 32) / 1.8, "battery_cold_16_factor": (60 - 32) / 1.8}
# Factor for what is colder: a polynomial in hundredths of a degree Celsius, highest power first.
COLDER = (-2.8117, 4.1916, -2.4941, 1.405)
COLDER_SOURCE = Source("IEEE 485, polynomial for temperatures outside Table 1", "", Known.SECOND_HAND, "a post in an engineers' forum")
# Where the table ends: what is colder is extrapolated by the polynomial.
TABLE_FROM_C = -3.9
