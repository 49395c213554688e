"""Is a value that a reader may not see found nowhere in that reader's pack, and would the build's own search find it?

Two searches stand here. One is this test's own: canaries, words that stand nowhere else, in every field of a job,
looked for in all that can be read in a pack. The other is the build's: values are planted, and the build must refuse.
"""
import csv
import html
import io
import json
import re
import shutil
from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Comment
from markupsafe import escape

from generator.calc.hidden import SHORTEST, Hidden
from generator.model.visibility import may_see
from generator.pages.homeowner import pack as homeowner
from generator.pages.parts import Fact
from generator.pipeline import compile_job, looked_for, pack_of
from generator.publish import pack as pack_module
from generator.publish import one_file, plugin, site
from generator.publish import pocket as publish_pocket
from generator.publish.leaks import TEXT_FILES, Found, search
from generator.publish.notes import note_html
from generator.publish.one_file import NAME as ONE_FILE
from generator.publish.pack import write_pack
from generator.publish.places import own_wording
from generator.publish.pocket import NAME as POCKET
from generator.publish.render import translations
from generator.terms.audience import Audience
from generator.terms.problem import Leak
from tests.conftest import DEMO, Files, read_files, write_files
from tests.every_field import NAMES, SPECIAL, Field, every_field_files, fields, fits, put, rename, value_at

REFERENCE = read_files()["job"]["reference"]


# --- canaries -----------------------------------------------------------------------------------------------

def canary(field: Field, number: int) -> str | None:
    """A value that stands nowhere else and that a field may hold; None for numbers, answers and words out of a list."""
    forms = (f"Quagga{number:04d}", f"quagga{number:04d}{'e' * 20}", f"07700 900{number % 1000:03d}",
             (date(2041, 1, 1) + timedelta(days=number)).isoformat())
    return next((form for form in forms if fits(field.pattern, form)), None)


def put_canaries(files: Files) -> dict[str, set[str]]:
    """Puts a canary into every field that can hold one; gives the rows of the fields in which each of them stands."""
    every = fields(files)
    for number, field in enumerate(every):
        if not field.is_name and field.pattern not in {*NAMES, *SPECIAL} and (value := canary(field, number)):
            put(files, field.path, value)
    # Names from the inside out: the places of the others must still stand.
    for number, field in sorted(enumerate(every), key=lambda one: -len(one[1].path)):
        if field.pattern in NAMES and (value := canary(field, number)) and _still_there(files, field):
            rename(files, field, value)
    where: dict[str, set[str]] = {}
    for field in fields(files):
        value = field.path[-1] if field.is_name else value_at(files, field.path)
        if re.match("quagga|07700|204", value.casefold()):
            where.setdefault(value, set()).add(field.pattern)
    return where


def _still_there(files: Files, field: Field) -> bool:
    try:
        value = field.path[-1] if field.is_name and value_at(files, field.path) else value_at(files, field.path)
    except (KeyError, IndexError):
        return False
    return not str(value).startswith("Quagga")


def readable(folder: Path, payloads: tuple[str, ...]) -> dict[str, str]:
    """All that can be read in a folder, by file: as written, unescaped, without tags, attributes, data, names."""
    found = {"names": "\n".join(path.relative_to(folder).as_posix() for path in folder.rglob("*")),
             "payloads": "\n".join(payloads)}
    for path in sorted(folder.rglob("*")):
        if path.is_file():
            found[path.relative_to(folder).as_posix()] = _texts_of(path)
    return {name: text.casefold() for name, text in found.items()}


def read_file(path: Path) -> dict[str, str]:
    """All that can be read in a file that stands beside its reader's folder."""
    return {path.name: _texts_of(path).casefold()}


def _texts_of(path: Path) -> str:
    # A picture of pixels is stored, not packed: a text in it would stand there as it is.
    raw = path.read_bytes().decode("latin-1" if path.suffix == ".png" else "utf-8")
    texts = [raw, html.unescape(raw)]
    if path.suffix in (".html", ".svg"):
        texts += _in_markup(raw)
    if path.suffix == ".json":
        texts += _strings(json.loads(raw))
    if path.name == "search_index.js":
        texts += _strings(json.loads(raw.removeprefix("var __index = ")))
    if path.suffix == ".csv":
        texts += [cell for row in csv.reader(io.StringIO(raw)) for cell in row]
    return "\n".join(texts)


