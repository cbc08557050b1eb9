"""Arguments in, files out: the `hookfold` command."""

try:
    from . import booklet, colours, pages
    from .commands import main
    from .picture import picture
except KeyboardInterrupt:
    # Stopped while it was still being loaded: 130 is how a shell names that (128 and SIGINT).
    raise SystemExit(130) from None

main.add_command(picture)

__all__ = ["booklet", "colours", "main", "pages"]
