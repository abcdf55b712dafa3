"""A visitor who sends what no page of ours sends, straight to the kernel and to the server: nothing happens, and what is the owner's stays.

The page here was made for it: it has a box that writes a file and a widget that runs what it is told, so that each wall is tried by itself.
"""

import html
import json
import os
import re
import sys
import time
import uuid
from contextlib import suppress
from pathlib import Path

import pytest
from opened import until
from patience import PATIENCE
from shared import Socket, Visitor, shared

PAGE = """
import os, subprocess
import ipywidgets as widgets
from IPython.display import display

def typed(change):
    heard.value = "typed"
    try:
        open(change["new"], "w").write("pwned")
        heard.value = "written"
    except OSError as error:
        heard.value = f"refused {type(error).__name__}"

def told(_, content, buffers):
    heard.value = "custom"

heard = widgets.HTML("start")
slider, button, box, choice = widgets.IntSlider(3, 0, 10), widgets.Button(description="Press"), widgets.Text("x"), widgets.ToggleButtons(options=["a", "b"])
unseen, shut = widgets.Text("unseen"), widgets.Text("shut", disabled=True)
button.on_click(lambda _: setattr(heard, "value", "pressed"))
slider.observe(lambda change: setattr(heard, "value", f"{slider.value} of {slider.max}"), "value")
choice.observe(lambda change: setattr(heard, "value", f"chose {choice.value}"), "value")
for one in (box, unseen, shut):
    one.observe(typed, "value")
for one in (slider, box, choice, heard):
    one.on_msg(told)
display(widgets.VBox([heard, slider, button, box, choice, shut]))
print("cwd", os.getcwd(), "home", os.path.expanduser("~"), "secret", os.environ.get("A_SECRET"), "mine", os.environ.get("ANGLELIB_HOME"), "end")
"""


def a_project(folder: Path) -> Path:
    from nbformat import v4, write

    (folder / "notebooks").mkdir(parents=True)
    (folder / "figures").mkdir()
    (folder / "figures" / "a.png").write_bytes(b"a picture")
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}}
    for name in ("00_start_here", "instructor", "my_own", "home"):
        write(v4.new_notebook(cells=[v4.new_markdown_cell("# A page"), v4.new_code_cell(PAGE)], metadata=kernel), folder / "notebooks" / f"{name}.ipynb")
    return folder


@pytest.fixture(scope="module")
def home(tmp_path_factory):
    folder = tmp_path_factory.mktemp("owner")
    (folder / "mine.txt").write_text("mine")
    return folder


@pytest.fixture(scope="module")
def course(home, tmp_path_factory):
    with shared(home, "--visitors", "3", project=a_project(tmp_path_factory.mktemp("project") / "course")) as running:
        yield running


@pytest.fixture(scope="module")
def visitor(course):
    return Visitor(course.url, course.code)


@pytest.fixture(scope="module")
def kernel(visitor):
    kernel, text = visitor.page()
    where, secret = re.search(r"cwd (\S+) home .* secret (.*) end", text).groups()
    assert "anglelib-visitors-" in where and secret == "None mine None", "the kernel knows what is the owner's"
    return kernel


@pytest.fixture(scope="module")
def socket(visitor, kernel):
    return Socket(visitor, kernel)


@pytest.fixture(scope="module")
def by_kind(socket):
    """The page's models, by kind: their ids and states."""
    found = {}
    for id_, model in socket.models().items():
        found.setdefault(model["model_name"], []).append((id_, model["state"]))
    return found


def heard_by(by_kind) -> str:
    return by_kind["HTMLModel"][0][0]


def box_of(by_kind, value: str) -> str:
    return next(id_ for id_, state in by_kind["TextModel"] if state["value"] == value)


def set_(socket, model: str, state, **more) -> str:
    return socket.send("comm_msg", {"comm_id": model, "data": {"method": "update", "state": state, "buffer_paths": [], **more}})


