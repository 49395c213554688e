"""Can the control unit show the texts, and can nobody mistake one for another?"""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.rules.finding import Hit, Severity, Value
from generator.rules.registry import rule
from generator.terms.show import sentence_list


def _texts(papers: Papers) -> Iterator[tuple[str, str]]:
    for name, device in papers.job.devices.items():
        for key in ("text", "text_2"):
            if getattr(device, key):
                yield f"job.devices.{name}.{key}", getattr(device, key)


@rule("text-too-long", Severity.STOP)
def text_too_long(papers: Papers, results: Results) -> Iterator[Hit]:
    """A zone's text has more characters than the control unit shows.

    What is cut off cannot be read aloud to the station.
    """
    unit = papers.job.control_unit
    most = papers.sheet_of[unit.id].control_unit.zone_text.length
    for at, text in _texts(papers):
        if len(text) > most:
            yield Hit(at, f'"{text}" has {len(text)} characters, {most} are shown.',
                      "Shorten it, and use the same text everywhere.",
                      (Value("characters", str(len(text)), "", at),
                       Value("shown", str(most), "", f"sheet {unit.sheet}: control_unit.zone_text.length")))


@rule("text-not-in-alphabet", Severity.STOP)
def text_not_in_alphabet(papers: Papers, results: Results) -> Iterator[Hit]:
    """A zone's text uses a character that the control unit cannot show.

    It would be shown as a blank or as another character.
    """
    unit = papers.job.control_unit
    alphabet = papers.sheet_of[unit.id].control_unit.zone_text.alphabet
    for at, text in _texts(papers):
        strange = sorted(set(text) - set(alphabet or text))
        if strange:
            yield Hit(at, f'"{text}" holds {sentence_list([f"“{one}”" for one in strange])}, which cannot be shown.',
                      "Write it with the characters of the sheet.",
                      (Value("text", text, "", at),
                       Value("alphabet", alphabet or "", "", f"sheet {unit.sheet}: control_unit.zone_text.alphabet")))
