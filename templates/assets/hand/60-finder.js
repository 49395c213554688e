/* The finder: from the last signs of a serial, a number, a room or a short reference to the unit and what is next to do there. */
(() => {
  const { Doorpost: D, DOORPOST: data } = self;
  const place = D.$("[data-find]");
  if (!data || !place) return;
  const { make, plain, fill, on, $ } = D, [frame, typed, button, blind, says, list] = ["[data-scripted]", "input", "button", "[data-blind]", ".says", ".found"].map(one => $(one, place));
  // More are not read on a phone: another sign is typed.
  const SHOWN = 12;
  const { alike, kinds } = data.words;
  // A serial as it may be read off a small plate, in bad light.
  const read = text => text.replace(/./g, one => alike[one] || one);
  const rows = data.units.map(unit => ({
    unit, names: [plain(unit.short), plain(unit.id), plain(unit.list + unit.number)], numbers: unit.number.match(/\d+/g) || [], serials: [plain(unit.serial)], words: plain(unit.text + unit.room + kinds[unit.kind])
  }));
  /** How well a unit answers: 0 best, -1 not at all. A code may hold more than the serial. */
  const rank = ({ names, numbers, serials, words }, asked) => {
    const long = asked.length > 1;
    return [names.includes(asked) || numbers.includes(asked), long && serials.some(one => one && (read(one).endsWith(read(asked)) || read(asked).endsWith(read(one)))), names.some(one => one.startsWith(asked)), long && words.includes(asked)].indexOf(true);
  };

  const line = (className, ...inside) => make("p", { className, dir: "auto" }, ...inside);
  const link = (className, page, text) => make("a", { className, href: D.href(page) }, text);
  const card = ({ unit, serials }) => {
    const next = data.steps.find(one => one.unit === unit.id && !D.done(one));
    return make("li", {}, line("number", `${unit.id} · ${unit.list} ${unit.number}`), line("", unit.text), line("", unit.room),
      line("source", fill(says.dataset.unit, { ...unit, is: unit.serial || unit.stop || "not planned", today: serials[1] ? `, read today ${serials[1]}` : "" })),
      next ? link("act", next.page, `Next: step ${next.n}, ${next.title}`) : line("", "Nothing left to do."), link("more", unit.page, `All about ${unit.id}`));
  };
  const find = () => {
    const asked = plain(typed.value);
    for (const one of D.written())
      for (const row of rows) if (one.what === "serial" && one.device === row.unit.id) row.serials[1] = plain(one.value);
    const found = asked ? rows.map(row => [rank(row, asked), row]).filter(one => one[0] >= 0).sort((a, b) => a[0] - b[0]) : [];
    const { none, more, compared } = says.dataset, number = +/^(?:ZONE|SLOT)?(\d{1,3})$/.exec(asked)?.[1], free = data.numbers.free[number];
    const [planned, today] = [0, 1].map(at => new Set(rows.map(one => one.serials[at]).filter(one => one)).size);
    says.textContent = !asked ? "" : [`${found.length} found.`, free, ...found.length ? [found.length > SHOWN && fill(more, { SHOWN })] :
      [none, !free && number >= 0 && data.numbers.lists, /.\d|\d./.test(asked) && fill(compared, { planned, read: today })]].filter(one => one).join(" ");
    list.replaceChildren(...found.slice(0, SHOWN).map(one => card(one[1])));
  };
  typed.oninput = find;
  on(self, "doorpost", find);

  /* A code inside a lid or on a plate; only some browsers can read one. */
  const scan = async () => {
    const view = make("video", { playsInline: true, muted: true });
    let stream;
    try {
      stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
      view.srcObject = stream;
      says.before(view);
      await view.play();
      for (let found = []; view.isConnected && !found.length; await new Promise(requestAnimationFrame)) {
        found = await new BarcodeDetector().detect(view);
        if (found.length) typed.value = found[0].rawValue.replace(/.*\/d\/(\w+)\.html.*/, "$1");
      }
      find();
    } catch (error) { says.textContent = fill(says.dataset.camera, error); }
    if (stream) stream.getTracks().forEach(one => one.stop());
    view.remove();
  };
  frame.hidden = false;
  $("[data-unscripted]", place).hidden = true;
  blind.hidden = !(button.hidden = !self.BarcodeDetector);
  button.onclick = scan;
})();
