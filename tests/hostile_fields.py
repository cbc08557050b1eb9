"""A pattern file with foreign text in every field that holds words, and what its outputs may not have more than one with
plain words: tags, addresses, scripts."""

from __future__ import annotations

import json
from html.parser import HTMLParser

FILE = """title = {0}
author = {1}
licence = {2}
terms = "US"
hook = "4 mm"
yarn = {{ category = 3, fibre = {3}, swatch_weight = "9.6 g", ball = "50 g / 115 m" }}
[gauge]
stitches = 20
rows = 20
over = "10 cm"
[object]
kind = "panel"
width = "60 mm"
height = "60 mm"
[colours]
A = {{ name = {4}, hex = "#455a64" }}
B = {{ name = {5}, hex = "#eceff1" }}
[[section]]
name = {6}
length = "30 mm"
colour = "A"
work = "Row 1: Ch 1, turn. Sc in each st across."
[[section]]
name = {7}
length = "rest"
stripes = ["A", "B"]
work = "Row 1: Ch 1, turn. Hdc in each st across."
[border]
stitch = "sc"
corner = 3
[sizes]
{8} = {{ width = "80 mm", height = "60 mm" }}
"""
#: Foreign text, by what it would be to a reader that took it for more than text.
HOSTILE = {
    "markup": "</script><script>alert(1)</script><img src=http://x.invalid/a onerror=alert(1)>&lt;&#60;",
    "comment": "--><!-- ]]><![CDATA[ <?xml ?> <!DOCTYPE x [<!ENTITY y SYSTEM 'http://x.invalid/'>]> &y;",
    "attribute": "\" onload=\"alert(1)\" x='1' href='javascript:alert(1)' `",
    "markdown": "# x | ![a](http://x.invalid/a.png) [b](javascript:alert(1)) <http://x.invalid> **c** `d` \\",
    "typesetting": '#import "x": * \n#eval("1") $x^2$ @ref <label> \\u{41} // /* ',
    "template": "${alert(1)} {{7*7}} {0} %s %(x)s $1 \\1 \\g<0>",
    "long": "wide-" * 30,
    "planes": "\u3fa1\U00013000\U00020001\U00030000\U0001f9f6\u00e9שלוםמणि",
}


def file_with(words: str) -> str:
    """The file with these words in every field, a number behind where two must differ."""
    words = words[:190]
    values = [words, words, words, words, f"{words} 1", f"{words} 2", f"{words} 1", f"{words} 2", f"{words} 3"]
    return FILE.format(*(json.dumps(value, ensure_ascii=False) for value in values))


class Tags(HTMLParser):
    """The tags of a page with the names of what they are given, and every address in it."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, tuple[str, ...]]] = []
        self.addresses: list[str] = []
        self.text: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, tuple(sorted(name for name, _ in attrs))))
        self.addresses += [value or "" for name, value in attrs if name in ("href", "src", "action", "xlink:href")]

    def handle_data(self, data: str) -> None:
        self.text.append(data)
