"""The pages of the service."""

from service.routes import landing, processes

__all__ = ["landing", "processes"]
