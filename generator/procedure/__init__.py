"""What to do, in what order, and what to beware of."""
