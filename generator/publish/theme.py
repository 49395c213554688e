"""The theme's templates, compiled once a process and listed without a walk through its fourteen thousand icons."""
import os

import jinja2
from mkdocs.theme import Theme

_COMPILED: dict[str, bytes] = {}


class _Memory(jinja2.BytecodeCache):
    """Keeps compiled templates between builds. The key holds the source's hash, so a changed template is compiled anew."""

    def load_bytecode(self, bucket: jinja2.bccache.Bucket) -> None:
        if data := _COMPILED.get(bucket.key + bucket.checksum):
            bucket.bytecode_from_string(data)

    def dump_bytecode(self, bucket: jinja2.bccache.Bucket) -> None:
        _COMPILED[bucket.key + bucket.checksum] = bucket.bytecode_to_string()


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
        env.bytecode_cache = _Memory()
        return env

    theme.get_env = get_env  # type: ignore[method-assign]
