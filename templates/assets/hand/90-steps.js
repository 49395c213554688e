/* What is next, from what is kept: the start page follows the day. A step counts as past only where this phone holds that it was done, or could
   not be and no other phone says otherwise. And the switch of light and dark stays as it was left. */
(() => {
  const { Doorpost: D, DOORPOST: data } = self, { $ } = D;

  const LIGHT = "doorpost-other-light", box = $("#other-light");
  if (box) {
    try {
      box.checked = localStorage.getItem(LIGHT) === "1";
      box.addEventListener("change", () => {
        try { localStorage.setItem(LIGHT, box.checked ? "1" : "0"); } catch { /* Full or refused: the switch holds for this page. */ }
      });
    } catch { /* Refused: the switch holds for this page. */ }
  }

  const next = $("[data-next]");
  if (!next || !data) return;
  const hold = $("[data-next-hold] a"), left = $("[data-left]"), state = $("[data-state]");
  const minutes = left.dataset.minutes.split(" ").map(Number), [DONE, NOT] = data.words.done;

  const show = async () => {
    // In the one file: another page is in sight.
    if (!next.offsetParent) return;
    const kept = new Map(), held = [];
    for (const { entry, conflicts } of D.entries.current(await D.keep.all()).values()) {
      if (entry.what === "step" && [DONE, NOT].includes(entry.result) && !conflicts.length) kept.set(entry.step, entry);
      if (entry.what.startsWith("hold") && entry.result === NOT) held.push(entry.step);
    }
    // What a hold point holds back is not done.
    held.forEach(one => kept.delete(one));
    const open = data.steps.filter(one => !kept.has(one.id)), could = [...kept.values()].filter(one => one.result === NOT).length;
    const past = data.steps.length - open.length;
    // With nothing kept the page stands as it was printed.
    if (!past) return;
    const { end } = data, [first = end] = open, link = $("[data-next] a"), point = open.find(one => one.hold) || end;
    link.href = D.href(first.page);
    link.replaceChildren(D.make("span", {}, first.n ? `Next step: ${first.n} of ${data.steps.length}` : first.phase), ` ${first.title}`);
    hold.textContent = point.n ? `${point.hold} (step ${point.n})` : point.hold;
    hold.href = D.href(point.page);
    const rest = Math.round(data.steps.reduce((sum, one, at) => kept.has(one.id) ? sum : sum + minutes[at], 0));
    left.textContent = D.fill(left.dataset.left, { open: open.length, all: data.steps.length, time: `${rest / 60 | 0} h ${rest % 60} min`, done: past - could, could });
    const { begun, on, off, onSays, offSays } = state.dataset;
    const [latest, says] = [[kept.get(on), onSays], [kept.get(off), offSays]].filter(([one]) => one?.result === DONE).pop() || [];
    state.textContent = latest ? `${says}, as kept here ${D.when(latest.at)}.` : begun;
  };
  const look = () => show().catch(() => {});
  addEventListener("DOMContentLoaded", () => {
    look();
    // When the browser shows this page again as it was left, back from a step, the keeper says so.
    D.keep.onchange(look);
  });
  addEventListener("hashchange", look);
})();
