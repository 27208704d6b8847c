"""The site model asked over HTTP or from a shell."""
