"""The same script, style and pages in fewer bytes."""
