"""The count behind a run of rows that grow or narrow: "Rows 2-5: dec at each end. 12 sc" is the last one's."""

from __future__ import annotations

from dataclasses import replace

from .working import Task, Tried, Working


def at_its_end(w: Working, task: Task, tried: Tried) -> Task:
    """The task of a row whose run changes by as many stitches a row as lead to its count in the last one, with the
    count left to that; else the task as it is."""
    text = task.text
    run = text.first <= task.number < text.last and not (text.stated_each or text.stated_at_end)
    if not run or not w.rows or tried.stuck is not None or not tried.off or len(task.stated) != 1:
        return task
    step = tried.row.made - w.base().made
    last = tried.row.made + step * (text.last - task.number)
    return replace(task, text=replace(text, stated_at_end=True)) if step and last == task.stated[0].count else task
