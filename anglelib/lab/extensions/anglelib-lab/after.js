// Opens the folds whose questions are answered, and closes those whose question was put back (anglelib/after.py); for plain pages and JupyterLab.
// It looks once a frame at most, and only when something has changed. What it has seen of a question holds until it sees it again.
(() => {
  const seen = new WeakMap(); // by page: JupyterLab may have several open, and lessons ask some questions again
  let waiting = false;
  const known = one => {
    const page = one.closest(".jp-NotebookPanel") ?? document;
    if (!seen.has(page)) seen.set(page, new Map());
    return seen.get(page);
  };
  const look = () => {
    waiting = false;
    for (const mark of document.querySelectorAll("[data-question]")) known(mark).set(mark.dataset.question, mark.dataset.answered === "yes");
    for (const fold of document.querySelectorAll("details.after")) {
      const asked = [...fold.classList].filter(name => name !== "after");
      const open = asked.every(id => known(fold).get(id));
      if (open === fold.hasAttribute("data-answered")) continue;
      fold.toggleAttribute("data-answered", open);
      fold.open = open;
    }
  };
  const soon = () => { if (!waiting) { waiting = true; requestAnimationFrame(look); } };
  const style = document.createElement("style");
  style.textContent = "details.after > summary { cursor: pointer; padding: .35rem 0; } details.after[data-answered] > summary { display: none; }";
  document.head.append(style);
  new MutationObserver(soon).observe(document.documentElement, { childList: true, subtree: true });
  soon();
})();
