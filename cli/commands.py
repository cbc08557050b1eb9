"""The commands, a few lines each."""

from __future__ import annotations

import click


@click.group()
@click.version_option(package_name="hookfold")
def main() -> None:
    """Fitted crochet from one pattern file: counts, fit, chart, words, folding and joining diagram."""
