/* What is found at a step is written down here: a block for each thing that is asked, copied from the page's forms when its step comes into view.
   Nothing counts as kept before the keeper says so; what was typed goes to it on every change, after a pause and when the page is left. */
(() => {
  const { Doorpost: D, DOORPOST: data } = self;
  if (!data) return;
  const { keep, entries, every, part, make, on, $ } = D, { words, scale, messages, holds } = data;
  const VALUES = ["value", "unit", "result", "note"], [DONE, NOT] = words.done;
  const [PASS, FAIL, UNKNOWN] = words.results;
  // Patience before a text that is still being typed is kept as it stands, in ms.
  const PAUSE = 2000;

  // Each hold point is asked as well: its step says which it has.
  for (const one of data.steps) {
    const [name] = one.hold.split(",");
    if (name) data.asked.push(one.held = { device: one.unit, step: one.id, what: `hold/${name}`, kind: "hold", title: `Hold point ${name}` });
  }

  D.title = ({ device, title }) => title.includes(device) ? title : `${device}: ${title}`;
  const stepOf = D.step = ({ step }) => data.steps.find(one => one.id === step);
  const form = D.form = name => $(`template[data-form=${name}]`).content.cloneNode(true);
  // A number and nothing else: half of one that was mistyped would be another.
  const number = D.number = text => /^[-−+]?\d{1,9}([.,]\d{1,6})?$/.test(text) ? parseFloat(text.replace(",", ".").replace("−", "-")) : NaN;
  const centre = one => one.scrollIntoView({ block: "center" });
  const key = (device, step, what) => `${device}|${step}|${what}`;

  /* What was written down last, by device, step and what; what is being typed or drawn, with how it is put away. */
  let written = new Map();
  // Who writes, as kept: unknown until somebody was asked.
  let letters;
  const shown = [];
  const unsaved = new Map();
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
  on(self, "pointerdown mousedown", () => { down = true; }, true);
  on(self, "pointerup pointercancel mouseup", () => setTimeout(lift), true);
  on(self, "click", lift, true);
  const reread = async () => {
    const { entries: all, phone, by } = await keep.held();
    written = entries.current(all, phone);
    named(by);
    refresh();
  };
  D.shown = shown;
  D.entry = one => written.get(key(one.device, one.step, one.what))?.entry;
  D.written = () => [...written.values()].map(one => one.entry);
  D.done = step => written.get(key(step.unit, step.id, "step"))?.entry.result === DONE;

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
      say("said", failed || (busy ? words.busy : things.some(found) ? "Kept." : ""));
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
      say("others", things.flatMap(what => found(what)?.conflicts || []).map(one => `${words.other} ${VALUES.map(name => one[name]).join(" ")}`).join("; "));
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
      if (entries.differs(full, was)) {
        latest.set(what, full);
        failed = "";
        const sent = keep.add(full);
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
    const put = one => {
      const { unit, put: name, at: role } = one.dataset, what = thing(one);
      // A level counts in what the last that was written counted in; each keeps its own.
      const usual = () => role === "level" && D.written().reverse().find(one => one.unit && one.what.endsWith(role))?.unit;
      at.put(what, { ...unit && { unit: at.get(what, "unit") || usual() || unit }, [name]: one.value.trim() });
      if (role === "received" && messages) at.put(what.replace(role, "sent"), { value: `${messages}` });
    };
    const stored = one => unsaved.get(one)?.();
    at.set = (one, text) => {
      one.value = text;
      put(one);
    };
    on(box, "input", ({ target: one }) => {
      if (one.dataset.put) at.later(one, () => put(one));
      at.watch();
    });
    on(box, "change focusout", ({ target }) => {
      stored(target);
      at.show();
    });
    on(box, "click", ({ target: one }) => {
      if (one.type !== "button") return;
      if (one.dataset.put) put(one);
      if (one.dataset.by) {
        const input = $("input", one.parentNode);
        at.set(input, isFinite(number(input.value)) ? +(number(input.value) + one.dataset.by * (input.dataset.by || 1)).toFixed(2) : input.dataset.start);
      }
    });
    shown.push(at);
    return at;
  };
  const flush = inside => unsaved.forEach((store, one) => inside.contains(one) && store());
  on(self, "pagehide visibilitychange", () => flush(document));

  const check = at => {
    const { box, asked: { device, step, what, unit, limit, least, most } } = at, [typed, text, taken, why] = ["number", "text", "taken", "why"].map(at.part);
    const input = limit ? typed : text.lastElementChild, name = unit.startsWith("of") ? "received" : "level";
    const { wanted, wish } = what === "check/link-margin" ? stepOf(at.asked) : {};
    for (const one of every("[data-in]", box)) one.textContent = unit;
    if (!limit) typed.closest(".counter").remove();
    if (limit || !unit) text.remove();
    // A window of less than five is gone through by tenths.
    Object.assign(input.dataset, { unit, start: least ?? most, by: (most ?? NaN) - (least ?? NaN) < 5 ? .1 : 1 });
    if (/,|time|date|certificate/.test(unit)) input.inputMode = "text";
    // What the last attempt at the link brought is not typed again.
    const tried = () => unit && [3, 2, 1].map(n => written.get(key(device, step, `signal/${n}/from-unit/${name}`))?.entry).find(one => one && (one.unit || unit) === unit)?.value;
    taken.onclick = () => at.set(input, tried());
    at.watch = () => {
      const read = number(at.get(what)), more = name === "received" && read > messages, value = more ? NaN : read;
      const result = at.get(what, "result"), past = D.past(at.asked, value), passed = result === PASS;
      const mixed = what === "check/identity" && D.mixed(device);
      const wrong = limit && at.get(what) && isNaN(value), asks = (past || mixed) && passed ? ` ${words.why}` : "";
      // What leaves open what the plan asks for takes its reason here, where it is known: the office asks for it.
      at.lacks = wrong || (asks || result && !passed) && !at.get(what, "note");
      at.say("says", limit ? (wrong ? more ? words.more : words.no_number : "") + (isNaN(value) ? `Limit: ${limit}.` : `${value} ${unit}: ${past ? "NOT " : ""}within ${limit}.${asks}`) + (value < wanted ? ` ${wish}` : "") :
        mixed ? mixed + asks : "");
      why.hidden = !past && !mixed && (passed || !result);
      taken.hidden = !tried();
      at.say("tried", tried());
    };
  };

  /** Whether something counts as not tested: without a result, or a pass without the value that it rests on; without what was to be read. */
  D.blank = ({ kind, unit }, { result, value }) => /serial|called/.test(kind) ? !value : ["check", "step"].includes(kind) && (!result || result === PASS && unit && !value);

  /** Whether a value lies beyond the limit of what is asked. */
  D.past = ({ least, most }, value) => value < (least ?? NaN) || value > (most ?? NaN);

  /** What attempt `n` at a link came to, of what `get` gives: `word` is its verdict, `said` what is said of it, `whole` whether all of it was read, `low`
   *  whether a bad day asks for more; nothing where nothing was read. Without its level, or one of its ways, it is no pass yet. */
  const attempt = ({ step, unit, least, planned }, n, get) => {
    const { wanted, wish } = stepOf({ step }), verdicts = [], said = [];
    let whole = true;
    let low = "";
    for (const way of planned.split(" ")) {
      const name = `signal/${n}/${way}/`, level = `${name}level`, got = get(`${name}received`), strength = get(level), counts = get(level, "unit");
      const ours = counts === scale?.unit, ask = ours ? scale.passes : least, read = number(strength);
      // More than were sent is no number.
      const more = number(got) > messages;
      whole = whole && strength && (!messages || got && !more);
      if (got) {
        if (messages) verdicts.push(more ? "" : number(got) >= messages ? PASS : FAIL);
        said.push(`${got} of ${messages || "?"} arrived${more ? words.than_sent : ""}`);
      }
      if (strength) {
        const wrong = isNaN(read) || ours && read > scale.most;
        if (wrong || ask !== null) verdicts.push(wrong ? "" : read < ask ? FAIL : ours ? UNKNOWN : PASS);
        said.push(`${wrong ? words.no_number : ""}${strength} ${counts}, ${ask ?? "?"} ${ours ? words.ours : "asked"}`);
        if (!ours && read < wanted) low = wish;
      }
    }
    if (!whole) verdicts.push("");
    const word = [FAIL, UNKNOWN, "", PASS].find(one => verdicts.includes(one)) || "";
    return said[0] && { n, word, whole, low, said: `Attempt ${n}: ${word && `${word.toUpperCase()}. `}${low && `${low} `}${said.join("; ")}.` };
  };
  /** The last attempt at a link, as it is kept. */
  D.link = asked => asked.kind === "signal" && [3, 2, 1].map(n => attempt(asked, n, (what, name = "value") => D.entry({ ...asked, what })?.[name] || "")).find(one => one) || {};

  /* The check of a link: up to three attempts, each way, what was moved before each; the verdict of each in one line. The next is offered where one did not pass. */
  const signal = at => {
    const { asked: { unit, least, planned }, box } = at;
    for (const one of every("[data-way]", box)) if (!planned.includes(one.dataset.way)) one.remove();
    every("[data-at=received]", box).forEach(one => { one.dataset.start = messages || 0; });
    every("[data-at=level]", box).forEach(one => Object.assign(one.dataset, { unit: scale?.unit || unit, start: scale?.passes ?? least ?? 0 }));
    if (messages) every("[data-at=received-words]", box).forEach(one => one.append(` of ${messages}`));
    const reason = at.part("why");
    at.watch = () => {
      let onward = true;
      let last;
      every("[data-choose=units]", box).forEach(one => { one.hidden = !scale || !at.get(one.dataset.what); });
      for (const n of [1, 2, 3]) {
        const found = attempt(at.asked, n, at.get);
        at.say(`says-${n}`, found?.said || "");
        at.part(`attempt-${n}`).hidden = !onward && !found;
        onward = found?.word && found.word !== PASS;
        last = found || last;
      }
      at.blank = !last?.whole;
      // Why the last attempt is as it is goes with its level.
      if (last) reason.lastElementChild.dataset.what = `signal/${last.n}/from-unit/level`;
      reason.hidden = last?.word !== FAIL;
    };
  };

  const step = at => {
    const { n, unsigned } = stepOf(at.asked), what = "step", [reasons, onward, lacks, without] = ["reasons", "onward", "lacks", "without"].map(at.part);
    let warned = "";
    const titles = wanted => at.all.filter(wanted).map(one => D.title(one.asked)).join(", ");
    const lacking = () => titles(one => one.lacks), unread = () => titles(one => one.blank ?? D.blank(one.asked, one.held()));
    at.blank = false;
    at.say("title", `Step ${n}`);
    const signed = at.part("unsigned");
    signed.append(`${unsigned}.`);
    signed.hidden = !unsigned;
    at.watch = () => {
      const result = at.get(what, "result");
      at.say("says", `${result || words.none}.`);
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
      centre(reasons);
      reasons.focus();
    };
    /** What keeps one from going on: it is shown, with a way on all the same. What was not read holds once; a reason that lacks, each time. */
    at.halts = href => {
      // Where nothing is kept all is written on paper.
      const fresh = at.all.kept && warned !== (warned = unread()) && warned;
      without.href = href;
      at.show();
      if (lacking() || fresh) centre(lacks.parentNode);
      return lacking() || fresh;
    };
    at.done = () => {
      warned = "";
      return at.put(what, { result: DONE, note: [lacking() && words.without + lacking(), unread() && words.unread + unread()].filter(one => one).join(". ") });
    };
  };
  /** What a hold point rests on: what is written at its step; before that, what the pack names; the last of all on the whole day. */
  D.rests = id => id === holds.last ? data.asked : holds.rests[id]?.map(at => data.asked[at] || stepOf({ step: at }).held) || data.asked.filter(one => one.step === id);
  /* Whether a hold point holds. While something that it rests on is open it says so, and going on takes a reason. */
  const hold = at => {
    const { step, what } = at.asked, why = at.part("why");
    const act = $(`[data-hold][data-step="${step}"] [data-act=holds]`);
    const open = () => D.rests(step).some(one => one !== at.asked && D.open(one));
    let asks = false;
    at.watch = () => {
      const right = !open(), result = at.get(what, "result");
      act.classList.toggle("holds", right);
      act.textContent = words.holds[+right];
      at.say("says", result && words.holds[2 + (result === DONE)]);
      why.hidden = !asks && result !== NOT && !at.get(what, "note");
    };
    at.halts = () => {
      asks = at.all.kept && open() && !at.get(what, "note");
      at.show();
      if (asks) centre(at.box);
      return asks;
    };
    at.cannot = () => at.put(what, { result: NOT });
    at.done = () => at.put(what, { result: DONE, note: open() ? at.get(what, "note") : "" });
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
  const kinds = D.kinds = { check, signal, called, step, hold, photo: nothing, note: nothing };

  /* The blocks of a step; above them, before anything can be written, whether this phone keeps it, and the letters of who writes, asked once. */
  const forms = new Map();
  const build = section => {
    const { step, hold } = section.dataset;
    if (!forms.has(section)) forms.set(section, fill($("[data-write]", section), data.asked.filter(one => one.step === step && kinds[one.kind] && !hold !== (one.kind === "hold"))));
    return forms.get(section);
  };
  const fill = async (place, asked) => {
    place.append(form("head"));
    const { kept, why } = await keep.state();
    // How long it is kept stands on the page of results.
    part(place, "state").textContent = kept ? words.keeping.brief : why;
    part(place, "paper").hidden = kept;
    part(place, "who").open = !letters;
    named(letters);
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
  /** Who writes, at every step that was built. */
  const named = by => {
    letters = by;
    // A field shows its value, and what shows them beside it its text.
    every("[data-at=by], [data-at=letters]").forEach(one => Object.assign(one, { value: by, textContent: by || "?" }));
  };

  on(document, "click", async event => {
    const act = event.target.closest("[data-act]");
    const place = act?.closest("[data-step]");
    const way = act?.dataset.act;
    if (!place || act.lost) return;
    event.preventDefault();
    const all = await build(place), at = all.find(one => one.done);
    if (way === "cannot") return at.cannot(act.href);
    flush(place);
    // Once: an entry without a name is written down all the same.
    if (all.kept && letters === undefined) {
      const who = part(place, "who");
      who.open = true;
      centre(who);
      return keep.by("");
    }
    if (way !== "without" && at.halts(act.href)) return;
    // What could not be kept is said; a second tap leads on all the same.
    act.lost = !await at.done();
    if (act.lost) at.box.scrollIntoView();
    else location.assign(act.href);
  });

  on(self, "DOMContentLoaded", async () => {
    await reread().catch(nothing);
    keep.onchange(() => reread().catch(nothing));
    const seen = new IntersectionObserver(found => found.forEach(one => one.isIntersecting && build(one.target).then(refresh)), { rootMargin: "200px" });
    every("[data-step]").forEach(one => seen.observe(one));
    dispatchEvent(new Event("doorpost"));
  });
})();
