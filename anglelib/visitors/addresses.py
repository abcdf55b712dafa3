"""The addresses that this computer has on the networks around it, and the one to share at: the workshop's own, as far as that can be told.

>>> at = (At("192.168.1.20", "wlan0"), At("10.9.0.2", "tun0"))
>>> chosen(at, None, "192.168.1.20").address
'192.168.1.20'
>>> chosen((), None, "")
Traceback (most recent call last):
    ...
anglelib.errors.BenchError: This computer is on no network: connect it to the workshop's own (its Wi-Fi, or a cable), then start again.
"""

from __future__ import annotations

import ipaddress
import socket
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass

from anglelib.errors import BenchError
from anglelib.names import visible

NOT_THE_WORKSHOPS = ("docker", "br-", "veth", "virbr", "vmnet", "vboxnet", "tun", "tap", "utun", "wg", "ppp", "tailscale", "zt")
"""How the connections are called that lead to machines inside this one, or far away."""
ALONE = "this computer alone"
"""What stands for the connection of an address that nobody else reaches."""
NO_NETWORK = "This computer is on no network: connect it to the workshop's own (its Wi-Fi, or a cable), then start again."
NOT_PRIVATE = (
    "Every address that this computer has is open to the whole internet ({}), so the course is not shared by itself: "
    "connect the computer to the workshop's own network. Whoever knows that no stranger reaches the address names it with --address."
)
NOT_HERE = "--address {} is no address of this computer{}"


@dataclass(frozen=True)
class At:
    """An address of this computer, and the connection that has it."""

    address: str
    connection: str

    @property
    def private(self) -> bool:
        """Whether only a network of its own reaches it, not the whole internet."""
        return ipaddress.ip_address(self.address).is_private

    @property
    def in_url(self) -> str:
        """As an address of a page has it.

        >>> At("fd00::2", "eth0").in_url
        '[fd00::2]'
        """
        return f"[{self.address}]" if ":" in self.address else self.address


def addresses() -> tuple[At, ...]:
    """What this computer has: IPv4 first, loopback and the addresses that no router passes on left out, other machines' networks last."""
    import psutil

    up = {name for name, state in psutil.net_if_stats().items() if state.isup}
    found = []
    for name, given in psutil.net_if_addrs().items():
        for one in given:
            if name in up and one.family in (socket.AF_INET, socket.AF_INET6) and _counts(one.address):
                found.append(At(one.address, name))
    return tuple(sorted(found, key=lambda at: (at.connection.startswith(NOT_THE_WORKSHOPS), ":" in at.address, not at.private)))


def _counts(text: str) -> bool:
    try:
        address = ipaddress.ip_address(text)
    except ValueError:  # a link's own, with its connection behind a percent sign
        return False
    return not (address.is_loopback or address.is_link_local or address.is_multicast or address.is_unspecified)


def outward() -> str:
    """The address that this computer would send from, to another network; "" where it reaches none. Nothing is sent."""
    with suppress(OSError), socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
        asked.connect(("203.0.113.1", 9))  # an address that is in no network, kept for examples
        return asked.getsockname()[0]
    return ""


def chosen(found: Sequence[At], wanted: str | None, out: str) -> At:
    """The address to share at: the ``wanted`` one, else the one that leads ``out``, else the first that is private. BenchError where there is none."""
    if wanted is not None:
        return _named(found, wanted.strip())
    if not found:
        raise BenchError(NO_NETWORK)
    private = [at for at in found if at.private]
    if not private:
        raise BenchError(NOT_PRIVATE.format(", ".join(at.address for at in found)))
    near = [at for at in private if not at.connection.startswith(NOT_THE_WORKSHOPS)] or private
    return next((at for at in near if at.address == out), near[0])


def _named(found: Sequence[At], wanted: str) -> At:
    try:
        address = ipaddress.ip_address(wanted)
    except ValueError:
        address = None
    if address is not None and address.is_loopback:
        return At(str(address), ALONE)
    here = next((at for at in found if address is not None and ipaddress.ip_address(at.address) == address), None)
    if here is None:
        has = f". It has {', '.join(at.address for at in found)}." if found else ", which is on no network now."
        raise BenchError(NOT_HERE.format(visible(wanted)[:60], has))
    return here
