"""What must be read on the day of fitting, so that what a bad day takes is left too?

No day of fitting is a bad one: the walls may be dry, and the shadowing that most links stay within is not there to be read. So the reading
has to hold in reserve what a bad day takes besides.
"""
import math

from generator.calc.radio.link import ESTIMATE, Link
from generator.calc.working import WORKED_OUT, Given, Working

# What whoever reads can bring about: inside doors are shut, people stand in the way.
BROUGHT_ABOUT = ("opening", "people")


def wanted_reading(link: Link, shut: bool = False) -> Working:
    """The least margin to be read on a day that is typical but for what is `shut`, in dB: what is wanted, and what a bad day takes more.

    `shut`: doors are shut and people in the way while it is read, so that their share of the bad day is in the reading already. Never less
    than what is wanted: a bad day that is worked out to be the better one gives nothing back.
    """
    typical, bad = link.margin_db("typical"), link.margin_db("bad")
    here = math.fsum(one.bad_db - one.typical_db for one in link.terms if one.kind in BROUGHT_ABOUT) if shut else 0.0
    allowance = max(0.0, typical - bad - here)
    how = "with doors shut and people in the way" if shut else "with doors open and nobody in the way"
    return Working(f"Margin to be read on the day, {how}", "margin wanted + what a bad day takes more than this one",
                   "R = M_least + max(0, M_typical − M_bad − D)",
                   (link.required, Given("margin on a typical day", "M_typical", typical, "dB", WORKED_OUT), Given("margin on a bad day", "M_bad", bad, "dB", WORKED_OUT),
                    Given("of it doors and people, in the reading already", "D", here, "dB", WORKED_OUT)),
                   "R", link.required.value + allowance, "dB", notes=(ESTIMATE,))
