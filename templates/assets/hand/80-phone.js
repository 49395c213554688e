/* Does this phone keep the pack? Sentences stand in the page; here it is found out which of them holds. */
(() => {
  const D = self.Doorpost, host = navigator.serviceWorker, link = D.$("link[rel=manifest]");
  const all = what => D.every(`[data-phone] [data-${what}]`);
  const set = (what, trait, value) => all(what).forEach(one => { one[trait] = value; });
  const show = says => all("say").forEach(one => { one.hidden = one.dataset.say !== says; });
  const without = D.oneFile ? "one-file" : location.protocol === "file:" ? "folder" : !self.isSecureContext ? "plain" : !link ? "no-address" : !host && "no-store";
  show(without || "asking");
  if (without) return;

  let asked;
  const had = host.controller;
  const ask = worker => new Promise(done => {
    const line = new MessageChannel();
    line.port1.onmessage = event => done(event.data);
    worker.postMessage("whole?", [line.port2]);
  });
  const tell = async ({ active, waiting, installing }, late) => {
    const kept = active && await ask(active), newer = active && waiting && await ask(waiting);
    set("files", "textContent", kept?.files);
    set("print", "textContent", kept?.fingerprint);
    set("newer", "hidden", !newer?.whole);
    set("late", "hidden", !(active && late));
    show(kept?.whole ? "whole" : !late && (installing || waiting) ? "taking" : "not-whole");
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
    set("take", "onclick", () => { asked = true; found.waiting.postMessage("take"); });
    found.onupdatefound = () => { watch(); tell(found); };
    watch();
    tell(found);
    found.update().catch(() => {});
  }).catch(() => show("not-whole"));
  // Of the pages of an older pack that are open, only the one that asked for the newer begins anew: at another somebody may stand at a step.
  host.oncontrollerchange = () => { if (asked) location.reload(); else if (had) set("renewed", "hidden", false); };
})();
