"""Who may see which field. These rows are the only place that says so.

A row names a field by its path from the file it stands in; `*` stands for a name that the writer of the file chose or
for a place in a list. The letters are I installer, H homeowner, S station, R record. A reader "may see" a field if the
value, or anything that follows from it, may stand in that reader's pack: the station may see `role` because the zone
numbers follow from it, though the word itself is not printed.
"""
from generator.model.readers_of_house import HOUSE
from generator.model.readers_of_job import JOB
from generator.model.readers_of_shared import SHARED

TABLE: dict[str, str] = {**JOB, **HOUSE, **SHARED}
