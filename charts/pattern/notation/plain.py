"""Text as it may enter, and in one kind of dash, quote and case, letter for letter as long as before."""

from __future__ import annotations

import unicodedata

_DASHES = dict.fromkeys(map(ord, "‐‑‒–—―−"), "-")
_QUOTES = {
    ord("’"): "'", ord("‘"): "'", ord("“"): '"', ord("”"): '"', ord("″"): '"', ord("′"): "'", ord("\u00a0"): " ",
    ord("\t"): " ", ord("×"): "x", ord("✕"): "x", ord("＊"): "*", ord("∗"): "*", ord("⁎"): "*", ord("✽"): "*",
    ord("★"): "*", ord("☆"): "*", ord("…"): "-", ord("→"): "-", ord("⇒"): "-", ord("½"): " ",
}  # fmt: skip
_BARRED = ("Cc", "Cf", "Cs", "Co", "Cn")


def plain(text: str) -> str:
    """The text with one kind of dash, quote and space, in lower case, letter for letter as long as before."""
    same = text.translate(_DASHES).translate(_QUOTES)
    low = same.lower()
    return low if len(low) == len(same) else "".join(small if len(small := c.lower()) == 1 else c for c in same)


def clean(text: str) -> str:
    """Text as it may enter: composed letters, line ends as newline, no control or direction characters."""
    text = unicodedata.normalize("NFC", text.replace("\r\n", "\n").replace("\r", "\n"))
    barred = {ord(c): None for c in set(text) if c not in "\n\t" and unicodedata.category(c) in _BARRED}
    return text.translate(barred)
