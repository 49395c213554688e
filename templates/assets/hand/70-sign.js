/* A name under something: typed, or drawn with a finger. Nothing else in the pack is dragged. */
(() => {
  const { Doorpost: D } = self;
  if (!self.DOORPOST) return;
  const { on } = D;
  const WIDE = 300, HIGH = 140, HASH = /^[0-9a-f]{64}$/;

  D.kinds.signature = at => {
    const { what } = at.asked, [pad, typed, clear] = ["pad", "typed", "clear"].map(at.part), pen = pad.getContext("2d");
    let path = "", shown = "";
    const draw = () => {
      pen.clearRect(0, 0, WIDE, HIGH);
      pen.lineWidth = 3;
      pen.strokeStyle = getComputedStyle(pad).color;
      pen.stroke(new Path2D(path));
    };
    const point = event => {
      const box = pad.getBoundingClientRect();
      return `${Math.round((event.clientX - box.x) * WIDE / box.width)} ${Math.round((event.clientY - box.y) * HIGH / box.height)}`;
    };
    const move = event => {
      path += ` L ${point(event)}`;
      draw();
    };
    on(pad, "pointerdown", event => {
      pad.setPointerCapture(event.pointerId);
      path += `${path && " "}M ${point(event)}`;
      move(event);
      on(pad, "pointermove", move);
    });
    on(pad, "pointerup pointercancel", () => {
      pad.removeEventListener("pointermove", move);
      at.later(pad, () => at.put(what, { value: shown = D.entries.hash(path), drawn: path }));
    });
    clear.onclick = () => {
      path = shown = "";
      draw();
      if (HASH.test(at.get(what))) at.put(what, { value: "" });
    };
    // A drawing that was kept is drawn again; its hash is no name to be read.
    at.watch = async () => {
      const value = at.get(what);
      if (HASH.test(typed.value)) typed.value = "";
      if (value === shown || !HASH.test(value)) return;
      shown = value;
      path = (await D.keep.held()).signatures[value] || "";
      draw();
    };
  };
})();
