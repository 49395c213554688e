/* What is open: could not be, failed, a serial other than planned, blank. At a hold point for its step; before names and on the page of results for the day. */
(() => {
  const { Doorpost: D, DOORPOST: data } = self;
  if (!data) return;
  const { make, every, form } = D, [PASS, FAIL, UNKNOWN] = data.words.results, [DONE, NOT] = data.words.done;

  /** Under which sort a thing is open, and what is said of it; nothing where it is right or need not be written. */
  const open = asked => {
    const { kind, device } = asked, { result, value = "", note = "", by = "" } = D.entry(asked) || {};
    const told = `${note} ${by}`;
    const mixed = kind === "serial" && D.mixed(device);
    if (mixed) return ["serial", mixed];
    if (D.blank(asked, { result, value })) return ["blank", told];
    if (result === NOT || result === UNKNOWN) return ["not", told];
    if (result === FAIL || result === PASS && D.past(asked, parseFloat(value.replace(",", ".")))) return ["fail", told];
  };

  const fill = place => {
    const { hold, step } = place.closest("[data-step]")?.dataset || {};
    const only = hold && step;
    // Where all is shown at once there are a hundred; only the screen that one stands at is filled.
    if (only && !place.closest("[data-step]").querySelector(":target")) return;
    if (!place.firstChild) place.append(form("left"));
    const found = { not: [], fail: [], serial: [], blank: [] };
    for (const asked of data.asked) {
      if (only && asked.step !== only) continue;
      const { n, page } = D.step(asked);
      const [sort, told] = open(asked) || [];
      // Before its work all of a step is blank.
      if (sort && !(only && sort === "blank" && page.includes("#hold-"))) found[sort].push(make("li", { dir: "auto" }, make("a", { href: D.href(page), className: "more" }, `Step ${n}, ${D.title(asked)}`), ` ${told}`));
    }
    let all = 0;
    for (const sort of every("[data-sort]", place)) {
      const rows = found[sort.dataset.sort];
      all += rows.length;
      sort.hidden = !rows.length;
      sort.querySelector("span").textContent = rows.length;
      sort.querySelector("ul").replaceChildren(...rows);
      if (only) sort.open = true;
    }
    place.hidden = !all;
  };
  every("[data-hold]").forEach(one => {
    one.querySelector(".else").after(form("open"));
    one.querySelector(".holds").before(form("fails"));
  });
  const places = every("[data-open]").map(place => ({ box: place.parentNode, show: () => fill(place) }));
  // Shown anew with all else when something is kept, and when they come into sight.
  D.shown.push(...places);
  const look = D.look = () => places.forEach(one => one.box.offsetParent && one.show());
  addEventListener("hashchange", look);
  document.addEventListener("doorpost", look);
})();
