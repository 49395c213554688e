"""Views to HTML through Jinja: text is escaped, a missing field is an error, nothing but the view is in reach."""
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from gettext import NullTranslations, translation

import jinja2
from jinja2.ext import InternationalizationExtension

from generator.pages.page import Page
from generator.publish.compiled import Kept
from generator.publish.drawing.charts import bars, lives, voltage
from generator.publish.drawing.key import mark_sample, wall_sample
from generator.publish.drawing.link_chart import margins
from generator.publish.drawing.loss_chart import losses
from generator.publish.drawing.storey import plan
from generator.publish.drawing.svg import number_strip
from generator.publish.notes import note_html
from generator.publish.places import LOCALES, TEMPLATES
from generator.publish.qr import label_qr, qr_svg

HEADING = re.compile(r'<h([23]) id="([^"]+)">(.*?)</h\1>', re.S)
TAG = re.compile(r"<[^>]*>")


@dataclass(frozen=True)
class Heading:
    """One entry of a page's table of contents; `title` is HTML, as it stands in the page."""

    level: int
    id: str
    title: str


@dataclass(frozen=True)
class Rendered:
    """A page's content and its table of contents."""

    html: str
    headings: tuple[Heading, ...]


@lru_cache(maxsize=8)
def translations(language: str = "en") -> NullTranslations:
    """The homeowner's words in a language; English where there is no translation."""
    return translation("homeowner", LOCALES, [language], fallback=True)


@lru_cache(maxsize=4)
def environment(words: NullTranslations) -> jinja2.Environment:
    """The templates, with homeowner's words taken from `words`."""
    env = jinja2.Environment(
        loader=jinja2.FileSystemLoader(TEMPLATES), autoescape=True, undefined=jinja2.StrictUndefined, auto_reload=False,
        bytecode_cache=Kept(), trim_blocks=True, lstrip_blocks=True, extensions=[InternationalizationExtension])
    env.install_gettext_callables(words.gettext, words.ngettext, newstyle=True)
    env.globals.update(qr=qr_svg, label_qr=label_qr, strip=number_strip, bars=bars, voltage=voltage, lives=lives, margins=margins, losses=losses,
                       plan=plan, mark_sample=mark_sample, wall_sample=wall_sample, short=False, new=lambda id: True)
    env.filters["note"] = note_html
    return env


def render(page: Page, env: jinja2.Environment) -> Rendered:
    """One page's content. The template sees its view, and of the page no more than title and root."""
    html = env.get_template(page.template).render(view=page.view, title=page.title, root=page.root)
    headings = tuple(Heading(int(level), id, TAG.sub("", title).strip()) for level, id, title in HEADING.findall(html))
    return Rendered(html, headings)


Renderer = Callable[[Page], Rendered]
