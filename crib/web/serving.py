"""Serving the bench page: where it listens, who may ask, and every way that this can fail in a sentence."""

from __future__ import annotations

import errno
import ipaddress
import secrets
import socket
from contextlib import suppress

from crib.findings.errors import CribError
from crib.web.bench import Bench

PORT = 8737
HERE = "127.0.0.1"
EVERYWHERE = "0.0.0.0"
_PORTS = range(1, 65536)


def listening(host: str, port: int) -> socket.socket:
    """A socket that listens there. Raises `CribError` where that can't be."""
    if not host.strip():
        raise CribError("host", "the address to listen at is empty", host, "leave --host out, or --on-the-network")
    if port not in _PORTS:
        raise CribError("port", f"{port} is not a port", str(port), "a number from 1024 to 65535")
    try:
        [family, kind, protocol, _, where] = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0]
    except (OSError, UnicodeError) as error:
        raise CribError("host", f"there is no address {host!r}", host, "--on-the-network finds it out") from error
    listener = socket.socket(family, kind, protocol)
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind(where)
        listener.listen(64)
    except OSError as error:
        listener.close()
        raise _not_there(host, port, error) from error
    return listener


def _not_there(host: str, port: int, error: OSError) -> CribError:
    if error.errno == errno.EADDRINUSE:
        return CribError("port", f"port {port} is taken: is another bench page open already?", str(port),
                         f"crib bench --port {port + 1}")
    if error.errno == errno.EACCES:
        return CribError("port", f"port {port} is kept for the system", str(port), f"crib bench --port {PORT}")
    if error.errno == errno.EADDRNOTAVAIL:
        return CribError("host", f"this machine has no address {host}", host, "--on-the-network finds it out")
    return CribError("port", f"nothing can listen at {host}:{port}: {(error.strerror or str(error)).lower()}",
                     f"{host}:{port}", f"crib bench --port {PORT + 1}")


def own_address() -> str:
    """This machine's address in its network. Raises `CribError` where it is in none."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        try:
            asking.connect(("192.0.2.1", 9))  # an address for documentation (RFC 5737): nothing is sent to it
            address = str(asking.getsockname()[0])
        except OSError as error:
            raise CribError("network", "this machine is in no network", "", "join one, or leave out --on-the-network"
                            ) from error
    return address


def is_here(host: str) -> bool:
    """Whether only this machine reaches it.

    >>> is_here("127.0.0.1"), is_here("localhost"), is_here("::1"), is_here("192.168.1.4"), is_here("mill")
    (True, True, True, False, False)
    """
    if host == "localhost":
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False


def _is_everywhere(host: str) -> bool:
    try:
        return ipaddress.ip_address(host).is_unspecified
    except ValueError:
        return False


def bench_at(host: str, port: int, crib: str | None, units: str | None) -> Bench:
    """The bench that is asked at an address; beyond this machine with a new key."""
    named = own_address() if _is_everywhere(host) else host
    shown = f"[{named}]" if ":" in named else named
    names = {f"{name}:{port}" for name in (shown, HERE, "localhost", "[::1]")}
    if port == 80:
        names |= {name.removesuffix(":80") for name in names}
    key = "" if is_here(host) else secrets.token_urlsafe(15)
    return Bench(crib, units, frozenset(name.lower() for name in names), key, f"http://{shown}:{port}/")


def serve(bench: Bench, listener: socket.socket) -> None:
    """Answer until it is ended."""
    import gc

    gc.disable()  # as in `crib.cli.main`: imports make no garbage
    import uvicorn

    from crib.web import home, templates
    from crib.web.site import site

    templates.load(home.PAGE)
    gc.freeze()
    gc.enable()
    config = uvicorn.Config(site(bench), log_config=None, log_level="warning", access_log=False, lifespan="off",
                            server_header=False, ws="none", loop="asyncio", http="h11", limit_concurrency=64,
                            timeout_keep_alive=5, timeout_graceful_shutdown=2)
    with suppress(KeyboardInterrupt):  # that is how it is ended
        uvicorn.Server(config).run(sockets=[listener])
