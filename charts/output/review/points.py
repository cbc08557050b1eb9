"""The points of a pattern file, in the order in which an editor reads."""

from __future__ import annotations

import itertools
import re
from collections.abc import Mapping, Sequence

from ...measure import show_length, show_metres
from ...model.rows.work import work_text
from ...model.sections.colours import DICHROMATS, LEAST_CONTRAST, LEAST_DIFFERENCE, contrast, difference
from ...model.sizing.fit import LEAST_SWATCH_MM, fit_lines
from ...model.sizing.yarn import YarnReport
from ...model.sizing.yarn_weights import gauge_note, hook_note
from ...pattern.lexicon import show_stitch
from ...pattern.writer import write_special
from ...setting import Setting
from .. import words
from ..checking.report import Report
from ..piece import Piece
from .point import ONE_SIDED, Found, Point

#: Steps from size to size that differ by more than this are not even: our own limit, no source.
MOST_UNEVEN = 2.0


def points_of(
    piece: Piece, checked: Report, sizes: Mapping[str, Piece], yarn: YarnReport, setting: Setting
) -> tuple[Point, ...]:
    """Every point of a pattern file that could be worked; `sizes` are its pieces in all sizes, smallest first."""
    page = _page(piece, setting)
    return (
        _counts(piece),
        _repeats(piece),
        _terms(piece, page),
        _used(piece, page, setting),
        _defined(piece, page),
        _read_back(piece, page),
        _swatch(piece),
        _gauge(piece),
        _hook(piece),
        _fit(piece, checked),
        *_sizes(sizes),
        _yarn(yarn, piece.plan.unit),
        _ends(yarn),
        *_colours(piece),
        _named(piece),
    )


def _page(piece: Piece, setting: Setting) -> list[str]:
    lines = [line.text for _, some in words.row_lines(piece.rows, piece.fabric, setting.terms) for line in some]
    return [line for line in words.foundation_words(piece.rows, piece.fabric, setting.terms) if line] + lines


def _counts(piece: Piece) -> Point:
    """Every row takes what the row below it makes, counted anew from the worked stitches; a row that leaves some of it
    is shaped, and a person looks at it."""
    rows = [worked.row for worked in piece.fabric.rows]
    made = [piece.plan.stitches, *(row.made + row.chains for row in rows)]
    later = zip(piece.fabric.rows[1:], made[1:], strict=False)
    left = [worked.label for worked, below in later if worked.row.takes != below]
    says = f"{len(rows)} rows, {sum(row.made for row in rows):,} stitches"
    says += f"; not all of the row below is taken by {', '.join(left[:4])}" if left else ""
    return Point("rows add up", "look" if left else "passed", says)


def _repeats(piece: Piece) -> Point:
    plan = piece.plan
    if plan.multiple_of <= 1:
        return Point("the foundation is a multiple of the repeat", "does not apply", "any number of stitches goes")
    times, left = divmod(plan.stitches - plan.multiple_plus, plan.multiple_of)
    says = f"{plan.stitches} = {times} x {plan.multiple_of} + {plan.multiple_plus}"
    return Point("the foundation is a multiple of the repeat", "failed" if left else "passed", says)


def _terms(piece: Piece, page: Sequence[str]) -> Point:
    """No word of the other terms in the file's own rows."""
    terms = piece.read.terms
    own = " ".join(section.work.text for section in piece.pattern.sections)
    strays = sorted(set(re.findall(ONE_SIDED.get(terms, "(?!)"), own, re.IGNORECASE)))
    says = f"{terms} terms" + (f", but the rows say {', '.join(strays)}" if strays else " throughout")
    return Point("one set of terms", "failed" if strays else "passed", says)


