"""The checker finds what leaves the subset; one fault a file."""

import pytest
from hookfold.charts.drawing.checker import violations

GOOD = (
    '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="10mm" height="20mm" viewBox="0 0 10 20" role="img">'
    '<title>t</title><rect x="0" y="0" width="10" height="20" fill="#ffffff"/>{}</svg>'
)

FAULTS = {
    "<script>x</script>": "<script> is not in the subset",
    "<text>x</text>": "<text> is not in the subset",
    "<style>path{}</style>": "<style> is not in the subset",
    '<path d="M0 0L1 1" filter="url(#a)"/>': 'may not have "filter"',
    '<path d="M0 0L1 1" onclick="x()"/>': 'may not have "onclick"',
    '<path d="M0 0A1 1 0 0 0 1 1"/>': "has d=",
    '<path d="M0 0L1.23456 1"/>': "has d=",
    '<path d="M0 0L-0 1e3"/>': "has d=",
    '<path d="M0 0" fill="red"/>': "has fill=",
    '<path d="M0 0" fill="url(#x)"/>': "has fill=",
    '<path d="M0 0" stroke-width="50%"/>': "has stroke-width=",
    '<path d="M0 0" transform="matrix(1 0 0 1 0 0)"/>': "has transform=",
    '<g id="Row 1"/>': "has id=",
    '<g id="a"/><g id="a"/>': "used twice",
    "<g style=\"fill:red\"/>": 'may not have "style"',
    '<image href="x.png"/>': "<image> is not in the subset",
    '<use xlink:href="other.svg#a"/>': "has {http://www.w3.org/1999/xlink}href=",
    '<use xlink:href="#late"/>': "late is laid down but not defined before",
}  # fmt: skip


def test_a_clean_file_has_no_violations() -> None:
    path = '<g id="row-1"><path d="M0 0L1 1Q1 2 3 4C1 2 3 4 5 6Zm1 1l2 2z" fill="none" stroke="#000000"/></g>'
    assert violations(GOOD.format(path).encode()) == []


@pytest.mark.parametrize("fault", FAULTS)
def test_a_fault_is_found(fault: str) -> None:
    found = violations(GOOD.format(fault).encode())
    assert len(found) == 1
    assert FAULTS[fault] in found[0]


def test_every_fault_is_listed() -> None:
    assert len(violations(GOOD.format("".join(FAULTS)).encode())) == len(FAULTS)


@pytest.mark.parametrize(
    ("before", "after", "says"),
    [
        ("<svg", "<!DOCTYPE svg><svg", "document type"),
        (' role="img"', "", "role img"),
        ("<title>t</title>", "", "begin with a title"),
        ('viewBox="0 0 10 20"', 'viewBox="0 0 100 200"', "viewBox"),
        ('width="10" height="20"', 'width="9" height="20"', "background"),
        ("</svg>", "", "not well formed"),
    ],
)
def test_the_root_is_checked(before: str, after: str, says: str) -> None:
    found = violations(GOOD.format("").replace(before, after, 1).encode())
    assert any(says in line for line in found)
