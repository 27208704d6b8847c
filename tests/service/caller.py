"""A caller of an app without a socket: httpx over ASGI, one request at a time."""

from collections.abc import AsyncIterator
from dataclasses import dataclass
from typing import Any

import anyio
import httpx
from fastapi import FastAPI


@dataclass(frozen=True)
class Caller:
    """Requests to one app under one name."""

    app: FastAPI
    base: str = "http://127.0.0.1:8000"

    def __call__(self, method: str, path: str, **said: Any) -> httpx.Response:
        """One request; ``pieces`` is a body that does not say how long it is."""
        pieces: list[bytes] | None = said.pop("pieces", None)

        async def body() -> AsyncIterator[bytes]:
            for piece in pieces or []:
                yield piece

        async def ask() -> httpx.Response:
            transport = httpx.ASGITransport(app=self.app, raise_app_exceptions=False)
            async with httpx.AsyncClient(transport=transport, base_url=self.base) as client:
                if pieces is not None:
                    return await client.request(method, path, content=body(), **said)
                return await client.request(method, path, **said)

        return anyio.run(ask)

    def get(self, path: str, **said: Any) -> httpx.Response:
        """GET."""
        return self("GET", path, **said)

    def head(self, path: str) -> httpx.Response:
        """HEAD."""
        return self("HEAD", path)

    def post(self, path: str, **said: Any) -> httpx.Response:
        """POST."""
        return self("POST", path, **said)

    def delete(self, path: str) -> httpx.Response:
        """DELETE."""
        return self("DELETE", path)
