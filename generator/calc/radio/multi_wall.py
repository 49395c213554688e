"""What would a model say that counts walls and floors and knows two kinds of wall? COST 231.

It stands beside the estimate for comparison; no margin is judged by it. Its floor is one of reinforced concrete, so timber floors
are not counted.
"""
from generator.calc.bounds import not_negative
from generator.calc.working import Given, Working, of_source, worked_out
from generator.tables.indoor_loss import COST_231, FLOOR_B, FLOOR_DB, HEAVY_WALL_DB, LIGHT_WALL_DB


def floors_db(floors: int) -> float:
    """What so many floors take together: each one more counts for less."""
    not_negative("number of floors", floors)
    return FLOOR_DB * floors ** ((floors + 2) / (floors + 1) - FLOOR_B)


def multi_wall(free: Working, light: int, heavy: int, floors: int) -> Working:
    """Free space, walls and floors."""
    loss = free.value + light * LIGHT_WALL_DB + heavy * HEAVY_WALL_DB + floors_db(floors)
    counted = "counted along the way"
    return Working("By counting walls and floors", "free space + walls of two kinds + floors",
                   "L = L₀ + k₁ × L₁ + k₂ × L₂ + k ^ ((k + 2) / (k + 1) − b) × L₃",
                   (worked_out(free), Given("light walls", "k₁", light, "", counted), of_source("a light wall", "L₁", LIGHT_WALL_DB, "dB", COST_231),
                    Given("heavy walls", "k₂", heavy, "", counted), of_source("a heavy wall", "L₂", HEAVY_WALL_DB, "dB", COST_231),
                    Given("concrete floors", "k", floors, "", counted), of_source("a floor", "L₃", FLOOR_DB, "dB", COST_231),
                    of_source("exponent", "b", FLOOR_B, "", COST_231)), "L", loss, "dB",
                   notes=("A model fitted to offices near 1.8 GHz; its floor is of reinforced concrete, timber floors are left out.",))
