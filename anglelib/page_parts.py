"""What a plain page has of its own around the lesson: Voila's template, and a script in the browser that waits for the widgets.

Why it waits. A page asks its kernel for the widgets' states and, meanwhile, Voila draws the outputs. The renderer of
``@jupyter-widgets/jupyterlab-manager`` looks for its model for 2 s, ten times a second, and gives up; and only then asks whether the
states have come. Where they come between its last look and its giving up, it takes a model that is there for one that never
will be, and says "Error displaying widget: model not found" for good. On an idle machine that moment is short and the states
are earlier; on a busy one every output of a page can fall into it. So nothing is drawn here before the states are in:
Voila draws the outputs when all plugins are active, and ours is active when the widget manager has its models.

The script is a prebuilt JupyterLab extension, small enough to be written without a builder. It also says, in one line at the head of the page,
what the page waits for, and that its kernel has ended.
"""

from __future__ import annotations

import json
import re
from pathlib import Path

from anglelib import after, explained, small_screens, within_reach
from anglelib.lessons.look_style import ENDS_IT, PROJECTOR_ON, ROOM_SWITCH, SAYS_ON

EXTENSIONS = "extensions"
"""Beside the template, the folder where Voila looks for our extension."""
NAME = "anglelib-pages"
STARTING = "Getting ready: Python is starting for this page."
WORKING = "Getting ready: part {part} of {parts} of this page is being worked out."
DRAWING = "Getting ready: the pictures and controls follow in a moment."
SLOW = "Still getting ready: this computer is busy. Wait on, or try once more."
TRYING = "The connection to this page was lost, and is being tried again."
ENDED = "The Python behind this page has stopped, so nothing on it moves any more. Your answers are kept. Load the page again to go on."
AGAIN = "Load the page again"
SLOW_AFTER = 90
"""So long after the page has come its widgets may be missing before it says that this is slow [s]."""

TEMPLATE = """{%- extends 'voila/templates/lab/index.html.j2' -%}
{%- import "spinner.macro.html.j2" as spinner -%}
{%- block notebook_css -%}
{{ resources.include_js("static/voila-style.js") }}
{{ spinner.css() }}
<style>
.jp-mod-noOutputs.jp-mod-noInput, #loading_text { display: none; }
#rendered_cells > div { max-width: 88rem; margin: 0 auto; padding: 1rem 2rem 6rem; }
#rendered_cells .jp-RenderedMarkdown > *, #rendered_cells .jp-RenderedHTML > * { max-width: 50rem; }
#rendered_cells .jp-RenderedMarkdown table { margin-left: 0; }
#page-state { position: sticky; top: 0; z-index: 101; margin: 0; padding: .6rem 2rem; text-align: center;
  font: 1rem sans-serif; color: #222; background: #fff6cc; border-bottom: 1px solid #b59a2a; }
#page-state:empty { display: none; }
#page-state button { margin-left: 1rem; font: inherit; }
#room-state { display: none; position: fixed; bottom: 0; right: 0; z-index: 100; margin: 0; padding: .4rem 1rem;
  font: 1.25rem sans-serif; color: #fff; background: #161616; border: 1px solid #fff; }
body:has(.@on@) #room-state { display: block; }
#room-state button { margin-left: 1rem; padding: .2rem .6rem; font: inherit; color: #161616; background: #fff; border: 2px solid #fff; cursor: pointer; }
body:not(:has(.@switch@)) #room-state button { display: none; }
@explained@
</style>
{{ super.super() }}
<style>@small@</style>
<script>@reach@</script>
{%- endblock notebook_css -%}
{%- block body_header -%}
{{ super() }}
<script>@state@</script>
<script>@waits@</script>
<p id="room-state">@says_on@ <button onclick="document.querySelector('.@switch@').click()">@ends_it@</button></p>
{%- endblock body_header -%}
"""
"""Voila's own page without what it would fetch from other hosts, with a width that can be read, and with the line of its state."""

