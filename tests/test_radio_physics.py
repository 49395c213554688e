"""Do free space, slabs and the models beside them say what the published figures and an independent library say?"""
import ast
import hashlib
import io
import math
import subprocess
import sys
import zipfile
from dataclasses import astuple
from pathlib import Path

import pytest
import tmm
from hypothesis import given, settings
from hypothesis import strategies as some

from generator.calc.radio import free_space, measured_walls, multi_wall, site_general, slab
from generator.calc.working import Given
from generator.model.construction import MATERIALS as CHOICES
from generator.tables.indoor_loss import HARSH_FLOORS_DB
from generator.tables.radio_materials import LIGHT_MPS, MATERIALS, Material
from tests.conftest import ROOT

NONSENSE = [0.0, -1.0, math.nan, math.inf, -math.inf, 1e300]


def number(value: float, unit: str = "") -> Given:
    return Given("number", "x", value, unit, "typed in the test")


def wall(*layers: tuple[str, float], mhz: float) -> list[slab.Slice]:
    """Layers by material and thickness in mm."""
    return [slab.Slice(slab.permittivity(MATERIALS[name], mhz), mm / 1000) for name, mm in layers]


# --- free space -----------------------------------------------------------------------------------------------

@pytest.mark.parametrize("metres, loss", [(5, 54.2), (10, 60.2), (20, 66.2)])
def test_free_space_at_2_4_ghz_is_the_published_one(metres, loss) -> None:
    # The model page of an open-source radio planning program (read), 2.4 GHz band centre; it rounds to 0.1 dB and takes the
    # rounded constant of ITU-R P.525, 0.05 dB lower than the exact form.
    assert free_space.free_space_db(metres, 2441.5) == pytest.approx(loss, abs=0.1)


def test_the_exact_form_gives_the_published_constant_within_its_rounding() -> None:
    # ITU-R P.525-4: 32.4 + 20 log f + 20 log d, MHz and km (read second-hand: an open propagation library); a constant of one decimal.
    rounded = 32.4 + 20 * math.log10(868.3) + 20 * math.log10(0.012)
    assert free_space.free_space_db(12, 868.3) - rounded == pytest.approx(0, abs=0.05)
    assert "0.05 dB" in free_space.free_space(number(12, "m"), number(868.3, "MHz")).notes[0]


@pytest.mark.parametrize("value", NONSENSE)
def test_no_distance_and_no_frequency_give_no_loss(value) -> None:
    for distance, frequency in ((value, 868.3), (12, value)):
        with pytest.raises(ValueError, match="distance|frequency"):
            free_space.free_space_db(distance, frequency)


# --- materials ------------------------------------------------------------------------------------------------

# The wheel of sionna-rt 2.2.0 (Apache-2.0, PyPI) holds the table of ITU-R P.2040 in this file, as a dict: by material and range in GHz a, b, c, d.
MEMBER = "sionna/rt/radio_materials/itu.py"
LOCK = ROOT / ".ci" / "wheels.lock"


def first_ranges(text: str) -> dict:
    """The dict of the library's source, without importing it, each material with its first range."""
    tree = ast.parse(text)
    found = next(ast.literal_eval(node.value) for node in ast.walk(tree)
                 if isinstance(node, ast.Assign) and getattr(node.targets[0], "id", "") == "ITU_MATERIALS_PROPERTIES")
    return {name: next(iter(rows.items())) for name, rows in found.items()}


def ours() -> dict:
    """Our table by the library's names; air is its vacuum."""
    return {{"air": "vacuum"}.get(name, name.replace("-", "_")): ((one[4], one[5]), one[:4])
            for name, one in ((name, astuple(row)) for name, row in MATERIALS.items())}


@pytest.fixture(scope="module")
def library(tmp_path_factory) -> dict:
    """The library's table, read from its wheel: where `make test` put it, else fetched the same way; its hash is that of the lock."""
    folder = Path(sys.prefix) / "wheels"
    if not list(folder.glob("sionna_rt-*.whl")):
        folder = tmp_path_factory.mktemp("wheels")
        subprocess.run([sys.executable, "-m", "pip", "download", "--quiet", "--no-deps", "--require-hashes", "-r", LOCK, "--dest", folder], check=True)
    raw = next(folder.glob("sionna_rt-*.whl")).read_bytes()
    assert f"--hash=sha256:{hashlib.sha256(raw).hexdigest()}" in LOCK.read_text(encoding="utf-8")
    with zipfile.ZipFile(io.BytesIO(raw)) as wheel:
        return first_ranges(wheel.read(MEMBER).decode())


