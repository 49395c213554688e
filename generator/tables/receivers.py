"""Which units have to receive, and what for. Common practice, no source."""

MUST_RECEIVE = {
    "sounder": "it is told when to sound",
    "keypad": "it is told what to show",
    "reader": "it is told whether the alarm is set",
    "repeater": "it hears the units that it passes on",
}
