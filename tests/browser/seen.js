// What the tests ask a rendered page; every length is in CSS pixels.
window.seen = (() => {
  const TARGETS = "a[href], button, input, select, textarea, summary, label[for], label:has(> input)";

  const shown = element => element.checkVisibility({opacityProperty: true, visibilityProperty: true});

  const named = element => {
    const marks = `${element.id ? `#${element.id}` : ""}${[...element.classList].map(one => `.${one}`).join("")}`;
    return `${element.localName}${marks} "${element.textContent.trim().replace(/\s+/g, " ").slice(0, 30)}"`;
  };

  // A box of one pixel is how text is kept for screen readers alone.
  const forReadersOnly = element => {
    for (let one = element; one; one = one.parentElement)
      if (one.offsetWidth <= 1 && getComputedStyle(one).overflowX !== "visible") return true;
    return false;
  };

  const texts = root => {
    const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT), out = [];
    while (walker.nextNode()) {
      const node = walker.currentNode;
      if (node.data.trim() && shown(node.parentElement) && !forReadersOnly(node.parentElement)) out.push(node);
    }
    return out;
  };

  const lines = node => {
    const range = document.createRange();
    range.selectNodeContents(node);
    return [...range.getClientRects()].filter(box => box.width > 0);
  };

  const cutOff = (element, right) => {
    for (let one = element; one && one !== document.body; one = one.parentElement)
      if (right > one.getBoundingClientRect().right + .5 && getComputedStyle(one).overflowX !== "visible") return one;
    return null;
  };

  const sideways = width => {
    const out = [], wide = document.scrollingElement.scrollWidth;
    if (wide > width) out.push(`the page is ${wide} px wide`);
    for (const element of document.body.querySelectorAll("*")) {
      if (!shown(element)) continue;
      const box = element.getBoundingClientRect();
      if (/auto|scroll/.test(getComputedStyle(element).overflowX) && element.scrollWidth > element.clientWidth)
        out.push(`${named(element)} scrolls sideways: ${element.scrollWidth} px in ${element.clientWidth}`);
      if (box.width > 1 && box.right > width + .5) out.push(`${named(element)} ends at ${box.right} px`);
    }
    for (const root of document.querySelectorAll("main, footer")) for (const node of texts(root)) {
      if (node.parentElement.closest(".md-sidebar, svg")) continue;
      for (const box of lines(node)) {
        const holder = node.parentElement, frame = cutOff(holder, box.right);
        if (box.right > width + .5 || box.left < -.5) out.push(`the text of ${named(holder)} leaves the screen`);
        else if (frame) out.push(`the text of ${named(holder)} is cut off by ${named(frame)}`);
      }
    }
    return out;
  };

  const targets = () => [...document.querySelectorAll(TARGETS)].filter(element => {
    const box = element.getBoundingClientRect();
    return shown(element) && !forReadersOnly(element) && box.right > 0 && box.left < innerWidth && box.width > 0;
  });

  // WCAG 2.2, 2.5.5, "Equivalent": a mark on a drawing may be small if a link of the page that is large enough leads to the same place.
  const doubled = (element, least) => element.closest("svg") && targets().some(other => {
    const box = other.getBoundingClientRect();
    return !other.closest("svg") && other.getAttribute("href") === element.getAttribute("href") && box.width >= least && box.height >= least;
  });

  // Each line of a broken link is a target of its own.
  const small = (least, free = element => doubled(element, least)) => targets().filter(element => !free(element)).flatMap(element => [...element.getClientRects()]
    .filter(box => box.width < least - .01 || box.height < least - .01)
    .map(box => `${named(element)} is ${box.width.toFixed(1)} x ${box.height.toFixed(1)} px`));

  // A link in running text is as high as its lines allow: WCAG 2.2, 2.5.8, "Inline". Its line holds other words than those of links.
  const inText = element => {
    if (element.localName !== "a" || element.closest("svg") || getComputedStyle(element).display !== "inline") return false;
    let line = element.parentElement;
    while (getComputedStyle(line).display === "inline") line = line.parentElement;
    const words = document.createTreeWalker(line, NodeFilter.SHOW_TEXT);
    while (words.nextNode()) {
      const holder = words.currentNode.parentElement;
      if (/\p{L}/u.test(words.currentNode.data) && shown(holder) && !forReadersOnly(holder) && !holder.closest(TARGETS)) return true;
    }
    return false;
  };

  // What lies over a page, or stays at an edge of the screen, is never beside what lies or scrolls under it.
  const layer = element => {
    const over = element.closest(".md-nav, .md-search__inner");
    let one = element;
    while (!over && one && !/fixed|sticky/.test(getComputedStyle(one).position)) one = one.parentElement;
    return over || Boolean(one);
  };

  const near = (apart, out_of = () => false) => {
    const all = targets().filter(one => !out_of(one)).map(element => [element, element.getBoundingClientRect(), layer(element)]), out = [];
    all.forEach(([one, a, over], index) => all.slice(index + 1).forEach(([other, b, otherOver]) => {
      if (one.contains(other) || other.contains(one) || over !== otherOver) return;
      const gap = Math.max(a.left - b.right, b.left - a.right, a.top - b.bottom, b.top - a.bottom);
      if (gap < apart - .01) out.push(`${named(one)} is ${gap.toFixed(1)} px from ${named(other)}`);
    }));
    return out;
  };

  const ground = element => {
    const layers = [];
    for (let one = element; one; one = one.parentElement) {
      const colour = getComputedStyle(one).backgroundColor;
      if (colour !== "rgba(0, 0, 0, 0)") layers.push(colour);
    }
    return layers;
  };

  // One answer for all texts of the same look.
  const inks = selector => {
    const found = new Map(), nodes = [...document.querySelectorAll(selector)].flatMap(texts);
    for (const element of new Set(nodes.map(node => node.parentElement))) {
      if (element.closest("svg")) continue;
      const {color, fontSize, fontWeight} = getComputedStyle(element);
      const look = {ink: color, ground: ground(element), size: parseFloat(fontSize), weight: parseInt(fontWeight)};
      const key = JSON.stringify(look);
      if (!found.has(key)) found.set(key, {where: named(element), ...look});
    }
    return [...found.values()];
  };

  // The states that a thumb can bring a page into, one after the other, and back into the first.
  const states = function* (wanted) {
    yield "as opened";
    for (const name of ["drawer", "search"]) {
      const toggle = document.getElementById(`__${name}`);
      if (!wanted.includes(name) || ![...document.querySelectorAll(`label[for=__${name}]`)].some(shown)) continue;
      toggle.checked = true;
      yield `${name} open`;
      for (const level of document.querySelectorAll(".md-sidebar--primary input.md-toggle")) {
        if (name !== "drawer" || !wanted.includes("levels")) continue;
        level.checked = !level.checked;
        yield `drawer at ${level.id}`;
        level.checked = !level.checked;
      }
      toggle.checked = false;
    }
  };

  const inStates = (wanted, ask) => {
    const out = [];
    for (const state of states(wanted)) for (const answer of ask()) out.push([state, answer]);
    return out;
  };

  const sidewaysInStates = width => inStates(["drawer"], () => sideways(width));

  const smallInStates = least => {
    const out = inStates(["drawer", "levels", "search"], () => small(least)), skip = document.querySelector(".md-skip");
    if (skip) {
      skip.focus();
      out.push(...small(least).map(answer => ["skip link shown", answer]));
      skip.blur();
    }
    return out;
  };

  // For a gloved thumb: what is too small or too near, but for links in running text and marks on a drawing that stand below it in words.
  // Of an open drawer or search only what lies in it is there to be tapped, beside its cover, which is the rest of the screen.
  const glove = (least, apart) => {
    const over = ["drawer", "search"].find(name => document.getElementById(`__${name}`)?.checked);
    const within = {drawer: ".md-sidebar--primary", search: ".md-search__inner"}[over];
    const free = element => (within && !element.closest(within)) || inText(element) || doubled(element, least);
    return [...small(least, free), ...near(apart, free)];
  };

  // What `glove` lets pass, with the reason.
  const passed = least => targets().flatMap(element => inText(element) ? ["a link in running text"] :
    doubled(element, least) ? ["a mark on a drawing"] : element.matches(".md-overlay, .md-search__overlay") ? ["the cover of the rest of the screen"] : []);

  const gloveInStates = (least, apart) => inStates(["drawer", "levels", "search"], () => glove(least, apart));

  const inksInStates = () => inStates(["drawer", "search"], () => inks("body"));

  const links = () => [...document.querySelectorAll("[href], [src]")].map(one => one.href || one.src);

  const ids = () => [...document.querySelectorAll("[id]")].map(one => one.id);

  const text = selector => document.querySelector(selector).textContent.replace(/\s+/g, " ").trim();

  return {sideways, sidewaysInStates, targets, small, near, smallInStates, glove, gloveInStates, passed, inks, inksInStates, links, ids, text};
})();
