"""One HTML file from its parts: a frame, a style sheet and a script of the house, and what they are told.

What a pattern says goes in as text only: escaped where it stands in the page, and as data that no parser can take for
markup where the script reads it. The page's own policy lets exactly this style sheet and this script run, by their
digests, and nothing be fetched (Content Security Policy Level 3, W3C).
"""

from __future__ import annotations

import base64
import hashlib
import html
import json
from collections.abc import Iterable, Mapping
from importlib.resources import files
from string import Template

from ...drawing.plain import clean_text

#: Signs that a parser of HTML or of a script may take for an end of the data (HTML Standard, 4.12.1.3).
_ESCAPED = {ord(sign): f"\\u{ord(sign):04x}" for sign in "<>&\u2028\u2029"}
_ROOM = "hookfold.charts.output.pages"


def part(name: str) -> str:
    """A file of this room."""
    return files(_ROOM).joinpath(name).read_text("utf-8")


def page(frame: str, styles: Iterable[str], scripts: Iterable[str], data: object, fields: Mapping[str, str]) -> bytes:
    """A page: the frame with its fields filled in, style sheets, scripts and data inside. `fields` are markup already,
    made by `text` and `tag` from what the pattern says."""
    style, script = "\n".join(map(part, styles)), "\n".join(map(part, scripts))
    policy = "; ".join((
        "default-src 'none'", f"script-src {_digest(script)}", f"style-src {_digest(style)}", "img-src data:",
        "base-uri 'none'", "form-action 'none'",
    ))  # fmt: skip
    whole = Template(part(frame)).substitute(
        fields, policy=policy, style=style, script=script, data=as_data(data),
    )  # fmt: skip
    return whole.encode("utf-8")


def static_page(frame: str, styles: Iterable[str], fields: Mapping[str, str]) -> bytes:
    """A page without a script; it may show pictures that lie beside it."""
    style = "\n".join(map(part, styles))
    policy = "; ".join((
        "default-src 'none'", f"style-src {_digest(style)}", "img-src 'self' file: data:", "base-uri 'none'",
        "form-action 'none'",
    ))  # fmt: skip
    return Template(part(frame)).substitute(fields, policy=policy, style=style).encode("utf-8")


def _digest(inside: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(inside.encode('utf-8')).digest()).decode('ascii')}'"


def as_data(data: object) -> str:
    """Data for a script, in which no sign can end the element that holds it.

    >>> as_data(["</script>"])
    '["\\\\u003c/script\\\\u003e"]'
    """
    return json.dumps(data, ensure_ascii=False, separators=(",", ":")).translate(_ESCAPED)


def text(said: str) -> str:
    """What somebody wrote, as text in the page.

    >>> text('<b title="1">')
    '&lt;b title=&quot;1&quot;&gt;'
    """
    return html.escape(clean_text(said))


def tag(name: str, inside: str, **attributes: str) -> str:
    """An element around markup; attributes are escaped, and a "_" in a name is a hyphen (at its end, nothing)."""
    given = "".join(f' {key.rstrip("_").replace("_", "-")}="{text(value)}"' for key, value in attributes.items())
    return f"<{name}{given}>{inside}</{name}>"
