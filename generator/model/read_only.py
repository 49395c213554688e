"""How are papers and results handed on so that nobody can change them?"""
from collections.abc import Mapping
from dataclasses import fields, is_dataclass, replace
from types import MappingProxyType
from typing import Any

from pydantic import BaseModel


def read_only(value: Any) -> Any:
    """A copy of which nothing can be changed: entries are frozen, groups can only be read, lists are tuples."""
    if isinstance(value, BaseModel):
        return type(value).model_construct(**{name: read_only(getattr(value, name)) for name in type(value).model_fields})
    if is_dataclass(value) and not isinstance(value, type):
        return replace(value, **{one.name: read_only(getattr(value, one.name)) for one in fields(value)})
    if isinstance(value, Mapping):
        return MappingProxyType({key: read_only(inner) for key, inner in value.items()})
    if isinstance(value, tuple) and hasattr(value, "_fields"):
        return type(value)(*map(read_only, value))
    if isinstance(value, (list, tuple)):
        return tuple(map(read_only, value))
    return frozenset(value) if isinstance(value, set) else value