def says(socket, by_kind, words: str) -> bool:
    """Whether the page's line comes to say this."""
    line = heard_by(by_kind)
    return bool(socket.hear(PATIENCE, lambda type_, _, of: type_ == "comm_msg" and of["comm_id"] == line and of["data"].get("state", {}).get("value") == words))


def test_what_a_person_does_works(socket, by_kind):
    (slider, _), (button, _), (choice, _) = by_kind["IntSliderModel"][0], by_kind["ButtonModel"][0], by_kind["ToggleButtonsModel"][0]
    set_(socket, slider, {"value": 7})
    assert says(socket, by_kind, "7 of 10")
    socket.send("comm_msg", {"comm_id": button, "data": {"method": "custom", "content": {"event": "click"}}})
    assert says(socket, by_kind, "pressed")
    set_(socket, choice, {"index": 1})
    assert says(socket, by_kind, "chose b")
    socket.send("kernel_info_request", {})
    assert socket.hear(PATIENCE, lambda type_, *_: type_ == "kernel_info_reply")


def test_the_seal_holds_where_a_box_of_the_page_would_write(socket, by_kind, home, tmp_path):
    """The text passes, as every text of an entry; what it would do is refused by the kernel itself."""
    set_(socket, box_of(by_kind, "x"), {"value": str(tmp_path / "written")})
    assert says(socket, by_kind, "refused PermissionError")
    assert not (tmp_path / "written").exists()


