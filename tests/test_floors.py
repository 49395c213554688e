"""Does every part use only what stands below it, and does the outside world come in by its one door?"""
import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parent.parent / "generator"

MAY_USE = {
    "terms": set(),
    "model": {"terms"},
    "tables": {"terms"},
    "disk": {"terms"},
    "geometry": {"model", "tables", "terms"},
    "intake": {"geometry", "model", "terms"},
    "calc": {"geometry", "model", "tables", "terms"},
    "rules": {"procedure", "calc", "model", "tables", "terms"},
    "procedure": {"calc", "model", "tables", "terms"},
    "pages": {"procedure", "rules", "calc", "geometry", "model", "tables", "terms"},
    "pipeline": {"pages", "procedure", "rules", "calc", "intake", "model", "tables", "terms"},
    "publish": {"pipeline", "pages", "calc", "disk", "terms"},
    "record": {"pipeline", "pages", "calc", "disk", "terms"},
    "cli": {"publish", "record", "pipeline", "pages", "procedure", "rules", "calc", "intake", "model", "tables", "terms"},
    "__main__": {"cli"},
    "__init__": set(),
}
DOORS = {"yaml": {"intake"}, "pydantic": {"intake", "model"}, "pydantic_core": {"model"}, "jinja2": {"publish"},
         "mkdocs": {"publish"}, "markdown": {"publish"}, "markupsafe": {"publish"}, "qrcode": {"publish"}, "shapely": {"geometry"},
         "numpy": {"geometry", "calc"}}
# The same inside the calculations: what stands in none of these may be used by all.
CALC_MAY_USE = {
    "house": set(),
    "days": set(),
    "slots": set(),
    "radio": {"house"},
    "power": {"days", "radio"},
    "station": {"power", "slots"},
}
PURE = ("geometry", "calc", "rules", "procedure", "model", "terms")
# What a pure part may not touch: files, the clock, the environment, chance. `date` and `timedelta` are values, not clocks.
IMPURE = {"os", "pathlib", "time", "random", "secrets", "subprocess", "socket", "shutil", "tempfile", "io"}
IMPURE_CALLS = {"open", "input", "print", "today", "now", "exec", "eval"}


def modules() -> list[Path]:
    return sorted(PACKAGE.rglob("*.py"))


def part(path: Path) -> str:
    inner = path.relative_to(PACKAGE)
    return inner.parts[0] if len(inner.parts) > 1 else inner.stem


def imports(tree: ast.AST) -> set[str]:
    found = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "relative imports hide which floor is used"
            found.add(node.module or "")
    return found


def faults(name: str, source: str) -> list[str]:
    """What a module of a part does that its floor forbids."""
    tree = ast.parse(source)
    out = []
    for module in imports(tree):
        top, _, rest = module.partition(".")
        if top == "generator" and rest:
            used = rest.partition(".")[0]
            if used != name and used not in MAY_USE[name]:
                out.append(f"{name} uses {used}")
        elif top in DOORS and name not in DOORS[top]:
            out.append(f"{name} opens {top}")
        elif name in PURE and top in IMPURE:
            out.append(f"{name} touches {top}")
    if name in PURE:
        for node in ast.walk(tree):
            if isinstance(node, ast.Call):
                called = getattr(node.func, "id", getattr(node.func, "attr", ""))
                if called in IMPURE_CALLS:
                    out.append(f"{name} calls {called}")
    return out


@pytest.mark.parametrize("path", modules(), ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_a_module_uses_only_the_floors_below_it(path: Path) -> None:
    assert faults(part(path), path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize("name, source, fault", [
    ("calc", "from generator.intake.find import job_files", "calc uses intake"),
    ("procedure", "import generator.rules.finding", "procedure uses rules"),
    ("terms", "from generator.model.job import Job", "terms uses model"),
    ("pages", "import jinja2", "pages opens jinja2"),
    ("calc", "import yaml", "calc opens yaml"),
    ("calc", "import shapely", "calc opens shapely"),
    ("geometry", "from generator.calc.results import Results", "geometry uses calc"),
    ("calc", "from pathlib import Path", "calc touches pathlib"),
    ("rules", "open('x')", "rules calls open"),
    ("calc", "from datetime import date\ndate.today()", "calc calls today"),
])
def test_a_broken_floor_is_seen(name: str, source: str, fault: str) -> None:
    assert faults(name, source) == [fault]


def calc_part(path: Path) -> str:
    inner = path.relative_to(PACKAGE / "calc").parts
    return inner[0] if len(inner) > 1 else ""


def calc_faults(name: str, source: str) -> list[str]:
    """What a module of a part of the calculations uses of a part that stands beside or above it; `` is what all may use."""
    used = {module.split(".")[2] for module in imports(ast.parse(source)) if module.startswith("generator.calc.")} & set(CALC_MAY_USE)
    return [f"{name} uses {one}" for one in sorted(used - {name} - CALC_MAY_USE[name])]


@pytest.mark.parametrize("path", [path for path in modules() if path.is_relative_to(PACKAGE / "calc") and calc_part(path)],
                         ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_a_part_of_the_calculations_uses_only_those_below_it(path: Path) -> None:
    assert calc_faults(calc_part(path), path.read_text(encoding="utf-8")) == []


def test_a_calculation_that_looks_up_is_seen() -> None:
    assert calc_faults("radio", "from generator.calc.power.need import need\nfrom generator.calc.house.spots import Spot") == ["radio uses power"]


def test_every_part_of_the_calculations_has_its_place() -> None:
    assert {calc_part(path) for path in modules() if path.is_relative_to(PACKAGE / "calc")} - {""} == set(CALC_MAY_USE)


def test_no_module_is_longer_than_three_hundred_lines() -> None:
    long = {path.name: count for path in modules() if (count := len(path.read_text(encoding="utf-8").splitlines())) > 300}
    assert long == {}, "ask what second idea the file holds"


def test_the_floors_in_the_package_docstring_are_those_of_this_test() -> None:
    text = (PACKAGE / "__init__.py").read_text(encoding="utf-8")
    missing = [name for name in MAY_USE if not name.startswith("__") and name not in text]
    assert missing == []


def test_every_floor_is_there() -> None:
    parts = {part(path) for path in modules()} - {"__init__"}
    assert parts == {name for name in MAY_USE if name != "__init__"}


def test_each_call_of_the_system_that_locks_or_exchanges_stands_in_one_file() -> None:
    """The lock of a folder stood in two files once, and a change of one is not one of the other."""
    for call in ("flock(", "renameat2"):
        assert [path.name for path in modules() if call in path.read_text(encoding="utf-8")] in (["lock.py"], ["swap.py"]), call


def test_no_class_of_pages_inherits_from_another_of_ours() -> None:
    for path in (PACKAGE / "pages").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ClassDef):
                assert node.bases == [] , f"{path.name}: {node.name}"