STATE = """
(() => {
  const words = @words@, line = document.createElement("p"), finish = window.voila_finish;
  line.id = "page-state";
  line.setAttribute("role", "status");
  document.getElementById("loading").before(line);
  window.page_state = (id, numbers = {}) => {
    line.textContent = id ? words[id].replace(/{(\\w+)}/g, (_, name) => numbers[name]) : "";
    if (id !== "slow" && id !== "ended") return;
    const again = document.createElement("button");
    again.textContent = words.again;
    again.onclick = () => location.reload();
    line.append(again);
  };
  window.page_state("starting");
  document.addEventListener("click", event => {
    const link = event.target.closest("a[target=_blank]");
    if (link?.origin === location.origin && link.pathname.endsWith(".ipynb")) link.target = "";
  }, true);
  window.voila_process = (part, parts) => window.page_state("working", { part, parts });
  window.voila_finish = () => { window.page_state("drawing"); window.voila_finish = finish; finish(); };
})();
"""
"""The line at the head of the page; Voila calls ``voila_process`` before each cell, and ``voila_finish`` after the last.

Jupyter opens the links of an output in a new tab: a lesson opens in the tab that one is in, so that the page left ends its kernel.
"""

EXTENSION = """
(() => {
  async function activate(app) {
    if (app.name !== "Voila") return;
    const slow = setTimeout(() => window.page_state("slow"), @slow@);
    const manager = await app.widgetManagerPromise.promise, kernel = manager.kernel;
    let ready = false, ended = false;
    const say = id => { ended = ended || id === "ended"; window.page_state(ended ? "ended" : id || (ready ? "" : "drawing")); };
    kernel.statusChanged.connect((_, status) => {
      if (["dead", "restarting", "autorestarting"].includes(status)) say("ended");
    });
    kernel.connectionStatusChanged.connect(async (_, status) => {
      if (status === "disconnected") say("ended");
      if (status === "connecting") {
        say("trying");
        const asked = await fetch(`${kernel.serverSettings.baseUrl}api/kernels/${kernel.id}`).catch(() => null);
        if (asked?.status === 404) say("ended");
      }
      if (status === "connected") {
        const known = await kernel.requestCommInfo({ target_name: "jupyter.widget" });
        say(ready && Object.keys(known.content.comms).length === 0 ? "ended" : "");
      }
    });
    document.addEventListener("visibilitychange", () => {  // a phone that slept: at once, not when the next try is due
      if (!document.hidden && !ended && kernel.connectionStatus !== "connected") kernel.reconnect().catch(() => {});
    });
    app.started.then(() => { ready = true; clearTimeout(slow); say(""); });
    if (!manager.restoredStatus) await new Promise(go => manager.restored.connect(go));
  }
  const plugin = { id: "@name@:wait", autoStart: true, activate };
  const container = { init: () => {}, get: async () => () => ({ __esModule: true, default: [plugin] }) };
  (window._JUPYTERLAB ??= {})["@name@"] = container;
})();
"""
"""Active when the widget manager has its models: ``app.started``, after which Voila draws the outputs, waits for it."""


def write(place: Path, ended: str = ENDED) -> None:
    """The template and the extension, written into a folder; ``ended`` is what a page says whose Python has ended. Raises OSError."""
    words = {
        "starting": STARTING, "working": WORKING, "drawing": DRAWING, "slow": SLOW, "trying": TRYING, "ended": ended, "again": AGAIN,
    }  # fmt: skip
    extension = place / EXTENSIONS / NAME
    extension.mkdir(parents=True, exist_ok=True)
    built = {"load": "wait.js", "extension": "./extension"}
    package = {"name": NAME, "version": "1.0.0", "jupyterlab": {"extension": True, "_build": built}}
    filled = {
        "explained": explained.STYLE, "small": small_screens.STYLE, "reach": within_reach.script(), "waits": after.script() + explained.script(),
        "state": STATE.replace("@words@", json.dumps(words)), "on": PROJECTOR_ON, "switch": ROOM_SWITCH, "says_on": SAYS_ON, "ends_it": ENDS_IT,
    }  # fmt: skip
    (place / "index.html.j2").write_text(re.sub(r"@(\w+)@", lambda found: filled[found[1]], TEMPLATE), encoding="utf-8")
    (extension / "package.json").write_text(json.dumps(package), encoding="utf-8")
    (extension / "wait.js").write_text(EXTENSION.replace("@name@", NAME).replace("@slow@", str(SLOW_AFTER * 1000)), encoding="utf-8")
