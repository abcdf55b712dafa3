// A prebuilt extension of JupyterLab, small enough to be written without a builder: what a lesson needs beyond an ordinary notebook.
// Its words come from the server (anglelib/lab/words.py), and without them there are no buttons and nothing is said.
(() => {
  const NAME = "anglelib-lab";
  const VIEW = "application/vnd.jupyter.widget-view+json", ASIDE = "anglelib_view"; // as in anglelib/lab/views.py
  const GONE = ["restarting", "autorestarting", "terminating", "dead"];
  const LOOK = 100; // how often what has no signal is looked at [ms]
  const MANAGER = 15000; // so long the widgets' own extension is waited for, where there may be none [ms]
  const DRAWN = 2000; // so long after its run a cell may take to draw [ms]
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

  const setAside = notebook => eachOutput(notebook, output => {
    const view = output.data[VIEW];
    if (!view || Object.keys(output.data).length === 1) return false;
    delete output.data[VIEW];
    delete output.metadata[ASIDE]; // the kernel that knew it is gone
    return true;
  });

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

  const waiting = new WeakMap(); // by session: the runs that wait, one after another
  const seen = new WeakSet(); // the sessions that had their widgets' manager when a run was given
  async function inTurn(options, run, say) {
    const { cell, sessionContext: context } = options;
    const before = waiting.get(context);
    if (!before) say("starting");
    const turn = (before ?? Promise.resolve()).then(() => untilReady(context, cell.outputArea.rendermime));
    waiting.set(context, turn);
    cell.model.executionState = "running"; // shown as [*]
    const ready = await turn;
    if (waiting.get(context) === turn) waiting.delete(context);
    seen.add(context);
    if (cell.isDisposed) return false;
    if (!ready) {
      cell.model.executionState = "idle";
      return false;
    }
    return run(options);
  }

  // What stands in a cell is cleared before the new output comes: its room is kept, so that the page does not jump.
  async function withItsRoom(cell, run) {
    const node = cell.outputArea.node;
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
      runCell: options => {
        const { cell, sessionContext: context } = options;
        if (cell.model.type !== "code" || !context) return runCell(options);
        return withItsRoom(cell, () =>
          !waiting.has(context) && seen.has(context) && takesRuns(context) ? runCell(options) : inTurn(options, runCell, say));
      },
    }),
  });

  // --- the reader stays where they read --------------------------------------------------------------------------------------
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

  // --- the lesson's buttons --------------------------------------------------------------------------------------------------
  const bar = (token, { NotebookActions }, { Dialog, Notification, showDialog }, { ToolbarButton }, { ServerConnection }) => ({
    id: `${NAME}:lesson`,
    autoStart: true,
    requires: [token],
    activate: async (app, tracker) => {
      const settings = app.serviceManager.serverSettings, url = `${settings.baseUrl}anglelib/lesson`;
      const ask = (path, how) => ServerConnection.makeRequest(path, how, settings);
      tracker.widgetAdded.connect((_, panel) => follow(panel));
      tracker.forEach(follow);
      const told = await ask(url, {}).then(answer => (answer.ok ? answer.json() : null)).catch(() => null);
      if (!told) return;
      ({ words, lessons } = told);
      tracker.forEach(addButtons);

      async function follow(panel) {
        const { content, sessionContext: session } = panel;
        session.statusChanged.connect((_, status) => { if (GONE.includes(status)) setAside(content.model); });
        session.kernelChanged.connect((_, change) => { if (change.oldValue) setAside(content.model); });
        await panel.context.ready;
        addButtons(panel);
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
    const [notebook, apputils, components, services] = await Promise.all(
      ["@jupyterlab/notebook", "@jupyterlab/apputils", "@jupyterlab/ui-components", "@jupyterlab/services"].map(load));
    const say = id => { if (words[id]) apputils.Notification.emit(words[id], "info", { autoClose: 5000 }); };
    keepPlace(notebook.NotebookActions, "runAll");
    keepPlace(notebook.NotebookActions, "runAllBelow");
    keepCells(notebook.NotebookActions, say);
    return [
      executor(notebook.INotebookCellExecutor, notebook.runCell, say),
      bar(notebook.INotebookTracker, notebook, apputils, components, services),
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
