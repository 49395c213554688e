"""By which words a fitter looks for a unit, besides its text and its room."""
from generator.model.papers import Papers
from generator.pages.parts import units_of
from generator.tables.glossary import GLOSSARY

# What a kind of unit is called besides what the glossary has. Common practice, no source.
ALSO = {"sounder": ("bell", "strobe"), "contact": ("door contact", "window contact", "reed"), "movement": ("PIR", "motion"), "control-unit": ("CU",),
        "hold-up": ("panic",), "carbon-monoxide": ("CO alarm",), "smoke": ("smoke alarm",), "heat": ("heat alarm",), "water": ("flood", "leak")}


def kind_words(papers: Papers) -> dict[str, str]:
    """The words for each kind of unit of a job: its name, and what the trade calls the same."""
    kinds = dict.fromkeys(papers.sheet_of[name].kind for name in units_of(papers))
    return {kind: " ".join((kind, *(also for one in GLOSSARY if kind in _kinds(one.word) for also in one.also), *ALSO.get(kind, ()))) for kind in kinds}


def _kinds(word: str) -> tuple[str, ...]:
    """The kinds that a word of the glossary names: "keypad, reader" both, "hold-up device" one."""
    return tuple(one.removesuffix(" device").replace(" ", "-") for one in word.split(", "))
