"""Jobs on which each rule speaks, stays silent, or cannot tell. A file for each family; `CASES` in it is by rule.

Every case is the demo job with changes; the demo job itself, its control unit given a serial, is one on which no rule speaks.
"""
