"""The written SVG subset, and a checker that returns every violation.

The subset is what four renderers draw alike: paths, a background rectangle, groups, their titles, and letters that are
defined once and laid down by their ids. No script, link, style sheet, filter, mask, pattern, marker, live text,
percentage, or reference outside the file.
"""

from __future__ import annotations

import re
from xml.etree import ElementTree

SVG = "http://www.w3.org/2000/svg"
_LANG, _HREF = "{http://www.w3.org/XML/1998/namespace}lang", "{http://www.w3.org/1999/xlink}href"
_NUMBER = r"-?\d+(?:\.\d{1,3})?"
_NUMBERS = re.compile(rf"{_NUMBER}(?: {_NUMBER})*")
_COLOUR = re.compile(r"#[0-9a-f]{6}|none")
_MM = re.compile(r"\d+(?:\.\d{1,3})?mm")
_ID = re.compile(r"[a-z][a-z0-9-]*")
_PLACE = re.compile(rf"(?:(?:translate\({_NUMBER} {_NUMBER}\)|rotate\({_NUMBER}\))(?: (?!$)|$))+")
_WORDS = re.compile(r"(?s).+")
_PATH = re.compile(rf"M{_NUMBER} {_NUMBER}(?:[MLmlCcQq]{_NUMBER}(?: {_NUMBER})*|[Zz])*")

#: Each element of the subset, with its attributes and what each may be.
SUBSET: dict[str, dict[str, re.Pattern[str]]] = {
    "svg": {
        "width": _MM, "height": _MM, "viewBox": _NUMBERS, "role": re.compile("img"),
        "version": re.compile("1.1"), "baseProfile": re.compile("full"), _LANG: re.compile("[a-z]{2}(-[A-Z]{2})?"),
    },
    "title": {},
    "desc": {},
    "g": {
        "id": _ID, "fill": _COLOUR, "transform": _PLACE, "font-size": _NUMBERS, "font-weight": re.compile("bold"),
        "aria-label": _WORDS,
    },
    "defs": {},
    "use": {_HREF: re.compile(r"#[a-z][a-z0-9-]*"), "x": _NUMBERS},
    "rect": {"x": _NUMBERS, "y": _NUMBERS, "width": _NUMBERS, "height": _NUMBERS, "fill": _COLOUR},
    "path": {
        "d": _PATH, "fill": _COLOUR, "stroke": _COLOUR, "stroke-width": _NUMBERS,
        "stroke-linecap": re.compile("round|butt"), "stroke-linejoin": re.compile("round"),
        "stroke-dasharray": _NUMBERS, "id": _ID, "transform": _PLACE,
    },
}  # fmt: skip


def violations(svg: bytes) -> list[str]:
    """Everything in a file that leaves the subset, in the order of the file; empty for a clean one."""
    try:
        root = ElementTree.fromstring(svg)
    except ElementTree.ParseError as error:
        return [f"not well formed: {error}"]
    found = [*_declared(svg), *_root(root), *_twice([e.get("id") for e in root.iter()]), *_unknown(root)]
    for element in root.iter():
        found += _element(element)
    return found


def _declared(svg: bytes) -> list[str]:
    """A document type could bring entities from outside."""
    return ["a document type declaration"] if b"<!" in svg else []


def _root(root: ElementTree.Element) -> list[str]:
    """The root states its size, what it is, and is painted before anything else is drawn."""
    drawn = [e for e in root if _name(e) not in ("title", "desc", "defs")]
    box = root.get("viewBox", "").split()
    found = [] if _name(root) == "svg" else [f"the root is {_name(root)}"]
    found += [] if root.get("role") == "img" else ["the root does not say role img"]
    found += [] if _name(next(iter(root), root)) == "title" else ["the root does not begin with a title"]
    sides = [root.get("width", "").removesuffix("mm"), root.get("height", "").removesuffix("mm")]
    found += [] if box == ["0", "0", *sides] else ["the viewBox is not the size in mm"]
    page = drawn[0] if drawn else None
    covers = [page.get("width"), page.get("height")] == sides if page is not None else False
    painted = page is not None and _name(page) == "rect" and covers
    return found + ([] if painted else ["the first thing drawn is not the page's background"])


def _unknown(root: ElementTree.Element) -> list[str]:
    """What is laid down is defined before, so that every renderer has it."""
    found, defined = [], set()
    for element in root.iter():
        before, _, name = element.get(_HREF, "").partition("#")
        late = bool(name) and not before and name not in defined
        found += [f"{name} is laid down but not defined before"] if late else []
        defined.add(element.get("id", ""))
    return found


def _twice(ids: list[str | None]) -> list[str]:
    seen: set[str] = set()
    found = []
    for name in filter(None, ids):
        found += [f"the id {name} is used twice"] if name in seen else []
        seen.add(name)
    return found


def _element(element: ElementTree.Element) -> list[str]:
    name = _name(element)
    if name not in SUBSET:
        return [f"<{name}> is not in the subset"]
    allowed = SUBSET[name]
    found = []
    for key, value in element.attrib.items():
        if key not in allowed:
            found.append(f'<{name}> may not have "{key}"')
        elif not allowed[key].fullmatch(value):
            found.append(f'<{name}> has {key}="{value[:60]}"')
    return found


def _name(element: ElementTree.Element) -> str:
    return element.tag.removeprefix("{" + SVG + "}")
