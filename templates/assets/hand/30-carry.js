/* The page of what was written down: all that is kept, newest first; out as a file or a text, and in again. */
addEventListener("DOMContentLoaded", () => {
  const {Doorpost: D, DOORPOST: data} = self, page = document.querySelector("[data-results]");
  if (!data || !page) return;
  const {keep, entries, make, own} = D;
  const part = name => page.querySelector(`[data-${name}]`);
  const say = (name, text) => { part(name).textContent = text; };
  const key = (one, what) => [one.device, one.step, what].join("|");
  const asked = new Map(data.asked.map(one => [key(one, one.what), one.title])), steps = new Map(data.steps.map(one => [one.id, one]));
  const clock = new Intl.DateTimeFormat("en-GB", {dateStyle: "medium", timeStyle: "short"});
  const when = at => at && clock.format(new Date(at));
  const count = (number, one, more) => `${number} ${number === 1 ? one : more}`;
  const of = number => count(number, "entry", "entries");
  let shown, ready, number;
  const fileOf = (held, whose) => new File([entries.write(held, whose)], `${whose.reference.replace(/[^\w.-]+/g, "-")}-${held.phone}.txt`, {type: "text/plain"});

  // "signal/2/to-unit/received": the title is that of the signal check, and the rest follows it.
  const title = ({device, step, what}) => {
    const [kind, attempt, ...more] = what.split("/"), exact = asked.get(key({device, step}, what));
    return exact || [asked.get(key({device, step}, kind)) || kind, `attempt ${attempt}`, ...more].join(", ").replace(/-/g, " ");
  };
  const row = ({entry, earlier, conflicts}, drawn) => {
    const step = steps.get(entry.step);
    const says = word => one => {
      const value = one.value in drawn ? "drawn" : [one.value, one.unit].join(" ").trim();
      const words = [value, one.result, one.note, one.by].filter(Boolean).flatMap(text => [own(text), " · "]);
      return make("p", {}, word, ...words, `${when(one.at)}, phone ${entries.phone(one)}`);
    };
    return make("li", {}, make("a", {href: step ? D.href(step.page) : "#"}, step ? `Step ${step.n} · ` : "", own(entry.device), " ", own(title(entry))),
      says("")(entry), ...conflicts.map(says("Conflict: ")), ...earlier.map(says("Before: ")));
  };

  const show = async () => {
    const {kept, why} = await keep.state();
    say("kept", why);
    part("kept").className = kept ? "" : "warn";
    const held = await keep.held(), now = JSON.stringify([held.entries.length, held.last, held.packs]);
    if (now === shown) return;
    shown = now;
    number = held.entries.length;
    ready = fileOf(held, data);
    const things = [...entries.current(held.entries, held.phone).values()].sort((a, b) => entries.counter(b.entry) - entries.counter(a.entry));
    const differ = things.filter(one => one.conflicts.length);
    say("count", `${of(number)} about ${count(things.length, "thing", "things")}; ${count(differ.length, "conflict", "conflicts")}.`);
    say("last", held.last ? `Last sent off ${when(held.last.at)} with ${of(held.last.number)}; ${number - held.last.number} more since.` : "Not sent off yet.");
    const list = (name, some) => part(name).replaceChildren(...some.map(one => row(one, held.signatures)));
    list("list", things);
    list("conflicts", differ);
    part("differ").hidden = !differ.length;
    part("others").replaceChildren(...held.packs.filter(one => entries.of(one) !== entries.of(data)).map(one => make("button", {
      type: "button", click: async () => save(fileOf(await keep.held(one), one))
    }, `Save what was written for ${entries.of(one)}`)));
    for (const one of page.querySelectorAll("[data-do]")) one.disabled = !number;
    const can = navigator.canShare && navigator.canShare({files: [ready]});
    part("do=share").hidden = !can;
    part("sheet").hidden = can;
    part("scripted").hidden = false;
  };

  const save = file => {
    const link = make("a", {href: URL.createObjectURL(file), download: file.name});
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    return `Handed to the browser as ${file.name}. If no such file appears, copy the text.`;
  };
  const ways = {
    // The file alone: with words beside it some phones send only these.
    share: async () => { await navigator.share({files: [ready]}); return "Handed to the share sheet."; },
    save: () => save(ready),
    copy: async () => {
      const box = part("text");
      box.hidden = false;
      box.value = await ready.text();
      box.select();
      // Pages over plain HTTP have no clipboard of their own.
      await (navigator.clipboard ? navigator.clipboard.writeText(box.value) : document.execCommand("copy") || Promise.reject());
      return "Copied; it stands below too.";
    }
  };
  for (const [name, way] of Object.entries(ways)) part("do=" + name).onclick = async () => {
    const sent = number;
    try {
      say("said", await way());
      await keep.sent(sent, data);
    } catch { say("said", "That did not work; nothing is lost. Try another way, or copy the text below by hand."); }
  };
  part("file").onchange = async event => {
    try {
      const {file} = entries.read(await event.target.files[0].text(), data), fresh = await keep.take(file);
      say("said", `Taken in from phone ${file.phone}: ${of(fresh)} new, ${file.entries.length - fresh} here already.`);
    } catch (error) { say("said", error.message); }
    event.target.value = "";
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
