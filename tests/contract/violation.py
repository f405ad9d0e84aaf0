from dataclasses import dataclass


@dataclass(frozen=True)
class Violation:
    """One line that breaks a rule, and what would be right."""

    path: str
    line: int
    right: str

    def __str__(self) -> str:
        return f"{self.path}:{self.line}: {self.right}"
