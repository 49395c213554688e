"""Models that take a house as a whole: they see no wall of this one, and stand beside the estimate for comparison."""
from generator.terms.source import Known, Source

# ITU-R P.1238, whole path: N and what floors take. No residential row exists near 868 MHz. The two that bound it:
# residential at 1.8 to 2 GHz, 4 dB each floor, and office at 900 MHz, by the number of floors up to three.
MILD_N = 28.0
MILD_FLOOR_DB = 4.0
HARSH_N = 33.0
HARSH_FLOORS_DB = (0.0, 9.0, 19.0, 24.0)
WHOLE_PATH_DB = 28.0
P1238_N = Source("Recommendation ITU-R P.1238, distance power loss coefficients", "P.1238-8", Known.SECOND_HAND,
                 "two independent open-source programs that quote the tables")

# ITU-R P.1238, site-general: 10 α log d + β + 10 γ log f, d in m, f in GHz; σ is its spread. Office, out of sight.
OFFICE_ALPHA, OFFICE_BETA, OFFICE_GAMMA, OFFICE_SIGMA_DB = 2.39, 30.13, 2.40, 5.01
P1238_SITE = Source("Recommendation ITU-R P.1238, site-general model, office out of sight", "P.1238-13", Known.SECOND_HAND,
                    "the documents of an open-source radio planning program")

# COST 231 multi-wall: free space, k walls of two kinds, and floors that count for less the more there are.
LIGHT_WALL_DB, HEAVY_WALL_DB, FLOOR_DB, FLOOR_B = 3.4, 6.9, 18.3, 0.46
# Up to this thickness of brick or concrete a wall is a light one.
LIGHT_UP_TO_MM = 100.0
COST_231 = Source("COST 231, multi-wall model", "1999", Known.SECOND_HAND, "two independent simulators")