def test_the_table_of_materials_is_that_of_the_open_ray_tracing_library(library) -> None:
    assert ours() == {name: library[name] for name in ours()}
    assert set(MATERIALS) == set(CHOICES) and len(ours()) == len(MATERIALS) == 12


# ITU-R P.2040-1 (07/2015), older coefficients (from memory), and what a page of documentation on building materials in a technical
# computing system gives at 9 GHz by them: real part, conductivity (read).
OLDER = [("concrete", (5.31, 0, 0.0326, 0.8095), 5.31, 0.19305), ("brick", (3.75, 0, 0.038, 0), 3.75, 0.038),
         ("plasterboard", (2.94, 0, 0.0116, 0.7076), 2.94, 0.054914), ("wood", (1.99, 0, 0.0047, 1.0718), 1.99, 0.049528),
         ("glass", (6.27, 0, 0.0043, 1.1925), 6.27, 0.059075)]


@pytest.mark.parametrize("name, row, real, sigma", OLDER)
def test_the_formula_gives_the_published_figures_at_9_ghz(name, row, real, sigma) -> None:
    material = Material(*row, 1, 100)
    assert slab.permittivity(material, 9000).real == pytest.approx(real, rel=1e-9)
    assert slab.conductivity(material, 9000) == pytest.approx(sigma, rel=5e-5)
    # 17.98 is 1 / (2 pi eps0) for S/m and GHz, eps0 = 8.8542e-12 F/m (CODATA, from memory), rounded.
    assert slab.permittivity(material, 9000).imag == pytest.approx(-sigma / (2 * math.pi * 8.8542e-12 * 9e9), rel=5e-4)


def test_a_frequency_outside_a_materials_range_is_known_as_such() -> None:
    assert not slab.in_range(MATERIALS["brick"], 868.3) and slab.in_range(MATERIALS["wood"], 868.3) and slab.in_range(MATERIALS["brick"], 1000)


# --- slabs ----------------------------------------------------------------------------------------------------

# Slabs met squarely, published with current coefficients in a public test file (read); it takes 1 / (2 pi eps0) for 17.98.
PUBLISHED = [("plasterboard", 12.5, 2437, 1.0870), ("plasterboard", 12.5, 5500, 1.0075), ("brick", 100, 2437, 3.1985), ("brick", 100, 5500, 3.6299),
             ("concrete", 100, 5200, 13.3412), ("concrete", 120, 2437, 9.6074), ("concrete", 130, 2437, 9.9252), ("concrete", 100, 6525, 15.7034),
             ("glass", 5.5, 5500, 3.3433), ("glass", 11, 5500, 0.3760)]
# The model page of an open-source radio planning program, at 2 GHz (read), to 0.1 dB.
AT_2_GHZ = [("glass", 5.68, 1.4), ("glass", 12.52, 3.2), ("glass", 18.60, 3.0), ("plasterboard", 12.52, 0.9), ("wood", 36.95, 0.7),
            ("wood", 75.42, 1.3), ("concrete", 102, 7.0), ("concrete", 203, 13.0)]


@pytest.mark.parametrize("material, mm, mhz, loss", PUBLISHED)
def test_a_single_slab_takes_what_was_published(material, mm, mhz, loss) -> None:
    assert slab.loss_db(wall((material, mm), mhz=mhz), mhz) == pytest.approx(loss, abs=0.01)


@pytest.mark.parametrize("material, mm, loss", AT_2_GHZ)
def test_a_single_slab_takes_what_was_published_at_2_ghz(material, mm, loss) -> None:
    assert slab.loss_db(wall((material, mm), mhz=2000), 2000) == pytest.approx(loss, abs=0.06)


