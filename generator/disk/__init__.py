"""What every part that writes to the disk needs of it, and nothing of what is written."""