def hostile(socket, by_kind, tmp_path) -> dict[str, str]:
    """Each thing sent, by what it is, with the id of its message."""
    (slider, _), (button, _), (choice, _) = by_kind["IntSliderModel"][0], by_kind["ButtonModel"][0], by_kind["ToggleButtonsModel"][0]
    (layout, _), (line, _), (vbox, _) = by_kind["LayoutModel"][0], by_kind["HTMLModel"][0], by_kind["VBoxModel"][0]
    box, shut = box_of(by_kind, "x"), box_of(by_kind, "shut")
    code = f"open({str(tmp_path / 'pwned')!r}, 'w').write('1'); heard.value = 'pwned'"
    run = {"code": code, "silent": False, "store_history": True, "user_expressions": {"a": code}, "allow_stdin": True}
    state = {"_model_module": "@jupyter-widgets/controls", "_model_module_version": "2.0.0", "_model_name": "TextModel",
             "_view_module": "@jupyter-widgets/controls", "_view_module_version": "2.0.0", "_view_name": "TextView"}  # fmt: skip
    sent = {}
    for channel in ("shell", "control", "stdin", "iopub", "", "shell\0", "Shell"):
        sent[f"execute on {channel!r}"] = socket.send("execute_request", run, channel)
        sent[f"set on {channel!r}"] = socket.send("comm_msg", {"comm_id": slider, "data": {"method": "update", "state": {"value": 1}}}, channel) if channel != "shell" else ""
    for type_, content in {
        "complete_request": {"code": "import os; os.", "cursor_pos": 14}, "inspect_request": {"code": "open", "cursor_pos": 2, "detail_level": 1},
        "history_request": {"output": True, "raw": True, "hist_access_type": "tail", "n": 99}, "is_complete_request": {"code": "1"},
        "shutdown_request": {"restart": True}, "interrupt_request": {}, "debug_request": {"command": "attach", "seq": 1, "type": "request", "arguments": {}},
        "create_subshell_request": {}, "input_reply": {"value": "1"}, "usage_request": {}, "apply_request": {}, "clear_request": {}, "abort_request": {},
        "execute_reply": {}, "Execute_request": run, "execute_request\0": run, "comm_msg ": {}, "": {},
    }.items():  # fmt: skip
        for channel in ("shell", "control"):
            sent[f"{type_} on {channel}"] = socket.send(type_, content, channel)
    for target in ("jupyter.widget", "jupyter.widget.control.", "os.system", "builtins.exec", "anything", "", None, ["jupyter.widget.control"]):
        for metadata in ({"version": "2.1.0"}, {"version": "1.0.0"}):
            opened = {"comm_id": uuid.uuid4().hex, "target_name": target, "target_module": "os", "data": {"state": state, "buffer_paths": []}}
            sent[f"open {target} {metadata}"] = socket.send("comm_open", opened, metadata=metadata)
    sent["open over a model"] = socket.send("comm_open", {"comm_id": slider, "target_name": "jupyter.widget.control", "data": {}}, metadata={"version": "1.0.0"})
    sent["close a model"] = socket.send("comm_close", {"comm_id": slider, "data": {}})
    for key, value in {"max": 99, "min": -5, "step": 0.1, "disabled": False, "description": "<b>", "layout": "IPY_MODEL_x", "_model_name": "HTMLModel",
                       "_view_name": "x", "_dom_classes": ["x"], "tooltip": "x", "keys": [], "comm": None, "tabbable": True, "style": {}, "Value": 1}.items():  # fmt: skip
        sent[f"slider's {key}"] = set_(socket, slider, {key: value})
        sent[f"slider's value and {key}"] = set_(socket, slider, {"value": 2, key: value})
    for value in ("3", 3.5, None, True, [3], {"a": 3}, 10**30, -(10**30), 1e308, "__import__('os')"):
        sent[f"slider {value!r}"] = set_(socket, slider, {"value": value})
    for value in (3, None, True, ["x"], {"a": "b"}, "a" * 600, "a\nb", "a\0b", "\x1b[0m"):
        sent[f"text {value!r}"] = set_(socket, box, {"value": value})
    for value in (2, -1, "a", 0.0, True, [0], 10**9):
        sent[f"index {value!r}"] = set_(socket, choice, {"index": value})
    for key, value in {"_options_labels": ["x"], "value": "b", "options": ["x"], "label": "b"}.items():
        sent[f"choice's {key}"] = set_(socket, choice, {key: value})
    sent["html"] = set_(socket, line, {"value": "<script>1</script>"})
    sent["layout"] = set_(socket, layout, {"width": "1px"})
    sent["children"] = set_(socket, vbox, {"children": []})
    sent["a shut box"] = set_(socket, shut, {"value": str(tmp_path / "shut")})
    sent["opening a shut box"] = set_(socket, shut, {"disabled": False})
    for model in ("0" * 32, "", "../x", None, 3, ["a"], {"a": 1}):
        sent[f"model {model!r}"] = set_(socket, model, {"value": 1})
    for content in ({"event": "submit"}, {"event": "click", "code": "1"}, "click", None, ["click"], {}):
        sent[f"button {content}"] = socket.send("comm_msg", {"comm_id": button, "data": {"method": "custom", "content": content}})
    for model in (slider, box, choice, line):
        sent[f"custom to {model}"] = socket.send("comm_msg", {"comm_id": model, "data": {"method": "custom", "content": {"event": "click"}}})
    for method in ("eval", "open", "request_states", "backbone", None, 1, ["update"]):
        sent[f"method {method}"] = socket.send("comm_msg", {"comm_id": slider, "data": {"method": method, "state": {"value": 1}}})
    for state in (None, [], "value", 3, {}, [["value", 1]]):
        sent[f"state {state!r}"] = set_(socket, slider, state)
    for content in (None, [], "x", 3, {}, {"comm_id": slider}, {"comm_id": slider, "data": None}, {"comm_id": slider, "data": []}):
        sent[f"content {content!r}"[:40]] = socket.send("comm_msg", content)
    for header in ({"msg_type": None}, {"msg_type": ["execute_request"]}, {"msg_id": None}, {"msg_id": "a" * 500}, {"msg_id": "é"}, {"session": 3}):
        socket.send("comm_msg", {"comm_id": slider, "data": {"method": "update", "state": {"value": 1}}}, **header)
    return {what: id_ for what, id_ in sent.items() if id_}


