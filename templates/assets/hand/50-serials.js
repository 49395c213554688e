/* A serial that is read from a unit is compared at once: with the plan for that unit, with the plan for every other, with what was written today. */
(() => {
  const { Doorpost: D, DOORPOST: data } = self;
  if (!data) return;
  const plain = D.plain = text => text.toUpperCase().normalize("NFKD").replace(/[^\p{L}\p{N}]/gu, "");

  /** What a serial read from a device says, in words; `open` while it is still being typed. */
  const compared = (device, planned, text, open) => {
    const read = plain(text), own = plain(planned);
    if (!read) return planned ? "" : "No serial is planned: write what the plate says.";
    if (read === own) return "Same as planned.";
    const today = D.written().filter(one => one.what === "serial" && one.device !== device);
    const other = data.units.find(one => one.id !== device && plain(one.serial) === read);
    const twice = today.find(one => plain(one.value) === read);
    if (other) {
      const { id, list, number, text } = other, swapped = own && today.some(one => one.device === id && plain(one.value) === own);
      return `${swapped ? "SWAPPED PAIR" : "ANOTHER UNIT'S"}: ${device} bears the serial of ${id} (${list} ${number} ${text})${swapped ? `, ${id} that of ${device}` : `. Is the pair swapped? Read ${id} too`}. ` +
        "Change the record if serials are mixed up, the places if units are; then test both again.";
    }
    return twice ? `ALREADY WRITTEN for ${twice.device}: one was misread. Read both plates again.` : open && own.startsWith(read) ? "As planned so far."
      : planned ? `DIFFERS from the plan: ${planned}. Read the plate again; if it is so, say why.` : "In the plan of no other unit.";
  };

  /** What is wrong with the serial that was written of a device; "" for nothing. */
  D.mixed = device => {
    const asked = data.asked.find(one => one.kind === "serial" && one.device === device);
    const says = asked && compared(device, asked.planned, D.entry(asked)?.value || "");
    return /^[A-Z]{3}/.test(says) ? says : "";
  };

  D.kinds.serial = at => {
    const { planned, device, what } = at.asked, [typed, take] = ["typed", "planned"].map(at.part);
    if (/^\d+$/.test(planned)) typed.inputMode = "numeric";
    take.textContent = `As planned: ${planned}`;
    take.hidden = !planned;
    take.onclick = () => at.set(typed, planned);
    at.watch = () => {
      const says = compared(device, planned, typed.value, document.activeElement === typed);
      at.say("says", says);
      at.part("why").hidden = !/^[A-Z]{3}/.test(says) && !at.get(what, "note");
    };
  };
})();
