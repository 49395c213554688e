"""Which units' signals does the station read with the system set? Their calls are made in settings of their own, away from the walk from unit to unit."""
from generator.calc.results import Results
from generator.calc.station.event_rows import PlannedTest
from generator.model.papers import Papers
from generator.tables.events import ENTRY, IS_SET, SET_OFF


def made_set(one: PlannedTest) -> bool:
    """Whether a call sets off a zone whose alarm counts only while the system is set."""
    return one.do == SET_OFF and one.state in (ENTRY, IS_SET)


def called_set(papers: Papers, results: Results, name: str) -> bool:
    """Whether a unit's number and text are read back in such a call."""
    return papers.job.monitoring is not None and any(one.device == name and made_set(one) for one in results.events.tests)
