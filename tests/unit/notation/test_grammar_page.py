"""The page of the grammar: a slip in it would only leave rows unread, so it is looked through here."""

import inspect
import re
from pathlib import Path

from hookfold.charts.pattern.notation import engine, words
from hookfold.charts.pattern.notation.meanings.repeating import Meanings

PRODUCTIONS = [p for all_ in engine.grammar().productions.values() for p in all_]
CODE = Path(words.__file__).parents[1]


def kinds_in_code() -> set[str]:
    """The kinds of words that are given by code and not by the page of words."""
    texts = (p.read_text("utf-8") for folder in ("notation", "written") for p in (CODE / folder).rglob("*.py"))
    return {kind for text in texts for kind in re.findall(r'"([A-Z][A-Z_]*)"', text)}


def test_every_kind_of_word_can_be_there():
    known = {kind for entries in words.vocabulary().values() for kind, _ in entries} | kinds_in_code()
    used = {(kind, p.line) for p in PRODUCTIONS for e in p.elements for kind in e.kinds}
    assert sorted((line, kind) for kind, line in used if kind not in known) == []


def test_every_name_is_told():
    names = engine.grammar().productions
    assert sorted((p.line, n) for p in PRODUCTIONS for e in p.elements for n in e.names if n not in names) == []


def is_given_what_it_takes(production: engine.Production) -> bool:
    """Whether every part kept is an argument, and an argument without a default is always kept."""
    arguments = dict(inspect.signature(getattr(Meanings, production.meaning)).parameters)
    arguments.pop("self")
    open_ended = any(a.kind is a.VAR_KEYWORD for a in arguments.values())
    needed = {n for n, a in arguments.items() if a.default is a.empty and a.kind is not a.VAR_KEYWORD}
    kept = {e.keep for e in production.elements if e.keep}
    sure = {e.keep for e in production.elements if e.keep and not e.optional}
    return (kept <= set(arguments) or open_ended) and needed <= sure


def test_the_meaning_takes_what_is_kept():
    assert [production for production in PRODUCTIONS if not is_given_what_it_takes(production)] == []
