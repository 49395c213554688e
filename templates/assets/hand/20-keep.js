/* Keeping entries on this phone. An entry counts as kept when a strict transaction has completed, never before. */
(() => {
  const {Doorpost: D, DOORPOST: data} = self;
  if (!data) return;
  const STORES = ["meta", "entries", "signatures"];
  const {of, hash, phone: phoneOf, counter, merge} = D.entries;
  const pack = of(data), opening = D.signs(6);
  const local = location.protocol === "file:", mark = "mark " + location.pathname;
  const WHY = {
    off: "This browser keeps nothing: storage is off, refused or does not answer.",
    full: "This phone's storage is full: nothing more is kept until you make room.",
    hidden: "This is a private window: it forgets everything once it is shut.",
    alone: "This browser gives each file a store of its own: no page sees what another keeps. Use pocket.html, the pack in one file."
  };
  const no = why => Error(WHY[why] + " Or write on the paper lines.");
  const KEPT = "Kept on this phone, in this browser, until you send it home. A private window forgets all once it is shut, and not every browser tells.";

  let base, known;
  const open = () => base = base || new Promise((done, fail) => {
    const asked = indexedDB.open("doorpost", 1);
    asked.onupgradeneeded = () => STORES.forEach(name => asked.result.createObjectStore(name));
    asked.onerror = () => fail(asked.error);
    asked.onsuccess = () => done(asked.result);
  });
  /** One transaction: `work` gets the stores by name and may give a function, whose result is handed on once all of it is kept.
   *  "strict": the browser says complete when it has flushed to the disk; else the last seconds would die with the battery. */
  const transact = async (work, mode = "readwrite") => {
    try {
      const opened = await open();
      return await new Promise((done, fail) => {
        const running = opened.transaction(STORES, mode, {durability: "strict"});
        let result;
        running.oncomplete = () => done(result && result());
        running.onabort = () => fail(running.error);
        result = work(Object.fromEntries(STORES.map(name => [name, running.objectStore(name)])));
      });
    } catch (error) {
      base = known = null;
      throw no(error && error.name === "QuotaExceededError" ? "full" : "off");
    }
  };
  const read = work => transact(work, "readonly");

  // Of pages opened from files, one that sees the mark of another path has proof that they share a store.
  const marked = ({meta}) => { if (local) meta.put(1, mark); };
  const seesOthers = () => read(({meta}) => {
    const asked = meta.getAllKeys();
    return () => asked.result.some(key => key.startsWith("mark ") && key !== mark);
  });
  /** The first page that is opened cannot have seen another: it opens one out of sight and waits for its mark. */
  const shared = async () => {
    if (await seesOthers()) return true;
    const frame = document.createElement("iframe");
    frame.hidden = true;
    frame.src = D.href(/results\.html$/.test(mark) ? "index.html" : "results.html");
    document.body.append(frame);
    let seen, turn = 0;
    while (!seen && turn++ < 30) {
      await new Promise(done => setTimeout(done, 100));
      seen = await seesOthers();
    }
    frame.remove();
    return seen;
  };
  const ask = async () => {
    // As much as a drawn signature or a hundred entries, written over what the last trial left: what is taken back at once is no trial.
    await transact(stores => {
      stores.meta.put("x".repeat(32768), "trial");
      marked(stores);
    });
    // Firefox and Safari keep a folder of one's own from private windows. Chromium tells nothing, and gives none to a file at all.
    const {storage} = navigator;
    if (storage && storage.getDirectory && !(local && self.webkitRequestFileSystem)) await storage.getDirectory().catch(() => { throw no("hidden"); });
    if (local && !D.oneFile && self === top && !await shared()) throw no("alone");
  };
  /** `{kept, why}`: whether this browser keeps what is written, to be shown before anything is. A refusal is asked anew each time. */
  const state = () => known = known || Promise.race([ask(), new Promise((_, fail) => setTimeout(fail, 8000, no("off")))])
    .then(() => ({kept: true, why: KEPT}), error => { known = null; return {kept: false, why: error.message}; });

  const heard = [], tell = () => heard.forEach(one => one());
  /** Calls `one` when entries may have changed, in this tab or another. */
  const onchange = one => { heard.push(one); };
  let channel;
  // Old browsers have none, and where storage is refused Firefox refuses this too: then another tab hears when it is looked at.
  try {
    channel = new BroadcastChannel("doorpost");
    channel.onmessage = tell;
  } catch {}
  for (const name of ["focus", "pageshow"]) addEventListener(name, tell);

  /** A transaction of one who writes: refused, with the reason, where it would not be kept; others hear of it. */
  const write = async work => {
    const {kept, why} = await state();
    if (!kept) throw Error(why);
    const done = await transact(work);
    tell();
    if (channel) channel.postMessage(1);
    return done;
  };
  const get = (store, key, then) => { store.get(key).onsuccess = event => then(event.target.result); };
  /** Counts on in this store; `then` gets the phone's name, made by chance for a new one, and the last counter, and gives the next last. */
  const count = (meta, then) => get(meta, "phone", (phone = D.signs(8)) => get(meta, "counter", (last = 0) => {
    meta.put(phone, "phone");
    meta.put(then(phone, last), "counter");
    const {reference, revision, fingerprint} = data;
    meta.put({reference, revision, fingerprint}, "pack " + pack);
  }));

  /** Writes an entry down; the promise resolves with it when it is kept, and is refused with a sentence when it is not. */
  const add = async thing => {
    for (const [name, most] of Object.entries({value: 1000, note: 4000, unit: 40, by: 40}))
      if (String(thing[name] ?? "").length > most) throw Error(`This ${name} has more than ${most} characters, so it was not kept. Write less.`);
    return write(({meta, entries}) => {
      const entry = {};
      get(meta, "by", (by = "") => count(meta, (phone, last) => {
        const all = {by, ...thing, id: [phone, opening, String(last + 1).padStart(6, "0")].join("-"), at: new Date().toISOString().slice(0, 19) + "+00:00"};
        for (const name of D.entries.FIELDS) entry[name] = String(all[name] ?? "");
        entries.add(entry, [pack, entry.id]);
        return last + 1;
      }));
      return () => entry;
    });
  };
  /** Keeps a drawing; gives its SHA-256, which is the value of the entry about it. */
  const sign = drawing => write(({signatures}) => {
    const sum = hash(drawing);
    signatures.put([sum, drawing], [pack, sum]);
    return () => sum;
  });
  /** Takes in a file that `entries.read` let through: all of it or nothing; gives the number of entries that were new. */
  const take = async file => {
    const here = await all(), both = merge(here, file.entries);
    return write(({meta, entries, signatures}) => {
      for (const one of file.entries) entries.put(one, [pack, one.id]);
      for (const one of Object.entries(file.signatures)) signatures.put(one, [pack, one[0]]);
      // A phone whose store was set back must not give a number twice.
      count(meta, (phone, last) => file.entries.reduce((most, one) => phoneOf(one) === phone ? Math.max(most, counter(one)) : most, last));
      return () => both.length - here.length;
    });
  };

  /** All that is kept of a pack, this one if not told otherwise: the phone's name, entries, signatures by hash, who writes, when it was `last`
   *  exported and with how many entries, and every pack that has entries in this store. */
  const held = (whose = data) => read(({meta, entries, signatures}) => {
    const from = [of(whose)], range = IDBKeyRange.bound(from, [...from, []]);
    const asked = [meta.get("phone"), meta.get("by"), meta.get("sent " + from), entries.getAll(range), signatures.getAll(range), meta.getAll(IDBKeyRange.bound("pack", "pack~"))];
    return () => {
      const [phone, by = "", last, all, drawn, packs] = asked.map(one => one.result);
      return {phone, by, last, entries: all, signatures: Object.fromEntries(drawn), packs};
    };
  });
  const all = async () => (await held()).entries;
  const note = (value, key) => write(({meta}) => { meta.put(value, key); });
  /** The letters of who writes from now on. */
  const by = letters => note(letters, "by");
  /** That so many entries of a pack were sent off. */
  const sent = (number, whose) => note({at: new Date().toISOString(), number}, "sent " + of(whose));

  D.keep = {state, add, all, held, take, sign, by, sent, onchange};
  // Without anybody asking, so that other pages see the mark of this one.
  if (local) transact(marked).catch(() => {});
})();