def frames() -> list[bytes | str]:
    from anglelib.visitors.frames import put

    good = put("shell", [b'{"msg_type":"execute_request","msg_id":"a","session":"b"}', b"{}", b"{}", b'{"code":"1"}'])
    twice = b'{"msg_type":"execute_request","msg_type":"kernel_info_request","msg_id":"a","session":"b"}'
    legacy = json.dumps({"channel": "shell", "header": {"msg_type": "execute_request", "msg_id": "a", "session": "b"}, "parent_header": {}, "metadata": {}, "content": {"code": "1"}})
    deep = b"[" * 60_000 + b"]" * 60_000
    return [
        b"", b"\0", b"\xff" * 8, b"\xff" * 4000, (2**63).to_bytes(8, "little") + b"\0" * 100, good[:40], good + b"more", good[8:], b"\0" * 70_000,
        put("shell", [twice, b"{}", b"{}", b'{"code": "1"}']), put("shell", [deep[:50_000], b"{}", b"{}", deep[:10_000]]), put("shell", [b"{}"]),
        put("shell", [b"\xff\xfe", b"{}", b"{}", b"{}"]), put("shell", [b"null"] * 4), put("shell", [b"[]"] * 4), legacy, "", "{", "null", "[" * 50_000, good,
    ]  # fmt: skip


def test_nothing_else_gets_through(socket, by_kind, home, tmp_path):
    sent = hostile(socket, by_kind, tmp_path)
    for frame in frames():
        socket.raw(frame)
        time.sleep(0.02)
    socket.hear(1)
    assert [what for what, id_ in sent.items() if socket.answered(id_) and "shut box" not in what] == []
    shut = [(type_, content) for type_, parent, content in socket.heard if parent.get("msg_id") in (sent["a shut box"], sent["opening a shut box"])]
    assert shut == [("status", {"execution_state": "idle"})] * 2, "a control that is shut goes on once it is open again"
    slider = by_kind["IntSliderModel"][0][0]
    set_(socket, slider, {"value": 9})
    assert says(socket, by_kind, "9 of 10"), "the page itself goes on"
    heard = {of["data"]["state"]["value"] for type_, _, of in socket.heard if type_ == "comm_msg" and of["comm_id"] == heard_by(by_kind) and of["data"].get("state")}
    assert heard <= {"7 of 10", "pressed", "chose b", "typed", "refused PermissionError", "9 of 10"}
    assert list(tmp_path.iterdir()) == [] and [path.name for path in home.iterdir() if not path.name.startswith(".")] == ["mine.txt"]
    after = {id_: model["state"] for id_, model in socket.models().items()}
    for kind, models in by_kind.items():
        for id_, state in models:
            unlike = {key for key in state if state[key] != after[id_].get(key)}
            assert unlike <= {"value", "index"}, (kind, unlike)
    assert after.keys() == {id_ for models in by_kind.values() for id_, _ in models}, "a widget was made, or one is gone"


def test_it_is_said_once(course, socket, by_kind):
    for _ in range(2):
        socket.send("execute_request", {"code": "1"})
    assert until(lambda: "Something that no control sends" in course.said)
    socket.hear(0.3)
    assert course.said.count("Something that no control sends") == 1


def test_who_sends_too_much_is_slowed_and_nobody_else(visitor, kernel, by_kind):
    """However slow the machine is: no more than at once, and what the time since allows; on a quiet one that is less than was sent."""
    from anglelib.visitors.socket import AT_ONCE, PER_SECOND

    begun = time.monotonic()
    other = Socket(visitor, kernel)
    ids = [other.send("kernel_info_request", {}) for _ in range(int(AT_ONCE) * 2)]
    other.hear(PATIENCE, lambda *_: sum(type_ == "kernel_info_reply" for type_, *_ in other.heard) >= AT_ONCE * 0.9)
    other.hear(0.5)
    allowed = AT_ONCE + PER_SECOND * (time.monotonic() - begun)
    assert sum(map(other.answered, ids)) <= allowed
    other.connection.close()