def by_tmm(layers: list[slab.Slice], mhz: float, angle: float, polarisation: str) -> float:
    """The share of power that passes, by the transfer-matrix library tmm 0.2.0 (MIT, PyPI); its index is the root of η, with + j."""
    indices = [1, *(complex(one.permittivity.conjugate()) ** 0.5 for one in layers), 1]
    widths = [math.inf, *(one.thickness_m for one in layers), math.inf]
    return float(tmm.coh_tmm(polarisation, indices, widths, math.radians(angle), LIGHT_MPS / (mhz * 1e6))["T"])


NO_METAL = sorted(set(MATERIALS) - {"metal"})


@settings(max_examples=200, deadline=None)
@given(layers=some.lists(some.tuples(some.sampled_from(NO_METAL), some.floats(0.5, 300)), min_size=1, max_size=7),
       mhz=some.sampled_from([433.92, 868.3, 915.0, 2437.0]), angle=some.floats(0, 85))
def test_any_wall_at_any_angle_passes_the_power_that_the_transfer_matrix_library_gives(layers, mhz, angle) -> None:
    built = wall(*layers, mhz=mhz)
    te, tm = (by_tmm(built, mhz, angle, one) for one in "sp")
    found = slab.losses_db(built, mhz, angle)
    assert found == pytest.approx((-10 * math.log10(te), -10 * math.log10(tm)), abs=1e-6)
    assert slab.loss_db(built, mhz, angle) == pytest.approx(-10 * math.log10((te + tm) / 2), abs=1e-6)


def test_thin_metal_passes_what_the_transfer_matrix_library_gives() -> None:
    built = wall(("glass", 4), ("metal", 0.001), ("air", 16), ("glass", 4), mhz=868.3)
    assert slab.loss_db(built, 868.3) == pytest.approx(-10 * math.log10(by_tmm(built, 868.3, 0, "s")), abs=1e-4)


def test_a_metre_of_metal_overflows_nothing() -> None:
    assert 1e5 < slab.loss_db(wall(("metal", 1000), mhz=6000), 6000, 60) < 1e9


@settings(max_examples=100, deadline=None)
@given(layers=some.lists(some.tuples(some.sampled_from(NO_METAL), some.floats(0.5, 300)), min_size=1, max_size=5), angle=some.floats(0, 85))
def test_a_wall_takes_the_same_from_both_sides_and_never_gives(layers, angle) -> None:
    there, back = (slab.loss_db(wall(*side, mhz=868.3), 868.3, angle) for side in (layers, layers[::-1]))
    assert there == pytest.approx(back, abs=1e-6) and there >= -1e-9


def test_the_mean_is_one_of_powers_and_not_of_decibels() -> None:
    te, tm = slab.losses_db(wall(("brick", 100), mhz=868.3), 868.3, 75)
    assert te - tm > 3
    assert slab.loss_db(wall(("brick", 100), mhz=868.3), 868.3, 75) < (te + tm) / 2 - 0.2


@pytest.mark.parametrize("value", NONSENSE)
def test_what_is_no_slab_is_refused(value) -> None:
    with pytest.raises(ValueError, match="thickness"):
        slab.Slice(3 + 0j, value)
    with pytest.raises(ValueError, match="frequency"):
        slab.loss_db([slab.Slice(3 + 0j, 0.1)], value)
    if value:
        with pytest.raises(ValueError, match="angle"):
            slab.loss_db([slab.Slice(3 + 0j, 0.1)], 868.3, value)
    for wrong in (complex(-1, 0), complex(3, 1), complex(math.nan, 0)):
        with pytest.raises(ValueError, match="permittivity"):
            slab.Slice(wrong, 0.1)


# --- models beside the estimate -------------------------------------------------------------------------------

def test_the_whole_path_form_gives_the_worked_example() -> None:
    # The test suite of an open network simulator, building path loss, test 6 (read): 2114 MHz, 30 m apart and 9 m up, N = 28, two
    # floors of 4 dB: 88.3855 dB.
    assert site_general.whole_path_db(math.hypot(30, 9), 2114, 28, 8) == pytest.approx(88.3855, abs=0.0005)
    assert site_general.mild(number(math.hypot(30, 9), "m"), number(2114, "MHz"), 2).value == pytest.approx(88.3855, abs=0.0005)


