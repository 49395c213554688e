/* What was written down, as values: names of things, which entry holds, how entries travel as text. No store and no page in here. */
(() => {
  const D = self.Doorpost = self.Doorpost || {};
  // How each value of an entry is written, as the office's schema has it: lengths count characters, so the patterns do too.
  const told = self.DOORPOST, FORMS = Object.entries(told?.words.file.forms || {}).map(([field, form]) => [field, RegExp(form, "u")]);

  // On a page of the pack this script is a file, and its address leads to the pack's first folder; in the one-file pack it stands in the page.
  const source = document.currentScript.getAttribute("src");
  D.oneFile = !source;
  /** The way to a page ("steps/fix.html#fix-m1") from where this script runs. */
  D.href = to => source ? source.replace(/[^/]*$/, "") + to : "#" + (to.split("#")[1] || to.replace(/\W+/g, "-"));

  /** Every element that `selector` finds. */
  D.every = (selector, inside = document) => [...inside.querySelectorAll(selector)];
  /** The first element that `selector` finds. */
  D.$ = (selector, inside = document) => inside.querySelector(selector);
  /** Calls `act` on each of the events, which stand in one text. */
  D.on = (one, events, act, capture) => events.split(" ").forEach(event => one.addEventListener(event, act, capture));
  D.part = (box, name) => D.$(`[data-at=${name}]`, box);
  /** An element; what is inside is text or elements: text is never read as HTML. */
  D.make = (name, traits, ...inside) => {
    const one = Object.assign(document.createElement(name), traits);
    one.append(...inside);
    return one;
  };
  /** A sentence of the pack with its names filled in. */
  D.fill = (text, names) => text.replace(/{(\w+)}/g, (all, name) => names[name]);
  /** A time by this phone's clock, in words. */
  D.when = at => new Date(at).toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short" });

  /** `many` signs by chance, of a to z and 2 to 9. A page over plain HTTP has this source of chance too. */
  D.signs = many => {
    let out = "";
    // 238 is the largest multiple of 34 in a byte: no sign comes more often than another.
    for (const byte = new Uint8Array(1); out.length < many;)
      if (crypto.getRandomValues(byte)[0] < 238) out += (byte[0] % 34 + 2).toString(36);
    return out;
  };

  /** Of which pack a file or an entry is, in words. */
  const of = one => `job ${one.reference}, revision ${one.revision}, fingerprint ${one.fingerprint}`;
  const head = ({ reference, revision, fingerprint }) => ({ reference, revision, fingerprint });
  const phone = one => one.id.slice(0, 8);
  const counter = one => one.id.slice(16).padStart(9, "0");
  // By phone, then by its counter: a clock can be wrong, and of two phones' counters none is later.
  const rank = one => phone(one) + counter(one) + one.id;
  const sorted = all => [...all].sort((a, b) => rank(a) < rank(b) ? -1 : 1);
  // What an entry claims: letters and blanks of a value make no other claim.
  const claim = one => [one.value.split(/\s+/).join(" ").trim().toLowerCase(), one.unit, one.result].join("|");

  const key = one => [one.device, one.step, one.what].join("|");
  /** Whether what is to be written says anything else than what stands there. */
  const differs = (full, was = {}) => ["value", "unit", "result", "note"].some(name => full[name] !== (was[name] || ""));

  /** For each thing ("device|step|what") the entry that holds, `earlier` ones that were corrected or say the same, and `conflicts`: what another
   *  phone claims else. What phone `own` wrote last is the one that holds where it wrote any; else that of the first phone by name. */
  const current = (all, own) => {
    const things = new Map();
    for (const one of sorted(all)) {
      things.set(key(one), [...things.get(key(one)) || [], one]);
    }
    things.forEach((list, name) => {
      const last = new Map(list.map(one => [phone(one), one]));
      const entry = last.get(own) || [...last.values()][0];
      const conflicts = [...last.values()].filter(one => claim(one) !== claim(entry));
      things.set(name, {entry, earlier: list.filter(one => one !== entry && !conflicts.includes(one)), conflicts});
    });
    return things;
  };

  /** The union by id, in the common order. An id stands for one entry: two that differ are no union. */
  const merge = (a, b) => {
    const all = new Map(a.map(one => [one.id, one]));
    for (const one of b) {
      const here = all.get(one.id) || one;
      if (FORMS.some(([field]) => one[field] !== here[field])) throw Error(D.fill(told.words.file.twice, one));
      all.set(one.id, one);
    }
    return sorted(all.values());
  };

  /** The results file of what the keeper holds of pack `data`. */
  const write = ({ phone, entries, signatures }, data) => JSON.stringify({ format: 1, ...head(data), phone, entries: sorted(entries), signatures }, null, 1) + "\n";

  const fits = (text, form) => typeof text === "string" && form.test(text);

  /** A results file of this pack as `{file}`, or an error that tells an installer why not. */
  const read = (text, data) => {
    const { foreign, other, damaged, large, most } = data.words.file;
    const check = (right, says) => { if (!right) throw Error(says); };
    const whole = (right, part) => check(right, `${damaged} ${part}`);
    let file;
    try { file = JSON.parse(text.replace(/^\uFEFF/, "")); } catch {}
    check(file?.format === 1, foreign);
    check(of(file) === of(data), `${other} ${of(file)}`);
    const { phone, entries } = file, signatures = file.signatures || {};
    whole(fits(phone, /^[a-z2-9]{8}$/) && Array.isArray(entries), "head");
    check(!entries[most], large);
    // The office refuses a whole file for one value.
    entries.forEach((one, at) => {
      const bad = FORMS.find(([field, form]) => !fits(one?.[field], form));
      whole(!bad && Object.keys(one).length === 10, `entry ${at + 1} ${bad?.[0] || ""}`);
    });
    for (const sum in signatures) whole(fits(signatures[sum], /^[MLHVCSQTZ\d., -]+$/i) && hash(signatures[sum]) === sum, "signature");
    return { file: { phone, entries: merge([], entries), signatures } };
  };

  // SHA-256 as FIPS 180-4 has it. Its constants are the first 32 bits of the fractions of roots of primes, worked out here.
  const primes = [];
  for (let n = 2; !primes[63]; n++) if (primes.every(p => n % p)) primes.push(n);
  const fractions = root => primes.map(p => root(p) % 1 * 2 ** 32 | 0);
  const turn = (x, ...by) => by.reduce((out, n) => out ^ (x >>> n | x << 32 - n), 0);
  /** The SHA-256 of a text in UTF-8, as hex: the browser's own is kept from pages over plain HTTP. */
  const hash = text => {
    const bytes = new TextEncoder().encode(text);
    const end = bytes.length;
    const size = end + 72 & ~63;
    const block = new DataView(new ArrayBuffer(size));
    [...bytes, 128].forEach((byte, at) => block.setUint8(at, byte));
    block.setUint32(size - 4, end << 3);
    const round = fractions(Math.cbrt), w = [];
    let sum = fractions(Math.sqrt).slice(0, 8);
    for (let start = 0; start < size; start += 64) {
      let [a, b, c, d, e, f, g, h] = sum;
      for (let i = 0; i < 64; i++) {
        const x = w[i - 15], y = w[i - 2];
        w[i] = i < 16 ? block.getInt32(start + 4 * i) : w[i - 16] + w[i - 7] + (turn(x, 7, 18) ^ x >>> 3) + (turn(y, 17, 19) ^ y >>> 10) | 0;
        const one = h + turn(e, 6, 11, 25) + (e & f ^ ~e & g) + round[i] + w[i] | 0;
        [h, g, f, e, d, c, b, a] = [g, f, e, d + one | 0, c, b, a, one + turn(a, 2, 13, 22) + (a & b ^ a & c ^ b & c) | 0];
      }
      sum = [a, b, c, d, e, f, g, h].map((word, at) => word + sum[at] | 0);
    }
    return sum.map(word => (word >>> 0).toString(16).padStart(8, "0")).join("");
  };

  D.entries = { FORMS, of, head, phone, counter, key, differs, current, merge, read, write, hash};
})();
