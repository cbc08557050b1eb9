"""A folder of patterns on one page: pictures first, the chart beside each, sizes, and what else was made of it."""

from __future__ import annotations

from collections.abc import Sequence

from ...drawing.plain import clean_line
from ...made_late import dataclass
from ...model.rows.working import Worked
from ...setting import Setting
from ..piece import Piece, heading_of
from .page import static_page, tag, text
from .thumbnail import thumbnail


@dataclass(frozen=True, slots=True)
class Card:
    """A pattern on the page. `picture` and `links` (label, where) lead from the page; `wrong` says what is the matter
    with a pattern that cannot be worked."""

    title: str
    byline: str = ""
    facts: tuple[tuple[str, str], ...] = ()
    chart: str = ""
    picture: str = ""
    links: tuple[tuple[str, str], ...] = ()
    wrong: str = ""


def card_of_piece(piece: Piece, setting: Setting) -> Card:
    """A pattern file's card: its heading, its chart, and how many rows it has."""
    heading = heading_of(piece, setting)
    byline = ", ".join(each for each in (heading.author, heading.licence) if each)
    facts = (*heading.facts(setting), ("Rows", f"{piece.plan.rows} of {piece.plan.stitches} stitches"))
    colours = ", ".join(f"{c.letter} {c.name}" for c in piece.pattern.used_colours)
    facts += (("Colours", colours),) if colours else ()
    return Card(heading.title, byline, facts, thumbnail(piece.fabric, f"Chart of {clean_line(heading.title)}"))


def card_of_written(worked: Worked, title: str) -> Card:
    """A written pattern's card: its chart, rows and stitches."""
    rows = [row for piece in worked.pieces for row in piece.fabric.rows]
    called = "Rounds" if rows and all(row.is_round for row in rows) else "Rows"
    most = max((row.row.made for row in rows), default=0)
    facts = (("Terms", worked.pattern.terms), (called, f"{len(rows)}, the widest of {most} stitches"))
    drawn = thumbnail(worked.fabric, f"Chart of {clean_line(title)}") if worked.fabric.start != "edge" else ""
    return Card(title, "", facts, drawn)


def gallery_page(cards: Sequence[Card], title: str) -> bytes:
    """The page, without a script; those that cannot be worked stand last."""
    ordered = sorted(cards, key=lambda card: (bool(card.wrong), not card.picture))
    fields = {
        "title": text(title), "count": text(_counted(len(cards))),
        "cards": "".join(_card(card) for card in ordered),
    }  # fmt: skip
    return static_page("gallery.html", ("page.css", "gallery.css"), fields)


def _counted(cards: int) -> str:
    return f"{cards} pattern{'' if cards == 1 else 's'}"


def _card(card: Card) -> str:
    pictures = tag("img", "", src=card.picture, alt=f"Picture of {card.title}", loading="lazy").replace("</img>", "")
    shown = (pictures if card.picture else "") + card.chart
    parts = [tag("div", shown, class_="shown two" if card.picture and card.chart else "shown") if shown else ""]
    parts.append(tag("h2", text(card.title)))
    parts.append(tag("p", text(card.byline), class_="byline") if card.byline else "")
    parts.append(tag("p", text(card.wrong), class_="error") if card.wrong else "")
    facts = "".join(tag("dt", text(label)) + tag("dd", text(value)) for label, value in card.facts)
    parts.append(tag("dl", facts) if facts else "")
    links = "".join(tag("li", tag("a", text(label), href=where)) for label, where in card.links)
    parts.append(tag("ul", links) if links else "")
    return tag("article", "".join(parts))