@pytest.mark.parametrize("metres, loss", [(5, 56.1), (10, 63.3), (20, 70.5)])
def test_the_site_general_form_gives_the_published_figures_of_an_office(metres, loss) -> None:
    # ITU-R P.1238-13, office out of sight, 2.4 GHz band, from the model page of an open-source radio planning program (read).
    assert site_general.site_general_db(metres, 2441.5) == pytest.approx(loss, abs=0.05)
    assert site_general.site_general(number(metres, "m"), number(2441.5, "MHz")).value == pytest.approx(loss, abs=0.05)


def test_the_harsher_bound_takes_the_offices_floors_and_says_where_its_table_ends() -> None:
    # ITU-R P.1238-8, office at 900 MHz: N 33; 9, 19 and 24 dB for one, two and three floors (read second-hand).
    assert HARSH_FLOORS_DB == (0, 9, 19, 24)
    at = [site_general.harsh(number(10, "m"), number(900, "MHz"), floors) for floors in range(5)]
    base = 20 * math.log10(900) + 33 - 28
    assert [one.value for one in at] == pytest.approx([base, base + 9, base + 19, base + 24, base + 24])
    assert ["ends at 3 floors" in " ".join(one.notes) for one in at] == [False] * 4 + [True]


@pytest.mark.parametrize("metres", [0.5, -1.0, math.nan, 1e300])
def test_the_models_are_silent_below_a_metre(metres) -> None:
    with pytest.raises(ValueError, match="distance"):
        site_general.whole_path_db(metres, 868.3, 28, 0)
    with pytest.raises(ValueError, match="distance"):
        site_general.site_general_db(metres, 868.3)


def test_the_multi_wall_model_counts_each_kind_and_floors_for_less_the_more_there_are() -> None:
    # COST 231 multi-wall as two independent simulators hold it (read second-hand): 3.4 and 6.9 dB a wall, 18.3 dB a floor, b 0.46.
    free = free_space.free_space(number(12, "m"), number(868.3, "MHz"))
    assert multi_wall.multi_wall(free, 2, 1, 0).value - free.value == pytest.approx(2 * 3.4 + 6.9)
    assert multi_wall.floors_db(0) == 0 and multi_wall.floors_db(1) == pytest.approx(18.3)
    assert 18.3 < multi_wall.floors_db(2) < 2 * 18.3
    assert multi_wall.floors_db(2) == pytest.approx(18.3 * 2 ** (4 / 3 - 0.46))


# --- measured walls -------------------------------------------------------------------------------------------

# NISTIR 6055 samples at 2 GHz as an open-source radio planning program lists them (read second-hand): dB.
NIST = [("brick", 90.4, 5.4), ("brick", 178, 7.6), ("wood", 36.95, 3.3), ("wood", 75.42, 4.8)]


@pytest.mark.parametrize("material, mm, loss", NIST)
def test_a_measured_sample_takes_what_was_measured(material, mm, loss) -> None:
    assert measured_walls.measured_db(material, mm, 868.3) == pytest.approx(loss)


@pytest.mark.parametrize("mhz, a_mm", [(500, 0.106), (1000, 0.133), (1500, 0.160), (2000, 0.185), (4000, 0.255)])
def test_measured_concrete_takes_what_was_read_off_the_report(mhz, a_mm) -> None:
    # NISTIR 6055, dB for a mm, as an open-source propagation program holds it (read second-hand).
    assert measured_walls.measured_db("concrete", 100, mhz) == pytest.approx(100 * a_mm)


def test_between_and_beyond_what_was_measured_it_goes_on() -> None:
    assert 0.106 < measured_walls.measured_db("concrete", 1, 868.3) < 0.133
    assert measured_walls.measured_db("concrete", 1, 433.92) == pytest.approx(0.106)
    assert measured_walls.measured_db("brick", 45.2, 868.3) == pytest.approx(2.7)
    assert measured_walls.measured_db("brick", 178 + 87.6, 868.3) == pytest.approx(7.6 + 2.2)
    assert measured_walls.measured_db("glass", 4, 868.3) is None


def test_a_slanting_way_is_longer_inside_by_the_law_of_refraction() -> None:
    # By hand: sin 60° / sqrt(5.24) = 0.3783; 1 / sqrt(1 - 0.1431) = 1.0803.
    straight, slanting = (measured_walls.measured_db("concrete", 100, 868.3, angle) for angle in (0, 60))
    assert slanting / straight == pytest.approx(1.0803, abs=0.0001)
