"""Which characters of a serial are mistaken for each other. Common practice, no source: print on small plates, read in bad light."""

LOOKALIKES = {"O": "0", "Q": "0", "D": "0", "I": "1", "L": "1", "Z": "2", "S": "5", "G": "6", "B": "8"}
