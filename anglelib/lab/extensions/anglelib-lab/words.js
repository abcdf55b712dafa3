// Shows what a word of the glossary means, with its drawing, where it is pointed at, focused or tapped (anglelib/explained.py); for plain pages and
// JupyterLab. One box for all words. It stays while the pointer is on it, and goes with Escape, a tap elsewhere, or when the word loses the focus.
(() => {
  const box = document.createElement("div");
  box.id = "word-shown";
  box.setAttribute("role", "tooltip");
  box.setAttribute("aria-hidden", "true");
  // JupyterLab says where its files are (lessons.js); a plain page knows it by its own address.
  const files = () => document.documentElement.dataset.files ?? location.pathname.replace(/\/render\/.*/, "/files/");
  let word = null, since = 0, leaving = 0;
  const hide = () => { clearTimeout(leaving); word = null; box.remove(); };
  const place = () => {
    const at = word.getBoundingClientRect(), own = box.getBoundingClientRect();
    box.style.left = `${Math.max(8, Math.min(at.left, document.documentElement.clientWidth - own.width - 8))}px`;
    const below = at.bottom + 6, fits = below + own.height <= document.documentElement.clientHeight;
    box.style.top = `${fits || at.top < own.height + 6 ? below : at.top - own.height - 6}px`;
  };
  const show = button => {
    clearTimeout(leaving);
    if (word === button) return;
    word = button;
    since = Date.now();
    const picture = document.createElement("img"), words = document.createElement("p");
    picture.alt = "";
    picture.width = 320;
    picture.height = 216;
    picture.src = `${files()}figures/word-${button.dataset.word}.svg`;
    words.textContent = document.getElementById(`word-${button.dataset.word}`).textContent;
    box.replaceChildren(picture, words);
    document.body.append(box);
    place();
  };
  const of = target => target.closest?.("button.word");
  document.addEventListener("pointerover", event => {
    if (event.pointerType !== "mouse") return;
    const button = of(event.target);
    if (button) show(button);
    else if (word && box.contains(event.target)) clearTimeout(leaving);
  });
  document.addEventListener("pointerout", event => {
    if (event.pointerType !== "mouse" || !word || word === document.activeElement) return;
    if (event.target === word || box.contains(event.target)) { clearTimeout(leaving); leaving = setTimeout(hide, 250); }
  });
  document.addEventListener("focusin", event => { const button = of(event.target); if (button) show(button); else if (word) hide(); });
  document.addEventListener("focusout", event => { if (event.target === word) hide(); });
  document.addEventListener("click", event => {
    const button = of(event.target);
    if (!button) { if (word && !box.contains(event.target)) hide(); return; }
    if (word === button && event.pointerType === "touch" && Date.now() - since > 500) hide(); else show(button);
  });
  document.addEventListener("keydown", event => { if (event.key === "Escape" && word) { event.stopPropagation(); hide(); } }, true);
  document.addEventListener("scroll", () => { if (word) place(); }, true);
})();
