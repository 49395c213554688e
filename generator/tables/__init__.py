"""Constants with their source; no logic. Limits are not here: they live in profiles."""
