"""The bench runs, writes the same ink as plain strings, and reports its ratios; no time is asserted."""

import re

import writer


def paths(svg: bytes) -> list[str]:
    return re.findall(r' d="([^"]+)"', svg.decode())


def test_ours_and_plain_strings_write_the_same_ink(record_property: object) -> None:
    assert paths(writer.ours(rows=4)) == paths(writer.plain(rows=4))
    for name, ratio in writer.ratios(rows=8).items():
        record_property(name, round(ratio, 2))  # type: ignore[operator]
        assert ratio > 0.0


def test_shared_rows_have_as_many_strokes() -> None:
    moves = [sum(d.count(c) for c in "mM") for d in paths(writer.shared(rows=2))]
    assert moves == [1 + 3 * writer.ROW, 1 + 2 * writer.ROW]
