"""Which number, reference and text each unit has, and why."""
