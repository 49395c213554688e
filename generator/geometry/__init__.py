"""The plan as points, lines and areas in three dimensions. Pure; shapely comes in here and nowhere else."""
