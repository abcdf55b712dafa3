"""The style of boxes and controls: what the names of looks mean on a page.

Three things that are pressed never look alike: a choice has a ring before its words, which is filled when it is chosen; what
does something (Check, Commit, Open) is a filled plate; a help is underlined. What only sets back or shows otherwise is an outlined
plate. The differences are of shape, so they hold in grey and where the system gives its own colours.

A picture stands beside its controls where its box is wide, and above them where it is not, and stays in view. What scrolls a
page is one container in a plain page, another in JupyterLab; between it and the picture nothing may scroll by itself.
"""

from __future__ import annotations

BOX = "al-box"
"""A picture with what belongs to it: question, controls, sentence."""
PICTURE = "al-picture"
BELOW = "al-below"
"""What is as wide as the box, under picture and controls."""
WIDE = "al-wide"
"""A box whose picture has small letters: it needs a wide box to stand beside its controls."""
PANEL = "al-panel"
"""The controls of a picture."""
ASK = "al-ask"
"""A question with its answer."""
CHOICE, DO, TOOL, HELP, SWITCH = "al-choice", "al-do", "al-tool", "al-help", "al-switch"
"""One of some; what does something; what sets back or shows otherwise; a hint; on or off."""
ROW = "al-row"
"""A control in its row."""
PROJECTOR_ON = "al-projector-on"
"""Somewhere on a page that is shown by a projector."""
ROOM_SWITCH = "al-room"
"""The switch of the room."""
SAYS_ON, ENDS_IT = "The projector is on, for every page. The switch under any picture ends it.", "Back to the screen"
"""What a plain page says at its foot, and on the button beside."""
SIGN = "al-style"
"""Where the style is: a page of ours."""

SIDE_BY_SIDE = 52
"""From this width of a box on picture and controls are side by side [rem]."""
WIDE_SIDE = 72
"""The same of a box with a picture that needs more width."""
DESK, HIGH = 64, 37
"""In a window from so wide and high on [rem] a picture above its controls stays in view; smaller ones have rules of their own."""

ON = f".jp-Notebook:has(.{PROJECTOR_ON})"
"""A page that a projector shows. Rules about it are brought by a projector's page alone: a browser goes over all that such a
rule may mean whenever anything on the page changes, which a slider's every step would pay."""
LARGE = 24
"""The height of its letters [px]: those of a screen have 14."""
BARE = "al-bare"
"""A box whose picture is not there yet: its controls have the width."""
SHOWN = f":not(.{BARE})"
"""Of a box: its picture is there. The box says so itself, since to look into it for an empty place costs as above."""

_COLOURS = """
.jupyter-widgets, .al-page { --al-ink: var(--jp-content-font-color1, #161616); --al-accent: #0b4f96; --al-on-accent: #fff;
  --al-line: #6f6f6f; --al-soft: #e6eef7; --al-track: #8a8a8a; --al-field: var(--jp-layout-color0, #fff); }
[data-jp-theme-light="false"] .jupyter-widgets { --al-accent: #8cc2ff; --al-on-accent: #0c1a29; --al-line: #a8a8a8;
  --al-soft: #20364d; --al-track: #8c8c8c; }
"""



def _beside(width: int, which: str) -> str:
    """Picture and controls side by side in a box from so wide on [rem]."""
    box = f".{BOX}{which}"
    return f"""@container (min-width: {width}rem) {{
  {box}.widget-vbox{SHOWN} {{ grid-template-columns: minmax(0, 1.6fr) minmax(20rem, 1fr); grid-template-rows: repeat(24, auto) 1fr; }}
  {box}{SHOWN} > * {{ grid-column: 2; }}
  {box}{SHOWN} > .{PICTURE} {{ grid-column: 1; grid-row: 1 / -1; position: sticky; top: 1rem; z-index: 0; }}
  {box}{SHOWN} > .{BELOW} {{ grid-column: 1 / -1; }}
  {box}{SHOWN} :is(button, input, select, [role="slider"]) {{ scroll-margin-top: 0; }}
  {box} .{PICTURE} svg {{ max-height: calc(100vh - 2rem); }}
}}"""


