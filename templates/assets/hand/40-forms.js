/* What is found at a step is written down here: a block for each thing that is asked, copied from the page's forms when its step comes into view.
   Nothing counts as kept before the keeper says so; what was typed goes to it on every change, after a pause and when the page is left. */
(() => {
  const { Doorpost: D, DOORPOST: data } = self;
  if (!data) return;
  const { keep, entries, every, part, make } = D, { words, scale, messages } = data;
  const VALUES = ["value", "unit", "result", "note"], [DONE, NOT] = words.done;
  const [PASS, FAIL, UNKNOWN] = words.results;
  // Patience before a text that is still being typed is kept as it stands, in ms.
  const PAUSE = 2000;

  D.title = ({ device, title }) => title.includes(device) ? title : `${device}: ${title}`;
  const stepOf = D.step = ({ step }) => data.steps.find(one => one.id === step);
  const form = D.form = name => document.querySelector(`template[data-form=${name}]`).content.cloneNode(true);
  // A number and nothing else: half of one that was mistyped would be another.
  const number = text => /^[-−+]?\d+([.,]\d+)?$/.test(text) ? parseFloat(text.replace(",", ".").replace("−", "-")) : NaN;
  const key = (device, step, what) => `${device}|${step}|${what}`;

  /* What was written down last, by device, step and what; what is being typed or drawn, with how it is put away. */
  let written = new Map();
  const shown = [];
  const unsaved = new Map();
  const pending = new Set();
  /* Nothing moves under a finger that is down: a field that is left by a tap would else push away what was tapped. What changes meanwhile is
     shown when the tap has found its target, or the finger has lifted. */
  let down = false;
  let late = false;
  // Those out of sight wait until they are seen again: by the evening there are a thousand.
  const refresh = () => {
    late = down;
    if (!down) shown.forEach(at => at.box.offsetParent && at.show());
  };
  const lift = () => {
    down = false;
    if (late) refresh();
  };
  // A touch comes twice: as itself, then as the mouse that it stands for.
  for (const event of ["pointerdown", "mousedown"]) addEventListener(event, () => { down = true; }, true);
  for (const event of ["pointerup", "pointercancel", "mouseup"]) addEventListener(event, () => setTimeout(lift), true);
  addEventListener("click", lift, true);
  const reread = async () => {
    const { entries: all, phone } = await keep.held();
    written = entries.current(all, phone);
    refresh();
  };
  D.shown = shown;
  D.entry = one => written.get(key(one.device, one.step, one.what))?.entry;
  D.written = () => [...written.values()].map(one => one.entry);
  D.done = step => written.get(key(step.unit, step.id, "step"))?.entry.result === DONE;

  /* Leaving a page waits for no store. What is still on its way then is left as a draft, and goes to the keeper when the pack is next opened. */
  const DRAFT = `doorpost-draft ${data.fingerprint}`;
  const send = async full => {
    pending.add(full);
    try {
      if (full.drawn) await keep.sign(full.drawn);
      return await keep.add(full);
    } finally {
      pending.delete(full);
      if (!pending.size) localStorage.removeItem(DRAFT);
    }
  };
  const resume = async () => {
    for (const full of JSON.parse(localStorage.getItem(DRAFT) || "[]"))
      if (differs(full, written.get(key(full.device, full.step, full.what))?.entry)) await send(full);
    await reread();
  };
  const differs = (full, was = {}) => VALUES.some(name => full[name] !== (was[name] || ""));
  const leave = () => {
    flush(document);
    if (pending.size) localStorage.setItem(DRAFT, JSON.stringify([...pending]));
  };

  /** A block of what is asked: `get` and `put` values of its things; `watch` is called whenever one may differ. */
  const block = asked => {
    const { device, step, kind, what: main } = asked, box = form("ask").firstElementChild;
    part(box, "body").replaceWith(form(kind));
    // Words that stand there already are not written again: each change makes the browser look at the whole page's style.
    const say = (name, text) => {
      const one = part(box, name);
      if (one.textContent !== text) one.textContent = text;
    };
    say("title", D.title(asked));
    say("accept", asked.accept);
    box.dataset.what = main;
    for (const one of every("[data-choose]", box))
      for (const value of words[one.dataset.choose]) {
        const tap = make("button", { type: "button", className: "tap", value }, value);
        Object.assign(tap.dataset, one.dataset);
        one.append(tap);
      }
    const all = every("input, textarea, button[value]", box).filter(one => one.dataset.put), thing = one => one.dataset.what || main;
    const things = [...new Set(all.map(thing))];
    const latest = new Map();
    const found = what => written.get(key(device, step, what)), held = (what = main) => latest.get(what) || found(what)?.entry || {};
    let failed = "";
    let queue = Promise.resolve();

    const at = { asked, box, say, part: name => part(box, name), watch() {}, held, get: (what, name = "value") => held(what)[name] || "" };
    const tell = () => {
      const busy = latest.size || [...unsaved.keys()].some(one => box.contains(one));
      say("said", failed || (busy ? "Not kept yet." : things.some(found) ? "Kept." : ""));
    };
    at.show = () => {
      if (down) {
        late = true;
        return;
      }
      for (const one of all) {
        const value = at.get(thing(one), one.dataset.put);
        if (one.value && one.type === "button") one.setAttribute("aria-pressed", value === one.value);
        else if (!unsaved.has(one) && document.activeElement !== one) one.value = value;
      }
      say("others", things.flatMap(what => found(what)?.conflicts || []).map(one => `Another phone wrote: ${VALUES.map(name => one[name]).join(" ")}`).join("; "));
      at.watch();
      tell();
    };
    at.fail = error => {
      failed = `NOT KEPT. ${error.message}`;
      tell();
    };
    at.put = (what, values) => {
      const full = { device, step, what, drawn: values.drawn }, was = held(what);
      for (const name of VALUES) full[name] = values[name] ?? was[name] ?? "";
      if (differs(full, was)) {
        latest.set(what, full);
        failed = "";
        const sent = send(full);
        queue = queue.then(() => sent).then(entry => {
          written.set(key(device, step, what), { conflicts: [], ...found(what), entry });
        }, at.fail).then(() => {
          if (latest.get(what) === full) latest.delete(what);
          at.show();
        });
      }
      at.show();
      return queue.then(() => !failed);
    };
    /** Puts away what is typed or drawn in `one` after a pause, or when the page is left. */
    at.later = (one, act) => {
      const store = () => unsaved.get(one) === store && unsaved.delete(one) && act();
      unsaved.set(one, store);
      setTimeout(store, PAUSE);
      tell();
    };
    const put = one => at.put(thing(one), { ...one.dataset.unit && { unit: at.get(thing(one), "unit") || one.dataset.unit }, [one.dataset.put]: one.value.trim() });
    const stored = one => unsaved.get(one)?.();
    at.set = (one, text) => {
      one.value = text;
      put(one);
    };
    box.addEventListener("input", ({ target: one }) => {
      if (one.dataset.put) at.later(one, () => put(one));
      at.watch();
    });
    for (const event of ["change", "focusout"]) box.addEventListener(event, ({ target }) => {
      stored(target);
      at.show();
    });
    box.addEventListener("click", ({ target: one }) => {
      if (one.type !== "button") return;
      if (one.dataset.put) put(one);
      if (one.dataset.by) {
        const input = one.parentNode.querySelector("input");
        at.set(input, isFinite(number(input.value)) ? +(number(input.value) + +one.dataset.by).toFixed(2) : input.dataset.start);
      }
    });
    shown.push(at);
    return at;
  };
  const flush = inside => unsaved.forEach((store, one) => inside.contains(one) && store());
  for (const event of ["pagehide", "visibilitychange"]) addEventListener(event, leave);

  const check = at => {
    const { device, step, what, unit, limit } = at.asked, [typed, text, taken, why] = ["number", "text", "taken", "why"].map(at.part);
    const input = limit ? typed : text.lastElementChild, name = unit.startsWith("of") ? "received" : "level";
    const { wanted, wish = "" } = what === "check/link-margin" ? stepOf(at.asked) : {};
    at.say("text-words", `Measured, ${unit}`);
    at.say("number-words", `Measured, ${unit}`);
    if (!limit) typed.closest(".counter").remove();
    if (limit || !unit) text.remove();
    Object.assign(input.dataset, { unit, start: at.asked.least ?? at.asked.most });
    if (/,|time|date|certificate/.test(unit)) input.inputMode = "text";
    // What the last attempt at the link brought is not typed again.
    const tried = () => unit && [3, 2, 1].map(n => written.get(key(device, step, `signal/${n}/from-unit/${name}`))?.entry).find(one => one && (one.unit || unit) === unit)?.value;
    taken.onclick = () => at.set(input, tried());
    at.watch = () => {
      const value = number(at.get(what)), result = at.get(what, "result"), past = D.past(at.asked, value), passed = result === PASS;
      const mixed = what === "check/identity" && D.mixed(device);
      const wrong = limit && at.get(what) && isNaN(value), asks = (past || mixed) && passed ? " You wrote pass: say why." : "";
      at.lacks = wrong || past && asks && !at.get(what, "note");
      at.say("says", limit ? (wrong ? "NO NUMBER. " : "") + (isNaN(value) ? `Limit: ${limit}.` : `${value} ${unit}: ${past ? "NOT " : ""}within ${limit}.${asks}`) + (value >= wanted || !wish ? "" : ` ${wish}`) :
        mixed ? mixed + asks : "");
      why.hidden = !past && (passed || !result);
      taken.hidden = !tried();
      at.say("taken", `As tried: ${tried()}`);
    };
  };

  /** Whether something counts as not tested: without a result, or a pass without the value that it rests on; without what was to be read. */
  D.blank = ({ kind, unit }, { result, value }) => ["serial", "called"].includes(kind) ? !value : ["check", "step"].includes(kind) && (!result || result === PASS && unit && !value);

  /** Whether a value lies beyond the limit of what is asked. */
  D.past = ({ least, most }, value) => least !== null && value < least || most !== null && value > most;

  /* The check of a link: up to three attempts, each way, what was moved before each; the verdict of each in one line. The next is offered where one did not pass. */
  const signal = at => {
    const { asked: { device, unit, least }, box } = at, { wanted, wish } = stepOf(at.asked), ways = every("[data-way]", box);
    if (!data.units.some(one => one.id === device && one.two_way)) ways.filter(one => one.dataset.way === "to-unit").forEach(one => one.remove());
    every("[data-at=received]", box).forEach(one => { one.dataset.start = messages || 0; });
    every("[data-at=level]", box).forEach(one => Object.assign(one.dataset, { unit: scale?.unit || unit, start: scale?.passes ?? least ?? 0 }));
    if (messages) every("[data-at=received-words]", box).forEach(one => one.append(` of ${messages}`));
    const reason = at.part("why");
    at.watch = () => {
      let onward = true;
      let last = "";
      at.blank = true;
      for (const n of [1, 2, 3]) {
        const verdicts = [];
        const said = [];
        let whole = true;
        for (const way of every("[data-way]", at.part(`attempt-${n}`))) {
          const [got, sent, read] = ["received", "sent", "level"].map(name => `signal/${n}/${way.dataset.way}/${name}`);
          const strength = at.get(read);
          whole = whole && strength && (!messages || at.get(got));
          const counts = at.get(read, "unit");
          const ours = counts === scale?.unit;
          const ask = ours ? scale.passes : least;
          way.querySelector("[data-choose]").hidden = !scale || !strength;
          if (at.get(got)) {
            if (messages && !at.get(sent)) at.put(sent, { value: `${messages}` });
            // Without its level an attempt is no pass yet.
            if (messages) verdicts.push(number(at.get(got)) >= messages ? strength ? PASS : "" : FAIL);
            said.push(`${at.get(got)} of ${messages || "?"} arrived`);
          }
          if (strength) {
            const read = number(strength);
            const wrong = isNaN(read) || ours && read > scale.most;
            if (wrong || ask !== null) verdicts.push(wrong ? "" : read < ask ? FAIL : ours ? UNKNOWN : PASS);
            said.push(`${wrong ? "NO READING: " : ""}${strength} ${counts}, ${ask ?? "?"} ${ours ? `is called good, the ${unit} are not known` : "asked"}`);
            if (!ours && read < wanted) said.push(wish);
          }
        }
        const word = [FAIL, UNKNOWN, "", PASS].find(one => verdicts.includes(one)) || "";
        at.say(`says-${n}`, said.length ? `Attempt ${n}: ${word && `${word.toUpperCase()}. `}${said.join("; ")}.` : "");
        at.part(`attempt-${n}`).hidden = !onward && !said.length;
        onward = word && word !== PASS;
        // Why the last attempt is as it is goes with its level.
        if (said.length) {
          last = word;
          at.blank = !whole;
          reason.lastElementChild.dataset.what = `signal/${n}/from-unit/level`;
        }
      }
      reason.hidden = last !== FAIL;
    };
  };

  const step = at => {
    const { n, unsigned } = stepOf(at.asked), what = "step", [reasons, onward, lacks, without] = ["reasons", "onward", "lacks", "without"].map(at.part);
    let warned = "";
    const titles = wanted => at.all.filter(wanted).map(one => D.title(one.asked)).join(", ");
    const lacking = () => titles(one => one.lacks), unread = () => titles(one => one.blank ?? D.blank(one.asked, one.held()));
    at.blank = false;
    at.say("title", `Step ${n}`);
    at.part("unsigned").append(`${unsigned}.`);
    at.part("unsigned").hidden = !unsigned;
    at.watch = () => {
      const result = at.get(what, "result");
      at.say("says", `${result || "Nothing written yet"}.`);
      reasons.hidden = result !== NOT;
      onward.hidden = !onward.href;
      for (const [name, found] of [["lacks", lacking()], ["blanks", unread()]]) {
        at.part(name).hidden = !without.href || !found;
        at.say(`${name}-said`, found);
      }
    };
    at.cannot = href => {
      onward.href = href;
      at.put(what, { result: NOT });
      reasons.scrollIntoView({ block: "center" });
      reasons.focus();
    };
    /** What keeps one from going on: it is shown, with a way on all the same. What was not read holds once; a reason that lacks, each time. */
    at.halts = href => {
      // Where nothing is kept all is written on paper.
      const fresh = at.all.kept && warned !== (warned = unread()) && warned;
      without.href = href;
      at.show();
      if (lacking() || fresh) lacks.parentNode.scrollIntoView({ block: "center" });
      return lacking() || fresh;
    };
    at.fails = note => at.put(what, { result: NOT, note });
    at.done = () => {
      warned = "";
      return at.put(what, { result: DONE, note: [lacking() && words.without + lacking(), unread() && words.unread + unread()].filter(one => one).join(". ") });
    };
  };
  /* Who spoke at the station, and when: by this phone's clock with one tap. */
  const called = at => {
    const { title, unit, what } = at.asked, typed = at.part("typed"), now = at.part("now");
    typed.setAttribute("aria-label", title);
    now.hidden = what !== "called/at";
    if (unit) typed.type = unit;
    now.onclick = () => at.set(typed, new Date().toTimeString().slice(0, 5));
  };
  const nothing = () => {};
  const kinds = D.kinds = { check, signal, called, step, photo: nothing, note: nothing };

  /* The blocks of a step; above them, before anything can be written, whether this phone keeps it, and the letters of who writes, asked once. */
  const forms = new Map();
  const build = section => {
    if (!forms.has(section)) forms.set(section, fill(section.querySelector("[data-write]"), data.asked.filter(one => one.step === section.dataset.step && kinds[one.kind])));
    return forms.get(section);
  };
  const fill = async (place, asked) => {
    place.append(form("head"));
    const { kept, why } = await keep.state();
    const { by = "" } = await keep.held().catch(() => ({}));
    // That it is kept, and how long, is said once in full.
    part(place, "state").textContent = kept && told ? words.keeping.brief : why;
    told = true;
    part(place, "paper").hidden = kept;
    part(place, "who").open = !by;
    named(by);
    part(place, "by").onchange = ({ target }) => {
      keep.by(target.value);
      named(target.value);
    };
    const all = Object.assign([], { kept });
    for (const one of asked) {
      const at = block(one);
      at.all = all;
      all.push(at);
      kinds[one.kind](at);
      at.show();
      place.append(at.box);
    }
    return all;
  };
  let told = false;
  /** Who writes, at every step that was built. */
  const named = by => {
    // A field shows its value, and what shows them beside it its text.
    every("[data-at=by], [data-at=letters]").forEach(one => Object.assign(one, { value: by, textContent: by || "?" }));
  };

  document.addEventListener("click", async event => {
    const act = event.target.closest("[data-act]");
    const place = act?.closest("[data-step]");
    const way = act?.dataset.act;
    if (!place || way === "holds" || act.lost) return;
    event.preventDefault();
    const section = document.querySelector(`[data-step="${place.dataset.step}"]:not([data-hold])`);
    const at = (await build(section)).find(one => one.done);
    if (way === "cannot") return at.cannot(act.href);
    if (way === "fails") {
      // Kept as a step that could not be done: what follows waits for it.
      if (!await at.fails(`${place.dataset.hold} does not hold`)) place.querySelector(".else").textContent = part(at.box, "said").textContent;
      return;
    }
    flush(section);
    if (way === "done" && at.halts(act.href)) return;
    // What could not be kept is said; a second tap leads on all the same.
    act.lost = !await at.done();
    if (act.lost) at.box.scrollIntoView();
    else location.assign(act.href);
  });

  addEventListener("DOMContentLoaded", async () => {
    await reread().then(resume).catch(nothing);
    keep.onchange(() => reread().catch(nothing));
    const seen = new IntersectionObserver(found => found.forEach(one => one.isIntersecting && build(one.target).then(refresh)), { rootMargin: "200px" });
    every("[data-step]:not([data-hold])").forEach(one => seen.observe(one));
    document.dispatchEvent(new Event("doorpost"));
  });
})();
