"""What the books say, clause by clause, and nothing of ours: one file a subject and standard."""

__all__: list[str] = []
