"""Arguments in, files out: the `hookfold` command."""

from . import pages
from .commands import main
from .picture import picture

main.add_command(picture)

__all__ = ["main", "pages"]
