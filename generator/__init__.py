"""Doorpost: one job file in, one offline pack for each reader out.

The floors, from the ground up; a part may use only what stands below it:

| floor | part                  | what it is                                                        |
|-------|-----------------------|-------------------------------------------------------------------|
| 1     | terms                 | words everybody uses: readers, units, sources, problems           |
| 2     | model, tables         | what files say, as frozen objects; constants with unit and source |
|       | disk                  | folders: one run at a time, archives, what issues left in them    |
| 3     | geometry              | the plan as points, lines and areas in three dimensions           |
| 4     | intake, calc          | YAML to the model; pure calculations                              |
| 5     | procedure, then rules | the steps of the day; verdicts, on what was found in them too     |
| 6     | pages                 | one small view a page, for one reader                             |
| 7     | pipeline              | the stages in order                                               |
| 8     | publish, record       | the outside world: HTML, sites, files                             |
| 9     | cli                   | the commands                                                      |
"""
__version__ = "0.1.0"
