"""Arguments in, files out: the `hookfold` command."""

from . import pages
from .commands import main

__all__ = ["main", "pages"]
