/* A serial that is read from a unit is compared at once: with the plan for that unit, with the plan for every other, with what was written today.
   Its last signs are enough: what stands before them is filled in where they are those of one unit alone. The plan's is never taken over unread. */
(() => {
  const { Doorpost: D, DOORPOST: data } = self;
  if (!data) return;
  const says = data.words.serial, { tail, filled } = says;
  const plain = D.plain = text => text.toUpperCase().normalize("NFKD").replace(/[^\p{L}\p{N}]/gu, "");

  // A unit has a row for each of its numbers, one after the other.
  const units = data.units.filter(({ id }, at, all) => id !== all[at - 1]?.id);
  /** Units that have a serial as planned; where none has it, those whose serial ends so. */
  const bearing = read => {
    const same = units.filter(one => plain(one.serial) === read);
    return same.length || read.length < tail ? same : units.filter(one => plain(one.serial).endsWith(read));
  };

  /** What a serial read from a device says, in words; `open` while it is still being typed. */
  const compared = (device, planned, text, open) => {
    const read = plain(text), own = plain(planned), say = (name, more) => D.fill(says[name], { device, planned, tail, ...more });
    if (read && read === own) return says.same;
    if (!read || open && read.length < tail) return say(planned ? "start" : "unplanned");
    const today = D.written().filter(one => one.what === "serial" && one.device !== device);
    const [other, second] = bearing(read);
    const twice = today.find(one => plain(one.value) === read);
    if (second) return say("alike", { other: other.id, second: second.id });
    if (other?.id === device) return say("ends");
    if (other) {
      const { id, list, number, text } = other, swapped = own && today.some(one => one.device === id && plain(one.value) === own);
      return say(swapped ? "swapped" : "another", { other: id, place: `${list} ${number} ${text}` });
    }
    return twice ? say("twice", { other: twice.device }) : say(open && own.startsWith(read) ? "so_far" : planned ? "differs" : "nobody");
  };

  /** What is wrong with the serial that was written of a device; "" for nothing. */
  const wrong = text => /^[A-Z]{3}/.test(text) ? text : "";
  D.mixed = device => {
    const asked = data.asked.find(one => one.kind === "serial" && one.device === device);
    return asked && wrong(compared(device, asked.planned, D.entry(asked)?.value || ""));
  };

  D.kinds.serial = at => {
    const { planned, device, what } = at.asked, typed = at.part("typed"), { put } = at;
    if (/^\d+$/.test(planned)) typed.inputMode = "numeric";
    at.put = (what, values) => {
      const note = at.get(what, "note"), read = plain(values.value || ""), [unit, second] = bearing(read);
      if ("value" in values) Object.assign(values, { note: note === filled ? "" : note }, unit && !second && plain(unit.serial) !== read && { value: unit.serial, note: unit.id === device ? filled : "" });
      return put(what, values);
    };
    at.watch = () => {
      const told = compared(device, planned, typed.value, document.activeElement === typed), note = at.get(what, "note"), short = note === filled, bare = !note || short;
      at.say("says", told === says.same && short ? `${told} ${filled}` : told);
      // One that is wrong takes a reason, as a value beyond its limit does.
      at.lacks = wrong(told) && bare;
      at.part("why").hidden = !wrong(told) && bare;
    };
  };
})();
