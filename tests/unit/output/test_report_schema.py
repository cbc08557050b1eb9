"""What `check --json` prints is what its schema says."""

from pathlib import Path

import jsonschema
import pytest
from hookfold.charts import engrave
from hookfold.charts.output.checking.report_schema import report_schema

GALLERY = Path(__file__).parents[3] / "gallery"
FILES = sorted([*GALLERY.glob("*/pattern.toml"), *GALLERY.glob("fabrics/*.txt")])
BROKEN = "Terms: US\nCh 10.\nRow 1: Sc in 2nd ch from hook and in each ch across. (8 sc)\nRow 2: Ch 1, wob in next sc."


def test_the_schema_is_one():
    jsonschema.Draft202012Validator.check_schema(report_schema())


@pytest.mark.parametrize("file", FILES, ids=[f"{f.parent.name}/{f.name}" for f in FILES])
def test_reports_of_the_gallery_hold(file):
    report = engrave.check(file.read_text("utf-8"), file.name).as_json()
    jsonschema.validate(report, report_schema(), jsonschema.Draft202012Validator)
    assert report["ok"] and report["rows"]


def test_a_report_of_problems_holds_and_a_wrong_one_does_not():
    report = engrave.check(BROKEN, "broken.txt").as_json()
    jsonschema.validate(report, report_schema(), jsonschema.Draft202012Validator)
    assert not report["ok"] and len(report["problems"]) >= 2
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({**report, "rows": [{"label": "Row 1"}]}, report_schema())
