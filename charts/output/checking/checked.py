"""What checking finds: of a written pattern as worked, and of a pattern file's piece in all its sizes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ...errors import PatternError, Problem
from ...model.multiples.of_foundation import chain_multiple
from ...model.multiples.of_row import row_multiples
from ...model.rows.work import work_text
from ...model.rows.working import Worked
from ...pattern.text_kind import misnamed
from ...pattern.writer import write_special
from ...pattern.written.document import read_written
from .report import Report
from .sizes_read import all_names, which

if TYPE_CHECKING:
    from ...model.sizing.plan import Plan
    from ..piece import Piece


def refused(found: PatternError, name: str) -> Report:
    """The report on a text that could not be worked: its problems, each with its file."""
    return Report(name, tuple(p if p.file else p.in_file(name) for p in found.problems))


def checked_text(text: str, name: str, size: str) -> Report:
    """A written pattern worked, in the size asked for by name or by place ("": the first); Unable where it has none."""
    wrong = misnamed(text, name) or (None if text.strip() else _empty(name))
    if wrong is not None:
        return Report(name, (wrong,))
    at = _size_place(text, size) if size else 0
    worked = work_text(text, size=at)
    facts, says = _multiples_of(worked)
    problems = tuple(p.in_file(name) for p in worked.problems)
    terms, sizes = worked.pattern.terms, all_names(worked.sizes, worked.size_names)
    return Report(
        name, problems, tuple(worked.notes), worked.fabric, facts, tuple(says), worked.pieces, terms,
        worked.terms_why, worked.assumed, worked.prose, sizes, sizes[at] if sizes else "",
        tuple(write_special(s, terms, terms) for s in worked.pattern.specials),
    )  # fmt: skip


def _empty(name: str) -> Problem:
    remedy = "paste the pattern into it, save it, and check again."
    return Problem("file", "", "the file is empty.", remedy, file=name)


def _size_place(text: str, size: str) -> int:
    """Which of the text's sizes is asked for (from 0); Unable where it is none."""
    reading = read_written(text)
    return which(all_names(reading.sizes, reading.size_names), size)


def _multiples_of(worked: Worked) -> tuple[dict[str, object], list[str]]:
    """What the foundation and each row is a multiple of, as facts, and what is worth saying of the whole."""
    from ...layout.squares.grid import is_filet
    from ...model.cloth.tiles import rows_of_tiles

    facts: dict[str, object] = {}
    says = []
    multiple = chain_multiple(worked)
    if multiple is not None:
        facts["multiple"] = {"of": multiple.of, "plus": multiple.plus, "chain_plus": multiple.chain_plus}
        if multiple.of > 1:
            plus = f", plus {multiple.chain_plus}" if multiple.chain_plus else ""
            says.append(f"the foundation is a multiple of {multiple.of} chains{plus}")
    if is_filet(worked.fabric):
        says.append("it is filet: hookfold chart --style squares draws it as a numbered grid")
    if len(rows_of_tiles(worked.fabric)) == len(worked.fabric.rows):
        says.append("it is worked from corner to corner: hookfold chart --style squares draws a square to each block")
    rows = row_multiples(worked)
    facts["row_multiples"] = {worked.fabric.rows[at].label: {"of": m.of, "plus": m.plus} for at, m in rows.items()}
    return facts, says


def checked_piece(piece: Piece, name: str) -> Report:
    """A pattern file's piece: what is worth noting of it, its fit, and what keeps its other sizes from being made."""
    from ...model.sections.colours import colour_notes, unused_notes
    from ...model.sizing.fit import fit_json, fit_lines, fit_notes, size_json, worked_notes
    from ..size_words import sized_plans

    plan, pattern = piece.plan, piece.pattern
    unfit = refused(PatternError(sized_plans(pattern, piece.read)[1]), name).problems
    notes = (
        *pattern.notes,
        *piece.read.notes,
        *colour_notes(pattern.used_colours),
        *unused_notes(pattern),
        *fit_notes(plan, pattern),
        *worked_notes(plan, [r.row.made for r in piece.fabric.rows], [r.row.chains for r in piece.fabric.rows]),
    )
    multiple = {
        "of": plan.multiple_of,
        "plus": plan.multiple_plus,
        "chain_plus": (plan.multiple_plus + plan.chain_plus) % max(plan.multiple_of, 1),
    }
    facts = {"multiple": multiple, "size": size_json(plan), "fit": fit_json(plan)}
    return Report(name, unfit, notes, piece.fabric, facts, (_counts_line(plan), *fit_lines(plan)))


def _counts_line(plan: Plan) -> str:
    from ...pattern.file.kinds import OBJECT_KINDS

    row = "round" if OBJECT_KINDS[plan.kind].rounds else "row"
    sections = ", ".join(f"{s.name} {s.rows} {row}{'' if s.rows == 1 else 's'}" for s in plan.sections)
    begins = f"chain {plan.foundation}," if plan.foundation else "from a magic ring to"
    return f"{begins} {plan.stitches} stitches a {row}; {sections}"
