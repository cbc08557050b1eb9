"""One browser for all: Debian's chromium through Playwright. Without either the checks are skipped, and say so."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from hookfold.charts import engrave
from hookfold.charts.setting import Setting

ROOT = Path(__file__).parents[2]
ALL_CHECKS = bool(os.environ.get("HOOKFOLD_ALL_CHECKS"))
NAMES = ("chromium", "chromium-browser", "google-chrome")
PHONE, DESK = {"width": 390, "height": 844}, {"width": 1280, "height": 800}


def missing(what: str) -> None:
    if ALL_CHECKS:
        pytest.fail(f"{what} is not installed, and all checks were asked for")
    pytest.skip(f"{what} is not installed: pages are not looked at in a browser")


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """The browser of this run."""
    path = next(filter(None, map(shutil.which, NAMES)), None)
    if path is None:
        missing("chromium")
    try:
        from playwright.sync_api import sync_playwright
    except ImportError:
        missing("playwright")
    with sync_playwright() as player:
        found = player.chromium.launch(executable_path=path, args=["--no-sandbox", "--disable-gpu"])
        yield found
        found.close()


@dataclass
class Opened:
    """A page with everything that went on in it: what it asked the network for, and what it stumbled over."""

    page: Any
    asked: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)


@pytest.fixture
def opened(browser: Any) -> Iterator[Callable[..., Opened]]:
    """Opens a file as a phone does, unless told otherwise; no page may stumble or ask for anything."""
    contexts: list[Any] = []
    every: list[Opened] = []

    def open_page(file: Path, viewport: dict[str, int] = PHONE, **more: Any) -> Opened:
        context = browser.new_context(viewport=viewport, has_touch=True, **more)
        context.set_default_timeout(4000)
        contexts.append(context)
        out = Opened(context.new_page())
        out.page.on("request", lambda request: out.asked.append(request.url))
        out.page.on("pageerror", lambda fault: out.faults.append(str(fault)))
        out.page.on("console", lambda said: out.faults.append(said.text) if said.type == "error" else None)
        out.page.goto(file.as_uri())
        every.append(out)
        return out

    yield open_page
    for context in contexts:
        context.close()
    for out in every:
        assert out.faults == []
        assert [url for url in out.asked if not url.startswith(("file:", "data:"))] == []


@pytest.fixture(scope="session")
def follow_page(tmp_path_factory: pytest.TempPathFactory) -> Callable[..., Path]:
    """Writes the page of a pattern, once for each."""
    folder = tmp_path_factory.mktemp("follow")
    made: dict[object, Path] = {}

    def write(text: str, name: str, setting: Setting | None = None) -> Path:
        key = (text, name, setting)
        if key not in made:
            made[key] = folder / f"{len(made)}.html"
            made[key].write_bytes(engrave.follow(text, name, setting or Setting()))
        return made[key]

    return write


@pytest.fixture(scope="session")
def gallery_page(follow_page: Callable[..., Path]) -> Callable[[str], Path]:
    """The page of a piece or a fabric of the gallery, by its name."""

    def write(name: str) -> Path:
        file = ROOT / "gallery" / name
        text = file.read_text("utf-8")
        terms = "UK" if 'terms   = "UK"' in text or text.startswith("Terms: UK") else "US"
        return follow_page(text, name, Setting(terms=terms))

    return write
