/* What is found at a step is written down here: a block for each thing that is asked, built when its step comes into view.
   Nothing counts as kept before the keeper says so; what was typed goes to it on every change, after a pause and when the page is left. */
(() => {
  const { Doorpost: D, DOORPOST: data } = self;
  if (!data) return;
  const { keep, entries } = D, { words, scale, messages } = data;
  const VALUES = ["value", "unit", "result", "note"], [PASS, FAIL, UNKNOWN] = words.results, [DONE, NOT] = words.done;
  // Patience before a text that is still being typed is kept as it stands, in ms.
  const PAUSE = 2000;

  /** An element; a trait that is a function is listened for. What is inside is text or elements: text is never read as HTML. */
  const make = D.make = (name, traits, ...inside) => {
    const one = document.createElement(name);
    for (const key in traits)
      if (typeof traits[key] === "function") one.addEventListener(key, traits[key]);
      else one.setAttribute(key, traits[key]);
    one.append(...inside);
    return one;
  };
  const line = D.line = (kind, ...inside) => make("p", { class: kind }, ...inside);
  const says = D.says = () => make("p", { class: "says", role: "status" });
  const button = D.button = (text, click) => make("button", { type: "button", class: "tap", click }, text);
  /** A person's text, kept apart from ours whichever way it runs. */
  const own = D.own = text => make("bdi", {}, text);
  const key = (device, step, what) => `${device}|${step}|${what}`;
  const number = text => parseFloat(text.replace(",", "."));

  /* What was written down last, by device, step and what; what is being typed or drawn, with how it is put away. */
  let written = new Map();
  const shown = [], unsaved = new Map();
  const reread = async () => {
    const { entries: all, phone } = await keep.held();
    written = entries.current(all, phone);
    shown.forEach(show => show());
  };
  D.written = () => [...written.values()].map(one => one.entry);
  D.done = step => written.get(key(step.unit, step.id, "step"))?.entry.result === DONE;

  /** A block of what is asked: `get` and `put` values of its things, `watch` for when they may differ. */
  const block = D.block = ({ device, step, title, accept, what: main }) => {
    const said = says(), others = line("conflict"), watched = [], latest = new Map(), things = new Map();
    const box = make("fieldset", { class: "ask", "data-what": main }, make("legend", {}, title), accept ? line("", accept) : "", others, said);
    let failed = "", queue = Promise.resolve();
    const found = what => {
      const at = key(device, step, what);
      things.set(what, at);
      return written.get(at);
    };
    const held = what => latest.get(what) || found(what)?.entry || {};
    const tell = () => {
      const busy = latest.size || [...unsaved.keys()].some(one => box.contains(one));
      said.textContent = failed || (busy ? "Not kept yet." : [...things.keys()].some(found) ? "Kept." : "");
    };
    const show = () => {
      watched.forEach(one => one());
      const other = [...things.keys()].flatMap(what => found(what)?.conflicts || []);
      others.replaceChildren(...other.flatMap(one => ["Another phone wrote: ", own(VALUES.map(name => one[name]).join(" ")), ". "]));
      tell();
    };
    const fail = error => {
      failed = `NOT KEPT. ${error.message}`;
      tell();
    };
    const put = (what, values) => {
      const full = { device, step, what }, was = held(what);
      for (const name of VALUES) full[name] = values[name] ?? was[name] ?? "";
      if (VALUES.some(name => full[name] !== (was[name] || ""))) {
        latest.set(what, full);
        failed = "";
        queue = queue.then(() => keep.add(full)).then(entry => {
          written.set(things.get(what), { conflicts: [], ...found(what), entry });
        }, fail).then(() => {
          if (latest.get(what) === full) latest.delete(what);
          show();
        });
      }
      show();
      return queue.then(() => !failed);
    };
    /** Puts away what is typed or drawn in `one` after a pause, or when the page is left. */
    const later = (one, act) => {
      const store = () => unsaved.get(one) === store && unsaved.delete(one) && act();
      unsaved.set(one, store);
      setTimeout(store, PAUSE);
      tell();
    };
    shown.push(show);
    return { box, put, show, later, fail, get: (what, name = "value") => held(what)[name] || "", add: (...more) => others.before(...more), watch: one => watched.push(one) };
  };

  /** A field of one value of a thing; `more` are values that go with it. */
  const field = D.field = (at, label, what, { name = "value", tag = "input", more = () => ({}), shows = text => text, ...traits } = {}) => {
    const one = make(tag, { dir: "auto", autocomplete: "off", ...traits }), box = make("label", { class: "field" }, label, one);
    const input = () => at.later(one, () => at.put(what, { [name]: one.value.trim(), ...more() }));
    const change = () => unsaved.get(one)?.();
    one.oninput = input;
    one.onchange = one.onblur = change;
    at.watch(() => { if (!unsaved.has(one) && document.activeElement !== one) one.value = shows(at.get(what, name)); });
    box.set = text => {
      one.value = text;
      input();
      change();
    };
    return box;
  };
  const flush = inside => unsaved.forEach((store, one) => inside.contains(one) && store());
  for (const event of ["pagehide", "visibilitychange"]) addEventListener(event, () => flush(document));

  /** Buttons, of which that of the value is pressed. */
  const choice = (at, label, options, what, name) => {
    const all = options.map(one => button(one, () => at.put(what, { [name]: one })));
    at.watch(() => all.forEach(one => one.setAttribute("aria-pressed", at.get(what, name) === one.textContent)));
    return make("div", { class: "taps", role: "group", "aria-label": label }, ...all);
  };
  const because = (at, what) => field(at, "Because", what, { name: "note" });
  /** A number with a pad, a step down and a step up. */
  const counter = (at, label, what, start, more) => {
    const typed = field(at, label, what, { inputmode: "decimal", dir: "ltr", more }), one = typed.control;
    const step = by => button(by < 0 ? "−" : "+", () => typed.set(one.value ? +(number(one.value) + by).toFixed(2) : start));
    return make("div", { class: "counter" }, step(-1), typed, step(1));
  };

  const check = asked => {
    const at = block(asked), { what, unit, least, most } = asked, verdict = says(), why = because(at, what), more = () => ({ unit });
    const limit = [least ?? "", most ?? ""].map((end, high) => end !== "" && `${end} ${unit} or ${high ? "less" : "more"}`).filter(Boolean).join(", ");
    // The serial has a block of its own.
    if (unit && unit !== "serial") at.add(limit ? counter(at, `Measured, ${unit}`, what, least ?? most, more) : field(at, `Measured, ${unit}`, what, { more }));
    at.add(verdict, choice(at, asked.title, words.results, what, "result"), why);
    at.watch(() => {
      const value = number(at.get(what)), result = at.get(what, "result"), past = value < (least ?? -Infinity) || value > (most ?? Infinity), passed = result === PASS;
      verdict.textContent = limit && (isNaN(value) ? `Limit: ${limit}.` : `${value} ${unit}: ${past ? "NOT " : ""}within ${limit}.${past && passed ? " You wrote pass: say why." : ""}`);
      why.hidden = !past && (passed || !result);
    });
    return at;
  };

  /* The check of a link: up to three attempts, each way, what was moved before each; the verdict of each in one line. */
  const signal = asked => {
    const at = block(asked), { device, unit, least } = asked, boxes = [];
    const two = data.units.some(one => one.id === device && one.two_way);
    for (let n = 1; n < 4; n++) {
      const box = make("div", { class: "attempt", role: "group", "aria-label": `Attempt ${n}` }, line("nth", `Attempt ${n}`)), verdict = says(), judges = [];
      const moved = `signal/${n}/moved`, label = "Moved before it";
      if (n > 1) box.append(choice(at, label, words.moved, moved, "value"), field(at, label, moved));
      for (const way of two ? ["from-unit", "to-unit"] : ["from-unit"]) {
        const [received, sent, level] = ["received", "sent", "level"].map(name => `signal/${n}/${way}/${name}`), title = `${device} ${way === "to-unit" ? "hears" : "sends"}`;
        const units = choice(at, "Level in", [scale?.unit, unit].filter(Boolean), level, "unit"), count = () => at.get(sent) || messages;
        box.append(line("way", title), counter(at, `Arrived of ${messages || "those sent"}`, received, messages || 0, () => { if (messages) at.put(sent, { value: `${messages}` }); }),
          counter(at, "Level", level, scale?.passes ?? least ?? 0, () => ({ unit: at.get(level, "unit") || scale?.unit || unit })), units);
        judges.push(() => {
          const got = at.get(received), read = at.get(level), counts = at.get(level, "unit"), own = counts === scale?.unit, ask = own ? scale.passes : least, out = [], text = [];
          units.hidden = !scale || !read;
          if (got) {
            if (count()) out.push(number(got) < count() ? FAIL : PASS);
            text.push(`${got} of ${count() || "?"} arrived`);
          }
          if (read) {
            if (ask !== null) out.push(number(read) < ask ? FAIL : own ? UNKNOWN : PASS);
            text.push(`${read} ${counts}, ${own ? `${ask} is called good, the ${unit} are not known` : `${ask ?? "?"} asked`}`);
          }
          return [out, text.length ? `${title}: ${text.join("; ")}. ` : ""];
        });
      }
      box.append(verdict);
      boxes.push(box);
      at.watch(() => {
        const all = judges.map(one => one()), text = all.map(one => one[1]).join(""), found = all.flatMap(one => one[0]), word = [FAIL, UNKNOWN, PASS].find(one => found.includes(one)) || "";
        verdict.textContent = text && `Attempt ${n}: ${word.toUpperCase()}. ${text}`;
        // The next attempt is offered where the one before it did not pass.
        box.hidden = n > 1 && !text && boxes[n - 2].open !== true;
        box.open = !!word && word !== PASS;
      });
    }
    at.add(...boxes);
    return at;
  };

  const photo = asked => {
    const at = block(asked);
    at.add(choice(at, asked.title, words.done, asked.what, "result"));
    return at;
  };
  const note = asked => {
    const at = block(asked);
    at.add(field(at, "Free words", asked.what, { tag: "textarea", rows: 3 }));
    return at;
  };
  const step = asked => {
    const { n, unsigned } = data.steps.find(one => one.id === asked.step), at = block({ ...asked, title: `Step ${n}` }), state = says(), what = "step";
    const onward = make("a", { class: "act" }, "On to the next step");
    const reasons = make("div", { tabindex: -1 }, line("", "Could not, because:"), choice(at, "Because", words.reasons, what, "note"), because(at, what),
      line("source", unsigned && `Then this cannot be signed: ${unsigned}.`), onward);
    at.add(state, reasons);
    at.watch(() => {
      const result = at.get(what, "result");
      state.textContent = `${result || "Nothing written yet"}.`;
      reasons.hidden = result !== NOT;
      onward.hidden = !onward.href;
    });
    at.cannot = href => {
      onward.href = href;
      at.put(what, { result: NOT });
      reasons.scrollIntoView({ block: "center" });
      reasons.focus();
    };
    at.done = () => at.put(what, { result: DONE, note: "" });
    return at;
  };
  const kinds = D.kinds = { check, signal, photo, note, step };

  /* The blocks of a step; above them, before anything can be written, whether this phone keeps it, and the letters of who writes, asked once. */
  const forms = new Map();
  const build = section => {
    if (!forms.has(section)) forms.set(section, fill(section.querySelector("[data-write]"), data.asked.filter(one => one.step === section.dataset.step && kinds[one.kind])));
    return forms.get(section);
  };
  const fill = async (place, asked) => {
    const head = line("keeps", "Does this browser keep what you write? One moment …");
    place.append(make("h3", {}, "Write down"), head);
    const { kept, why } = await keep.state(), { by } = await keep.held().catch(() => ({}));
    head.textContent = kept ? "Kept on this phone as you write." : `NOT KEPT HERE. ${why}`;
    if (!kept) place.append(line("blanks", make("span", { class: "blank" }, "On paper: step, done or could not, found, time, initials")));
    const made = asked.map(one => kinds[one.kind](one));
    place.append(make("label", { class: "field" }, "Your letters, two or three", make("input", { maxlength: 3, autocapitalize: "characters", value: by || "", change: event => keep.by(event.target.value) })),
      ...made.map(one => one.box));
    made.forEach(one => one.show());
    return made.find(one => one.done);
  };

  document.addEventListener("click", async event => {
    const act = event.target.closest("[data-act=done],[data-act=cannot]"), section = act?.closest("[data-step]");
    if (!section || act.lost) return;
    event.preventDefault();
    const at = await build(section);
    if (act.dataset.act === "cannot") return at.cannot(act.href);
    flush(section);
    // What could not be kept is said; a second tap leads on all the same.
    act.lost = !await at.done();
    if (act.lost) at.box.scrollIntoView();
    else location.assign(act.href);
  });

  addEventListener("DOMContentLoaded", async () => {
    await reread().catch(() => {});
    keep.onchange(() => reread().catch(() => {}));
    const seen = new IntersectionObserver(found => found.forEach(one => one.isIntersecting && build(one.target)), { rootMargin: "200px" });
    document.querySelectorAll("[data-step]:not([data-hold])").forEach(one => seen.observe(one));
    document.dispatchEvent(new Event("doorpost"));
  });
})();
