"""What happens on the day that is played, step by step: serials, two links that fail, a swapped pair, a step that could not be done, names.

Ada works through it; Ben, whose clock is wrong, writes some of it down on a second phone.
"""
from playwright.sync_api import Locator, expect

from tests.browser.day import Told, Thumb, block, kept, part
from tests.conftest import JOBS, read_files

HOSTILE = '<script>document.title = "run"</script><img src=x onerror="document.title = 1"> \u202egnp.exe\u2067 {{ 7*7 }}'
WHY_REPLACED, WHY_LINK = "dead on arrival, agreed with the office", "foil behind the plaster, agreed with the office"
PLATE = "As on its plate, or its last signs"
COULD_NOT_WHY = "No way to get there"
COULD_NOT, STOPPED_AT = "test-w1", "enrol-d5"
# An hour ahead; `late` is what the clock is wrong by, in ms.
WRONG_CLOCK = """{ const Real = Date; self.late = 3600000; self.Date = class extends Real {
  constructor(...all) { super(...(all.length ? all : [Real.now() + self.late])); } static now() { return Real.now() + self.late; } }; }"""
# A pass with the value that it rests on: at the limit where there is one.
PASS_ALL = """(form, but) => form.querySelectorAll("fieldset[data-what^='check/']").forEach(one => {
  if (but.includes(one.dataset.what)) return;
  const more = one.querySelector("[data-by='1']"), text = one.querySelector("[data-at=text] input");
  if (more && !more.parentNode.querySelector("input").value) more.click();
  else if (text) { text.value = "as read"; text.dispatchEvent(new Event("input", {bubbles: true})); text.dispatchEvent(new Event("change", {bubbles: true})); }
  one.querySelector("button[value=pass]").click(); })"""


def passes(*but: str) -> Told:
    """Every line of the step a pass, but some."""
    return lambda phone, form: form.evaluate(PASS_ALL, list(but))


def typed(form: Locator, what: str, label: str, text: str) -> Locator:
    """Types into a field of a block and leaves it; gives the block, once it is kept."""
    one = block(form, what)
    one.get_by_label(label, exact=True).first.fill(text)
    one.get_by_label(label, exact=True).first.blur()
    kept(form, what)
    return one


def letters(text: str) -> Told:
    def told(phone: Thumb, form: Locator) -> None:
        form.get_by_label("Your letters").fill(text)
        form.get_by_label("Your letters").blur()
    return told


def as_planned(phone: Thumb, form: Locator) -> None:
    """The serial of the plan, read by its last four signs."""
    step = form.locator("xpath=ancestor::section").get_attribute("data-step")
    planned = phone.page.evaluate("step => DOORPOST.asked.find(one => one.step === step && one.kind === 'serial').planned", step)
    typed = block(form, "serial").get_by_label("As on its plate")
    typed.fill(planned[-4:])
    typed.blur()
    expect(typed).to_have_value(planned)
    expect(part(block(form, "serial"), "says")).to_contain_text("Same as planned.")


def reads(device: str, text: str, why: str = "") -> Told:
    """Another serial than planned is read: the page says so and asks why."""
    def told(phone: Thumb, form: Locator) -> None:
        one = block(form, "serial")
        one.get_by_label("As on its plate").fill(text)
        one.get_by_label("As on its plate").blur()
        expect(one.get_by_label("Because")).to_be_visible()
        phone.seen[f"serial {device}"] = part(one, "says").inner_text()
        if why:
            one.get_by_label("Because").fill(why)
    return told