def _in_markup(raw: str) -> list[str]:
    tree = BeautifulSoup(raw, "html.parser")
    attributes = [" ".join(value) if isinstance(value, list) else str(value)
                  for tag in tree.find_all(True) for value in tag.attrs.values()]
    comments = tree.find_all(string=lambda text: isinstance(text, Comment))
    return [tree.get_text(""), tree.get_text("\n"), *attributes, *comments]


def _strings(data) -> list[str]:
    if isinstance(data, dict):
        return [text for key, inner in data.items() for text in (str(key), *_strings(inner))]
    if isinstance(data, list):
        return [text for inner in data for text in _strings(inner)]
    return [str(data)]


def shown_forms(value: str) -> list[str]:
    """A canary as it may be printed: a date in words too, a name with blanks for hyphens."""
    if re.fullmatch(r"\d{4}-\d\d-\d\d", value):
        day = date.fromisoformat(value)
        return [value, f"{day.day} {day:%b} {day.year}".casefold(), f"{day.day} {day:%B} {day.year}".casefold()]
    return [value.casefold()]


class Canaries:
    """The packs of a job that holds a canary in every field."""

    def __init__(self, folder: Path):
        files = every_field_files()
        self.where = put_canaries(files)
        compiled = compile_job(write_files(files, folder / "job"))
        self.target = write_pack(compiled, folder / "out")
        looked = looked_for(compiled, own_wording())
        self.packs = {audience: pack_of(compiled, audience, translations().gettext, looked) for audience in Audience}
        self.texts = {audience: readable(self.target / audience.value, pack.payloads)
                      for audience, pack in self.packs.items()}
        self.texts[Audience.HOMEOWNER] |= read_file(self.target / ONE_FILE)
        self.texts[Audience.INSTALLER] |= read_file(self.target / POCKET)

    def files_with(self, audience: Audience, value: str) -> list[str]:
        return [name for name, text in self.texts[audience].items() if any(form in text for form in shown_forms(value))]

    def rows_found(self, audience: Audience) -> set[str]:
        return {row for value, rows in self.where.items() if self.files_with(audience, value) for row in rows}


@pytest.fixture(scope="module")
def canaries(tmp_path_factory) -> Canaries:
    return Canaries(tmp_path_factory.mktemp("canaries"))


@pytest.mark.parametrize("audience", Audience)
def test_no_canary_of_a_hidden_field_is_anywhere_in_a_readers_folder(canaries, audience) -> None:
    hidden = [value for value, rows in canaries.where.items() if not any(may_see(audience, row) for row in rows)]
    assert hidden
    assert [(value, canaries.where[value], files) for value in hidden
            if (files := canaries.files_with(audience, value))] == []


def test_every_row_that_can_hold_a_canary_holds_one(canaries) -> None:
    able = {field.pattern for field in fields(every_field_files())
            if canary(field, 1) and field.pattern not in SPECIAL and field.pattern != "job.dated"}
    assert able - {row for rows in canaries.where.values() for row in rows} == set()
    assert len(able) > 70


@pytest.mark.parametrize("audience, printed", [
    (Audience.INSTALLER, {"job.title", "job.note", "job.premises.hazards.*", "job.devices.*.position",
                          "sheet.terminals.*.wire", "people.customer.name", "job.publish.installer",
                          "profile.limits.*.means"}),
    (Audience.HOMEOWNER, {"job.title", "job.devices.*.called", "sheet.everyday", "company.data_contact",
                          "job.monitoring.telephone", "job.publish.homeowner",
                          "job.premises.storeys.*.openings.*.name"}),
    (Audience.STATION, {"job.title", "job.devices.*.text", "job.monitoring.account", "people.keyholders.*.telephone",
                        "people.customer.address.*", "job.users.*.who"}),
    (Audience.RECORD, {"job.title", "company.licences.*.number", "company.licences.*.valid_to",
                       "people.keyholders.*.name", "job.devices.*.position", "job.control_unit.serial"}),
], ids=[*Audience])
def test_canaries_that_a_reader_may_see_are_found_so_that_the_search_can_find(canaries, audience, printed) -> None:
    assert printed - canaries.rows_found(audience) == set()


