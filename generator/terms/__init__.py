"""Words everybody uses. Imports the standard library only."""