_BOX = f"""
.jp-OutputArea:has(.{PICTURE}), .jp-OutputArea-child:has(.{PICTURE}), .jp-OutputArea-output:has(.{PICTURE}),
.jp-Cell-outputWrapper:has(.{PICTURE}), .jp-Cell-outputArea:has(.{PICTURE}), .widget-box:has(.{PICTURE}) {{ overflow: visible !important; }}
.jp-OutputArea-child:has(.{BOX}) {{ display: flex; }}
.jp-OutputArea-output:has(.{BOX}) {{ display: block; flex: 1 1 0; width: 100%; min-width: 0; }}
:has(> .{BOX}) {{ container-type: inline-size; }}
.{BOX}.widget-vbox {{ display: grid; grid-template-columns: minmax(0, 1fr); column-gap: 2.5rem; max-width: none; }}
.{BOX} > * {{ min-width: 0; max-width: 100%; }}
.{BOX} > button {{ justify-self: start; }}
.{PICTURE} {{ order: -1; align-self: start; background: var(--jp-layout-color0, #fff); }}
.{PICTURE}.widget-html, .{PICTURE} > .widget-html-content {{ width: 100%; overflow: visible; line-height: 0; }}
.{PICTURE} svg {{ display: block; margin: 0 auto; }}
@media (min-width: {DESK}rem) and (min-height: {HIGH}rem) {{
  .{PICTURE} {{ position: sticky; top: 0; z-index: 3; }}
  .{PICTURE} svg {{ max-height: 46vh; }}
  .{BOX} :is(button, input, select, [role="slider"]) {{ scroll-margin-top: calc(46vh + 2rem); }}
}}
{_beside(SIDE_BY_SIDE, f":not(.{WIDE})")}
{_beside(WIDE_SIDE, f".{WIDE}")}
@media (min-width: {DESK}rem) and (min-height: {HIGH}rem) {{ @container (max-width: {WIDE_SIDE - 0.01:g}rem) {{
  .{WIDE} > .{PICTURE} svg {{ max-height: max(46vh, 31rem); }}
  .{WIDE} :is(button, input, select, [role="slider"]) {{ scroll-margin-top: calc(max(46vh, 31rem) + 2rem); }}
}} }}
.{ASK}.widget-vbox {{ max-width: 50rem; overflow: visible; }}
.{BOX} .{ASK}.widget-vbox, .{ASK}.{BOX}.widget-vbox {{ max-width: none; }}
"""