def _used(piece: Piece, page: Sequence[str], setting: Setting) -> Point:
    """Every abbreviation in the words stands in the list."""
    specials = [write_special(s, setting.terms, piece.rows.terms) for s in piece.rows.specials]
    listed = words.abbreviations(piece.rows, piece.fabric, setting.terms, " ".join([*page, *specials]))
    own = {s.abbreviation.lower() for s in piece.rows.specials}
    short = {re.sub(r"\(s\)$", "", one).lower() for one, _ in listed} | own
    kinds = {kind for worked in piece.fabric.rows for kind in worked.row.kinds()}
    missing = sorted(kind for kind in kinds if not _listed(kind, short, setting))
    says = f"{len(listed) + len(own)} listed" + (f"; not listed: {', '.join(missing)}" if missing else "")
    return Point("abbreviations used are explained", "failed" if missing else "passed", says)


def _listed(kind: str, short: set[str], setting: Setting) -> bool:
    shown = show_stitch(kind, setting.terms).lower()
    base = re.sub(r"\d+tog$", "", shown)
    return shown in short or (base in short and "tog" in short) or re.sub(r"^(?:fp|bp)", "", base) in short


def _defined(piece: Piece, page: Sequence[str]) -> Point:
    """Every special stitch that is explained is worked."""
    if not piece.pattern.specials:
        return Point("special stitches explained are used", "does not apply", "none is explained")
    text = " ".join(page)
    idle = [s.name for s in piece.pattern.specials if not re.search(rf"\b{re.escape(s.abbreviation)}", text, re.I)]
    says = f"{len(piece.pattern.specials)} explained" + (f"; not used: {', '.join(idle)}" if idle else ", all used")
    return Point("special stitches explained are used", "failed" if idle else "passed", says)


def _read_back(piece: Piece, page: Sequence[str]) -> Point:
    """The words that are printed, read again as a stranger's, make the rows that the chart draws."""
    terms = piece.read.terms
    specials = [write_special(s, terms, piece.rows.terms) for s in piece.rows.specials]
    begin, _ = words.foundation_words(piece.rows, piece.fabric, terms)
    lines = [
        words.show_line(piece.fabric, line)
        for _, some in words.row_lines(piece.rows, piece.fabric, terms)
        for line in some
    ]
    again = work_text("\n".join([f"Terms: {terms}", *specials, begin, *lines]))
    drawn, read = piece.fabric.rows, again.fabric.rows
    same = sum(a.row.kinds() == b.row.kinds() and a.row.made == b.row.made for a, b in zip(drawn, read, strict=False))
    held = same == len(drawn) == len(read) and not again.problems
    figure = f"{same} of {len(drawn)} rows alike"
    if again.problems:
        figure += f"; {again.problems[0].where}: {again.problems[0].says}"
    return Point("the words read back make the rows of the chart", "passed" if held else "failed", figure)


def _swatch(piece: Piece) -> Point:
    gauge = piece.pattern.gauge
    if gauge.estimated:
        return Point("gauge from a swatch", "failed", f"{gauge.words()}: work a swatch before publishing")
    small = gauge.over.mm < LEAST_SWATCH_MM - 0.5
    rows = "" if gauge.rows else "; rows were not counted"
    return Point("gauge from a swatch of 10 cm", "look" if small or rows else "passed", gauge.words() + rows)


def _gauge(piece: Piece) -> Point:
    pattern = piece.pattern
    category, what = pattern.yarn.category, "gauge plausible for the yarn"
    if category is None:
        return Point(what, "look", "the file says no yarn weight category")
    said = gauge_note(category, pattern.gauge, pattern.sections, pattern.terms)
    return Point(what, "look" if said else "passed", said[0] if said else f"usual for category {category}")


def _hook(piece: Piece) -> Point:
    pattern, what = piece.pattern, "hook plausible for the yarn"
    if pattern.yarn.category is None or pattern.hook_mm is None:
        missing = [name for name, given in (("hook", pattern.hook_mm), ("yarn weight category", pattern.yarn.category))
                   if given is None]  # fmt: skip
        return Point(what, "look", f"the file says no {' and no '.join(missing)}")
    said = hook_note(pattern.yarn.category, pattern.hook_mm)
    says = said[0] if said else f"{pattern.hook_mm:g} mm is usual for category {pattern.yarn.category}"
    return Point(what, "look" if said else "passed", says)


