"""The theme's templates, compiled once a process and listed without a walk through its fourteen thousand icons."""
import os

import jinja2
from mkdocs.theme import Theme

from generator.publish.compiled import Kept


class _WithoutIcons(jinja2.FileSystemLoader):
    """Finds every template, and lists those that can be files of a site: MkDocs leaves out dotted folders anyway."""

    def list_templates(self) -> list[str]:
        found: set[str] = set()
        for base in self.searchpath:
            for folder, folders, files in os.walk(base):
                folders[:] = [one for one in folders if not one.startswith(".")]
                inner = os.path.relpath(folder, base).replace(os.sep, "/")
                found.update(name if inner == "." else f"{inner}/{name}" for name in files)
        return sorted(found)


def lean_env(theme: Theme) -> None:
    """Makes a theme hand out an environment with both savings."""
    plain = theme.get_env

    def get_env() -> jinja2.Environment:
        env = plain()
        env.loader = _WithoutIcons(theme.dirs)
        env.bytecode_cache = Kept()
        return env

    theme.get_env = get_env  # type: ignore[method-assign]
