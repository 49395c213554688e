"""What the files say, as frozen objects; no files, no arithmetic."""
