"""The command that prints a booklet, and the photograph on its cover."""

import io

import pytest
from click.testing import CliRunner
from hookfold.cli import main
from PIL import Image
from pypdf import PdfReader

TEXT = "Terms: US\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRow 2: Ch 1, turn. Sc in each st across. (10 sc)\n"


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "scarf.txt").write_text(TEXT)
    return tmp_path


def run(*asked):
    return CliRunner().invoke(main, ["booklet", *asked])


def photo(path, size=(3000, 2000), **saved):
    Image.new("RGB", size, "#7a5b3c").save(path, **saved)


def test_a_booklet_is_written(folder):
    assert run("scarf.txt", "-o", "scarf.pdf").exit_code == 0
    assert len(PdfReader(folder / "scarf.pdf").pages) >= 3


def test_only_pdf_can_be_written(folder):
    done = run("scarf.txt", "-o", "scarf.svg")
    assert done.exit_code == 2 and not (folder / "scarf.svg").exists()


def test_the_photograph_is_made_small_and_says_nothing_of_where_it_was_taken(folder):
    exif = Image.Exif()
    exif.get_ifd(0x8825)[1] = "N"
    exif[0x010F] = "Camera of Perpetua"
    photo(folder / "p.jpg", exif=exif)
    assert run("scarf.txt", "-o", "out.pdf", "--photo", "p.jpg").exit_code == 0
    (found,) = [image for page in PdfReader(folder / "out.pdf").pages for image in page.images]
    assert max(Image.open(io.BytesIO(found.data)).size) <= 1600
    assert b"Perpetua" not in (folder / "out.pdf").read_bytes()


@pytest.mark.parametrize(("name", "data", "says"), [
    ("p.jpg", b"not a picture", "no JPEG or PNG picture"), ("p.jpg", None, "cannot be read"),
    ("p.gif", b"GIF89a", "no JPEG or PNG picture"),
])  # fmt: skip
def test_what_is_no_photograph_is_told_and_nothing_is_written(folder, name, data, says):
    if data is not None:
        (folder / name).write_bytes(data)
    done = run("scarf.txt", "-o", "out.pdf", "--photo", name)
    assert done.exit_code == 2 and says in done.output
    assert not (folder / "out.pdf").exists()
