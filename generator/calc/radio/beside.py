"""What do models say of a link that know the house less well? For comparison; no margin is judged by them."""
from generator.calc.givens import tried
from generator.calc.radio.free_space import free_space
from generator.calc.radio.link import Link
from generator.calc.radio.multi_wall import multi_wall
from generator.calc.radio.site_general import harsh, mild, site_general
from generator.calc.unknown import Unknown
from generator.calc.working import Working
from generator.model.construction import Construction
from generator.model.papers import Papers
from generator.tables.indoor_loss import LIGHT_UP_TO_MM

MASONRY = ("brick", "concrete", "marble")


def beside(papers: Papers, link: Link) -> tuple[Working | Unknown, ...]:
    """ITU-R P.1238 by both bounds and in its newer form, and COST 231; below one metre the former are silent and say so."""
    known = papers.constructions()
    walls = [known[one.construction] for one in link.terms if one.kind in ("wall", "opening")]
    floors = sum(heavy(known[one.construction]) for one in link.terms if one.kind == "floor")
    thick = sum(map(heavy, walls))
    return (tried(lambda: mild(link.distance, link.frequency, floors)), tried(lambda: harsh(link.distance, link.frequency, floors)),
            tried(lambda: site_general(link.distance, link.frequency)),
            multi_wall(free_space(link.distance, link.frequency), len(walls) - thick, thick, floors))


def outside_both(papers: Papers, link: Link) -> int:
    """Whether the whole estimate, from a typical day to a bad one, lies above (1) or below (-1) what both models say; 0 if it does not."""
    low, high, _, counted = beside(papers, link)
    if isinstance(low, Unknown) or isinstance(high, Unknown):
        return 0
    found = (low.value, high.value, counted.value)
    losses = (link.loss_db("typical"), link.loss_db("bad"))
    return (min(losses) > max(found)) - (max(losses) < min(found))


def heavy(construction: Construction) -> bool:
    """Whether a wall or floor is one of thick masonry; a timber floor is not."""
    return sum(one.thickness_mm for one in construction.layers if one.material in MASONRY) > LIGHT_UP_TO_MM
