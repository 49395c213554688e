"""The steps of the day: each part declares its own, with what must come before each; here they are put in order."""
from generator.calc.results import Results
from generator.model.papers import Papers
from generator.procedure.arrive import arrive
from generator.procedure.enrol import enrol
from generator.procedure.fix import fix
from generator.procedure.leave import leave
from generator.procedure.listen import listen
from generator.procedure.power import power
from generator.procedure.night import with_nights
from generator.procedure.programme import programme
from generator.procedure.step import Step, in_order
from generator.procedure.trial import trial
from generator.procedure.waits import with_waits

PHASES = {
    "arrive": "Arrive",
    "listen": "Check the radio",
    "power": "Fix and power the control unit",
    "fix": "Fix the units",
    "enrol": "Enrol",
    "programme": "Set and read back",
    "test": "Test",
    "leave": "Hand over and leave",
}


def procedure(papers: Papers, results: Results) -> tuple[Step, ...]:
    """Every step this job needs, in order: phase by phase, within a phase each after those it waits for."""
    steps = [*arrive(papers), *listen(papers, results), *power(papers, results), *fix(papers, results),
             *enrol(papers, results), *programme(papers, results), *trial(papers, results), *leave(papers, results)]
    rank = {phase: index for index, phase in enumerate(PHASES)}
    return with_waits(with_nights(papers, in_order(sorted(steps, key=lambda step: rank[step.phase]))))
