"""The schemas of our files as files of their own, for editors to find."""
import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from generator.terms.problem import CannotWrite


def schema_text(schema: Mapping[str, Any]) -> str:
    """A schema as it is printed and written."""
    return json.dumps(schema, ensure_ascii=False, indent=1) + "\n"


def write_schemas(folder: Path, schemas: Mapping[str, Mapping[str, Any]]) -> list[Path]:
    """Writes each schema to `folder`/KIND.schema.json, over an earlier one; gives their paths. Raises CannotWrite."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        return [_write(folder / f"{kind}.schema.json", schema) for kind, schema in schemas.items()]
    except OSError as error:
        raise CannotWrite(f"{error.filename or folder} could not be written ({error.strerror}).") from error


def _write(path: Path, schema: Mapping[str, Any]) -> Path:
    path.write_text(schema_text(schema), encoding="utf-8", newline="\n")
    return path
