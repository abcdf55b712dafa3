"""What a visitor's page may send to its kernel: the values of controls that it was shown, and a press of its buttons; all else is dropped.

A page learns its models as the kernel tells them. What passes is not the message that came, but a new one, made of what was
understood of it: nothing else that stood in it gets further. Pure: no server here.

>>> page = Page()
>>> page.told("comm_open", {"comm_id": "ab12", "target_name": WIDGET, "data": {"state": {"_model_name": "IntSliderModel"}}})
>>> asked = {"comm_id": "ab12", "data": {"method": "update", "state": {"value": 3, "max": 10**9}}}
>>> page.judged("shell", {"msg_type": "comm_msg", "msg_id": "1", "session": "s"}, asked)
Refused(why='key')
>>> asked["data"]["state"].pop("max")
1000000000
>>> page.judged("shell", {"msg_type": "comm_msg", "msg_id": "1", "session": "s"}, asked).content
{'comm_id': 'ab12', 'data': {'method': 'update', 'state': {'value': 3}, 'buffer_paths': []}}
>>> page.judged("shell", {"msg_type": "execute_request", "msg_id": "2", "session": "s"}, {"code": "1"})
Refused(why='type')
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any
from unicodedata import category

WIDGET, CONTROL = "jupyter.widget", "jupyter.widget.control"
"""The names under which Jupyter's widgets, and the question for all of their states, are opened."""
LONGEST = 500
"""So many signs an entry takes from a visitor."""
LARGEST = 10**9
"""The largest number that one takes; a control's own range is narrower."""
CONTROLS = 4
"""So many questions for the states may be open at once."""
_ID = re.compile(r"[0-9A-Za-z-]{1,64}")
_MESSAGE = re.compile(r"[0-9A-Za-z_.:-]{1,128}")


def _text(value: Any, model: Model) -> bool:
    return type(value) is str and len(value) <= LONGEST and not any(category(sign) in ("Cc", "Cs") for sign in value)


def _whole(value: Any, model: Model) -> bool:
    return type(value) is int and abs(value) <= LARGEST


def _number(value: Any, model: Model) -> bool:
    return _whole(value, model) or type(value) is float and math.isfinite(value) and abs(value) <= LARGEST


def _truth(value: Any, model: Model) -> bool:
    return type(value) is bool


def _which(value: Any, model: Model) -> bool:
    return value is None or type(value) is int and 0 <= value < model.offered


SETTABLE: Mapping[str, tuple[str, Callable[[Any, Model], bool]]] = {
    "TextModel": ("value", _text),
    "IntSliderModel": ("value", _whole),
    "BoundedIntTextModel": ("value", _whole),
    "BoundedFloatTextModel": ("value", _number),
    "ToggleButtonModel": ("value", _truth),
    "CheckboxModel": ("value", _truth),
    "ToggleButtonsModel": ("index", _which),
    "SelectModel": ("index", _which),
}
"""By the kind of a control what a person sets in it, and what that may be."""
PRESSED = "ButtonModel"
PRESS = {"event": "click"}
NEEDLESS = {"ToggleButtonsModel": PRESS, "TextModel": {"event": "submit"}}
"""What these send beside their value, and nothing of ours listens to: dropped, and nothing strange."""


@dataclass(frozen=True)
class Model:
    """What is known of a control: its kind, whether it is out of reach, how many things it offers."""

    kind: str
    disabled: bool = False
    offered: int = 0

    def after(self, state: Mapping[str, Any]) -> Model:
        """The same once the kernel has changed its state."""
        labels = state.get("_options_labels")
        offered = len(labels) if isinstance(labels, list | tuple) else self.offered
        return Model(str(state.get("_model_name") or self.kind), bool(state.get("disabled", self.disabled)), offered)


@dataclass(frozen=True)
class Passed:
    """A message as the kernel gets it."""

    type: str
    id: str
    session: str
    content: dict[str, Any] = field(default_factory=dict)
    metadata: dict[str, Any] = field(default_factory=dict)


@dataclass(frozen=True)
class Refused:
    """Why a message is dropped, by id."""

    why: str


NEEDLESS_SENT, DISABLED, TOO_FAST = USUAL = ("needless", "disabled", "pace")
"""Why a page of ours may be refused something: ids of what is nothing strange."""


class _Dropped(Exception):
    pass


