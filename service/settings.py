"""What the environment may change, under one prefix; read when an app is made, never at import."""

import ipaddress
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from sitemodel.errors import InputError, InputErrors

PREFIX = "SIPROOF_"
SHORTEST_KEY = 16
LARGEST_BODY_ALLOWED = 100_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """The service as it runs.

    ``key`` empty: no key is asked for, and only a loopback address may be bound.
    """

    host: str = "127.0.0.1"
    port: int = 8000
    key: str = ""
    largest_body: int = 20_000_000
    """Bytes of a request."""
    jobs: Path = Path("out") / "jobs"
    """Accepted briefs are stored here before they are answered."""
    at_once: int = 2
    """Designs that run at the same time; the next ones wait."""

    @property
    def needs_key(self) -> bool:
        """Whether every request must carry the key."""
        return bool(self.key)


def read_settings(environment: Mapping[str, str], *, host: str = "", port: str = "") -> Settings:
    """Settings from the environment; what is given on the command line comes first.

    Raises:
        InputErrors: unknown names under the prefix, values out of range, another host without a key.
    """
    usual = Settings()
    found: list[InputError] = []
    known = {"HOST", "PORT", "KEY", "LARGEST_BODY", "JOBS", "AT_ONCE"}
    for name in sorted(environment):
        if name.startswith(PREFIX) and name.removeprefix(PREFIX) not in known:
            allowed = ", ".join(PREFIX + item for item in sorted(known))
            found.append(InputError(name, given="an unknown setting", allowed=allowed))
    stated = {name: environment.get(PREFIX + name, "") for name in known}
    settings = Settings(
        host=host or stated["HOST"] or usual.host,
        port=_whole("PORT", port or stated["PORT"], usual.port, 0, 65535, found),
        key=stated["KEY"],
        largest_body=_whole(
            "LARGEST_BODY", stated["LARGEST_BODY"], usual.largest_body, 1000, LARGEST_BODY_ALLOWED, found
        ),
        jobs=Path(stated["JOBS"]) if stated["JOBS"] else usual.jobs,
        at_once=_whole("AT_ONCE", stated["AT_ONCE"], usual.at_once, 1, 64, found),
    )
    found += _refuse_open_door(settings)
    if found:
        raise InputErrors(tuple(found))
    return settings


def is_loopback(host: str) -> bool:
    """Whether a host name or address stays within this machine.

    Example:
        >>> is_loopback("127.0.0.1"), is_loopback("::1"), is_loopback("localhost"), is_loopback("0.0.0.0")
        (True, True, True, False)
    """
    if host == "localhost":
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False


def _whole(name: str, text: str, usual: int, low: int, high: int, found: list[InputError]) -> int:
    if not text:
        return usual
    if text.isascii() and text.isdigit() and len(text) < 12 and low <= int(text) <= high:
        return int(text)
    found.append(InputError(PREFIX + name, given=repr(text[:40]), allowed=f"a whole number from {low} to {high}"))
    return usual


def _refuse_open_door(settings: Settings) -> list[InputError]:
    found = []
    if settings.key and (len(settings.key) < SHORTEST_KEY or not settings.key.isascii()):
        allowed = f"at least {SHORTEST_KEY} characters, ASCII"
        found.append(InputError(f"{PREFIX}KEY", given=f"{len(settings.key)} characters", allowed=allowed))
    if not settings.key and not is_loopback(settings.host):
        allowed = f"a loopback address such as 127.0.0.1, or a key in {PREFIX}KEY that every request must carry"
        found.append(InputError(f"{PREFIX}HOST", given=repr(settings.host[:60]), allowed=allowed))
    return found
