// A prebuilt extension of JupyterLab, small enough to be written without a builder: what a lesson needs beyond an ordinary notebook.
// Its words come from the server (anglelib/lab/words.py), and without them there are no buttons and nothing is said.
(() => {
  const NAME = "anglelib-lab";
  const VIEW = "application/vnd.jupyter.widget-view+json", ASIDE = "anglelib_view"; // as in anglelib/lab/views.py
  const GONE = ["restarting", "autorestarting", "terminating", "dead"];
  const LOOK = 100; // how often what has no signal is looked at [ms]
  const MANAGER = 15000; // so long the widgets' own extension is waited for, where there may be none [ms]
  const DRAWN = 2000; // so long after its run a cell may take to draw [ms]
  const EDGE = 8; // a cell of which less is seen is not the one that is read [px]
  const PROMPT = 700; // what begins sooner needs no word [ms]
  const BESIDE = ["after.js", "words.js"].map(name => new URL(name, document.currentScript.src)); // beside this file
  const pause = time => new Promise(go => setTimeout(go, time));
  let words = {}, lessons = [], scope;

  const load = async name => {
    const versions = Object.values(scope[name] ?? {});
    return (await versions[0].get())();
  };

  // --- views of widgets: they live as long as their kernel, and a picture stands in their place after that ---------------------------
  function eachOutput(notebook, change) {
    for (const cell of notebook.cells ?? []) {
      if (cell.type !== "code") continue;
      for (let n = 0; n < cell.outputs.length; n++) {
        const output = structuredClone(cell.outputs.get(n).toJSON());
        if (output.data && change(output)) cell.outputs.set(n, output);
      }
    }
  }

  const setAside = notebook => eachOutput(notebook, output =>
    VIEW in output.data && Object.keys(output.data).length > 1 && delete output.data[VIEW]);

  const putBack = (notebook, manager) => eachOutput(notebook, output => {
    const id = output.metadata?.[ASIDE];
    if (!id || !manager.has_model(id)) return false;
    delete output.metadata[ASIDE];
    output.data[VIEW] = { version_major: 2, version_minor: 0, model_id: id };
    return true;
  });

  // The manager of a page's widgets has no token of its own: a renderer that is made for this page knows it.
  const managers = new WeakMap();
  function managerOf(rendermime) {
    if (!managers.has(rendermime)) managers.set(rendermime, findManager(rendermime));
    return managers.get(rendermime);
  }
  async function findManager(rendermime) {
    for (let waited = 0; waited < MANAGER; waited += LOOK) {
      let probe = null, found = null;
      try {
        probe = rendermime.createRenderer(VIEW);
        found = await Promise.race([probe._manager?.promise, pause(0)]);
      } catch { /* nobody draws widgets yet */ }
      probe?.dispose();
      if (found) {
        while (!found.restoredStatus && !found.isDisposed) await pause(LOOK);
        return found;
      }
      await pause(LOOK);
    }
    return null;
  }

  // --- a run waits for its kernel; nothing is wiped meanwhile -------------------------------------------------------------------
  function takesRuns(context) {
    const kernel = context.session?.kernel;
    return Boolean(kernel) && context.isReady && !context.isRestarting && !context.isTerminating
      && kernel.connectionStatus === "connected" && ["idle", "busy"].includes(kernel.status);
  }

  async function untilReady(context, rendermime) {
    let started = false;
    while (!takesRuns(context)) {
      if (context.isDisposed) return false;
      const dead = context.session?.kernel?.status === "dead";
      if (context.isReady && !started && !context.isRestarting && !context.isTerminating && (dead || !context.session?.kernel)) {
        started = true;
        await (dead ? context.restartKernel() : context.startKernel()).catch(() => {});
      }
      await pause(LOOK);
    }
    await managerOf(rendermime);
    return takesRuns(context) || untilReady(context, rendermime);
  }

  // One cell after another, each cleared only when its turn has come: what is saved meanwhile still has the pictures of the others.
  const queues = new WeakMap(); // by session: the last run given, how many wait, and a number that changes when those that wait are given up
  function queueOf(context) {
    if (!queues.has(context)) {
      const queue = { last: Promise.resolve(), waiting: 0, number: 0 };
      let gone = false;
      context.statusChanged.connect((_, status) => {
        if (!gone && GONE.includes(status)) queue.number++;
        gone = GONE.includes(status);
      });
      queues.set(context, queue);
    }
    return queues.get(context);
  }

  function inTurn(options, run, say) {
    const { cell, sessionContext: context } = options, { model } = cell, queue = queueOf(context), { number } = queue;
    const telling = queue.waiting++ || takesRuns(context) ? 0 : setTimeout(() => say("starting"), PROMPT);
    model.executionState = "running"; // shown as [*]
    hold(cell.node.closest(".jp-WindowedPanel-outer"), () => queue.waiting > 0);
    const turn = queue.last.then(async () => {
      const ready = number === queue.number && await untilReady(context, cell.outputArea.rendermime);
      clearTimeout(telling);
      if (cell.isDisposed) return false;
      if (!ready || number !== queue.number) {
        model.executionState = "idle";
        return false;
      }
      let ran = false;
      const cleared = clearLater(model.outputs);
      try {
        ran = await withItsRoom(cell, () => run(options));
      } finally {
        const expected = model.getMetadata("tags")?.includes("raises-exception");
        if (!ran && !expected) queue.number++; // after an error, as after an interruption, what waits is not run
        if (!cell.isDisposed) cleared(ran);
      }
      return ran;
    });
    queue.last = turn.catch(() => {}).finally(() => queue.waiting--);
    return turn;
  }

  // What stands in a cell stays until something new comes, or its run has ended without anything; then all of it goes at once.
  function clearLater(outputs) {
    const { add, clear } = outputs;
    let due = false;
    const now = () => {
      if (due) clear.call(outputs);
      due = false;
    };
    outputs.clear = () => { due = true; };
    outputs.add = output => { now(); return add.call(outputs, output); };
    return ran => {
      delete outputs.clear;
      delete outputs.add;
      if (ran) now();
    };
  }

  // A widget takes a moment to be drawn: the room of what it replaces is kept, so that the page does not jump.
  async function withItsRoom(cell, run) {
    const { node } = cell;
    node.style.minHeight = `${node.offsetHeight}px`;
    try {
      return await run();
    } finally {
      setTimeout(() => { node.style.minHeight = ""; }, DRAWN);
    }
  }

  const executor = (token, runCell, say) => ({
    id: `${NAME}:run`,
    autoStart: true,
    provides: token,
    activate: () => ({
      runCell: options => options.cell.model.type === "code" && options.sessionContext ? inTurn(options, runCell, say) : runCell(options),
    }),
  });

  // --- the reader stays where they read --------------------------------------------------------------------------------------
  // While cells run, what stands above the reader grows and shrinks: the cell at the top edge is held, unless the page is scrolled.
  const held = new WeakSet();
  function hold(panel, running) {
    if (!panel || held.has(panel)) return;
    held.add(panel);
    let anchor = null, place = 0, until = 0, top = 0;
    const edge = () => panel.getBoundingClientRect().top;
    const pick = () => {
      anchor = [...panel.querySelectorAll(".jp-Cell")].find(cell => cell.getBoundingClientRect().bottom > edge() + EDGE);
      place = anchor ? anchor.getBoundingClientRect().top - edge() : 0;
      top = panel.scrollTop;
    };
    const look = () => {
      const now = performance.now();
      if (running()) until = now + DRAWN;
      if (now > until || !panel.isConnected) return held.delete(panel);
      const off = anchor?.isConnected ? anchor.getBoundingClientRect().top - edge() - place : 0;
      if (!anchor?.isConnected || panel.scrollTop !== top) pick();
      else if (Math.abs(off) > 1) {
        panel.scrollTop += off;
        top = panel.scrollTop;
      }
      requestAnimationFrame(look);
    };
    pick();
    look();
  }

  function keepPlace(actions, name) {
    const act = actions[name];
    actions[name] = (notebook, ...rest) => {
      const index = notebook.activeCellIndex;
      notebook.scrollToItem = () => Promise.resolve();
      try {
        return act.call(actions, notebook, ...rest);
      } finally {
        delete notebook.scrollToItem;
        notebook.activeCellIndex = index;
        notebook.deselectAll();
      }
    };
  }

  // --- the lesson's own cells stay ---------------------------------------------------------------------------------------------
  const ours = cell => cell?.model.getMetadata("deletable") === false;

  function keepCells(actions, say) {
    const chosen = notebook => notebook.widgets.filter(cell => notebook.isSelectedOrActive(cell));
    const guard = (name, loses, goOn) => {
      const act = actions[name];
      actions[name] = (notebook, ...rest) => {
        const lost = notebook.model && loses(notebook, ...rest);
        if (lost) say("kept");
        if (!lost || goOn) return act.call(actions, notebook, ...rest);
      };
    };
    guard("deleteCells", notebook => chosen(notebook).some(ours), true); // JupyterLab leaves those out itself, and says nothing
    guard("cut", notebook => chosen(notebook).some(ours), true);
    guard("mergeCells", (notebook, above = false) => {
      const cells = chosen(notebook);
      if (cells.length === 1) cells.push(notebook.widgets[notebook.activeCellIndex + (above ? -1 : 1)]);
      return cells.some(ours);
    });
    guard("changeCellType", (notebook, type) => chosen(notebook).some(cell => ours(cell) && cell.model.type !== type));
    guard("setMarkdownHeader", notebook => chosen(notebook).some(ours));
  }

  // --- words of the glossary -------------------------------------------------------------------------------------------------
  // The server says where they stand in the text of each cell (anglelib/lab/page_words.py); JupyterLab renders the text anew whenever it likes.
  const UNMARKED = "a, code, pre, summary, h1, h2, h3, h4, h5, h6, mjx-container, button";
  const BLOCK = "p, li, td, th, dt, dd, blockquote, figcaption, details, div";
  const BEFORE = /[(“‘"]*$/, BEHIND = /^(?:['’]s\b|[).,;:!?’”"…])*/; // what may not part from a word, as in anglelib/explained.py

  async function markWords(panel, ask, url) {
    const { content, context } = panel;
    const told = await ask(`${url}?path=${encodeURIComponent(context.localPath)}`, {}).then(answer => (answer.ok ? answer.json() : null)).catch(() => null);
    if (!told?.cells?.length || panel.isDisposed) return;
    keepMeanings(told.meanings, told.style);
    const known = new Map(told.cells.map(cell => [cell.text, cell.words]));
    let waiting = false;
    const look = () => {
      waiting = false;
      for (const cell of content.widgets) {
        const words = cell.model.type === "markdown" && known.get(cell.model.sharedModel.getSource());
        const prose = words && cell.node.querySelector(".jp-RenderedMarkdown");
        if (prose && !prose.querySelector("button.word")) words.toReversed().forEach(word => markWord(prose, ...word));
      }
    };
    const soon = () => { if (!waiting) { waiting = true; requestAnimationFrame(look); } };
    new MutationObserver(soon).observe(content.node, { childList: true, subtree: true });
    soon();
  }

  function keepMeanings(meanings, style) {
    let kept = document.getElementById("word-meanings");
    if (!kept) {
      kept = document.body.appendChild(Object.assign(document.createElement("div"), { id: "word-meanings", hidden: true }));
      document.head.append(Object.assign(document.createElement("style"), { textContent: style }));
    }
    for (const [id, text] of Object.entries(meanings)) {
      if (!document.getElementById(`word-${id}`)) kept.append(Object.assign(document.createElement("span"), { id: `word-${id}`, textContent: text }));
    }
  }

  // The last of a cell is marked first, so that what stands before it is still as it was counted.
  function markWord(prose, term, word, before) {
    const walk = document.createTreeWalker(prose, NodeFilter.SHOW_TEXT), nodes = [];
    let text = "", block = null;
    for (let node = walk.nextNode(); node; node = walk.nextNode()) {
      const own = node.parentElement.closest(BLOCK);
      if (own !== block) text += "\0";
      block = own;
      if (node.parentElement.closest(UNMARKED)) text += "\0";
      else {
        nodes.push([text.length, node]);
        text += node.data;
      }
    }
    text = text.replace(/\$[^$]+\$/g, formula => "\0".repeat(formula.length)); // one that is not typeset yet
    const found = [...text.matchAll(new RegExp(`(?<![\\p{L}\\p{N}_/-])${word.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}(?![\\p{L}\\p{N}_-])`, "gu"))][before];
    const [start, node] = nodes.findLast(([at]) => found && at <= found.index) ?? [];
    if (!node || found.index + word.length > start + node.length) return;
    const from = found.index - start, to = from + word.length;
    const lead = node.data.slice(0, from).match(BEFORE)[0].length, behind = node.data.slice(to).match(BEHIND)[0].length;
    const button = Object.assign(document.createElement("button"), { type: "button", className: "word", textContent: word });
    button.dataset.word = term;
    button.setAttribute("aria-describedby", `word-${term}`);
    const range = document.createRange();
    range.setStart(node, from - lead);
    range.setEnd(node, to + behind);
    const [first, last] = [node.data.slice(from - lead, from), node.data.slice(to, to + behind)];
    range.deleteContents();
    const kept = Object.assign(document.createElement("span"), { className: lead || behind ? "word-kept" : "" });
    kept.append(...[first, button, last].filter(Boolean));
    range.insertNode(lead || behind ? kept : button);
  }

  // --- the lesson's buttons --------------------------------------------------------------------------------------------------
  const bar = (token, say, { NotebookActions }, { Dialog, Notification, showDialog }, { ToolbarButton }, { ServerConnection }) => ({
    id: `${NAME}:lesson`,
    autoStart: true,
    requires: [token],
    activate: async (app, tracker) => {
      document.documentElement.dataset.files = `${app.serviceManager.serverSettings.baseUrl}files/`;
      const settings = app.serviceManager.serverSettings, url = `${settings.baseUrl}anglelib/lesson`;
      const ask = (path, how) => ServerConnection.makeRequest(path, how, settings);
      tracker.widgetAdded.connect((_, panel) => follow(panel));
      tracker.forEach(follow);
      const told = await ask(url, {}).then(answer => (answer.ok ? answer.json() : null)).catch(() => null);
      if (!told) return;
      ({ words, lessons } = told);
      for (const notice of told.notices ?? []) Notification.emit(notice, "info", { autoClose: false });
      tracker.forEach(addButtons);

      async function follow(panel) {
        const { content, sessionContext: session } = panel;
        session.statusChanged.connect((_, status) => {
          if (!GONE.includes(status) || !content.model) return;
          setAside(content.model);
          if (status === "autorestarting" || status === "dead") say("gone");
        });
        session.kernelChanged.connect((_, change) => { if (change.oldValue && content.model) setAside(content.model); });
        await panel.context.ready;
        addButtons(panel);
        markWords(panel, ask, `${settings.baseUrl}anglelib/words`);
        const manager = await managerOf(content.rendermime);
        if (manager && !panel.isDisposed) putBack(content.model, manager);
      }

      function addButtons(panel) {
        if (!words.fresh || panel.isDisposed || !lessons.includes(panel.context.localPath)) return;
        if ([...panel.toolbar.names()].includes("lesson-run")) return;
        const { content, sessionContext: session } = panel;
        const button = (id, label, tooltip, onClick) =>
          panel.toolbar.insertBefore("spacer", `lesson-${id}`, new ToolbarButton({ label, tooltip, onClick }));
        button("run", words.run, words.run_tip, () => NotebookActions.runAll(content, session));
        button("code", words.code, words.code_tip, () => {
          const folded = content.widgets.some(cell => cell.model.type === "code" && cell.inputHidden);
          NotebookActions[folded ? "showAllCode" : "hideAllCode"](content);
        });
        button("fresh", words.fresh, words.fresh_tip, () => fresh(panel));
      }

      async function fresh(panel) {
        const chosen = await showDialog({
          title: words.fresh_title, body: words.fresh_body,
          buttons: [Dialog.cancelButton({ label: words.cancel }), Dialog.okButton({ label: words.fresh })],
        });
        if (!chosen.button.accept || panel.isDisposed) return;
        const { context } = panel;
        try {
          if (context.model.dirty) await context.save(); // what was not saved yet is kept too
          const answer = await ask(url, { method: "POST", body: JSON.stringify({ path: context.localPath }) });
          const said = (await answer.json()).said;
          if (answer.ok) await context.revert();
          Notification.emit(said, answer.ok ? "success" : "error", { autoClose: false });
        } catch {
          Notification.emit(words.failed, "error", { autoClose: false });
        }
      }
    },
  });

  async function plugins() {
    document.head.append(...BESIDE.map(({ href }) => Object.assign(document.createElement("script"), { src: href })));
    const [notebook, apputils, components, services] = await Promise.all(
      ["@jupyterlab/notebook", "@jupyterlab/apputils", "@jupyterlab/ui-components", "@jupyterlab/services"].map(load));
    const say = id => { if (words[id]) apputils.Notification.emit(words[id], "info", { autoClose: 5000 }); };
    keepPlace(notebook.NotebookActions, "runAll");
    keepPlace(notebook.NotebookActions, "runAllBelow");
    keepCells(notebook.NotebookActions, say);
    return [
      executor(notebook.INotebookCellExecutor, notebook.runCell, say),
      bar(notebook.INotebookTracker, say, notebook, apputils, components, services),
    ];
  }

  (window._JUPYTERLAB ??= {})[NAME] = {
    init: shared => { scope = shared; },
    get: async () => {
      const made = await plugins();
      return () => ({ __esModule: true, default: made });
    },
  };
})();
