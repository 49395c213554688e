"""What is written down at a step, in so few words that they stand at its head."""
from collections import Counter
from collections.abc import Mapping

from generator.procedure.asked import CALLED, CHECK, OPERATOR, PHOTO, SERIAL, SIGNAL, SIGNATURE, Asked
from generator.terms.show import count

# What is written down besides that the step was done, and a note: those are possible everywhere.
WORDS = {SERIAL: "serial", SIGNAL: "link", CHECK: "check", CALLED: "call", PHOTO: "photo", SIGNATURE: "name"}


def in_short(asked: tuple[Asked, ...]) -> Mapping[str, str]:
    """What is written down, by the anchor of its step: "serial, 2 checks"; a step at which nothing is has no line."""
    found: dict[str, Counter[str]] = {}
    for one in asked:
        # A call is one thing to write down, whatever is asked of it.
        if one.kind in WORDS and (one.kind != CALLED or one.what == OPERATOR):
            found.setdefault(one.step, Counter())[one.kind] += 1
    return {step: ", ".join(word if kinds[kind] == 1 else count(kinds[kind], word) for kind, word in WORDS.items() if kinds[kind])
            for step, kinds in found.items()}
