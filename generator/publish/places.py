"""Where the program's own files stand: beside the package in a checkout, inside it once installed."""
from functools import lru_cache
from pathlib import Path

from mkdocs import utils

from generator.calc.hidden import Wording

PACKAGE = Path(__file__).resolve().parent.parent
_SHIPPED = PACKAGE / "shipped"
_BASE = _SHIPPED if _SHIPPED.is_dir() else PACKAGE.parent

TEMPLATES = _BASE / "templates"
LADDER = _BASE / "jobs" / "ladder"
MKDOCS_CONFIG = _BASE / "mkdocs.yml"
LOCALES = PACKAGE / "locale"
# What these say stands in answers, on the command line, in schemas for editors and in the manual, never in a pack; their examples look
# like what a job hides.
NOT_IN_PACKS = {PACKAGE / "model" / "examples.py", PACKAGE / "model" / "forms.py", PACKAGE / "tables" / "glossary.py", *PACKAGE.glob("cli/*.py"),
                *PACKAGE.glob("pages/manual/*.py"), *TEMPLATES.glob("manual/*.j2")}


@lru_cache(maxsize=1)
def own_wording() -> Wording:
    """What packs say whatever the job: the words of the program's source, of its templates and of the theme's pages."""
    files = [file for file in sorted(set(TEMPLATES.rglob("*")) - NOT_IN_PACKS) if file.suffix in (".j2", ".html", ".css", ".txt", ".js")]
    files += sorted(set(PACKAGE.rglob("*.py")) - NOT_IN_PACKS)
    theme = Path(utils.get_theme_dir("material"))
    files += [theme / "base.html", theme / "partials" / "languages" / "en.html", theme / ".icons" / "material" / "menu.svg"]
    files += [file for file in sorted((theme / "partials").rglob("*.html")) if file.parent.name != "languages"]
    return Wording.of(file.read_text(encoding="utf-8") for file in files)
