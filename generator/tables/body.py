"""How much room a person takes who walks through a house and turns an alarm off. Habits of the drawing board, not limits."""
from generator.terms.source import Known, Source

# A person with a bag is so wide: nearer to a wall or a thing than half of it nobody's middle comes, and no narrower gap is passed.
WIDTH_M = 0.5
# What hangs with its lower edge at least so high is walked under.
HEAD_M = 2.0
# From so far off, measured along the floor, a keypad or reader is used.
REACH_M = 0.6
# A flight that would be steeper turns on its way: its going is then longer than the line from its foot to its head.
STEEPEST_DEG = 42.0

HABIT = Source("Room that a person takes", "", Known.PRACTICE, "")
STEEPEST = Source("Steepest flight of a private stair", "", Known.MEMORY, "")
