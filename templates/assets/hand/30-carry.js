/* The page of what was written down: all that is kept, newest first; out as a file or a text, and in again. */
addEventListener("DOMContentLoaded", () => {
  const D = self.Doorpost;
  const told = self.DOORPOST;
  const root = D.$("[data-results]");
  if (!told || !root) return;
  const store = D.keep;
  const lists = D.entries;
  const part = {};
  for (const one of D.every("[data-part]", root)) part[one.dataset.part] = one;
  const make = (tag, ...inside) => D.make(tag, {}, ...inside);
  const say = (where, words) => { part[where].textContent = words; };
  const key = (one, what) => lists.key({ ...one, what });
  const asked = new Map(told.asked.map(one => [key(one, one.what), one.title]));
  const when = at => at && D.when(at);

  // "signal/2/to-unit/received" goes under the title of the signal check. Texts of people stand in a bdi, and turn nothing round them.
  const line = (word, one, drawn) => make("p", word, ...[one.value in drawn ? "drawn" : `${one.value} ${one.unit}`.trim(), one.result, one.note, one.by]
    .flatMap(words => words ? [make("bdi", words), " · "] : []), `${when(one.at)}, phone ${lists.phone(one)}`);
  const row = ({ entry, earlier, conflicts }, drawn) => {
    const thing = entry.what;
    const sort = thing.split("/")[0];
    const step = D.step(entry);
    const signal = asked.get(key(entry, sort));
    const title = asked.get(key(entry, thing)) || (signal ? signal + ", attempt" : sort) + thing.slice(sort.length).replace(/\W/g, " ");
    const link = D.make("a", { href: step ? D.href(step.page) : "#" }, step ? `Step ${step.n} · ` : "", make("bdi", entry.device), " ", make("bdi", title));
    return make("li", link, line("", entry, drawn), ...conflicts.map(one => line("Conflict: ", one, drawn)), ...earlier.map(one => line("Before: ", one, drawn)));
  };

  let shown, ready, total = 0, chain = Promise.resolve();
  const fileOf = (held, of) => new File([lists.write(held, of)], `${of.reference}-${held.phone}.txt`, { type: "text/plain" });
  const hand = file => {
    D.make("a", { href: URL.createObjectURL(file), download: file.name }).click();
  };
  const show = async () => {
    const state = await store.state();
    say("kept", state.why);
    part.kept.className = state.kept ? "" : "warn";
    const held = await store.held();
    const last = held.last;
    const now = JSON.stringify([held.entries.length, last, held.packs]);
    if (now === shown) return;
    shown = now;
    total = held.entries.length;
    ready = fileOf(held, told);
    const things = [...lists.current(held.entries, held.phone).values()].sort((a, b) => b.entry.id.slice(16) - a.entry.id.slice(16));
    const differ = things.filter(one => one.conflicts.length);
    say("number", total);
    say("things", things.length);
    say("clashes", differ.length);
    say("when", last ? when(last.at) : "not yet");
    say("since", total - (last?.number || 0));
    for (const [where, some] of [["list", things], ["conflicts", differ]]) part[where].replaceChildren(...some.map(one => row(one, held.signatures)));
    part.differ.hidden = !differ.length;
    // A newer pack of the same job begins with nothing written: what a number or a place was may have changed, so a person takes it over.
    part.others.replaceChildren(...held.packs.filter(one => lists.of(one) !== lists.of(told)).flatMap(one => {
      const get = () => store.held(one), act = (way, onclick) => D.make("button", { onclick }, `${part.others.dataset[way]} ${lists.of(one)}`);
      const save = act("save", async () => hand(fileOf(await get(), one)));
      return one.reference === told.reference ? [act("take", () => taken(get)), save] : save;
    }));
    part.share.hidden = !navigator.canShare?.({ files: [ready] });
    part.acts.hidden = !total;
    // What did not leave this browser is not wiped.
    part.wiping.hidden = !total || last?.number !== total;
    part.sure.open = false;
    part.scripted.hidden = false;
    D.look();
  };

  const ways = {
    // The file alone: with words beside it some phones send only these.
    share: () => navigator.share({ files: [ready] }),
    save: () => hand(ready),
    copy: async () => {
      const box = part.text;
      box.hidden = false;
      box.value = await ready.text();
      box.select();
      // Pages over plain HTTP have no clipboard of their own.
      await (navigator.clipboard ? navigator.clipboard.writeText(box.value) : document.execCommand("copy") || Promise.reject());
    }
  };
  /** Does it and says what it gives, or why not; what the browser says of its own is no sentence for an installer. */
  const attempt = async act => {
    try {
      say("said", await act());
    } catch (error) { say("said", error?.constructor === Error ? error.message : root.dataset.failed); }
  };
  const taken = find => attempt(async () => {
    const came = await find(), fresh = await store.take(came);
    return D.fill(part.file.dataset.done, { fresh, here: came.entries.length - fresh });
  });
  for (const way in ways) part[way].onclick = async () => {
    // A page that just came into sight may still be reading what was written meanwhile.
    await chain;
    const sent = total;
    attempt(async () => {
      await ways[way]();
      await store.sent(sent);
      return part[way].dataset.done;
    });
  };
  part.wipe.onclick = () => attempt(async () => {
    await store.wipe();
    return part.wipe.dataset.done;
  });
  part.file.onchange = async () => {
    await taken(async () => lists.read(await part.file.files[0].text(), told).file);
    part.file.value = "";
  };
  // In the one file this page is mostly out of sight, and to list a whole day anew at each tap would keep the thumb waiting.
  const refresh = () => { if (root.offsetParent) chain = chain.then(show).catch(error => say("kept", error.message)); };
  store.onchange(refresh);
  addEventListener("hashchange", refresh);
  refresh();
});
