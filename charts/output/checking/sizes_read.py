"""Which of the sizes of a pattern is read, and a pattern file in one of its sizes."""

from __future__ import annotations

from collections.abc import Sequence

from ...errors import Unable
from ...made_late import replace
from ...pattern.file.records import Pattern


class SizeUnknown(Unable):
    """A size that a text does not give."""


def all_names(count: int, named: Sequence[str]) -> tuple[str, ...]:
    """What each of the sizes is called: its name, or its place where the text names none; () where there is one."""
    if count < 2:
        return ()
    return tuple(named[i] if i < len(named) else str(i + 1) for i in range(count))


def which(names: Sequence[str], asked: str) -> int:
    """The place (from 0) of a size asked for by its name, by the beginning of it, or by its place from 1.

    >>> which(("small", "medium", "large"), "M"), which(("small", "medium", "large"), "3")
    (1, 2)
    """
    low = " ".join(asked.lower().split())
    if not names:
        raise SizeUnknown("the text gives one size only; leave --size out")
    if low in names:
        return names.index(low)
    begun = [at for at, name in enumerate(names) if low and name.startswith(low)]
    if len(begun) == 1 and not low.isdigit():
        return begun[0]
    if low.isdecimal() and 1 <= int(low[:9]) <= len(names):
        return int(low) - 1
    says = f'the text gives {len(names)} sizes ({", ".join(names)}), and "{asked}" is none of them'
    raise SizeUnknown(f"{says}; try --size {names[0] if ' ' not in names[0] else 1}")


def of_size(pattern: Pattern, asked: str) -> Pattern:
    """A pattern file in one of its sizes, by its name, the beginning of it, or its place from 1: measured and titled
    so; the file's own object where `asked` is ""."""
    if not asked:
        return pattern
    if not pattern.sizes:
        raise SizeUnknown("the pattern gives one size only; leave --size out")
    names = tuple(pattern.sizes)
    name = names[which(tuple(name.lower() for name in names), asked)]
    return replace(pattern, object=pattern.sizes[name], title=f"{pattern.title}, size {name}")
