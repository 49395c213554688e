"""What is left of a radio signal in this house, through which receiver, and what would mend a short link."""
