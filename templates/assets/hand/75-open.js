/* What is open: could not be, failed, a serial other than planned, blank. At a hold point for its step; before names and on the page of results for the day. */
(() => {
  const { Doorpost: D, DOORPOST: data } = self;
  if (!data) return;
  const { make, part, every, form, on, $ } = D, { holds } = data, [PASS, FAIL, UNKNOWN] = data.words.results, [DONE, NOT] = data.words.done;

  /** Under which sort a thing is open, and what is said of it; nothing where it is right or need not be written. */
  const open = D.open = asked => {
    const { kind, device } = asked, { unit, result, value = "", note, by } = D.entry(asked) || {};
    const told = [value && `${value} ${unit}`, result, note, by].filter(one => one).join(" · ");
    const mixed = kind === "serial" && D.mixed(device);
    if (mixed) return ["serial", mixed];
    if (D.blank(asked, { result, value })) return ["blank", told];
    const { said, word, low } = D.link(asked);
    if (kind === "signal") return !said ? ["blank", ""] : word === FAIL ? ["fail", said] : (low || !word) && ["not", said];
    if (result === NOT || result === UNKNOWN) return ["not", told];
    if (result === FAIL || result === PASS && D.past(asked, D.number(value))) return ["fail", told];
  };

  const fill = place => {
    const { hold, step } = place.closest("[data-step]")?.dataset || {};
    const only = hold && step;
    // Where all is shown at once there are a hundred; only the screen that one stands at is filled.
    if (only && !$(":target", place.closest("[data-step]"))) return;
    if (!place.firstChild) place.append(form("left"));
    const found = { not: [], fail: [], serial: [], blank: [] };
    part(place, "stops").textContent = only ? holds.stops[`hold/${hold}`] || holds.stops.else : "";
    for (const asked of only ? D.rests(only) : data.asked) {
      const { n, page, phase } = D.step(asked);
      const [sort, told] = open(asked) || [];
      if (sort) found[sort].push(make("li", { dir: "auto", phase }, make("a", { href: D.href(page), className: "more" }, only && holds.named[asked.title] || `Step ${n}, ${D.title(asked)}`), ` ${told}`));
    }
    let all = 0;
    for (const sort of every("[data-sort]", place)) {
      const rows = found[sort.dataset.sort];
      all += rows.length;
      sort.hidden = !rows.length;
      // How many of them in which phase.
      $("span", sort).textContent = rows.length + [...new Set(rows.map(one => one.phase))].map(phase => `; ${phase} ${rows.filter(one => one.phase === phase).length}`).join("");
      $("ul", sort).replaceChildren(...rows);
      if (only && rows.length < 12) sort.open = true;
    }
    place.hidden = !all;
  };
  every("[data-hold]").forEach(one => {
    $("h2", one).after(form("open"));
    $(".else", one).after(form("held"));
    $(".holds", one).before(form("fails"));
  });
  const places = every("[data-open]").map(place => ({ box: place.parentNode, show: () => fill(place) }));
  // Shown anew with all else when something is kept, and when they come into sight.
  D.shown.push(...places);
  const look = D.look = () => places.forEach(one => one.box.offsetParent && one.show());
  on(self, "hashchange doorpost", look);
})();
