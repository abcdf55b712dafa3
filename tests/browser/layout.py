"""What a page looks like, measured in the browser: what is in view, what looks like what, how far things are apart, how they stand out."""

from __future__ import annotations

IN_VIEW = """() => [...document.querySelectorAll('.al-box')].flatMap(box => {
  const picture = box.querySelector(':scope > .al-picture svg');
  if (!picture) return [];
  let worst = 1, at = '';
  for (const control of box.querySelectorAll('button, input, select, [role=slider]')) {
    if (!control.getClientRects().length || control.closest('.al-below')) continue;
    control.scrollIntoView({ block: 'center' });
    const seen = (picture.closest('.wide.moves') ?? picture).getBoundingClientRect(), own = control.getBoundingClientRect();
    const part = (Math.min(seen.bottom, innerHeight) - Math.max(seen.top, 0)) / Math.min(seen.height, innerHeight);
    const under = own.top < seen.bottom - 1 && own.bottom > seen.top + 1 && own.left < seen.right - 1 && own.right > seen.left + 1;
    if ((under ? -1 : part) < worst) { worst = under ? -1 : part; at = control.textContent || control.placeholder || control.tagName; }
  }
  const { width, height } = picture.getBoundingClientRect();
  return [{ worst, at, width, height }];
})"""
"""Each box with a picture: how much of it is in view while each of its controls is, at the worst; -1 where it covers one. Of one that slides, its frame."""

HOLES = """() => {
  const boxes = [...document.querySelectorAll('.al-ask:not(.al-box):not(.al-box .al-ask)')], found = [];
  for (const box of boxes) {
    const next = box.nextElementSibling;
    if (!next?.matches('.al-ask')) continue;
    const words = part => [...part.querySelectorAll('*')].filter(one => one.getClientRects().length && !one.children.length && one.textContent.trim())
      .map(one => one.getBoundingClientRect());
    found.push(Math.min(...words(next).map(r => r.top)) - Math.max(...words(box).map(r => r.bottom)));
  }
  return found;
}"""
"""Between two questions under one another: the empty height [px]."""

LOOKS = """() => {
  const ring = one => { const s = getComputedStyle(one, '::before'); return s.content === 'none' ? 'none' : s.borderTopLeftRadius !== '0px' ? 'round' : 'square'; };
  const of = one => { const s = getComputedStyle(one); return [ring(one), s.textDecorationLine, s.backgroundColor === 'rgba(0, 0, 0, 0)' ? 'bare' : 'filled',
    s.borderTopColor === 'rgba(0, 0, 0, 0)' ? 'no edge' : 'edge'].join(', '); };
  const all = selector => [...new Set([...document.querySelectorAll(selector)].filter(one => one.getClientRects().length).map(of))];
  return { choice: all('.al-choice button:not(.mod-active)'), doing: all('button.al-do'), help: all('button.al-help'), tool: all('button.al-tool') };
}"""
"""How choices, what does something, hints and tools look: the shape before the words, underline, ground, edge."""

KNOBS = """() => [...document.querySelectorAll('.noUi-handle')].filter(one => one.getClientRects().length).map(one => {
  const own = getComputedStyle(one), track = getComputedStyle(one.closest('.noUi-target').querySelector('.noUi-connects'));
  const { width, height } = one.getBoundingClientRect();
  return { colour: own.backgroundColor, edge: own.borderTopColor, track: track.backgroundColor, width, height,
    out: one.closest('.noUi-target').hasAttribute('disabled') };
})"""
"""Each slider's knob and track."""

ROWS = """() => [...document.querySelectorAll('.al-panel')].map(panel => [...panel.querySelectorAll(':scope > .al-row')]
  .filter(row => row.getClientRects().length).map(row => {
    const first = row.querySelector('.al-choice button, input');
    return Math.round(first.getBoundingClientRect().left - row.getBoundingClientRect().left) - (first.matches('button') ? 4 : 0);
  }))"""
"""Of each picture's controls: where what can be used begins, from the left [px]."""

NAMES = r"""() => [...document.querySelectorAll('.al-box, .al-ask:not(.al-box .al-ask)')].map(box => [...box.querySelectorAll('.widget-label, .al-row > .widget-html:first-child')]
  .filter(one => one.getClientRects().length && one.textContent.trim() && !one.closest('.widget-slider')).map(one => one.textContent.trim().replace(/\s*\([^()]*\)$/, '')))"""
"""The labels of each box's entries and choices, without the units at their ends; of two equal pieces "(1 of 2)" tells them apart."""

WIDER = "() => document.querySelector('#rendered_cells').scrollWidth - document.querySelector('#rendered_cells').clientWidth"


def luminance(colour: str) -> float:
    """Relative luminance of a colour as the browser says it (WCAG 2.2)."""
    parts = [float(part) / 255 for part in colour[colour.index("(") + 1 : -1].split(",")[:3]]
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one: str, two: str) -> float:
    """Contrast ratio of two colours (WCAG 2.2)."""
    high, low = sorted((luminance(one), luminance(two)), reverse=True)
    return (high + 0.05) / (low + 0.05)
