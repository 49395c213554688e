"""Days and months: when a period ends, what is due, what is changed together."""
