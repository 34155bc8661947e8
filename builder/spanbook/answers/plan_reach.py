"""What could ever come to be where, on the way to a goal: what is not among it cannot be had at all."""

from __future__ import annotations

from collections.abc import Mapping

from spanbook.answers.plan_costs import Leading
from spanbook.answers.plan_search import Search
from spanbook.answers.steps import Step


def reachable(search: Search) -> dict[str, set[str | None]]:
    """What each position that the goal depends on could ever come to hold.

    What was reached once is taken to stay within reach, so it is never less than is true, and may be more.
    """
    leading: dict[str, Leading] = {}
    reached: dict[str, set[str | None]] = {}
    waiting = [position for position, to in search.wanted.items() if search.holds.get(position) != to]
    grown = True
    while grown:
        for position in waiting:
            if position not in leading:
                leading[position] = search.leading(position)
                reached[position] = {search.holds[position]} if position in search.holds else set()
                if not search.is_plain(position):
                    reached[position].add(None)
        steps = [step for at in leading.values() for each in at.values() for step in each]
        asked = {at for step in steps for at in step.touches | {need.position for need in step.needs}}
        waiting = sorted(asked - leading.keys())
        grown = bool(waiting)
        for step in steps:
            for change in step.changes:
                at = change.position
                if at in reached and change.to not in reached[at] and _could_be_taken(step, reached):
                    reached[at].add(change.to)
                    grown = True
    return reached


def _could_be_taken(step: Step, reached: Mapping[str, set[str | None]]) -> bool:
    begun = (
        not change.start or not reached.get(change.position, set()).isdisjoint(change.start)
        for change in step.changes
    )
    met = (not reached.get(need.position, set()).isdisjoint(need.assemblies) for need in step.asks)
    return all(begun) and all(met)
