/* The page of what was written down: everything that is kept, newest first; out as a file or a text, and in again. */
(() => {
  "use strict";
  const { Doorpost, DOORPOST: data } = self, page = document.querySelector("[data-results]");
  if (!data || !page) return;
  const { keep, entries } = Doorpost;
  const part = name => page.querySelector(`[data-${name}]`);
  const say = (name, text) => { part(name).textContent = text; };
  // Texts of people get in by textContent and bdi alone: nothing of them is run, and none turns the line round it.
  const make = (tag, ...inside) => {
    const one = document.createElement(tag);
    one.append(...inside);
    return one;
  };
  const key = (one, what = one.what) => [one.device, one.step, what].join("|");
  const asked = new Map(data.asked.map(one => [key(one), one.title])), steps = new Map(data.steps.map(one => [one.id, one]));
  const clock = new Intl.DateTimeFormat("en-GB", { dateStyle: "medium", timeStyle: "short" });
  const when = at => clock.format(new Date(at));
  const count = (number, word) => `${number} ${number === 1 ? word : word.replace(/y$/, "ie") + "s"}`;

  let shown = "", ready, number;
  const fileOf = (held, of) => new File([entries.write(held, of)], `${of.reference.replace(/[^\w.-]+/g, "-")}-${held.phone}.txt`, { type: "text/plain" });

  const title = one => {
    const [kind, attempt, ...more] = one.what.split("/");
    const known = asked.get(key(one)) || asked.get(key(one, kind)) || one.what;
    return kind === "signal" && attempt ? [known, "try " + attempt, ...more].join(", ").replace(/-/g, " ") : known;
  };
  const says = (one, drawn, word) => {
    const value = one.value in drawn ? "drawn" : [one.value, one.unit].filter(Boolean).join(" ");
    const said = [value, one.result, one.note].filter(Boolean).flatMap((text, at) => [at ? ", " : "", make("bdi", text)]);
    return make("p", word, ...said, " · ", make("bdi", one.by), ` ${when(one.at)}, phone ${entries.phoneOf(one)}`);
  };
  const row = ({ entry, earlier, conflicts }, drawn) => {
    const step = steps.get(entry.step), link = make("a", step ? `Step ${step.n} · ` : "", make("bdi", [entry.device, title(entry)].filter(Boolean).join(" · ")));
    link.href = step ? Doorpost.href(step.page) : "#";
    return make("li", link, says(entry, drawn, ""), ...conflicts.map(one => says(one, drawn, "Conflict: ")), ...earlier.map(one => says(one, drawn, "Before: ")));
  };

  const show = async () => {
    const { kept, why } = await keep.state();
    say("kept", why);
    part("kept").className = kept ? "" : "warn";
    const held = await keep.held(), all = held.entries, last = held.last;
    const now = JSON.stringify([all.length, last]);
    if (now === shown) return;
    shown = now;
    number = all.length;
    ready = fileOf(held, data);
    const things = [...entries.current(all, held.phone).values()].sort((a, b) => entries.counter(b.entry) - entries.counter(a.entry));
    const differ = things.filter(one => one.conflicts.length);
    say("count", `${count(number, "entry")} about ${count(things.length, "thing")}, ${count(differ.length, "conflict")}.`);
    say("last", last ? `Last sent off ${when(last.at)}; ${count(Math.max(0, number - last.number), "entry")} since.` : "Never sent off from this phone.");
    const list = some => some.map(one => row(one, held.signatures));
    part("list").replaceChildren(...list(things));
    part("conflicts").replaceChildren(...list(differ));
    part("differ").hidden = !differ.length;
    part("others").replaceChildren(...[...held.packs].map(([name, many]) => [JSON.parse(name), many]).filter(([of]) => of.fingerprint !== data.fingerprint || of.revision !== data.revision).map(([of, many]) => {
      const button = make("button", `Save ${count(many, "entry")} of job ${of.reference}, revision ${of.revision}, fingerprint ${of.fingerprint}`);
      button.onclick = async () => save(fileOf(await keep.held(of), of));
      return button;
    }));
    for (const button of page.querySelectorAll("[data-do]")) button.disabled = !number;
    part("do=share").hidden = part("sheet").hidden = false;
    part(navigator.canShare && navigator.canShare({ files: [ready] }) ? "sheet" : "do=share").hidden = true;
    part("scripted").hidden = false;
  };

  const save = file => {
    const link = make("a");
    link.href = URL.createObjectURL(file);
    link.download = file.name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    say("said", `Handed to the browser as ${file.name}. If no file appears, copy the text.`);
  };
  const ways = {
    // Only the file: with a text beside it some phones send the text alone.
    share: async () => { await navigator.share({ files: [ready] }); say("said", "Shared."); },
    save: () => save(ready),
    copy: async () => {
      const box = part("text");
      box.hidden = false;
      box.value = await ready.text();
      box.select();
      await (navigator.clipboard ? navigator.clipboard.writeText(box.value) : document.execCommand("copy") || Promise.reject());
      say("said", "Copied. It stands below too.");
    }
  };
  for (const [name, way] of Object.entries(ways)) part("do=" + name).onclick = async () => {
    const sent = number;
    try { await way(); } catch (_) { return say("said", name === "copy" ? "Not copied: select the text below and copy it." : "Not shared. Save the file instead."); }
    await keep.exported(sent).catch(() => {});
  };
  part("file").onchange = async event => {
    const [file] = event.target.files;
    try {
      const taken = Doorpost.entries.read(await file.text(), data).file;
      const fresh = await keep.take(taken);
      say("said", `Taken in from phone ${taken.phone}: ${count(fresh, "new entry")}; ${taken.entries.length - fresh} were here already.`);
    } catch (error) { say("said", error.message); }
    event.target.value = "";
  };
  const refresh = () => show().catch(error => say("kept", error.message));
  keep.onchange(refresh);
  refresh();
})();
