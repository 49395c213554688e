"""The contrast of two colours, as WCAG 2.2 defines relative luminance and contrast ratio."""
import re

Colour = tuple[float, float, float]

NUMBERS = re.compile(r"rgba?\(([\d., ]+)\)")


def parsed(written: str) -> tuple[Colour, float]:
    """A colour as browsers write it, and how opaque it is. Another way of writing it is a mistake, not black."""
    match = NUMBERS.fullmatch(written)
    assert match, f"a colour written as {written}"
    red, green, blue, *alpha = map(float, match[1].split(","))
    return (red, green, blue), alpha[0] if alpha else 1.0


def laid_over(upper: str, lower: Colour) -> Colour:
    """What is seen of a colour that lies over another."""
    colour, alpha = parsed(upper)
    return tuple(alpha * one + (1 - alpha) * other for one, other in zip(colour, lower))  # type: ignore[return-value]


def seen_ground(layers: list[str]) -> Colour:
    """The ground seen behind a text; the layers come from the nearest to the farthest, one of them opaque."""
    opaque = next(index for index, one in enumerate(layers) if parsed(one)[1] == 1)
    ground = parsed(layers[opaque])[0]
    for layer in reversed(layers[:opaque]):
        ground = laid_over(layer, ground)
    return ground


def luminance(colour: Colour) -> float:
    """Relative luminance."""
    linear = [one / 255 / 12.92 if one / 255 <= 0.04045 else ((one / 255 + 0.055) / 1.055) ** 2.4 for one in colour]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def ratio(one: Colour, other: Colour) -> float:
    """Contrast ratio, from 1 to 21."""
    lower, upper = sorted((luminance(one), luminance(other)))
    return (upper + 0.05) / (lower + 0.05)
