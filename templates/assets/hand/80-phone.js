/* Does this phone keep the pack? Sentences stand in the page; here it is found out which of them holds. */
(() => {
  const D = self.Doorpost, host = navigator.serviceWorker, link = document.querySelector("link[rel=manifest]");
  const all = what => D.every(`[data-phone] [data-${what}]`);
  const show = says => all("say").forEach(one => { one.hidden = one.dataset.say !== says; });
  if (D.oneFile) return show("one-file");
  if (location.protocol === "file:") return show("folder");
  if (!self.isSecureContext) return show("plain");
  if (!link) return show("no-address");
  if (!host) return show("no-store");

  let asked = false;
  const had = host.controller;
  const ask = worker => new Promise(done => {
    const line = new MessageChannel();
    line.port1.onmessage = event => done(event.data);
    worker.postMessage("whole?", [line.port2]);
  });
  const tell = async ({ active, waiting, installing }, late) => {
    const kept = active && await ask(active), newer = active && waiting && await ask(waiting);
    all("files").forEach(one => { one.textContent = kept && kept.files; });
    all("print").forEach(one => { one.textContent = kept && kept.fingerprint; });
    all("newer").forEach(one => { one.hidden = !(newer && newer.whole); });
    all("late").forEach(one => { one.hidden = !(active && late); });
    show(kept && kept.whole ? "whole" : !late && (installing || waiting) ? "taking" : "not-whole");
  };
  host.register(new URL("phone-worker.js", link.href)).then(found => {
    const watch = () => {
      const { installing } = found;
      let whole;
      if (installing) installing.onstatechange = () => {
        whole = whole || installing.state === "installed";
        tell(found, !whole && installing.state === "redundant");
      };
    };
    all("take").forEach(one => { one.onclick = () => { asked = true; found.waiting.postMessage("take"); }; });
    found.onupdatefound = () => { watch(); tell(found); };
    watch();
    tell(found);
    found.update().catch(() => {});
  }).catch(() => show("not-whole"));
  // Of the pages of an older pack that are open, only the one that asked for the newer begins anew: at another somebody may stand at a step.
  host.oncontrollerchange = () => { if (asked) location.reload(); else if (had) all("renewed").forEach(one => { one.hidden = false; }); };
})();
