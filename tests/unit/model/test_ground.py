"""What is looked for on a row is looked for once, however often it is asked."""

from __future__ import annotations

from collections.abc import Iterator

from hookfold.charts.model.cloth.fabric import Row, Stitch
from hookfold.charts.model.cloth.ground import Ground, Slot


class Counted(tuple[Slot, ...]):
    """Slots that count how often somebody goes through them."""

    gone = 0

    def __iter__(self) -> Iterator[Slot]:
        Counted.gone += 1
        return super().__iter__()


def test_whether_there_are_spaces_is_looked_for_once() -> None:
    for made, expected in ((Stitch("ch", role="chain", chains=2), True), (Stitch("dc"), False)):
        Counted.gone = 0
        ground = Ground(Row((made,)), Counted((Slot(0, made),)))
        assert [ground.has_spaces for _ in range(5)] == [expected] * 5
        assert Counted.gone == 1
