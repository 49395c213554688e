"""Where does a repeater hang? Habits of the trade, for where nothing else says it."""

# Heights over the floor at which a place is looked for where the sheet gives no mounting_m: out of reach, and above most furniture.
# Common practice, no source.
HEIGHTS_M = (1.8, 2.2)
# Room for hands and screwdriver under a ceiling. Common practice, no source.
UNDER_CEILING_M = 0.1
