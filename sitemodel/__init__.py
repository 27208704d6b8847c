"""The roof and everything on it: pure functions, no network, no web."""