ASKED = [
    ("GET", "/api/kernels"), ("POST", "/api/kernels"), ("GET", "/api/sessions"), ("POST", "/api/sessions"), ("GET", "/api/contents"),
    ("GET", "/api/contents/notebooks/00_start_here.ipynb"), ("PUT", "/api/contents/a.txt"), ("GET", "/api/terminals"), ("POST", "/api/terminals"),
    ("GET", "/api/kernelspecs"), ("GET", "/api/config/notebook"), ("GET", "/api/status"), ("GET", "/api/me"), ("GET", "/terminals/websocket/1"),
    ("POST", "/api/shutdown"), ("GET", "/voila/api/contents"), ("GET", "/voila/api/contents/notebooks"), ("GET", "/voila/tree"), ("GET", "/voila/tree/notebooks"),
    ("GET", "/tree"), ("GET", "/lab"), ("GET", "/files/notebooks/00_start_here.ipynb"), ("GET", "/voila/files/notebooks/00_start_here.ipynb"),
    ("GET", "/voila/files/../mine.txt"), ("GET", "/voila/files/figures/..%2F..%2Fmine.txt"), ("GET", "/voila/render/notebooks/instructor.ipynb"),
    ("GET", "/voila/render/notebooks/my_own.ipynb"), ("GET", "/voila/render/notebooks/..%2F..%2Fa.ipynb"), ("GET", "/voila/render/"),
    ("GET", "/voila/static/..%2F..%2F..%2Fapp.py"), ("GET", "/voila/templates/lab/static/..%2F..%2Findex.html.j2"), ("GET", "/voila/templates/..%2F../static/a"),
    ("GET", "/voila/labextensions/..%2F..%2Fetc"), ("GET", "/voila/api/themes/..%2F..%2Fx"), ("GET", "/voila/execution/0-0-0-0-0"), ("GET", "/voila/query/0-0-0-0-0"),
    ("GET", "/login"), ("POST", "/login"), ("GET", "/logout"), ("GET", "/wall"), ("GET", "/static/a.js"), ("GET", "/metrics"), ("GET", "/hub/api"),
]  # fmt: skip


def test_the_server_gives_out_nothing_else(course, visitor, kernel, home):
    body = b'{"type": "file", "format": "text", "content": "pwned", "password": "x", "new_password": "y"}'
    for method, path in ASKED:
        status, text = visitor.ask(method, path, body if method in ("POST", "PUT") else None)
        assert status in (403, 404, 405), (method, path, status)
        assert str(home) not in text and course.token not in text and "Traceback" not in text
    own = f"/api/kernels/{kernel}"
    for method, path in (("DELETE", own), ("PUT", own), ("POST", own), ("POST", f"{own}/interrupt"), ("POST", f"{own}/restart"), ("GET", f"{own}/x")):
        assert visitor.ask(method, path, b"{}" if method != "DELETE" else None)[0] in (403, 404, 405), (method, path)
    assert visitor.ask("GET", own)[0] == 200
    assert visitor.ask("GET", "/voila/files/figures/a.png") == (200, "a picture")
    with suppress(ConnectionError):  # hung up on
        assert visitor.ask("POST", "/", b"token=" + b"a" * 100_000)[0] in (400, 413), "a long body is read"
    assert [path.name for path in home.iterdir() if not path.name.startswith(".")] == ["mine.txt"]


def test_a_template_of_a_visitors_own_is_not_taken(visitor):
    _, text = visitor.page("00_start_here.ipynb?template=classic&theme=dark")
    assert "A shared page" in text and '"jupyterLabTheme": "light"' in text