def link_with_reason(phone: Thumb, form: Locator) -> None:
    """Three attempts that fail, by thumb alone; then the page asks why, and is told."""
    one, before = block(form, "signal"), phone.taps
    expect(one.get_by_label("Because")).to_be_hidden()
    for n, (arrived, level, moved) in enumerate((("7", "3", ""), ("8", "2", "Unit moved"), ("9", "3", "Repeater moved: check every link through it again")), 1):
        attempt = part(one, f"attempt-{n}")
        if moved:
            phone.tap(attempt.get_by_role("button", name=moved, exact=True))
        phone.type(attempt.get_by_label("Arrived of 10"), arrived)
        phone.type(attempt.get_by_label("Level", exact=True), level)
        part(form, "title").first.tap(position={"x": 1, "y": 1})
        expect(part(one, f"says-{n}")).to_contain_text(f"Attempt {n}: FAIL. {arrived} of 10 arrived; {level} bars, 4 is called good")
        phone.seen[f"taps of attempt {n}"] = phone.taps - before
    typed(form, "signal", "Because", WHY_LINK)
    form.evaluate(PASS_ALL, ["check/link-margin", "check/messages"])


def link_without_reason(phone: Thumb, form: Locator) -> None:
    """Two attempts in dB that fail; the line of the checklist fails too, and nobody says why."""
    one = block(form, "signal")
    for n, level in ((1, "6"), (2, "8")):
        attempt = part(one, f"attempt-{n}")
        if n > 1:
            attempt.get_by_role("button", name="Unit turned").tap()
        attempt.get_by_label("Arrived of 10").fill("10")
        attempt.get_by_label("Level", exact=True).fill(level)
        attempt.get_by_label("Level", exact=True).blur()
        # The unit that was chosen last is that of the next level.
        if n == 1:
            attempt.get_by_role("button", name="dB", exact=True).tap()
        expect(part(one, f"says-{n}")).to_contain_text(f"Attempt {n}: FAIL. 10 of 10 arrived; {level} dB, 10 asked.")
    expect(one.get_by_label("Because")).to_be_visible()
    margin = block(form, "check/link-margin")
    margin.get_by_role("button", name="As tried: 8").tap()
    expect(part(margin, "says")).to_have_text("8 dB: NOT within 10 dB or more.")
    margin.get_by_role("button", name="fail").tap()
    expect(margin.get_by_label("Because")).to_be_visible()
    form.evaluate(PASS_ALL, ["check/link-margin"])


def link_passes(phone: Thumb, form: Locator) -> None:
    attempt = part(block(form, "signal"), "attempt-1")
    attempt.get_by_label("Arrived of 10").fill("10")
    attempt.get_by_label("Level", exact=True).fill("7")
    attempt.get_by_label("Level", exact=True).blur()
    expect(part(block(form, "signal"), "attempt-2")).to_be_visible()
    form.evaluate(PASS_ALL, [])


def fails(what: str, why: str = "") -> Told:
    """A line that fails: the page asks why."""
    def told(phone: Thumb, form: Locator) -> None:
        block(form, what).get_by_role("button", name="fail").tap()
        expect(block(form, what).get_by_label("Because")).to_be_visible()
        if why:
            typed(form, what, "Because", why)
        form.evaluate(PASS_ALL, [what])
    return told


def measured(what: str, value: str) -> Told:
    def told(phone: Thumb, form: Locator) -> None:
        block(form, what).get_by_label("Measured").fill(value)
        form.evaluate(PASS_ALL, [])
    return told


def hostile_note(phone: Thumb, form: Locator) -> None:
    typed(form, "note", "Free words", HOSTILE)
    form.evaluate(PASS_ALL, [])


def could_not(phone: Thumb, form: Locator) -> None:
    """The other action under the thumb: a reason with one tap, then on."""
    phone.page.locator(f"[data-step={COULD_NOT}] a[data-act=cannot]").tap()
    one = block(form, "step")
    one.get_by_role("button", name=COULD_NOT_WHY).tap()
    kept(form, "step")
    one.get_by_role("link", name="On to the next step").tap()


def sees_the_walls(phone: Thumb, form: Locator) -> None:
    block(form, "photo/before").get_by_role("button", name="done").tap()
    typed(form, "signature/customer", "Name, typed", "P. Ravensworth")


def names(phone: Thumb, form: Locator) -> None:
    """The installer's name is drawn with a finger, the customer's typed."""
    one = block(form, "signature/installer")
    pad = one.locator("canvas")
    pad.scroll_into_view_if_needed()
    box = pad.bounding_box()
    phone.page.mouse.move(box["x"] + 30, box["y"] + 30)
    phone.page.mouse.down()
    phone.page.mouse.move(box["x"] + 200, box["y"] + 60, steps=4)
    phone.page.mouse.up()
    kept(form, "signature/installer")
    typed(form, "signature/customer", "Name, typed", "P. Ravensworth")


