"""Is every example in a docstring what the program answers?"""
import doctest
import importlib
import re
from pathlib import Path

import pytest

from generator.publish.places import PACKAGE

WITH_EXAMPLES = sorted(path for path in PACKAGE.rglob("*.py") if re.search(r"^ *>>> ", path.read_text(encoding="utf-8"), re.M))


@pytest.mark.parametrize("path", WITH_EXAMPLES, ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_the_examples_of_a_module_hold(path: Path) -> None:
    name = ".".join(("generator", *path.relative_to(PACKAGE).with_suffix("").parts))
    done = doctest.testmod(importlib.import_module(name))
    assert done.attempted and not done.failed