_CONTROLS = f"""
.jupyter-widgets .widget-label {{ color: var(--al-ink); }}
.jupyter-widgets input[type="text"], .jupyter-widgets input[type="number"], .jupyter-widgets select {{ border: 1px solid var(--al-line);
  background: var(--al-field); color: var(--al-ink); }}
.{ROW}.widget-hbox {{ flex-wrap: wrap; }}
.{ROW}.widget-hbox:has(> .{CHOICE}) {{ align-items: baseline !important; }}
.{ROW} > .{CHOICE} {{ max-width: calc(100% - 10.9rem); }}
.{ROW} > .widget-html {{ align-self: baseline; }}
.jupyter-widgets, .jupyter-widgets button, button.jupyter-widgets, .jupyter-widgets input, .jupyter-widgets select {{ font-family: var(--jp-content-font-family); }}
.widget-select {{ max-width: 100%; overflow: visible; }}
.widget-select > select {{ min-width: 0; max-width: 100%; box-sizing: border-box; margin-right: 4px; }}
.jupyter-widgets.{DO}, .jupyter-widgets.{TOOL}, .jupyter-widgets.{HELP}, .jupyter-widgets.{SWITCH},
.{CHOICE} .widget-toggle-button {{ height: auto; min-height: 2.1em; width: auto; margin: 2px; padding: .2em .9em; line-height: 1.35;
  font-size: var(--jp-widgets-font-size); text-align: left; white-space: normal; overflow: visible; border-radius: 3px; box-shadow: none;
  color: var(--al-ink); background: none; border: 2px solid transparent; }}
.jupyter-widgets.{DO} {{ background: var(--al-accent); border-color: var(--al-accent); color: var(--al-on-accent); font-weight: 600;
  padding: .2em 1.2em; text-align: center; }}
.jupyter-widgets.{TOOL} {{ border: 1px solid var(--al-line); }}
.jupyter-widgets.{HELP} {{ color: var(--al-accent); text-decoration: underline; text-underline-offset: .2em; padding: .2em .5em; }}
.jupyter-widgets.{SWITCH}::before, .{CHOICE} .widget-toggle-button::before {{ content: ""; display: inline-block; box-sizing: border-box;
  width: .95em; height: .95em; margin-right: .5em; vertical-align: -.12em; border: 2px solid var(--al-line); background: var(--al-field); }}
.{CHOICE} .widget-toggle-button::before {{ border-radius: 50%; }}
.{CHOICE} .widget-toggle-button.mod-active::before, .jupyter-widgets.{SWITCH}.mod-active::before {{ border: .32em solid var(--al-accent); }}
.{CHOICE} .widget-toggle-button.mod-active, .jupyter-widgets.{SWITCH}.mod-active {{ background: var(--al-soft); color: var(--al-ink); box-shadow: none; }}
.{CHOICE} .widget-toggle-button {{ padding: .2em .7em .2em .4em; }}
.jupyter-widgets.{DO}:hover:enabled {{ box-shadow: 0 0 0 2px var(--al-soft), 0 0 0 4px var(--al-accent); }}
.jupyter-widgets.{TOOL}:hover:enabled, .jupyter-widgets.{SWITCH}:hover:enabled, .jupyter-widgets.{HELP}:hover:enabled,
.{CHOICE} .widget-toggle-button:hover:enabled {{ background: var(--al-soft); box-shadow: none; color: var(--al-ink); }}
.{CHOICE} .widget-toggle-button:disabled, .jupyter-widgets.{DO}:disabled, .jupyter-widgets.{TOOL}:disabled, .jupyter-widgets.{HELP}:disabled {{ opacity: .65; }}
.jupyter-widgets :is(button, input, select, [role="slider"]):focus-visible, button.jupyter-widgets:focus-visible {{
  outline: 3px solid var(--al-accent); outline-offset: 2px; }}
.{CHOICE}.widget-toggle-buttons, .{CHOICE} > div {{ display: flex; flex-wrap: wrap; overflow: visible; }}
.widget-slider {{ --jp-widgets-slider-handle-size: 18px; --jp-widgets-slider-track-thickness: 4px; }}
.widget-slider.jupyter-widgets .noUi-connects {{ background: var(--al-track); border-radius: 2px; }}
.widget-slider.jupyter-widgets .noUi-connect {{ background: none; }}
.widget-slider.jupyter-widgets [disabled].noUi-target {{ opacity: 1; }}
.widget-slider.jupyter-widgets .noUi-target .noUi-handle, .widget-slider.jupyter-widgets .noUi-target:not([disabled]) .noUi-handle:is(:hover, :focus) {{
  box-sizing: border-box; background: var(--al-accent); border: 1px solid var(--al-field); cursor: grab; }}
.widget-slider.jupyter-widgets .noUi-target[disabled] .noUi-handle {{ background: var(--al-field); border: 2px solid var(--al-line); cursor: default; }}
.widget-slider.widget-hslider {{ overflow: visible; }}
"""

_DARK = f"""
[data-jp-theme-light="false"] .{PICTURE} svg, [data-jp-theme-light="false"] .jp-Notebook:has(.{SIGN}) :is(.jp-RenderedMarkdown, .jp-RenderedHTML) img {{
  filter: invert(.93) hue-rotate(180deg); }}
"""

