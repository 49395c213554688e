"""A person's free notes as HTML: paragraphs, lists and emphasis of Markdown; no raw HTML, no links, no pictures."""
import html

import markdown
from markupsafe import Markup

# What would let a note carry HTML or lead somewhere else; taken out, these characters stand in the page as written.
UNWANTED = ("html", "entity", "link", "image_link", "reference", "image_reference", "short_reference", "short_image_ref",
            "autolink", "automail")


def note_html(text: str) -> Markup:
    """A note as HTML. Everything that is not plain emphasis, list or paragraph appears as the characters it is."""
    engine = markdown.Markdown(output_format="html")
    engine.preprocessors.deregister("html_block")
    engine.parser.blockprocessors.deregister("reference")
    for name in UNWANTED:
        engine.inlinePatterns.deregister(name)
    for name in ("hashheader", "setextheader", "code", "hr"):
        engine.parser.blockprocessors.deregister(name)
    return Markup(engine.convert(html.escape(text, quote=False)))
