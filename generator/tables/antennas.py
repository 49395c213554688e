"""What turns one way of stating radiated power into another."""

# Gain of a half-wave dipole over an antenna that radiates alike to all sides: e.i.r.p. is e.r.p. and this. From memory, ITU
# Radio Regulations 1.161 and 1.162.
DIPOLE_DB = 2.15
# Free space: the field is the root of this times the power (W, e.i.r.p.), over the distance (m). Recommendation ITU-R P.525,
# from memory.
FIELD_OHM = 30.0
# The distance at which 47 CFR 15 states its field strengths. Read there.
FIELD_AT_M = 3.0