class Page:
    """One page of a visitor: the models that its kernel has told of, and the judgement of what it sends."""

    def __init__(self) -> None:
        self.models: dict[str, Model] = {}
        self.controls: set[str] = set()

    # --- what the kernel says ---------------------------------------------------------------------------
    def told(self, type_: str, content: Mapping[str, Any]) -> None:
        """The kernel has said this, to all or to the page that asked."""
        id_, data = content.get("comm_id", ""), content.get("data") or {}
        if type_ == "comm_open" and content.get("target_name") == WIDGET:
            self._new(id_, data.get("state", {}))
        elif type_ == "comm_info_reply":  # asked for where the states do not come at once
            for model, of in content.get("comms", {}).items():
                if of.get("target_name") == WIDGET:
                    self.models.setdefault(model, Model(""))
        elif type_ == "comm_close":
            self.models.pop(id_, None)
            self.controls.discard(id_)
        elif type_ == "comm_msg" and id_ in self.models and data.get("method") == "update":
            self.models[id_] = self.models[id_].after(data.get("state", {}))
        elif type_ == "comm_msg" and id_ in self.controls and data.get("method") == "update_states":
            for model, of in data.get("states", {}).items():
                self._new(model, {"_model_name": of.get("model_name"), **of.get("state", {})})

    def _new(self, id_: str, state: Mapping[str, Any]) -> None:
        self.models[id_] = Model(str(state.get("_model_name", ""))).after(state)

    # --- what the page says -----------------------------------------------------------------------------
    def judged(self, channel: Any, header: Any, content: Any) -> Passed | Refused:
        """The message as it may pass, or why it is dropped; whatever is sent, nothing is raised."""
        try:
            return self._judged(channel, header, content)
        except _Dropped as dropped:
            return Refused(str(dropped))
        except (KeyError, TypeError, AttributeError):
            return Refused("shape")

    def _judged(self, channel: Any, header: Any, content: Any) -> Passed:
        if channel != "shell":
            raise _Dropped("channel")
        type_, id_, session = header["msg_type"], header["msg_id"], header["session"]
        judge = _JUDGES.get(type_) if type(type_) is str else None
        if judge is None:
            raise _Dropped("type")
        if not (_MESSAGE.fullmatch(id_) and _MESSAGE.fullmatch(session)):
            raise _Dropped("shape")
        made, metadata = judge(self, content)
        return Passed(type_, id_, session, made, metadata)

    def _asks_what_there_is(self, content: Any) -> tuple[dict, dict]:
        return {"target_name": WIDGET}, {}

    def _asks_who_is_there(self, content: Any) -> tuple[dict, dict]:
        return {}, {}

    def _opens(self, content: Any) -> tuple[dict, dict]:
        id_ = content["comm_id"]
        if content["target_name"] != CONTROL:
            raise _Dropped("target")
        if not _ID.fullmatch(id_) or id_ in self.models or id_ in self.controls or len(self.controls) >= CONTROLS:
            raise _Dropped("model")
        self.controls.add(id_)
        return {"comm_id": id_, "target_name": CONTROL, "data": {}}, {"version": "1.0.0"}

    def _closes(self, content: Any) -> tuple[dict, dict]:
        id_ = content["comm_id"]
        if id_ not in self.controls:
            raise _Dropped("model")
        self.controls.discard(id_)
        return {"comm_id": id_, "data": {}}, {}

    def _says(self, content: Any) -> tuple[dict, dict]:
        id_, data = content["comm_id"], content["data"]
        method = data["method"]
        if id_ in self.controls:
            if method != "request_states":
                raise _Dropped("method")
            return {"comm_id": id_, "data": {"method": method}}, {}
        model = self.models.get(id_)
        if model is None:
            raise _Dropped("model")
        if method == "request_state":
            return {"comm_id": id_, "data": {"method": method}}, {}
        if model.disabled:
            raise _Dropped(DISABLED)
        if method == "custom":
            if data["content"] == NEEDLESS.get(model.kind):
                raise _Dropped(NEEDLESS_SENT)
            if model.kind != PRESSED or data["content"] != PRESS:
                raise _Dropped("custom")
            return {"comm_id": id_, "data": {"method": method, "content": dict(PRESS)}}, {}
        if method != "update":
            raise _Dropped("method")
        return {"comm_id": id_, "data": {"method": method, "state": _set(model, data["state"]), "buffer_paths": []}}, {}


_JUDGES: Mapping[str, Callable[[Page, Any], tuple[dict, dict]]] = {
    "kernel_info_request": Page._asks_who_is_there,
    "comm_info_request": Page._asks_what_there_is,
    "comm_open": Page._opens,
    "comm_close": Page._closes,
    "comm_msg": Page._says,
}
"""The only messages that there are for a visitor."""


def _set(model: Model, state: Any) -> dict[str, Any]:
    """The one value that a person set in a control."""
    key, fits = SETTABLE.get(model.kind, ("", _truth))
    if type(state) is not dict or set(state) != {key}:
        raise _Dropped("key")
    if not fits(state[key], model):
        raise _Dropped("value")
    return {key: state[key]}


HEARD = frozenset({"status", "comm_open", "comm_msg", "comm_close", "kernel_info_reply", "comm_info_reply"})
"""What a visitor's page hears of its kernel: no output, no error and no path of the computer that it runs on."""


class Pace:
    """How fast a page may send: so many messages a second, and as many at once as ``burst``."""

    def __init__(self, per_second: float, burst: float) -> None:
        self.per_second, self.burst, self.left, self.last = per_second, burst, burst, None

    def allows(self, now: float) -> bool:
        """Whether one more message may pass at this time [s]."""
        if self.last is not None:
            self.left = min(self.burst, self.left + (now - self.last) * self.per_second)
        self.last = now
        if self.left < 1:
            return False
        self.left -= 1
        return True
