/* What is found at a step is written down here: a block for each thing that is asked, built when its step comes into view.
   Nothing counts as kept before the keeper says so; what was typed goes to it on every change, after a pause and when the page is left. */
(() => {
  const D = self.Doorpost = self.Doorpost || {};
  const data = self.DOORPOST;
  if (!data || !D.keep) return;

  // Patience before a text that is still being typed is kept as it stands, in ms.
  const PAUSE = 2000;
  const RESULTS = ["pass", "fail", "could not test", "not applicable"];
  const REASONS = ["Nobody to let me in", "No way to get there", "Part missing or wrong", "Not safe", "No time left today"];
  const MOVED = ["Unit turned", "Unit moved", "Control unit moved", "Repeater moved"];
  const ATTEMPTS = [1, 2, 3];
  const FIELDS = ["value", "unit", "result", "note"];

  /* An element; a trait that is a function is listened for. What is inside is text or elements: text is never read as HTML. */
  const make = D.make = (name, traits, ...inside) => {
    const one = document.createElement(name);
    for (const [key, value] of Object.entries(traits || {})) {
      if (typeof value === "function") one.addEventListener(key, value);
      else one.setAttribute(key, value);
    }
    one.append(...inside.filter(part => part !== ""));
    return one;
  };
  // A person's text, kept apart from ours whichever way it runs.
  const own = D.own = text => make("bdi", {}, text);
  const fill = (one, ...inside) => one.replaceChildren(...inside.filter(part => part !== ""));
  const number = text => /^\s*[-+−]?\d+([.,]\d+)?\s*$/.test(text) ? Number(text.trim().replace(",", ".").replace("−", "-")) : NaN;
  const named = what => what.charAt(0).toUpperCase() + what.slice(1);

  /* What was written down last, by device, step and what. */
  let written = new Map();
  const key = (device, step, what) => [device, step, what].join("|");
  D.held = (device, step, what) => (written.get(key(device, step, what)) || {}).entry;
  D.written = () => written;
  const shown = new Set();
  const read = async () => {
    written = D.entries.current(await D.keep.all());
    for (const show of shown) show();
  };

  /* One fieldset: what it says of keeping, and how a thing in it is put away. */
  const unsaved = new Map();
  const block = (asked, ...inside) => {
    const said = make("p", {class: "kept", role: "status"});
    const others = make("p", {class: "conflict"});
    const box = make("fieldset", {class: "ask", "data-what": asked.what}, make("legend", {}, asked.title), ...inside);
    const last = new Map(), shows = [], things = new Set();
    let waiting = 0, failed = "", queue = Promise.resolve();
    const held = what => last.get(what) || D.held(asked.device, asked.step, what) || {};
    const typing = () => [...unsaved.keys()].some(field => box.contains(field));
    const tell = () => {
      const some = [...things].some(what => D.held(asked.device, asked.step, what));
      said.textContent = failed || (waiting || typing() ? "Not kept yet." : some ? "Kept." : "");
    };
    const put = (what, values) => {
      const was = held(what);
      const full = {device: asked.device, step: asked.step, what, value: "", unit: "", result: "", note: "", ...values};
      if (FIELDS.every(name => (was[name] || "") === full[name])) return tell();
      last.set(what, full);
      things.add(what);
      waiting += 1;
      failed = "";
      tell();
      queue = queue.then(() => D.keep.add(full)).then(entry => {
        const at = key(asked.device, asked.step, what), before = written.get(at);
        written.set(at, {earlier: [], conflicts: [], ...before, entry});
        waiting -= 1;
      }, error => {
        waiting -= 1;
        if (last.get(what) === full) last.delete(what);
        failed = `NOT KEPT. ${error.message} Write it on paper too.`;
      }).then(show);
      return queue;
    };
    const show = () => {
      const found = [...things].flatMap(what => (written.get(key(asked.device, asked.step, what)) || {conflicts: []}).conflicts);
      fill(others, ...found.flatMap(one => ["Another phone wrote: ", own([one.value, one.unit, one.result, one.note].filter(Boolean).join(", ")), ". "]));
      others.hidden = !found.length;
      for (const one of shows) one();
      tell();
    };
    shown.add(show);
    const end = () => { box.append(others, said); show(); return box; };
    return {asked, box, held, put, tell, end, things, onshow: one => shows.push(one), bad: () => failed, kept: () => queue};
  };

  /* A field that is typed in: kept on change, on leaving it, after a pause; `get` tells what is held, `save` puts away. */
  const field = (at, label, traits, get, save) => {
    const {dir = "auto", area, ...more} = traits;
    const one = make(area ? "textarea" : "input", {dir, autocomplete: "off", ...more});
    let pause = 0;
    const store = () => {
      clearTimeout(pause);
      if (!unsaved.delete(one)) return undefined;
      return save(one.value.trim());
    };
    one.addEventListener("input", () => {
      unsaved.set(one, store);
      clearTimeout(pause);
      pause = setTimeout(store, PAUSE);
      at.tell();
    });
    one.addEventListener("change", store);
    one.addEventListener("blur", store);
    one.set = text => { one.value = text; one.dispatchEvent(new Event("input")); store(); };
    at.onshow(() => { if (!unsaved.has(one) && document.activeElement !== one) one.value = get(); });
    return {one, box: make("label", {class: "field"}, make("span", {}, label), one)};
  };
  const flush = inside => Promise.all([...unsaved].map(([one, store]) => !inside || inside.contains(one) ? store() : 0));
  addEventListener("pagehide", () => flush());
  document.addEventListener("visibilitychange", () => document.hidden && flush());

  const tap = (text, act) => make("button", {type: "button", class: "tap", click: act}, text);
  /* Buttons of which one is pressed; `get` tells which. */
  const choice = (at, label, options, get, set) => {
    const all = options.map(one => tap(named(one), () => set(one)));
    at.onshow(() => all.forEach((button, index) => button.setAttribute("aria-pressed", get() === options[index])));
    return make("div", {class: "taps", role: "group", "aria-label": label}, ...all);
  };
  /* A number with a pad, a step down and a step up. */
  const counter = (at, label, get, save, start) => {
    const typed = field(at, label, {inputmode: "decimal", class: "count", dir: "ltr"}, get, save);
    const step = by => () => {
      const old = number(typed.one.value);
      typed.one.set(String(Number.isNaN(old) ? start : Math.max(0, Math.round((old + by) * 100) / 100)));
    };
    return make("div", {class: "counter"}, tap("−", step(-1)), typed.box, tap("+", step(1)));
  };
  const limit = asked => [
    asked.least !== null && `${asked.least} ${asked.unit} or more`, asked.most !== null && `${asked.most} ${asked.unit} or less`,
  ].filter(Boolean).join(", ");
  /* How a value stands to the limit: "below", "above", "within", or "" where that cannot be told. */
  const against = (asked, value) => {
    const found = number(value);
    if (Number.isNaN(found) || (asked.least === null && asked.most === null)) return "";
    return asked.least !== null && found < asked.least ? "below" : asked.most !== null && found > asked.most ? "above" : "within";
  };
  const line = () => make("p", {class: "says", "aria-live": "polite"});

  const check = asked => {
    const at = block(asked, make("p", {}, asked.accept)), what = asked.what, says = line();
    at.things.add(what);
    const put = more => at.put(what, {...pick(at.held(what)), ...more});
    const measured = asked.unit && asked.unit !== "serial";
    if (measured) {
      const save = value => put({value, unit: value && asked.unit});
      const numeric = asked.least !== null || asked.most !== null || asked.unit.length < 4;
      at.box.append(numeric ? counter(at, `Measured, ${asked.unit}`, () => at.held(what).value || "", save, asked.least ?? asked.most ?? 0)
        : field(at, `Measured: ${asked.unit}`, {}, () => at.held(what).value || "", save).box);
    }
    const why = field(at, "Because", {}, () => at.held(what).note || "", note => put({note}));
    at.box.append(says, choice(at, asked.title, RESULTS, () => at.held(what).result, result => put({result})), why.box);
    at.onshow(() => {
      const {value = "", result = ""} = at.held(what), stands = against(asked, value), beyond = stands && stands !== "within";
      says.textContent = stands ? `${value} ${asked.unit}: ${stands} the limit (${limit(asked)}).` +
        (beyond && result === "pass" ? " You wrote pass: say why." : beyond && !result ? " That is no pass." : "") : limit(asked) && measured ? `Limit: ${limit(asked)}.` : "";
      why.box.hidden = !(result && result !== "pass") && !beyond && !at.held(what).note;
    });
    return at.end();
  };
  const pick = entry => Object.fromEntries(FIELDS.map(name => [name, entry[name] || ""]));

  /* The check of a link: up to three attempts, each way, what was moved before each; the verdict of each in one line. */
  const signal = asked => {
    const at = block(asked, make("p", {}, asked.accept)), scale = data.scale;
    const unit = data.units.find(one => one.id === asked.device) || {};
    const ways = [["from-unit", `${asked.device} sends`], ...(unit.two_way ? [["to-unit", `${asked.device} hears`]] : [])];
    let counts = scale ? scale.unit : asked.unit;
    const boxes = ATTEMPTS.map(n => {
      const box = make("div", {class: "attempt", role: "group", "aria-label": `Attempt ${n}`}, make("p", {class: "nth"}, `Attempt ${n}`)), says = line();
      const what = (way, name) => `signal/${n}/${way}/${name}`;
      const value = (way, name) => at.held(what(way, name)).value || "";
      if (n > 1) {
        const name = `signal/${n}/moved`, moved = field(at, "What was moved before", {}, () => at.held(name).value || "", text => at.put(name, {value: text}));
        box.append(choice(at, "What was moved", MOVED, () => at.held(name).value, moved.one.set), moved.box);
        at.things.add(name);
      }
      const sends = way => value(way, "sent") || String(data.messages || "");
      const judged = way => {
        const level = at.held(what(way, "level")), arrived = number(value(way, "received")), sent = number(sends(way)), found = [], out = [];
        if (level.value) {
          const onScale = scale && level.unit === scale.unit, least = onScale ? scale.passes : asked.least, read = number(level.value);
          const good = least === null || Number.isNaN(read) ? "" : read < least ? "fail" : onScale ? "could not test" : "pass";
          found.push(good);
          out.push(`${level.value} ${level.unit}${least === null ? "" : `, at least ${least} ${onScale ? "called good; how many dB is not known" : "asked"}`}`);
        }
        if (!Number.isNaN(arrived)) {
          found.push(arrived < sent ? "fail" : "pass");
          out.push(`${arrived} of ${sent} arrived`);
        }
        return {found, out};
      };
      for (const [way, title] of ways) {
        const keep = name => text => {
          const fresh = {value: text, unit: name === "level" && text ? counts : ""};
          if (name === "received" && text && !value(way, "sent")) at.put(what(way, "sent"), {value: sends(way)});
          return at.put(what(way, name), fresh);
        };
        for (const name of ["received", "sent", "level"]) at.things.add(what(way, name));
        const all = field(at, "of", {inputmode: "numeric", class: "count", dir: "ltr"}, () => sends(way), keep("sent"));
        const level = counter(at, "Level", () => value(way, "level"), keep("level"), scale ? scale.passes : asked.least ?? 0);
        box.append(make("p", {class: "way"}, title), counter(at, "Arrived", () => value(way, "received"), keep("received"), data.messages || 0), all.box, level);
        if (scale) box.append(choice(at, "Level in", [scale.unit, asked.unit], () => value(way, "level") ? at.held(what(way, "level")).unit : counts, chosen => {
          counts = chosen;
          if (value(way, "level")) at.put(what(way, "level"), {value: value(way, "level"), unit: chosen});
          at.show();
        }));
      }
      box.append(says);
      const verdict = () => {
        const each = ways.map(([way]) => judged(way)), found = each.flatMap(one => one.found);
        const word = found.includes("fail") ? "FAIL" : found.includes("could not test") ? "COULD NOT TEST" : found.includes("pass") ? "PASS" : "";
        return [word, each.map((one, index) => one.out.length ? `${ways[index][1]}: ${one.out.join(", ")}` : "").filter(Boolean).join("; ")];
      };
      at.onshow(() => {
        const [word, words] = verdict();
        says.textContent = words ? `Attempt ${n}: ${word}. ${words}.` : "";
      });
      return {box, verdict};
    });
    at.box.append(...boxes.map(one => one.box));
    // The next attempt is offered where the one before it did not pass.
    at.onshow(() => boxes.forEach((one, index) => {
      one.box.hidden = index > 0 && ["", "PASS"].includes(boxes[index - 1].verdict()[0]) && !one.verdict()[0];
    }));
    return at.end();
  };

  const photo = asked => {
    const at = block(asked, make("p", {}, asked.accept));
    at.things.add(asked.what);
    at.box.append(choice(at, asked.title, ["done", "could not"], () => at.held(asked.what).result, result => at.put(asked.what, {result})));
    return at.end();
  };
  const note = asked => {
    const at = block(asked);
    at.things.add(asked.what);
    at.box.append(field(at, "Free words", {area: true, rows: 3}, () => at.held(asked.what).value || "", value => at.put(asked.what, {value})).box);
    return at.end();
  };
  const step = asked => {
    const at = block(asked), says = line(), own = data.steps.find(one => one.id === asked.step) || {};
    at.things.add("step");
    at.box.append(says);
    at.onshow(() => {
      const {result = "", note: why = ""} = at.held("step");
      fill(says, result ? `Step ${own.n}: ${result}` : `Step ${own.n}: nothing written yet`, why && ", because ", why && D.own(why), ".");
    });
    const put = (result, why) => at.put("step", {result, note: why});
    const because = field(at, "Because", {}, () => at.held("step").note || "", text => text && put("could not", text));
    const reasons = make("div", {class: "reasons", tabindex: "-1"}, make("p", {}, "Could not, because:"), choice(at, "Reasons", REASONS, () => at.held("step").note, because.one.set),
      because.box, make("p", {class: "source"}, own.unsigned ? `Then this cannot be signed: ${own.unsigned}.` : ""));
    at.box.append(reasons);
    reasons.hidden = true;
    at.onshow(() => { reasons.hidden = reasons.hidden && at.held("step").result !== "could not"; });
    const box = at.end();
    box.done = async () => { await put("done", ""); await at.kept(); return !at.bad(); };
    box.cannot = onward => {
      reasons.hidden = false;
      if (!reasons.querySelector("a")) reasons.append(make("a", {class: "act on", href: onward}, "On to the next step"));
      reasons.scrollIntoView({block: "center"});
      reasons.focus();
    };
    return box;
  };
  D.tools = {block, field, tap, choice, counter, line, fill, number, flush, read, pick};
  D.kinds = {check, signal, photo, note, step};

  /* The blocks of a step, and above them whether this phone keeps what is written. */
  const forms = new Map();
  const build = section => {
    const place = section.querySelector("[data-write]"), id = section.dataset.step;
    if (!place || forms.has(section)) return;
    forms.set(section, new Map());
    const asked = data.asked.filter(one => one.step === id), number = (data.steps.find(one => one.id === id) || {}).n;
    const head = make("p", {class: "keeps", role: "status"}, "Asking this browser whether it keeps what you write …");
    place.append(make("h3", {}, "Write down"), head);
    D.keep.state().then(({kept, why}) => {
      fill(head, kept ? "Kept on this phone as you write." : `NOT KEPT HERE. ${why} Write it on paper: ${data.reference}, step ${number}: `);
      if (!kept) head.append(make("span", {class: "blank"}, "Done / could not, found, time, initials"));
      head.classList.toggle("not", !kept);
      if (D.who) place.append(D.who());
      for (const one of asked) {
        const made = D.kinds[one.kind] && D.kinds[one.kind](one);
        if (made) forms.get(section).set(one.kind, made), place.append(made);
      }
      section.dispatchEvent(new CustomEvent("doorpost:forms"));
    });
  };
  const ready = section => new Promise(resolve => {
    build(section);
    if (forms.get(section) && forms.get(section).has("step")) resolve();
    else section.addEventListener("doorpost:forms", resolve, {once: true});
  });

  document.addEventListener("click", async event => {
    const act = event.target.closest("[data-act]"), section = act && act.closest("[data-step]");
    if (!section || section.dataset.hold && act.dataset.act === "done") return;
    const home = section.querySelector("[data-write]") ? section : document.querySelector(`[data-step="${CSS.escape(section.dataset.step)}"]:not([data-hold])`);
    if (!home || act.dataset.lost) return;
    event.preventDefault();
    await ready(home);
    const box = forms.get(home).get("step");
    if (!box) return location.assign(act.href);
    if (act.dataset.act === "cannot") {
      if (home !== section) location.hash = home.querySelector("h2").id;
      return box.cannot(act.href);
    }
    await flush(home);
    if (await box.done()) location.assign(act.href);
    // What could not be kept is said; a second tap leads on all the same.
    else act.dataset.lost = "yes", box.scrollIntoView({block: "center"});
  });

  addEventListener("DOMContentLoaded", async () => {
    const sections = document.querySelectorAll("[data-step]:not([data-hold])");
    if (!sections.length) return;
    await read().catch(() => {});
    D.keep.onchange(read);
    if (!self.IntersectionObserver) return sections.forEach(build);
    const seen = new IntersectionObserver(found => found.forEach(one => one.isIntersecting && build(one.target)), {rootMargin: "200px"});
    sections.forEach(one => seen.observe(one));
  });
})();