_UNITS = read_files(JOBS / "curlew-house")["job"]["devices"]
ADA: dict[str, Told] = {
    **{f"enrol-{name.lower()}": as_planned for name in _UNITS}, "test-cu": as_planned,
    **{f"test-{name}": passes() for name in ("r1", "k1", "d2", "d5", "m1")},
    "read-pack": letters("AB"), "walk-round": sees_the_walls,
    "signal-d1": link_with_reason, "signal-m1": link_without_reason, "signal-d2": link_passes,
    "enrol-d1": reads("D1", "10A3F4"), "enrol-d2": reads("D2", "10a3-f1"), "enrol-d3": reads("D3", "55Z999", WHY_REPLACED),
    "enrol-m3": reads("M3", "20B4"),
    "test-d1": hostile_note, "test-d4": fails("check/function"), "test-g1": fails("check/function", "glass is to be changed, agreed"),
    "test-d6": passes("check/rattle"), "test-d8": passes("check/gap"),
    "power-mains": measured("check/charging-voltage", "13.6"), "battery-load": measured("check/current-at-rest", "0.11"),
    COULD_NOT: could_not, "sign": names,
}


def break_off(phone: Thumb) -> None:
    """In the middle of a step the page is lost and opened again: the start page knows what is done, and this step is not."""
    form = phone.form(STOPPED_AT)
    block(form, "serial").get_by_label("As on its plate").fill("10A3FA")
    form.evaluate(PASS_ALL, [])
    phone.page.reload()
    form = phone.form(STOPPED_AT)
    expect(block(form, "serial").get_by_label("As on its plate")).to_have_value("10A3FA")
    expect(part(block(form, "step"), "says")).to_have_text("Nothing written yet.")
    phone.page.evaluate("() => { location.hash = 'index-html'; }")
    phone.page.reload()
    expect(phone.page.locator("[data-next]")).to_contain_text("of 200")
    phone.seen["start"] = [phone.page.locator(f"[data-{one}]").inner_text() for one in ("next", "left", "next-hold", "state")]
    phone.page.locator("[data-next] a").tap()
    phone.form(STOPPED_AT)


def ben(phone: Thumb) -> None:
    """Some is written on a second phone: one line otherwise than on the first, one corrected after the clock was put back by two hours."""
    form = phone.at("test-d5")
    letters("CD")(phone, form)
    fails("check/function", "the leaf jams")(phone, form)
    form = phone.at("test-d8")
    gap = block(form, "check/gap")
    for late, value in ((3_600_000, "9"), (-3_600_000, "7")):
        phone.page.evaluate("late => { self.late = late; }", late)
        typed(form, "check/gap", "Measured, mm", value)
    gap.get_by_role("button", name="pass").tap()
    typed(phone.at("fix-d6"), "note", "Free words", "a nail behind the frame")


def mend(ada: Thumb, ben: Thumb) -> None:
    """Every reason is written where the page asks for it; the pair is changed round and read again; Ben was wrong and says so."""
    for step, planned in (("enrol-d1", "10A3F1"), ("enrol-d2", "10A3F4")):
        one = typed(ada.at(step), "serial", PLATE, planned)
        expect(part(one, "says")).to_have_text("Same as planned.")
    typed(ada.at("signal-m1"), "signal", "Because", "waits for a repeater, agreed")
    typed(ada.at("signal-m1"), "check/link-margin", "Because", "waits for a repeater, agreed")
    typed(ada.at("enrol-m3"), "serial", "Because", "the plate is worn, the control unit reads it so")
    typed(ada.at("test-d4"), "check/function", "Because", "magnet to be moved on the next visit, agreed")
    form = ben.at("test-d5")
    block(form, "check/function").get_by_role("button", name="pass").tap()
    kept(form, "check/function")
