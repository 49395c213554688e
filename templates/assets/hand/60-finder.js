/* The finder: from the last signs of a serial, a number, a room or a short reference to the unit and what is next to do there. */
(() => {
  const { Doorpost: D, DOORPOST: data } = self;
  const place = document.querySelector("[data-find]");
  if (!data || !place) return;
  const { make, line, plain } = D;
  // More are not read on a phone: another sign is typed.
  const SHOWN = 12;
  const rows = data.units.map(unit => ({
    unit, names: [plain(unit.short), plain(unit.id)], numbers: unit.number.match(/\d+/g) || [], serials: [plain(unit.serial)], words: plain(unit.text + unit.room)
  }));
  /** How well a unit answers: 0 best, 9 not at all. */
  const rank = ({ names, numbers, serials, words }, asked) => {
    const long = asked.length > 1, serial = test => serials.some(one => one && test(one));
    return names.includes(asked) ? 0 : numbers.includes(asked) ? 1 : long && serial(one => one.endsWith(asked) || one.length > 4 && asked.endsWith(one)) ? 2
      : names.some(one => one.startsWith(asked)) ? 3 : long && words.includes(asked) ? 4 : asked.length > 2 && serial(one => one.includes(asked)) ? 5 : 9;
  };

  const typed = make("input", { type: "search", autocomplete: "off", autocapitalize: "characters", input: () => find() });
  const says = D.says(), list = make("ul", { class: "found" });
  const card = ({ unit, serials }) => {
    const next = data.steps.find(one => one.unit === unit.id && !D.done(one));
    return make("li", {}, line("number", `${unit.id} · ${unit.list} ${unit.number}`), line("", D.own(unit.text)), line("", D.own(unit.room)),
      line("source", `Reference ${unit.short}. Serial ${unit.serial || unit.stop || "not planned"}${serials[1] ? `, read today ${serials[1]}` : ""}.`),
      make("a", { class: "act", href: D.href(next ? next.page : unit.page) }, next ? `Next: step ${next.n}, ${next.title}` : `Nothing left to do: ${unit.id}`),
      make("a", { class: "more", href: D.href(unit.page) }, `All about ${unit.id}`));
  };
  const find = () => {
    const asked = plain(typed.value);
    for (const one of D.written())
      for (const row of rows) if (one.what === "serial" && one.device === row.unit.id) row.serials[1] = plain(one.value);
    const found = asked ? rows.map(row => [rank(row, asked), row]).filter(one => one[0] < 9).sort((a, b) => a[0] - b[0]) : [];
    says.textContent = asked && `${found.length} found.${found.length > SHOWN ? ` The first ${SHOWN} are shown: type one sign more.` : ""}`;
    list.replaceChildren(...found.slice(0, SHOWN).map(one => card(one[1])));
  };
  document.addEventListener("doorpost", find);

  /* A code inside a lid or on a plate; only some browsers can read one. */
  const scan = async () => {
    const view = make("video", { playsinline: "", muted: "" });
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
    } catch (error) { says.textContent = `The camera cannot be used here (${error.name}): type instead.`; }
    if (stream) stream.getTracks().forEach(one => one.stop());
    view.remove();
  };
  place.replaceChildren(make("label", { class: "field" }, "Last signs of a serial, a number, a room or a reference", typed),
    self.BarcodeDetector ? D.button("Scan a code", scan) : line("source", "This browser cannot read codes with the camera: type instead."), says, list);
})();
