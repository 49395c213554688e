/* Keeping entries on this phone. An entry counts as kept when a strict transaction has completed, never before. */
(() => {
  const D = self.Doorpost;
  const told = self.DOORPOST;
  if (!told) return;
  const lists = D.entries;
  const words = told.words.keeping;
  const pack = lists.of(told);
  const opening = D.signs(6);
  const local = location.protocol === "file:";
  const mark = "mark " + location.pathname;
  const STORES = ["meta", "entries", "signatures"];
  const asked = (request, then) => { request.onsuccess = () => then(request.result); };
  let base, known, channel, turned;
  const opened = () => base = base || new Promise((done, fail) => {
    const request = indexedDB.open("doorpost", 1);
    request.onupgradeneeded = () => STORES.forEach(one => request.result.createObjectStore(one));
    request.onerror = () => fail(request.error);
    asked(request, done);
  });
  /** One transaction: `work` gets the stores by name and may give a function, whose result is handed on once all of it is kept.
   *  "strict": the browser says complete when it has flushed to the disk; else the last seconds would die with the battery. */
  const transact = async (mode, work) => {
    try {
      const inside = await opened();
      return await new Promise((done, fail) => {
        const running = inside.transaction(STORES, mode, { durability: "strict" });
        const result = work(...STORES.map(one => running.objectStore(one)));
        running.oncomplete = () => done(result?.());
        running.onabort = () => fail(running.error);
      });
    } catch (error) {
      base = known = null;
      throw Error(error?.name === "QuotaExceededError" ? words.full : words.off);
    }
  };
  const read = work => transact("readonly", work);
  const change = work => transact("readwrite", work);

  // Of pages opened from files, one that sees the mark of another path has proof that they share a store.
  const others = () => read(meta => {
    const keys = meta.getAllKeys();
    return () => keys.result.some(key => key.startsWith("mark ") && key !== mark);
  });
  /** The first page that is opened cannot have seen another: it opens one out of sight and waits for its mark. */
  const shared = async () => {
    if (await others()) return true;
    const frame = D.make("iframe", { hidden: true, src: D.href(/results\.html$/.test(mark) ? "index.html" : "results.html") });
    document.body.append(frame);
    let turn = 30;
    while (--turn && !await others()) await new Promise(done => setTimeout(done, 100));
    frame.remove();
    return turn;
  };
  const ask = async () => {
    // As much as a drawn signature or a hundred entries, written over what the last trial left: what is taken back at once is no trial.
    await change(meta => { meta.put("x".repeat(32768), "trial"); });
    // Firefox and Safari keep a folder of one's own from private windows. Chromium tells nothing, and gives none to a file at all.
    const hides = !(local && self.webkitRequestFileSystem) && await navigator.storage?.getDirectory?.().then(() => false, () => true);
    const why = hides ? words.private : local && !D.oneFile && self === top && !await shared() && words.alone;
    return { kept: !why, why: why || words.kept };
  };
  const off = why => ({ kept: false, why });
  /** `{kept, why}`: whether this browser keeps what is written, to be shown before anything is. A refusal is asked anew each time. */
  const state = () => known = known || Promise.race([ask().catch(error => off(error.message)), new Promise(done => setTimeout(done, 8000, off(words.off)))])
    .then(found => {
      if (!found.kept) known = null;
      return found;
    });

  const heard = [];
  const tell = () => heard.forEach(one => one());
  /** Calls `one` when entries may have changed, in this tab or another. */
  const onchange = one => { heard.push(one); };
  // Old browsers have none, and where storage is refused Firefox refuses this too: then another tab hears when it is looked at.
  try {
    channel = new BroadcastChannel("doorpost");
    channel.onmessage = tell;
  } catch {}
  /* What is on its way to the store lies as a draft under a name of this opening alone, since a page that is shut waits for no store. Another
     opening, or this tab when one turns to it again, takes up what it finds of others; those that live have put theirs away within a moment. */
  const DRAFT = `doorpost ${told.reference} `, mine = DRAFT + opening, pending = new Set();
  const draft = (act, thing) => {
    pending[act](thing);
    // Where storage is refused nothing can be left, and nothing is kept either: that is said by who writes.
    try {
      if (pending.size) localStorage[mine] = JSON.stringify([...pending]);
      else delete localStorage[mine];
    } catch {}
  };
  const resume = async () => {
    // What cannot be kept now stays a draft.
    try {
      for (const key in localStorage) if (key.startsWith(DRAFT) && key !== mine) {
        const { entries, phone } = await held(), now = lists.current(entries, phone);
        for (const one of JSON.parse(localStorage[key])) if (lists.differs(one, now.get(lists.key(one))?.entry)) await add(one);
        delete localStorage[key];
      }
    } catch {}
  };
  D.on(self, "focus pageshow", () => {
    tell();
    clearTimeout(turned);
    turned = setTimeout(resume, 300);
  });

  /** A transaction of one who writes: refused, with the reason, where it would not be kept; others hear of it. */
  const write = async work => {
    const { kept, why } = await state();
    if (!kept) throw Error(why);
    const done = await change(work);
    tell();
    channel?.postMessage(1);
    return done;
  };
  /** Counts on in this store; `then` gets the phone's name, made by chance for a new one, and the last counter, and gives the next last. */
  const count = (meta, then) => asked(meta.get("phone"), (phone = D.signs(8)) => asked(meta.get("counter"), (last = 0) => {
    // Its digits are used up, by a file that somebody made: it goes on under another name, since a longer number would be refused everywhere.
    if (last > 999999998) [phone, last] = [D.signs(8), 0];
    meta.put(phone, "phone");
    meta.put(then(phone, last), "counter");
    meta.put(lists.head(told), "pack " + pack);
  }));

  /** Writes an entry down, with the lines `drawn` whose SHA-256 its value is, if there are any; the promise resolves with it when it is kept, and is refused with a sentence when it is not. */
  const add = async thing => {
    // The office takes in no longer ones.
    if (lists.FORMS.some(([field, form]) => thing[field] && !form.test(thing[field]))) throw Error(words.long);
    draft("add", thing);
    return write((meta, kept, drawings) => {
      const entry = {};
      if (thing.drawn) drawings.put([thing.value, thing.drawn], [pack, thing.value]);
      asked(meta.get("by"), by => count(meta, (phone, last) => {
        const id = `${phone}-${opening}-${String(++last).padStart(6, 0)}`, at = new Date().toISOString().slice(0, 19) + "+00:00";
        for (const [field] of lists.FORMS) entry[field] = String({ by, ...thing, id, at }[field] ?? "");
        kept.add(entry, [pack, id]);
        return last;
      }));
      return () => entry;
    }).finally(() => draft("delete", thing));
  };
  /** Takes in a file that `entries.read` let through: all of it or nothing; gives the number of entries that were new. Entries under this phone's own
   *  name are taken too though this store does not know them: it may have been wiped, and a file of its own is what brings all back. */
  const take = async file => {
    const here = await all();
    const both = lists.merge(here, file.entries);
    return write((meta, kept, drawings) => {
      for (const one of file.entries) kept.put(one, [pack, one.id]);
      for (const one of Object.entries(file.signatures)) drawings.put(one, [pack, one[0]]);
      // A phone whose store was set back must not give a number twice.
      count(meta, (phone, last) => Math.max(last, ...file.entries.filter(one => lists.phone(one) === phone).map(lists.counter)));
      return () => both.length - here.length;
    });
  };

  /** All that is kept of a pack, this one if not told otherwise: the phone's name, entries, signatures by hash, who writes, when it was `last`
   *  sent off and with how many entries, and every pack that has entries in this store. */
  const held = (whose = told) => read((meta, kept, drawings) => {
    const range = IDBKeyRange.bound([lists.of(whose)], [lists.of(whose), []]);
    const found = [...["phone", "by", "sent " + pack].map(key => meta.get(key)), meta.getAll(IDBKeyRange.bound("pack", "pack~")), kept.getAll(range), drawings.getAll(range)];
    return () => {
      const [phone, by, last, packs, entries, drawn] = found.map(one => one.result);
      return { phone, by, last, packs, entries, signatures: Object.fromEntries(drawn) };
    };
  });
  const all = async () => (await held()).entries;
  const note = (key, value) => write(meta => { meta.put(value, key); });
  /** The letters of who writes from now on. */
  const by = letters => note("by", letters);
  /** Takes everything of this pack away; the counter stays, so that no id is given twice. */
  const wipe = () => write((meta, kept, drawings) => {
    const range = IDBKeyRange.bound([pack], [pack, []]);
    kept.delete(range);
    drawings.delete(range);
    for (const one of ["sent ", "pack "]) meta.delete(one + pack);
  });
  /** That so many entries of this pack were taken out of this browser. */
  const sent = number => note("sent " + pack, { at: new Date().toISOString(), number });

  D.keep = { state, add, all, held, take, by, sent, wipe, onchange };
  // Without anybody asking, so that other pages see the mark of this one.
  if (local) change(meta => { meta.put(1, mark); }).catch(() => {});
})();
