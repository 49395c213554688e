/* Keeping entries on this phone. An entry counts as kept when a strict transaction has completed, never before. */
(() => {
  "use strict";
  const { Doorpost, DOORPOST: data } = self;
  if (!data) return;
  const STORES = ["meta", "entries", "signatures"];
  const packOf = one => [one.reference, one.revision, one.fingerprint];
  const pack = packOf(data), exported = "exported " + pack;
  const opening = Doorpost.signs(6);
  const local = location.protocol === "file:";
  const mark = "mark " + location.pathname;
  const DENIED = "This browser keeps nothing: storage is off, refused or does not answer.";
  const FULL = "This phone's storage is full: nothing more is kept until you make room.";
  const HIDDEN = "This looks like a private window: it forgets everything once it is shut.";
  const ALONE = "This browser gives each file a store of its own: what one page keeps no other sees. Use pocket.html, the pack in one file.";
  const PAPER = " Or write on the paper lines.";
  const KEPT = "Entries are kept on this phone, in this browser, until you send them home. A private window forgets all once it is shut, and not every browser tells.";

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
        const running = opened.transaction(STORES, mode, { durability: "strict" });
        let result;
        running.oncomplete = () => done(result && result());
        running.onabort = () => fail(running.error);
        result = work(Object.fromEntries(STORES.map(name => [name, running.objectStore(name)])));
      });
    } catch (error) {
      base = known = null;
      throw Error((error && error.name === "QuotaExceededError" ? FULL : DENIED) + PAPER);
    }
  };
  const read = work => transact(work, "readonly");
  const get = (store, key, then) => { store.get(key).onsuccess = event => then(event.target.result); };

  /** This phone's name in this store, by chance, and its last counter. */
  const own = (meta, then) => get(meta, "phone", named => get(meta, "counter", (count = 0) => {
    const phone = named || Doorpost.signs(8);
    meta.put(phone, "phone");
    then(phone, count);
  }));

  // Of pages opened from files, one that sees the mark of another path has proof that they share a store.
  const seesOthers = () => read(({ meta }) => {
    const asked = meta.getAllKeys();
    return () => asked.result.some(key => key.startsWith("mark ") && key !== mark);
  });
  /** The first page that is opened cannot have seen another: it opens one out of sight and waits for its mark. */
  const shared = async () => {
    let seen = await seesOthers();
    if (seen) return seen;
    const frame = document.createElement("iframe");
    frame.hidden = true;
    frame.src = Doorpost.href(/results\.html$/.test(mark) ? "index.html" : "results.html");
    document.body.append(frame);
    for (let turn = 0; turn < 30 && !seen; turn++) {
      await new Promise(done => setTimeout(done, 100));
      seen = await seesOthers();
    }
    frame.remove();
    return seen;
  };

  const ask = async () => {
    // As much as a drawn signature or some hundred entries: written and taken back in one breath.
    await transact(({ meta }) => {
      meta.put("x".repeat(65536), opening);
      meta.delete(opening);
      if (local) meta.put(1, mark);
    });
    // Firefox and Safari keep a folder of one's own from private windows. Chromium tells nothing, and gives none to a file at all.
    const { storage } = navigator;
    if (storage && storage.getDirectory && !(local && self.webkitRequestFileSystem)) await storage.getDirectory().catch(() => { throw Error(HIDDEN + PAPER); });
    if (local && !Doorpost.oneFile && self === top && !await shared()) throw Error(ALONE + PAPER);
  };

  /** `{kept, why}`: whether this browser keeps what is written, to be shown before anything is. A refusal is asked anew each time. */
  const state = () => known = known || Promise.race([ask(), new Promise((_, fail) => setTimeout(fail, 8000, Error(DENIED + PAPER)))])
    .then(() => ({ kept: true, why: KEPT }), error => { known = null; return { kept: false, why: error.message }; });

  /** A transaction of one who writes: refused, with the reason, where it would not be kept; others hear of it. */
  const write = async work => {
    const { kept, why } = await state();
    if (!kept) throw Error(why);
    const done = await transact(work);
    tell();
    if (channel) channel.postMessage(1);
    return done;
  };

  const heard = [];
  const tell = () => heard.forEach(one => one());
  const channel = self.BroadcastChannel && new BroadcastChannel("doorpost");
  if (channel) channel.onmessage = tell;
  addEventListener("focus", tell);
  addEventListener("pageshow", event => event.persisted && tell());
  /** Calls `one` when entries may have changed, in this tab or another. */
  const onchange = one => { heard.push(one); };

  /** Writes an entry down; the promise resolves with it when it is kept, and is refused with a sentence when it is not. */
  const add = thing => write(({ meta, entries }) => {
    let made;
    own(meta, (phone, count) => get(meta, "by", (by = "") => {
      const { device, step, what, value, unit, result, note } = thing, text = one => String(one ?? "");
      const id = [phone, opening, text(count + 1).padStart(6, "0")].join("-");
      made = {
        id, device: text(device), step, what, value: text(value), unit: text(unit), result: text(result),
        at: new Date().toISOString().slice(0, 19) + "+00:00", by: text(thing.by ?? by), note: text(note)
      };
      meta.put(count + 1, "counter");
      entries.add(made, [...pack, id]);
    }));
    return () => made;
  });

  /** Keeps a drawing; gives its SHA-256, which is the value of the entry about it. */
  const sign = drawing => {
    const hash = Doorpost.entries.hash(drawing);
    return write(({ signatures }) => { signatures.put(drawing, [...pack, hash]); return () => hash; });
  };

  /** Takes in a file that `entries.read` let through: all of it or nothing; gives the number of entries that were new. */
  const take = async file => {
    const here = await all(), before = new Set(here.map(one => one.id));
    Doorpost.entries.merge(here, file.entries);
    return write(({ meta, entries, signatures }) => {
      own(meta, (phone, count) => {
        for (const one of file.entries) {
          entries.put(one, [...pack, one.id]);
          // A phone whose store was set back must not give a number twice.
          if (Doorpost.entries.phoneOf(one) === phone) count = Math.max(count, Doorpost.entries.counter(one));
        }
        for (const hash in file.signatures) signatures.put(file.signatures[hash], [...pack, hash]);
        meta.put(count, "counter");
      });
      return () => file.entries.filter(one => !before.has(one.id)).length;
    });
  };

  /** All that is kept of a pack, this one if not told otherwise: the phone's name, entries, signatures by hash, who writes, when it was last
   *  exported and with how many entries, and `packs`, the number of entries of each pack in this store. */
  const held = (of = data) => read(({ meta, entries, signatures }) => {
    const range = IDBKeyRange.bound(packOf(of), [...packOf(of), []]);
    const found = [meta.get("phone"), meta.get("by"), meta.get(exported), entries.getAll(range), signatures.getAllKeys(range), signatures.getAll(range), entries.getAllKeys()];
    return () => {
      const [phone, by = "", last, all, hashes, drawn, keys] = found.map(one => one.result);
      const packs = new Map();
      for (const [reference, revision, fingerprint] of keys) {
        const name = JSON.stringify({ reference, revision, fingerprint });
        packs.set(name, (packs.get(name) || 0) + 1);
      }
      return { phone, by, last, entries: all, signatures: Object.fromEntries(hashes.map((key, at) => [key[3], drawn[at]])), packs };
    };
  });
  const all = async () => (await held()).entries;

  const note = (value, key) => write(({ meta }) => { meta.put(value, key); });
  /** The letters of who writes from now on; that so many entries were exported. */
  const by = letters => note(letters, "by");
  const wasExported = number => note({ at: new Date().toISOString(), number }, exported);

  Doorpost.keep = { state, add, all, held, take, sign, by, exported: wasExported, onchange };
  // Without anybody asking, so that other pages see the mark of this one.
  if (local) transact(({ meta }) => { meta.put(1, mark); }).catch(() => {});
})();