def _fit(piece: Piece, checked: Report) -> Point:
    notes = [note for note in checked.notes if note.where.startswith("Fit")]
    says = "; ".join(fit_lines(piece.plan)) + "".join(f"; {note.says}" for note in notes)
    return Point("the piece fits what it is for", "look" if notes else "passed", says)


def _sizes(sizes: Mapping[str, Piece]) -> list[Point]:
    """Sizes grow in every direction or stay, and by steps that are alike."""
    if len(sizes) < 2:
        return [Point("sizes in order and evenly graded", "does not apply", "there is one size")]
    every = [piece.plan for piece in sizes.values()]
    out = []
    for name in every[0].between_mm:
        mm = [plan.between_mm[name] for plan in every]
        steps = [b - a for a, b in itertools.pairwise(mm)]
        shown = ", ".join(show_length(one, every[0].unit) for one in mm)
        wrong = any(step < 0 for step in steps)
        positive = [step for step in steps if step > 0.5]
        uneven = len(positive) > 1 and max(positive) / min(positive) > MOST_UNEVEN
        found: Found = "failed" if wrong else "look" if uneven else "passed"
        more = ": it shrinks where others grow" if wrong else ": the steps are not alike" if uneven else ""
        out.append(Point(f"sizes in order and evenly graded, {name}", found, shown + more))
    return out


def _yarn(yarn: YarnReport, unit: str) -> Point:
    unknown = [need.letter or "the yarn" for need in yarn.needs if need.metres is None and need.grams is None]
    shown = "; ".join(
        f"{need.letter or 'yarn'} {show_metres(need.metres, unit)}" for need in yarn.needs if need.metres is not None
    )
    if unknown:
        return Point("yarn amounts", "failed", f"not known for {', '.join(unknown)}")
    how = "estimated: weigh a swatch" if yarn.estimated else "from a weighed swatch, with a share to spare"
    return Point("yarn amounts", "look" if yarn.estimated else "passed", f"{shown}; {how}")


def _ends(yarn: YarnReport) -> Point:
    ends = sum(need.ends for need in yarn.needs)
    return Point("ends to weave in", "look" if ends > 30 else "passed", f"{ends}")


def _colours(piece: Piece) -> list[Point]:
    """The pair of colours that lies nearest, to readers who see all of them and to those who do not, and in grey."""
    used = piece.pattern.used_colours
    if len(used) < 2:
        return [Point("colours told apart", "does not apply", "there is one colour")]
    out = []
    for reader in ("", *DICHROMATS):
        pairs = [(difference(a.hex, b.hex, reader), a, b) for a, b in itertools.combinations(used, 2)]
        least, a, b = min(pairs, key=lambda pair: pair[0])
        says = f"{a.name} and {b.name} are {least:.0f} apart ({LEAST_DIFFERENCE:.0f} is enough)"
        what = f"colours told apart by {reader or 'most'} readers"
        out.append(Point(what, "passed" if least >= LEAST_DIFFERENCE else "look", says))
    ratio = min(contrast(a.hex, b.hex) for a, b in itertools.combinations(used, 2))
    grey = f"contrast {ratio:.1f} : 1 ({LEAST_CONTRAST:.0f} : 1 is asked of graphics)"
    return [*out, Point("colours told apart in grey", "passed" if ratio >= LEAST_CONTRAST else "look", grey)]


def _named(piece: Piece) -> Point:
    pattern = piece.pattern
    asked = {"author": pattern.author, "licence": pattern.licence, "hook": pattern.hook, "fibre": pattern.yarn.fibre}
    missing = [what for what, value in asked.items() if not value]
    says = f"not said: {', '.join(missing)}" if missing else "author, licence, hook and fibre are said"
    return Point("what a buyer asks for", "look" if missing else "passed", says)

