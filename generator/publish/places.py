"""Where the program's own files stand: beside the package in a checkout, inside it once installed."""
from functools import lru_cache
from pathlib import Path

PACKAGE = Path(__file__).resolve().parent.parent
_SHIPPED = PACKAGE / "shipped"
_BASE = _SHIPPED if _SHIPPED.is_dir() else PACKAGE.parent

TEMPLATES = _BASE / "templates"
MKDOCS_CONFIG = _BASE / "mkdocs.yml"
LOCALES = PACKAGE / "locale"


@lru_cache(maxsize=1)
def own_text() -> str:
    """The program's own wording: its templates and its source, one text."""
    files = [*sorted(PACKAGE.glob("*/*.py")), *sorted(TEMPLATES.rglob("*.j2")), *sorted(TEMPLATES.rglob("*.html"))]
    return "\n".join(file.read_text(encoding="utf-8") for file in files)
