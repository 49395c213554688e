"""Which zones act at all times, by role of the zone or kind of the unit, and why. Common practice, no source."""

ALWAYS_ON = {
    "hold-up": "somebody who is threatened must reach help at any time",
    "medical": "somebody who has fallen must reach help at any time",
    "fire": "fire does not wait until the house is empty",
    "smoke": "fire does not wait until the house is empty",
    "heat": "fire does not wait until the house is empty",
    "carbon-monoxide": "the gas takes those who are at home and asleep",
    "all-hours": "it is there to act whether the system is set or not",
}
