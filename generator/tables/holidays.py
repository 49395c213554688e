"""The public holidays of the United States by which business days are counted (5 U.S.C. 6103; from memory)."""

MONDAY, THURSDAY = 0, 3
LAST = -1
# Month and day, and the first year in which it was one.
FIXED = ((1, 1, 1870), (6, 19, 2021), (7, 4, 1870), (11, 11, 1938), (12, 25, 1870))
# Month, weekday, which of them, and the first year in which it fell so.
MOVING = ((1, MONDAY, 3, 1986), (2, MONDAY, 3, 1971), (5, MONDAY, LAST, 1971), (9, MONDAY, 1, 1894), (10, MONDAY, 2, 1971),
          (11, THURSDAY, 4, 1942))
