"""Verdicts. A rule compares and says; it holds no number of its own."""