def test_the_payloads_of_a_pack_are_those_of_its_pages(canaries) -> None:
    for audience in (Audience.INSTALLER, Audience.HOMEOWNER):
        pack = canaries.packs[audience]
        views = [page.view for page in pack.pages]
        shown = {view.payload for view in views if hasattr(view, "payload")}
        shown |= {label.payload for view in views for label in getattr(view, "labels", ())}
        assert shown == set(pack.payloads) and len(shown) > 5


@pytest.mark.parametrize("hide", [
    lambda text: f"<p>{text}</p>",
    lambda text: f"<p>{text[:4]}<em>{text[4:]}</em></p>",
    lambda text: f'<p title="{text}">.</p>',
    lambda text: f"<!-- {text} -->",
    lambda text: "<p>" + "".join(f"&#{ord(one)};" for one in text) + "</p>",
], ids=["text", "split", "attribute", "comment", "entities"])
def test_this_tests_own_search_finds_a_canary_in_a_page(tmp_path, hide) -> None:
    (tmp_path / "page.html").write_text(hide("Quagga0001"), encoding="utf-8")
    assert "quagga0001" in readable(tmp_path, ())["page.html"]


def test_this_tests_own_search_finds_a_canary_in_data_names_and_payloads(tmp_path) -> None:
    (tmp_path / "data.json").write_text('{"a": ["\\u0051uagga0001"]}', encoding="utf-8")
    (tmp_path / "Quagga0002.txt").touch()
    found = readable(tmp_path, ("Quagga0003",))
    assert "quagga0001" in found["data.json"] and "quagga0002" in found["names"] and "quagga0003" in found["payloads"]


# --- the build's own search ---------------------------------------------------------------------------------

SECRET = 'Spare key "B" & fob lie under the third flowerpot, left of the 🪣'
FIELD = "job.devices.D1.position"
HTML = str(escape(SECRET))
LOOKED_FOR = " ".join(SECRET.casefold().split())


def with_secret(files: Files) -> None:
    files["job"]["devices"]["D1"]["position"] = SECRET


def in_a_page(snippet: str, page: str = "help.html") -> Callable[[pytest.MonkeyPatch], str]:
    """A page of the homeowner whose template prints more than it should."""

    def plant(monkeypatch: pytest.MonkeyPatch) -> str:
        real = plugin.render

        def render(one, env):
            done = real(one, env)
            return replace(done, html=done.html + snippet) if one.path == page else done

        monkeypatch.setattr(plugin, "render", render)
        return f"homeowner/{page}"

    return plant


def in_the_one_file(monkeypatch: pytest.MonkeyPatch) -> str:
    """The file that is sent prints more than the folder of pages."""
    real = one_file.render
    monkeypatch.setattr(one_file, "render", lambda page, env: replace(done := real(page, env), html=f"{done.html}<p>{HTML}</p>"))
    return "homeowner.html"


def in_the_stations_page(monkeypatch: pytest.MonkeyPatch) -> str:
    real = site.render
    monkeypatch.setattr(site, "render", lambda page, env: replace(real(page, env), html=f"<p>{HTML}</p>"))
    return "station/index.html"


def in_the_stations_data(text: str) -> Callable[[pytest.MonkeyPatch], str]:
    def plant(monkeypatch: pytest.MonkeyPatch) -> str:
        monkeypatch.setattr(site, "json_text", lambda view: f'{{"note": {text}}}\n')
        return "station/station.json"

    return plant


def in_the_stations_table(monkeypatch: pytest.MonkeyPatch) -> str:
    def csv_text(rows) -> str:
        out = io.StringIO()
        csv.writer(out).writerows([["zone", "note"], [1, SECRET]])
        return out.getvalue()

    monkeypatch.setattr(site, "csv_text", csv_text)
    return "station/zones.csv"


def in_a_name(name: str) -> Callable[[pytest.MonkeyPatch], str]:
    def plant(monkeypatch: pytest.MonkeyPatch) -> str:
        real = pack_module.write_site

        def write_site(pack, folder) -> None:
            real(pack, folder)
            if pack.audience is Audience.HOMEOWNER:
                (folder / name).parent.mkdir(parents=True, exist_ok=True)
                (folder / name).touch()

        monkeypatch.setattr(pack_module, "write_site", write_site)
        return "homeowner/names of files"

    return plant