_FORCED = f"""
@media (forced-colors: active) {{
  .{CHOICE} .widget-toggle-button, .jupyter-widgets.{HELP}, .jupyter-widgets.{SWITCH} {{ border-color: Canvas; }}
  .jupyter-widgets.{DO} {{ border: 3px solid ButtonText; }}
  .{CHOICE} .widget-toggle-button.mod-active::before, .jupyter-widgets.{SWITCH}.mod-active::before {{ border: .4em solid Highlight; }}
  .widget-slider.jupyter-widgets .noUi-connects {{ border: 1px solid CanvasText; }}
  .widget-slider.jupyter-widgets .noUi-target .noUi-handle {{ border: 8px solid Highlight; }}
}}
"""

_ROOM = f"""
{ON} {{ --jp-content-font-size1: {LARGE}px; --jp-content-font-size2: 28px; --jp-content-font-size3: 34px; --jp-content-font-size4: 40px;
  --jp-content-font-size5: 48px; --jp-ui-font-size1: {LARGE}px; --jp-widgets-font-size: {LARGE}px; --jp-widgets-inline-height: 44px; --jp-code-font-size: 22px; }}
{ON} .jupyter-widgets {{ --jp-widgets-font-size: {LARGE}px; --jp-widgets-inline-height: 44px; }}
{ON} :is(.jp-RenderedMarkdown, .jp-RenderedHTMLCommon, .way, .sections) {{ font-size: {LARGE}px; }}
{ON} .jupyter-widgets .widget-label, {ON} .{ROW} > .widget-html:first-child {{ min-width: 15rem; white-space: normal; }}
{ON} .jupyter-widgets :is(input, select) {{ font-size: {LARGE}px; min-height: 44px; }}
{ON} .widget-text[style*="17rem"] {{ width: 24rem !important; max-width: 100%; }}
{ON} .widget-text:is([style*="27rem"], [style*="36rem"]) {{ width: 48rem !important; max-width: 100%; }}
{ON} .{ROW} > .{CHOICE} {{ max-width: calc(100% - 16rem); }}
{ON} .widget-slider {{ --jp-widgets-slider-handle-size: 30px; --jp-widgets-slider-track-thickness: 6px; }}
{ON} .{PICTURE} svg {{ width: 100%; height: auto; }}
{ON} .{ASK}.widget-vbox {{ max-width: 80rem; }}
{ON} #rendered_cells > div {{ max-width: 116rem; }}
{ON} #rendered_cells :is(.jp-RenderedMarkdown, .jp-RenderedHTML) > * {{ max-width: 80rem; }}
@container (min-width: {SIDE_BY_SIDE}rem) {{
  {ON} .{BOX}.widget-vbox{SHOWN} {{ grid-template-columns: minmax(0, 1fr) minmax(0, 1fr); grid-template-rows: none; row-gap: .5rem; }}
  {ON} .{BOX}{SHOWN} > *, {ON} .{BOX}{SHOWN} > .{PICTURE} {{ grid-column: 1 / -1; }}
  {ON} .{BOX}{SHOWN} > .{ASK}:has(~ .{PANEL}) {{ grid-column: 1; }}
  {ON} .{BOX}{SHOWN} > .{ASK} ~ .{PANEL} {{ grid-column: 2; }}
  {ON} .{BOX}{SHOWN} > .{PICTURE} {{ grid-row: auto; position: sticky; top: 0; z-index: 3; border-bottom: 2px solid var(--al-line); }}
  {ON} .{PICTURE} svg {{ max-height: 60vh; }}
  {ON} .{BOX}{SHOWN} :is(button, input, select, [role="slider"]) {{ scroll-margin-top: calc(60vh + 2rem); }}
}}
"""

STYLE = "".join((_COLOURS, _BOX, _CONTROLS, _DARK, _FORCED)).replace("\n\n", "\n")


def shown_by(theme: str) -> str:
    """The style as HTML; where a projector shows the page, with the rules by which all of it grows, and their sign."""
    if theme == "projector":
        return f'<style class="{SIGN}">{STYLE}{_ROOM}</style><i class="{PROJECTOR_ON}"></i>'
    return f'<style class="{SIGN}">{STYLE}</style>'
