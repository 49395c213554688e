"""A phone that is worked by thumb alone: what it shows, taps that are counted, and a whole day gone through step by step."""
import math
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from playwright.sync_api import Locator, Page, expect

# What of a step's screen stands free between the bar at its head and the actions at its foot, in CSS pixels.
FREE = (60, 670)
# A gloved tap takes some 1.5 s; a sign typed and a swipe are counted as one tap each. Common practice, no source.
TAP_S = 1.5
SCREEN = """() => {
  const step = document.querySelector("[data-step]:has(:target)"), onward = step && step.querySelector("[data-act=done], [data-act=holds]");
  const box = onward && onward.getBoundingClientRect();
  return {hash: location.hash, step: step && [step.dataset.step, step.dataset.hold || ""],
    onward: box && [box.x + box.width / 2, box.y + box.height / 2]};
}"""
# Until an entry is on the disk, in ms: where many write to one disk it can take long.
PATIENCE = 30_000
ELSEWHERE = "hash => location.hash !== hash"
ELSEWHERE_OR_NAMED = """hash => location.hash !== hash ? "elsewhere" :
  document.querySelector("[data-step]:has(:target) [data-at=lacks]:not([hidden])") ? "lacking" :
  document.querySelector("[data-step]:has(:target) [data-at=blanks]:not([hidden])") ? "named" :
  document.querySelector("[data-hold]:has(:target) [data-at=why]:not([hidden])") ? "held" : false"""
WHY_ON = "It is on paper"

Told = Callable[["Thumb", Locator], None]


class Thumb:
    """A page on a phone. `taps` are those that were made through `tap` and `type`, and the swipes on the way to them; `seen` is what a
    story noted down of what stood there, `named` how often Done named what was not read, `held` how often a hold point asked why one goes on."""

    def __init__(self, page: Page, address: str, finger: bool = True):
        self.page, self.taps, self.named, self.held = page, 0, 0, 0
        self.seen: dict[str, Any] = {}
        self._press = page.touchscreen.tap if finger else page.mouse.click
        page.set_default_timeout(PATIENCE)
        page.goto(address)
        # Asked for letters, and went on without.
        page.evaluate("Doorpost.keep.by('')")

    def screen(self) -> dict[str, Any]:
        """Which step stands there, and where its way on is hit."""
        return self.page.evaluate(SCREEN)

    def tap(self, target: Locator) -> None:
        """A tap, after as many swipes as bring its target under the thumb."""
        box = target.bounding_box()
        away = max(FREE[0] - box["y"], box["y"] + box["height"] - FREE[1], 0)
        self.taps += 1 + math.ceil(away / (FREE[1] - FREE[0]))
        target.tap()

    def type(self, target: Locator, text: str) -> None:
        """A tap into a field, then sign by sign."""
        self.tap(target)
        self.page.keyboard.type(text)
        self.taps += len(text)

    def onward(self, screen: Mapping[str, Any]) -> None:
        """Done, or It holds: a tap where the thumb lies, whatever is written there; once more where Done names what was not read, without a reason
        where Done asks one, and with a reason where a hold point rests on what is open."""
        self._press(*screen["onward"])
        found = self.page.wait_for_function(ELSEWHERE_OR_NAMED, arg=screen["hash"]).json_value()
        if found == "held":
            self.held += 1
            self.page.locator("[data-hold]:has(:target)").get_by_role("button", name=WHY_ON).click()
        if found == "lacking":
            self.page.locator("[data-step]:has(:target)").get_by_role("link", name="Go on without").tap()
            self.page.wait_for_function(ELSEWHERE, arg=screen["hash"])
        elif found != "elsewhere":
            self.named += found == "named"
            self._press(*screen["onward"])
            self.page.wait_for_function(ELSEWHERE, arg=screen["hash"])

    def form(self, step: str) -> Locator:
        """What is written down at the step that stands there, once it can be."""
        form = self.page.locator(f"[data-step='{step}']:not([data-hold]) [data-write]")
        expect(block(form, "step")).to_be_attached(timeout=PATIENCE)
        return form

    def at(self, step: str) -> Locator:
        """Goes to a step as a link does; gives what is written down there."""
        self.page.evaluate("step => { location.hash = step; }", step)
        return self.form(step)

    def entries(self) -> list[dict[str, str]]:
        """Everything that the phone keeps, by its counter."""
        return sorted(self.page.evaluate("Doorpost.keep.all()"), key=lambda one: one["id"])

    def save(self, folder: Path) -> Path:
        """The file that a thumb saves."""
        folder.mkdir()
        self.page.evaluate("() => { location.hash = 'results-html'; }")
        with self.page.expect_download() as saved:
            self.page.locator("[data-part=save]").tap()
        path = folder / saved.value.suggested_filename
        saved.value.save_as(path)
        return path

    def take(self, file: Any) -> str:
        """Takes in a file; gives what the page says of it."""
        self.page.evaluate("() => { location.hash = 'results-html'; document.querySelector('[data-part=said]').textContent = ''; }")
        self.page.set_input_files("[data-part=file]", file)
        self.page.wait_for_function("document.querySelector('[data-part=said]').textContent")
        return self.page.locator("[data-part=said]").inner_text()


def block(form: Locator, what: str) -> Locator:
    """The block of one thing that is asked."""
    return form.locator(f"fieldset[data-what='{what}']")


def part(box: Locator, name: str) -> Locator:
    """A part of a block, by its name in the form."""
    return box.locator(f"[data-at='{name}']")


def kept(form: Locator, *whats: str) -> None:
    """Waits until blocks say that they are kept."""
    for what in whats:
        expect(part(block(form, what), "said")).to_have_text("Kept.", timeout=PATIENCE)


def walk(phone: Thumb, story: Mapping[str, Told], until: str = "") -> list[tuple[str, str]]:
    """Goes through the day from the screen that stands there, by the way on of each step and hold point; at steps of the story, what it tells
    is done before. Gives every screen in its order, as step and hold point ("" for the step itself); ends at a step, or where no way leads on."""
    went: list[tuple[str, str]] = []
    while True:
        screen = phone.screen()
        if not screen["step"]:
            first = phone.page.locator(f"[id='{screen['hash'][1:]}']").get_by_role("link", name="One step at a time")
            if not first.count():
                return went
            first.tap()
            phone.page.wait_for_function(ELSEWHERE, arg=screen["hash"])
            continue
        step, hold = screen["step"]
        if step == until:
            return went
        assert (step, hold) not in went, f"the way leads back to {step} {hold}"
        went.append((step, hold))
        if hold or step not in story:
            phone.onward(screen)
            continue
        story[step](phone, phone.form(step))
        after = phone.screen()
        # A step that could not be done has led on by itself.
        if after["hash"] == screen["hash"]:
            phone.onward(after)