def in_a_code(monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.setattr(homeowner, "payload", lambda papers, audience, short: SECRET)
    return "homeowner/QR codes"


def by_a_page_builder(monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.setattr(homeowner, "called", lambda papers, name, say: SECRET)
    return "homeowner/labels.html"


def by_a_title(monkeypatch: pytest.MonkeyPatch) -> str:
    real = homeowner.homeowner_pages
    monkeypatch.setattr("generator.pipeline.homeowner_pages",
                        lambda *given: tuple(replace(page, title=SECRET) if page.path == "help.html" else page
                                             for page in real(*given)))
    return "homeowner/help.html"


def by_unredacted_papers(monkeypatch: pytest.MonkeyPatch) -> str:
    """Somebody forgets to take out what the homeowner may not see, and a builder prints it."""
    monkeypatch.setattr("generator.pipeline.visible", lambda papers, audience: papers)
    monkeypatch.setattr(homeowner, "called", lambda papers, name, say: papers.job.devices[name].position or name)
    return "homeowner/labels.html"


def _entities(text: str) -> str:
    return "".join(f"&#x{ord(one):x};" if index % 2 else f"&#{ord(one)};" for index, one in enumerate(text))


def _inline(text: str, tag: str) -> str:
    return "".join(f'<{tag} class="x">{escape(part)}</{tag}>' if index % 2 else str(escape(part))
                   for index, part in enumerate(re.findall("....?.?", text)))


def _utf_16(text: str) -> list[str]:
    units = text.encode("utf-16-be").hex()
    return [units[at:at + 4] for at in range(0, len(units), 4)]


ESCAPED = '"' + "".join(f"\\u{unit}" for unit in _utf_16(SECRET)) + '"'
PHRASING = ("a", "abbr", "b", "bdi", "bdo", "cite", "code", "data", "dfn", "em", "i", "kbd", "mark", "q", "s", "samp",
            "small", "span", "strong", "sub", "sup", "time", "u", "var")
PLANTS = {
    "text": in_a_page(f"<p>{HTML}</p>"),
    "text in capitals": in_a_page(f"<p>{escape(SECRET.upper())}</p>"),
    "text over several lines": in_a_page(f"<p>{HTML.replace(' ', chr(10) + '   ')}</p>"),
    "text with blanks that do not break": in_a_page(f"<p>{HTML.replace(' ', '&nbsp;')}</p>"),
    "attribute": in_a_page(f'<p title="{HTML}">.</p>'),
    "comment": in_a_page(f"<!-- {SECRET} -->"),
    "entities": in_a_page(f"<p>{_entities(SECRET)}</p>"),
    "entities in an attribute": in_a_page(f'<p data-x="{_entities(SECRET)}">.</p>'),
    "picture's text": in_a_page(f"<svg><title>{HTML}</title></svg>"),
    "script": in_a_page(f"<script>var note = {ESCAPED}</script>"),
    "possible line breaks": in_a_page(f"<p>{HTML.replace('flowerpot', 'flower<wbr>pot')}</p>"),
    "split by em": in_a_page(f"<p>{_inline(SECRET, 'em')}</p>"),
    "split by a": in_a_page(f"<p>{_inline(SECRET, 'a')}</p>"),
    "the file that is sent": in_the_one_file,
    "page of the station": in_the_stations_page,
    "data": in_the_stations_data(json.dumps(SECRET, ensure_ascii=False)),
    "data with escapes": in_the_stations_data(ESCAPED),
    "data with escapes beyond ASCII only": in_the_stations_data(json.dumps(SECRET)),
    "table": in_the_stations_table,
    "name of a file": in_a_name(f"{SECRET}.html"),
    "name of a folder": in_a_name(f"{SECRET}/page.html"),
    "name of a picture": in_a_name(f"{SECRET}.webp"),
    "name among the theme's": in_a_name(f"assets/{SECRET}.css"),
    "code": in_a_code,
    "page builder": by_a_page_builder,
    "title": by_a_title,
    "unredacted papers": by_unredacted_papers,
}


def tree(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.fixture
def earlier(demo, tmp_path) -> Path:
    """A folder with the demo's pack in it, as an earlier build left it."""
    out = tmp_path / "out"
    shutil.copytree(demo, out / REFERENCE)
    return out


@pytest.mark.parametrize("plant", PLANTS.values(), ids=PLANTS.keys())
def test_a_planted_value_stops_the_build_which_names_it_its_file_and_its_field(
        plant, monkeypatch, job_file, earlier, run) -> None:
    job = job_file(with_secret)
    before = tree(earlier)
    file = plant(monkeypatch)
    code, out, error = run("build", job, "--out", earlier)
    assert code == 4 and str(earlier / REFERENCE) not in out, error
    assert f'{file}: "{LOOKED_FOR}" of {FIELD}' in error.splitlines()
    assert tree(earlier) == before
    assert [path.name for path in earlier.iterdir()] == [REFERENCE], "something half-written was left"


def test_a_value_that_the_installer_may_not_see_planted_in_the_pocket_file_stops_the_build(monkeypatch, job_file, tmp_path) -> None:
    compiled = compile_job(job_file(with_secret))
    hidden = looked_for(compiled, own_wording())[Audience.INSTALLER].hidden
    real = publish_pocket.render
    monkeypatch.setattr(publish_pocket, "render", lambda page, env: replace(done := real(page, env), html=f"{done.html}<p>{escape(hidden[0].text)}</p>"))
    with pytest.raises(Leak, match=f"^.*\\n{POCKET}: "):
        write_pack(compiled, tmp_path / "out")


def test_a_planted_value_raises_leak(monkeypatch, job_file, tmp_path) -> None:
    PLANTS["text"](monkeypatch)
    with pytest.raises(Leak, match="flowerpot"):
        write_pack(compile_job(job_file(with_secret)), tmp_path / "out")
    assert list((tmp_path / "out").iterdir()) == []


def test_without_a_plant_the_same_job_is_built(job_file, earlier, run) -> None:
    before = tree(earlier)
    code, out, error = run("build", job_file(with_secret), "--out", earlier)
    assert (code, error) == (0, "") and str(earlier / REFERENCE) in out
    assert tree(earlier) != before


@pytest.mark.parametrize("tag", PHRASING)
def test_a_value_split_by_inline_tags_is_found(tmp_path, tag) -> None:
    (tmp_path / "page.html").write_text(f"<p>{_inline(SECRET, tag)}</p>", encoding="utf-8")
    found = list(search(Audience.HOMEOWNER, tmp_path, (), (), (Hidden(LOOKED_FOR, FIELD),)))
    assert found == [Found(Audience.HOMEOWNER, "page.html", LOOKED_FOR, FIELD)]


def test_two_words_in_two_paragraphs_are_not_one_text(tmp_path) -> None:
    (tmp_path / "page.html").write_text("<p>Spare</p><p>key</p>", encoding="utf-8")
    assert list(search(Audience.HOMEOWNER, tmp_path, (), (), (Hidden("spare key", FIELD),))) == []


@pytest.mark.parametrize("hidden, text, found", [
    ("heron", "a heron.", True), ("heron", "herons", False), ("heron", "theheron", False), ("heron", "my_heron_1", True),
    ("00a4f3", "id00a4f3x", True),
])
def test_letters_are_found_as_whole_words_and_what_holds_a_digit_anywhere(tmp_path, hidden, text, found) -> None:
    (tmp_path / "page.html").write_text(f"<p>{text}</p>", encoding="utf-8")
    assert bool(list(search(Audience.HOMEOWNER, tmp_path, (), (), (Hidden(hidden, FIELD),)))) == found


def test_a_note_that_leaks_through_the_templates_own_filter_is_found(monkeypatch, job_file, earlier, run) -> None:
    note = "The **alarm code** of the neighbours is in the *blue* tin."
    job = job_file(lambda files: files["job"].update(note=note))
    in_a_page(str(note_html(note)))(monkeypatch)
    code, _, error = run("build", job, "--out", earlier)
    assert code == 4 and "of job.note" in error


def test_a_leak_of_one_job_does_not_stop_the_others(monkeypatch, job_file, tmp_path, run) -> None:
    leaking = job_file(with_secret, name="jobs/first")
    other = job_file(lambda files: files["job"].update(reference="K-2042"),
                     lambda files: files["job"]["devices"]["D1"].update(position="Lock side"), name="jobs/second")
    PLANTS["text"](monkeypatch)
    code, out, error = run("build", leaking, other, "--out", tmp_path / "out")
    assert code == 4 and "flowerpot" in error
    assert [path.name for path in (tmp_path / "out").iterdir()] == ["K-2042"]


# --- no false alarm -----------------------------------------------------------------------------------------

def alarms(files: Files, folder: Path, as_of: date | None = None) -> list[str]:
    """What the build's search says about an honest build."""
    try:
        write_pack(compile_job(write_files(files, folder / "job"), as_of), folder / "out")
    except Leak as leak:
        return sorted({line.partition(": ")[2] for line in str(leak).splitlines()[1:]})
    return []


def test_the_demo_raises_no_alarm(files, tmp_path) -> None:
    assert alarms(files, tmp_path) == []


ORDINARY = ("device", "battery", "keypad", "sensor", "alarm", "window", "door", "hallway", "ladder", "asbestos",
            "mains", "reference", "number", "system", "danger", "telephone", "movement", "station", "company",
            "nothing")


def test_ordinary_words_in_hidden_fields_raise_no_alarm(files, tmp_path) -> None:
    job = files["job"]
    job["premises"]["hazards"] = [*ORDINARY]
    job["note"] = "Ladder."
    job["users"] = {str(number): {"who": word} for number, word in enumerate(ORDINARY[:16], 1)}
    for device, word in zip(job["devices"].values(), ORDINARY):
        device |= {"position": word.capitalize(), "note": word}
    for sheet, word in zip(files["equipment"].values(), ORDINARY):
        sheet |= {"name": word.capitalize(), "parts": [{"item": one, "count": "1"} for one in ORDINARY]}
    files["company"]["licences"] = [{"name": word, "number": word, "valid_to": "2027-06-30"} for word in ORDINARY]
    files["people"]["keyholders"] = {word: {"name": word, "telephone": "07700 900462"} for word in ORDINARY}
    assert alarms(files, tmp_path) == []


def brought_by_the_program(canaries: Canaries) -> set[str]:
    """The words of the packs that no field of the job brought: those of the program, its styles and the theme."""
    words: set[str] = set()
    for audience in Audience:
        folder = canaries.target / audience.value
        for path in folder.rglob("*"):
            name = path.relative_to(folder).as_posix()
            # The index runs headings together, as nobody writes them.
            if path.is_file() and path.suffix in TEXT_FILES and not name.startswith(("assets/", "search/")):
                raw = path.read_text(encoding="utf-8")
                for text in _in_markup(raw) if path.suffix in (".html", ".svg") else [raw]:
                    words.update(re.findall(r"(?<![\w\\])[a-z]{5,}(?!\w)", text.casefold()))
    return {word for word in words if not word.startswith("quagga")}


def test_no_word_that_the_program_or_its_theme_brings_to_a_page_raises_an_alarm(canaries, files, tmp_path) -> None:
    words = sorted(brought_by_the_program(canaries))
    assert len(words) > 300 and {"device", "overlay"} <= set(words)
    files["company"]["licences"] = [{"name": word, "number": "CR-1", "valid_to": "2027-06-30"} for word in words]
    files["job"]["premises"]["hazards"] = words
    assert alarms(files, tmp_path) == []


@pytest.mark.parametrize("change", [
    lambda files: files["job"]["devices"]["D1"].update(text="FRONT DOOR"),
    lambda files: files["job"]["devices"]["D2"].update(position="in the hall"),
    lambda files: files["equipment"]["tern-pir12"].update(name="movement sensor in the hall"),
    lambda files: files["job"]["devices"]["S1"].update(position="outside, front room"),
    lambda files: files["job"]["control_unit"].update(position="store room"),
    lambda files: files["people"]["keyholders"]["first"].update(name="Martin"),
], ids=["zone text is the door's name", "position is the room", "sheet is called what the house calls it",
        "position outside", "position is another room", "keyholder has the name of an author"])
def test_a_hidden_text_that_repeats_what_the_reader_knows_raises_no_alarm(files, tmp_path, change) -> None:
    change(files)
    assert alarms(files, tmp_path) == []


def test_the_first_day_on_which_the_police_are_called_may_be_the_day_on_which_a_licence_ends(files, tmp_path) -> None:
    # A year of which neither the program nor a field speaks: else the date would be words that the pack says anyway.
    files["job"]["agreement"]["in_use_on"], files["job"]["monitoring"]["soak_days"] = "2092-12-28", "14"
    files["company"]["licences"][0]["valid_to"] = "2093-01-12"
    assert alarms(files, tmp_path) == []


def test_the_day_of_the_build_may_be_the_day_on_which_a_licence_ends(files, tmp_path) -> None:
    assert files["company"]["licences"][0]["valid_to"] == "2027-06-30"
    assert alarms(files, tmp_path, date(2027, 6, 30)) == []


# --- what is not searched -----------------------------------------------------------------------------------

def test_the_records_search_page_lists_every_value_that_is_not_looked_for_and_why(demo) -> None:
    looked = looked_for(compile_job(DEMO / "job.yaml"), own_wording())
    page = BeautifulSoup((demo / "record" / "search.html").read_text(encoding="utf-8"), "html.parser")
    listed = [Fact(name.get_text(), name.find_next("dd").get_text()) for name in page.find_all("dt")]
    wanted = [Fact(one.field, one.why) for reader in looked.values() for one in reader.skipped]
    assert listed == wanted and len(wanted) > 20
    text = " ".join(page.get_text(" ").split())
    for audience, reader in looked.items():
        count = len(reader.hidden)
        assert f"{audience.value.capitalize()} Looked for: {count} hidden value{'' if count == 1 else 's'}." in text
    assert "picture" in text and "split over two paragraphs would not be found" in text


@pytest.mark.parametrize("why, field", [
    (f"shorter than {SHORTEST} characters", "job.monitoring.account"),
    ("a word out of a fixed list", "job.devices.D1.role"),
    ("words that this pack says anyway", "job.premises.hazards.0"),
    ("stands in a field too that this reader may see", "job.devices.D2.position"),
])
def test_each_reason_for_not_looking_is_given_where_it_holds(files, tmp_path, why, field) -> None:
    files["job"]["premises"]["hazards"] = ["battery"]
    files["job"]["devices"]["D2"]["position"] = "Front Room"
    looked = looked_for(compile_job(write_files(files, tmp_path / "job")), own_wording())[Audience.HOMEOWNER]
    assert why in [one.why for one in looked.skipped if one.field == field]
    assert field not in [one.field for one in looked.hidden]


@pytest.mark.parametrize("field", [
    "job.devices.D1.position", "job.devices.D2.position", "job.devices.D2.note", "job.devices.D1.serial",
    "job.premises.hazards.0", "job.premises.place", "job.users.2.who", "people.customer.name",
    "people.customer.address.1", "people.keyholders.first.name", "people.keyholders.second.telephone"])
def test_what_would_help_a_burglar_is_looked_for_in_the_homeowners_pack(field) -> None:
    looked = looked_for(compile_job(DEMO / "job.yaml"), own_wording())[Audience.HOMEOWNER]
    assert field in [one.field for one in looked.hidden]


def test_a_hidden_value_is_looked_for_or_listed_as_not_looked_for(tmp_path) -> None:
    compiled = compile_job(write_files(every_field_files(), tmp_path / "job"))
    for audience, looked in looked_for(compiled, own_wording()).items():
        texts = {one.text for one in looked.hidden}
        named = {one.field for one in looked.skipped}
        for name, device in compiled.papers.job.devices.items():
            if not may_see(audience, "job.devices.*.serial"):
                assert device.serial.casefold() in texts or f"job.devices.{name}.serial" in named
        assert len(texts) > 2, audience


def test_what_the_search_passes_over_holds_nothing_of_the_job(canaries, demo) -> None:
    passed = 0
    for audience in Audience:
        for path in (demo / audience.value).rglob("*"):
            name = path.relative_to(demo / audience.value)
            if path.is_file() and (name.parts[0] == "assets" or path.suffix not in TEXT_FILES):
                passed += 1
                assert path.read_bytes() == (canaries.target / audience.value / name).read_bytes(), name
    assert passed >= 5
