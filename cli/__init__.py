"""Arguments in, files out: the `hookfold` command."""

from .commands import main

__all__ = ["main"]