def test_nobody_gets_at_anothers_page(course, kernel):
    from websocket import WebSocketBadStatusException

    for other in (Visitor(course.url), Visitor(course.url, course.code)):
        assert other.ask("GET", f"/api/kernels/{kernel}")[0] in (403, 404)
        assert other.ask("POST", f"/voila/api/shutdown/{kernel}", b"")[0] in (403, 404)
        with pytest.raises(WebSocketBadStatusException) as refused:
            Socket(other, kernel)
        assert refused.value.status_code in (403, 404)


def test_the_code_opens_the_door_and_nothing_else_does(course):
    stranger = Visitor(course.url)
    for path in ("/voila/render/notebooks/00_start_here.ipynb", "/voila/static/voila.js", "/voila/files/figures/a.png"):
        status, text = stranger.ask("GET", path)
        assert status == 403 or "Code" in text and "00 Start here" not in text, path
    for wrong in (course.token, "", "x", course.code[:-1], "%00", "a" * 300):
        assert "00 Start here" not in stranger.ask("GET", f"/?token={wrong}")[1]
    assert stranger.ask("GET", "/api/kernels", Authorization=f"token {course.code}")[0] == 404
    status, text = stranger.ask("POST", "/", f"token={course.code.replace('-', ' ').upper()}".encode())
    assert status == 200 and "00 Start here" in text and "token" not in stranger.arrived
    assert "instructor" not in text
    owner = Visitor(course.owner)
    assert owner.ask("GET", f"/wall?token={course.code}")[0] == 200 and "login" in owner.arrived, "the visitors' code opens the owner's pages"


@pytest.mark.skipif(os.name != "posix", reason="looks at command lines with ps")
def test_neither_token_nor_code_is_on_a_command_line_or_in_the_environment(course, kernel):
    import psutil

    family = [one for one in psutil.process_iter(["pid", "cmdline"]) if one.pid == course.process.pid]
    family += family[0].children(recursive=True)
    seen = [" ".join(one.cmdline()) for one in family]
    assert any("visitors.kernel" in line for line in seen) and any("visitors.server" in line for line in seen)
    code = course.code.replace("-", "")
    assert not any(course.token in line or code in line or course.code in line for line in seen)
    if sys.platform == "linux":
        server = next(one for one in family if "anglelib.visitors.server" in one.cmdline())
        visitors = [server, *server.children(recursive=True)]
        for one in family[1:]:
            environment = one.environ()
            assert course.token not in str(environment) and code not in str(environment)
            assert one not in visitors or "A_SECRET" not in environment  # the owner's own kernels know what the owner's shell knows
        assert any("visitors.kernel" in " ".join(one.cmdline()) for one in visitors)


def test_the_owner_has_the_sheet_for_the_wall(course):
    owner = Visitor(course.owner)
    status, text = owner.ask("GET", f"/wall?token={course.token}")
    assert status == 200 and course.url in text and course.code in text and "<svg" in text and "workshop's own network" in html.unescape(text)
    assert "login" in (Visitor(course.owner).ask("GET", "/wall")[1]) and course.code not in Visitor(course.owner).ask("GET", "/wall")[1]


def test_a_full_house_says_so_and_makes_room_for_who_waits(course, visitor, kernel):
    """Three places: a fourth page is told so; a page that one has left oneself makes room."""
    ann, bob = Visitor(course.url, course.code), Visitor(course.url, course.code)
    connected = [Socket(visitor, kernel)]
    while True:
        status, text = ann.ask("GET", "/voila/render/notebooks/00_start_here.ipynb")
        if status != 200:
            break
        connected.append(Socket(ann, re.search(r'"kernelId": "([\w-]+)"', text)[1]))
    assert status == 503 and "All places are taken" in text and "3 pages are open" in text and len(connected) <= 3
    assert bob.ask("GET", "/voila/render/notebooks/00_start_here.ipynb")[0] == 503
    connected.pop().connection.close()
    assert until(lambda: ann.ask("GET", "/voila/render/notebooks/00_start_here.ipynb")[0] == 200), "one's own page that was left makes room"
