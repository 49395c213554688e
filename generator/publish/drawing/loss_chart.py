"""The picture of what each link's loss is made of: a bar of parts one after the other, and a tick at the most that may be lost.

Drawn for a phone, 340 wide. Each part bears its letter where it has room for one, and its kind its own look: hollow, filled, broken.
"""
from markupsafe import Markup

from generator.pages.pictures import LossBar, LossPicture
from generator.publish.drawing.svg import picture, words

WIDTH, ROW, THICK = 340.0, 42.0, 18.0
# A part that is narrower has no room for its letter.
LETTER = 13.0


def losses(view: LossPicture) -> Markup:
    """Every bar on one scale, which reaches from nothing to the largest number on it."""
    most = max(max(bar.most, sum(part.loss for part in bar.parts)) for bar in view.bars)

    def across(value: float) -> float:
        return 2 + max(0.0, value) / most * (WIDTH - 6)

    return picture("losses", WIDTH, ROW * len(view.bars) + 4, view.says, (_row(one, index * ROW, across) for index, one in enumerate(view.bars)))


def _row(one: LossBar, top: float, across) -> Markup:
    out, at = [words(2, top + 14, one.text)], 0.0
    for part in one.parts:
        start, end = across(at), across(at + part.loss)
        out.append(Markup('<rect class="{}" x="{}" y="{}" width="{}" height="{}"/>').format(
            part.kind, *(f"{number:.1f}" for number in (start, top + 19, max(end - start, 0.5), THICK))))
        if end - start >= LETTER:
            out.append(Markup('<text class="{}" x="{:.1f}" y="{:.1f}" text-anchor="middle">{}</text>').format(
                f"on-{part.kind}", (start + end) / 2, top + 33, part.letter))
        at += part.loss
    out.append(Markup('<line class="wanted" x1="{0}" x2="{0}" y1="{1}" y2="{2}"/>').format(*(f"{number:.1f}" for number in (across(one.most), top + 16, top + 40))))
    return Markup("").join(out)
