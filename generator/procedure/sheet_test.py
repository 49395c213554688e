"""What a sheet says of a unit's test, as far as it is done when the unit is tested."""
from generator.calc.results import Results
from generator.model.papers import Papers
from generator.procedure.handling import filled
from generator.procedure.units import high_sounders, numbered
from generator.terms.show import capital

LID, THEN = "lid", "Then, "


def test_words(papers: Papers, results: Results, name: str) -> str:
    """The sheet's words; of a sounder whose lid was tried up the ladder without the sentences on its lid, which is not opened again."""
    text = filled(papers.sheet_of[name].handling.test, papers, results, name)
    if name not in high_sounders(papers) or name not in numbered(papers, results):
        return text
    left = [one for one in text.removesuffix(".").split(". ") if LID not in one.lower().replace(",", " ").replace(";", " ").split()]
    return capital(". ".join(left).removeprefix(THEN)) + "." if left else text
