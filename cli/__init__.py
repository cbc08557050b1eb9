"""Arguments in, files out: the `hookfold` command."""

from . import booklet, colours, pages
from .commands import main
from .picture import picture

main.add_command(picture)

__all__ = ["booklet", "colours", "main", "pages"]
