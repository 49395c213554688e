"""Setting what the control unit has to know, topic by topic, and reading all of it back."""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.procedure import messages
from generator.procedure.confirming import SECOND_ZONE, confirming_in_words
from generator.procedure.power import powered
from generator.procedure.safety import met
from generator.procedure.settings import settings
from generator.procedure.signing import COMPLETION, lines_of
from generator.procedure.step import Hold, Step
from generator.procedure.units import limit_fact, numbered
from generator.tables.minutes import OF_STEP

# What is done at each topic, besides setting its values.
DO = {
    "authority": ("Before anything is enrolled, for the trial too: change the installer's own authority, that is the installer code, from its state of delivery.",
                  "Look once more when the control unit has its own supplies: it stays changed.",
                  "Write down that it was changed, by whom and when. The code itself is written nowhere."),
    "clock": ("Set date, time and when the clock changes in spring and autumn.",),
    "attributes": ("Set what each zone does, line by line.", "Fire, carbon monoxide, hold-up and tamper are never left out."),
    "times": ("Set each time.",),
    "part-sets": ("Set what each leaves out, and nothing else.",),
    "partitions": ("Set each partition, its keypads and its sounders. What serves two is set only when both are.",),
    "users": ("Every owner types their own code, unseen; you neither type, choose nor write it.",
              "Who is not here now types theirs when they are trained, and need not come twice: until then their number has no code.", "A fob or tag belongs to one user."),
    "sounders": ("Set how long each runs.",),
    "completing": ("Set what completes it, and how alarms are confirmed.",),
    "reporting": ("Set account, paths and the events that are sent.",
                  "Access from afar only as the customer agreed in writing."),
    "tests": ("Set when the system reports that it is alive.",),
}
LIMITS = {"times": (("entry_max_s", "Entry time at most"), ("remote_hold_s", "Report held at least"), ("exit_min_s", "Exit time at least"),
                    ("exit_max_s", "Exit time at most"), ("entry_abort_max_s", "Entry time and time to cancel at most")),
          "sounders": (("sounder_max_min", "Outside sounder at most"),), "tests": (("test_interval_h", "Between tests at most"),)}


def programme(papers: Papers, results: Results) -> Iterator[Step]:
    """A step for each topic that the job has, then the read-back. The authority comes when the control unit first has a supply: whoever
    knows the state of delivery could else change all that follows."""
    enrolled = tuple(f"enrol-{name}" for name in numbered(papers, results))
    unit = papers.job.control_unit.id
    earlier: tuple[str, ...] = (powered(papers), *enrolled)
    for topic in settings(papers, results):
        limits = tuple(fact for name, title in LIMITS.get(topic.id, ()) for fact in limit_fact(papers, name, title))
        wanted = {"part-sets": (messages.ESCAPE,), "completing": (messages.ESCAPE, messages.CAMERAS), "sounders": (messages.NEIGHBOURS,)}
        first = topic.id == "authority"
        yield Step(f"set-{topic.id}", "listen" if first else "programme", f"Set: {topic.title}", DO[topic.id],
                   after=("background",) if first else earlier, unit=unit,
                   facts=(*topic.rows, *limits), messages=met(papers, (), *wanted.get(topic.id, ())),
                   minutes=OF_STEP.get(topic.id, OF_STEP["times"]),
                   unsigned=lines_of(unit, *({"authority": ("Installer's authority",), "clock": ("Clock",)}.get(topic.id, ())))
                   or ((SECOND_ZONE,) if topic.id == "completing" and confirming_in_words(papers, results) else (COMPLETION,)))
        earlier = earlier if first else (f"set-{topic.id}",)
    yield Step("read-back", "programme", "Read every value back",
               ("Leave programming and read each value from the unit again, as if somebody else had typed it.",
                "The page “What to set” lists them all. What differs is written down here, with the reason."), after=earlier, unit=unit,
               hold=Hold("H11", "Every value was read back, line by line.", "A value left at the factory's shows in the first night."),
               minutes=OF_STEP["read-back"], unsigned=(COMPLETION,))
