"""The monitoring station's one page."""
