"""The page of all constructs the reader understands, made from the tables of patterns and clauses.

Run: PYTHONPATH=tests python tests/unit/notation/constructs.py
"""

from __future__ import annotations

from notation_cases import NOTATION, table


def page() -> str:
    """The page as Markdown: single rows first, then whole patterns."""
    rows = [f"| {e['shows']} | `{e['row']}` | {made(e)} |" for e in table("clause")]
    patterns = [f"| {e['name']} | {e['construct']} |" for e in table("pattern")]
    deeper = [f"| {last_row(e)} | {e['shows']} |" for e in table("below")]
    return "\n".join(
        [
            "# What the reader understands", "",
            "Made from the tables beside this page; every line is a test.", "",
            "## Single rows", "", "| shows | row | makes |", "|---|---|---|", *rows, "",
            "## Whole patterns", "", "| pattern | shows |", "|---|---|", *patterns, "",
            "## Rows worked partly further down", "", "| row | shows |", "|---|---|", *deeper, "",
        ]
    )  # fmt: skip


def made(entry: dict) -> str:
    """What a row makes, in US names."""
    return ", ".join(f"{number} {kind}" for kind, number in entry["kinds"].items())


def last_row(entry: dict) -> str:
    """The row that a pattern is about."""
    label, _, words = entry["text"].strip().split("\n")[-1].partition(": ")
    return f"{label}: `{words}`"


if __name__ == "__main__":
    (NOTATION / "constructs.md").write_text(page(), "utf-8")
