"""A plain page on a phone, on a tablet and enlarged: style rules alone, each for windows up to some width or for fingers.

On a phone nothing stands beside a control: its slider has the whole width below it. What is wider than the window in any case, a picture whose
letters would fall below what can be read, a table, a formula, moves sideways inside its own frame (see :mod:`anglelib.within_reach`), never the page.
A picture stays in view above its controls where it leaves them more than half of the window.

>>> "{#" in STYLE or "{{" in STYLE or "{%" in STYLE  # words of the template's own language
False
"""

from __future__ import annotations

from anglelib.lessons.look_style import BOX, PICTURE, SHOWN, SIDE_BY_SIDE, WIDE

PHONE, TABLET = "40rem", "64rem"
"""The widest windows [rem, 16 px] that count as a phone's and a tablet's; a desktop's window enlarged to 200 % is one of them, too."""
FINGER = 44
"""The least height of what a finger presses [px]."""

STYLE = f"""
#rendered_cells .wide {{ max-width: 100%; }}
#rendered_cells :is(.widget-html, .widget-htmlmath, .widget-html-content, .widget-htmlmath-content) {{ min-width: 0; }}
#rendered_cells .moves {{ max-width: 100%; overflow: auto hidden; padding-bottom: .25em; }}
#rendered_cells .wide > :is(svg, img) {{ min-width: var(--least); height: auto; }}
#rendered_cells .wide.moves > svg {{ max-height: none; }}
#rendered_cells .wide.moves::after {{ content: attr(data-note); display: block; position: sticky; left: 0; width: fit-content;
  font: .8125rem/1.4 var(--jp-content-font-family, sans-serif); color: var(--jp-content-font-color1, #161616); }}
#rendered_cells :focus-visible {{ outline: 3px solid var(--al-accent, #0b5cad) !important; outline-offset: -2px; }}
#rendered_cells .noUi-handle:focus-visible {{ outline-offset: 2px; }}
#rendered_cells .noUi-handle::after {{ content: ""; display: block; position: absolute; inset: -5px; width: auto; height: auto; background: none; }}
#rendered_cells :is(p, li, td) code {{ overflow-wrap: anywhere; white-space: normal; }}
#rendered_cells .widget-hbox > .widget-slider {{ margin-right: .875rem; }}
#rendered_cells .jp-RenderedHTMLCommon :is(p, li, td, dd) a {{ text-decoration: underline; }}
#rendered_cells summary {{ min-height: 1.5rem; box-sizing: border-box; }}
nav.way a, .sections nav a {{ display: inline-block; min-height: 1.5rem; box-sizing: border-box; }}

@media (max-width: {TABLET}) {{
  #rendered_cells > div {{ padding: .75rem 1rem 5rem; }}
  #rendered_cells :is(.jp-MarkdownOutput, .jp-RenderedHTML) {{ padding-right: 0; }}
  #rendered_cells .widget-hbox:has(> .widget-html[style*="50%"]) {{ flex-wrap: wrap; }}
  #rendered_cells .widget-hbox > .widget-html[style*="50%"] {{ width: calc(100% - 4px) !important; }}
  #rendered_cells .widget-box > .widget-inline-hbox {{ max-width: calc(100% - 4px) !important; }}
}}

@media (max-width: {TABLET}) and (min-height: 37rem) {{
  #rendered_cells .{PICTURE}:not(:has(> .tall)) {{ position: sticky; top: 0; z-index: 3; }}
  #rendered_cells .{BOX} :is(button, input, select, [role="slider"]) {{ scroll-margin: calc(45vh + 3rem) 0 3rem; }}
}}

@media (max-width: {TABLET}) {{ @container (min-width: {SIDE_BY_SIDE}rem) {{  /* a picture beside its controls hides none of them */
  #rendered_cells .{BOX}{SHOWN}:not(.{WIDE}) > .{PICTURE}:not(:has(> .tall)) {{ top: 1rem; z-index: 0; }}
  #rendered_cells .{BOX}{SHOWN}:not(.{WIDE}) :is(button, input, select, [role="slider"]) {{ scroll-margin: 0; }}
}} }}

@media (max-width: {PHONE}) {{
  #rendered_cells > div {{ padding: .5rem .375rem 5rem; }}
  #page-state {{ padding: .6rem 1rem; }}
  #rendered_cells :is(.jp-OutputArea-child, .jp-OutputArea-output, .jp-InputArea, .jp-MarkdownOutput, .jp-OutputArea) {{
    display: block; margin-left: 0; margin-right: 0; padding-left: 0; padding-right: 0; max-width: 100%; }}
  #rendered_cells .jp-OutputArea-output.widget-container {{ display: flex; }}
  #rendered_cells .widget-hbox {{ flex-wrap: wrap; }}
  #rendered_cells .widget-container {{ max-width: 100%; min-width: 0; }}
  #rendered_cells .widget-hbox > .widget-slider {{ flex: 1 1 100% !important; margin: 0 1.5rem 0 1rem; max-width: calc(100% - 2.5rem) !important; }}
  #rendered_cells .widget-label {{ text-align: left; }}
  #rendered_cells .widget-hbox > .widget-html:first-child:not(:only-child) > .widget-html-content > [style*=right] {{ text-align: left !important; }}
  #rendered_cells .widget-text > .widget-label {{ max-width: 60%; }}
  #rendered_cells .widget-text:is([style*="25rem"], [style*="36rem"], [style*="40rem"]) {{ flex-wrap: wrap; height: auto; }}
  #rendered_cells .widget-text:is([style*="25rem"], [style*="36rem"], [style*="40rem"]) > .widget-label {{ width: 100% !important; max-width: 100%; }}
  #rendered_cells .widget-text:is([style*="25rem"], [style*="36rem"], [style*="40rem"]) > input {{ flex: 1 1 100%; }}
  #rendered_cells pre {{ word-break: normal; overflow-wrap: anywhere; }}
  #rendered_cells .widget-text[style*="17rem"] {{ width: 20rem !important; }}
  #rendered_cells .widget-gridbox input::placeholder {{ font-size: .8125rem; }}
  #rendered_cells .wide > table:has(tr > :nth-child(4)) {{ min-width: 28rem; }}
  #rendered_cells .widget-select {{ flex-wrap: wrap; height: auto; }}
  #rendered_cells .widget-select > .widget-label {{ width: 100% !important; }}
  #rendered_cells .widget-select > select {{ flex: 1 1 100%; }}
  #rendered_cells .widget-hbox > .widget-toggle-buttons {{ max-width: 100%; }}
  #rendered_cells :is(.widget-text, .widget-textarea, .widget-dropdown, .widget-select) {{ max-width: 100%; }}
  #rendered_cells .jupyter-button {{ width: auto; max-width: 100%; }}
}}

@media (pointer: coarse), (max-width: {TABLET}) {{
  #rendered_cells .widget-label {{ height: auto; white-space: normal; overflow: visible; line-height: 1.3; align-self: center; }}
  #rendered_cells .widget-box {{ overflow: visible; }}
}}

@media (pointer: coarse) {{
  #rendered_cells {{ --jp-widgets-inline-height: {FINGER}px; --jp-widgets-font-size: 16px; }}
  #rendered_cells .widget-slider {{ --jp-widgets-slider-handle-size: 28px; --jp-widgets-slider-track-thickness: 8px; }}
  #rendered_cells .widget-hbox > .widget-slider {{ margin-left: 1rem; margin-right: 1.5rem; }}
  #rendered_cells .jupyter-button {{ min-height: {FINGER}px; min-width: {FINGER}px; height: auto; line-height: 1.3; padding: 6px 12px; white-space: normal; }}
  #rendered_cells input[type=text], #rendered_cells input[type=number] {{ min-width: {FINGER}px; }}
  #rendered_cells .noUi-target, #rendered_cells .noUi-target * {{ touch-action: pan-y; }}
  nav.way a, .sections nav a, #rendered_cells summary {{ min-height: {FINGER}px; min-width: {FINGER}px; padding: .6rem 0; box-sizing: border-box; }}
  #rendered_cells .noUi-handle::after {{ inset: -10px; }}
}}
"""
"""What the page's template has beside its own rules."""
