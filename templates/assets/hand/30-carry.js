/* The page of what was written down: all that is kept, newest first; out as a file or a text, and in again. */
addEventListener("DOMContentLoaded", () => {
  const { Doorpost: D, DOORPOST: data } = self, page = document.querySelector("[data-results]");
  if (!data || !page) return;
  const { keep, entries } = D;
  const part = {};
  for (const one of page.querySelectorAll("[data-part]")) part[one.dataset.part] = one;
  const make = (name, ...inside) => {
    const one = document.createElement(name);
    one.append(...inside);
    return one;
  };
  const say = (name, text) => { part[name].textContent = text; };
  const key = (one, what) => [one.device, one.step, what].join("|");
  const asked = new Map(data.asked.map(one => [key(one, one.what), one.title]));
  const clock = new Intl.DateTimeFormat("en-GB", { dateStyle: "medium", timeStyle: "short" });
  const when = at => at && clock.format(new Date(at));

  // "signal/2/to-unit/received" goes under the title of the signal check. Texts of people stand in a bdi, and turn nothing round them.
  const line = (word, one, drawn) => make("p", word, ...[one.value in drawn ? "drawn" : `${one.value} ${one.unit}`.trim(), one.result, one.note, one.by]
    .flatMap(text => text ? [make("bdi", text), " · "] : []), `${when(one.at)}, phone ${entries.phone(one)}`);
  const row = ({ entry, earlier, conflicts }, drawn) => {
    const { device, what } = entry, kind = what.split("/")[0], step = data.steps.find(one => one.id === entry.step);
    const signal = asked.get(key(entry, kind)), title = asked.get(key(entry, what)) || (signal ? signal + ", attempt" : kind) + what.slice(kind.length).replace(/\W/g, " ");
    const link = make("a", step ? `Step ${step.n} · ` : "", make("bdi", device), " ", make("bdi", title));
    link.href = step ? D.href(step.page) : "#";
    return make("li", link, line("", entry, drawn), ...conflicts.map(one => line("Conflict: ", one, drawn)), ...earlier.map(one => line("Before: ", one, drawn)));
  };

  let shown, ready, number;
  const fileOf = (held, of) => new File([entries.write(held, of)], `${of.reference.replace(/[^\w.-]+/g, "-")}-${held.phone}.txt`, { type: "text/plain" });
  const save = file => {
    const link = make("a");
    link.href = URL.createObjectURL(file);
    link.download = file.name;
    link.click();
  };
  const show = async () => {
    const { kept, why } = await keep.state();
    say("kept", why);
    part.kept.className = kept ? "" : "warn";
    const held = await keep.held(), { last } = held, now = JSON.stringify([held.entries.length, last, held.packs]);
    if (now === shown) return;
    shown = now;
    number = held.entries.length;
    ready = fileOf(held, data);
    const things = [...entries.current(held.entries, held.phone).values()].sort((a, b) => b.entry.id.slice(16) - a.entry.id.slice(16));
    const differ = things.filter(one => one.conflicts.length);
    say("number", number);
    say("things", things.length);
    say("clashes", differ.length);
    say("when", last ? when(last.at) : "not yet");
    say("since", number - (last?.number || 0));
    for (const [name, some] of [["list", things], ["conflicts", differ]]) part[name].replaceChildren(...some.map(one => row(one, held.signatures)));
    part.differ.hidden = !differ.length;
    part.others.replaceChildren(...held.packs.filter(one => entries.of(one) !== entries.of(data)).map(one => {
      const button = make("button", `Save what was written for ${entries.of(one)}`);
      button.onclick = async () => save(fileOf(await keep.held(one), one));
      return button;
    }));
    part.share.hidden = !(part.sheet.hidden = navigator.canShare?.({ files: [ready] }));
    part.share.disabled = part.save.disabled = part.copy.disabled = !number;
    part.scripted.hidden = false;
  };

  const ways = {
    // The file alone: with words beside it some phones send only these.
    share: () => navigator.share({ files: [ready] }),
    save: () => save(ready),
    copy: async () => {
      const { text } = part;
      text.hidden = false;
      text.value = await ready.text();
      text.select();
      // Pages over plain HTTP have no clipboard of their own.
      await (navigator.clipboard ? navigator.clipboard.writeText(text.value) : document.execCommand("copy") || Promise.reject());
    }
  };
  for (const name in ways) part[name].onclick = async () => {
    const sent = number;
    try {
      await ways[name]();
      say("said", part[name].dataset.done);
      await keep.sent(sent);
    } catch { say("said", page.dataset.failed); }
  };
  part.file.onchange = async () => {
    try {
      const { file } = entries.read(await part.file.files[0].text(), data), fresh = await keep.take(file);
      say("said", `Taken in from phone ${file.phone}. New: ${fresh}. Here already: ${file.entries.length - fresh}.`);
    } catch (error) { say("said", error.message); }
    part.file.value = "";
  };
  // Of many changes at once the page shows the last.
  let queue = Promise.resolve(), waiting;
  const refresh = () => {
    if (!waiting) queue = queue.then(() => { waiting = false; return show(); }).catch(error => say("kept", error.message));
    waiting = true;
  };
  keep.onchange(refresh);
  refresh();
});
