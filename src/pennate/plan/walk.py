"""State of the search for a good week: what one change does to worth, time and rules."""

from __future__ import annotations

import math
from collections.abc import Sequence

from pennate.core.evidence.dose import CHANGEOVER_S
from pennate.core.muscles import GROUP_SHARES
from pennate.core.week_effect import session_worth
from pennate.plan.problem import PARTS, TRACKED, PlanProblem, Scheme, Selection

SLACK = 1e-6  # number: rounding of floating sums
MISSING_SET = 3.0
"""Price of a missing set while searching: more than any set is worth."""
MISSING_EXERCISE = 10.0

Move = Sequence[tuple[int, int, int]]
"""Day, option, and the sets it shall have; 0 takes it out."""


class Walk:
    """A week under change. `apply` makes a move and returns whether it keeps the rules."""

    def __init__(self, problem: PlanProblem) -> None:
        self.problem = problem
        rules = problem.rules
        self.per = [option.per_set for option in problem.options]
        self.fixed = [option.fixed for option in problem.options]
        names = {name: number for number, name in enumerate(problem.exercises)}
        self.members = [tuple(names[one] for one in o.exercises) for o in problem.options]
        self.net = [problem.change.of(name) for name in problem.exercises]
        self.must = [MISSING_EXERCISE * (name in rules.required) for name in problem.exercises]
        self.family = [option.family for option in problem.options]
        self.families = dict.fromkeys(self.family, 0)
        self.days: list[dict[int, int]] = [{} for _ in problem.days]
        self.dose = [[0.0] * len(problem.days) for _ in range(TRACKED)]
        self.total = [0.0] * TRACKED
        self.worth = [[0.0] * len(problem.days) for _ in range(TRACKED)]
        self.part_value = [math.sqrt(done) for done in problem.done]
        self.above = [0.0] * TRACKED
        self.seconds = [-CHANGEOVER_S] * len(problem.days)
        self.on_day = [[0] * len(names) for _ in problem.days]
        self.in_week = [0] * len(names)
        self.schemes = [dict.fromkeys(Scheme, 0) for _ in problem.days]
        self.groups = _asked_groups(problem)
        self.session_caps = [cap + SLACK for cap in rules.session_cap]
        self.close_caps = [cap + SLACK for cap in rules.close_cap]
        self.week_caps = [cap + SLACK for cap in rules.week_cap]
        behind = sum(w * v for w, v in zip(problem.worth, self.part_value, strict=True))
        self.value = behind - problem.change.kept_cost - self._missing() - sum(self.must)

    def _missing(self) -> float:
        return sum(
            MISSING_SET * max(0.0, least - sum(s * self.total[p] for p, s in shares))
            for shares, least, _ in self.groups
        )

    def set_to(self, day: int, option: int, sets: int) -> float:
        """Give an option its sets on a day; returns the change of soft costs and rewards."""
        problem = self.problem
        one, before = problem.options[option], self.days[day].get(option, 0)
        if sets:
            self.days[day][option] = sets
        else:
            self.days[day].pop(option, None)
        change = -one.set_cost * (sets - before)
        step = bool(sets) - bool(before)
        self.seconds[day] += one.set_s * (sets - before) + (one.fixed_s + CHANGEOVER_S) * step
        for part, dose in self.per[option]:
            more = dose * (sets - before)
            self.dose[part][day] += more
            self.total[part] += more
        if step:
            change -= one.stop_cost * step
            self.schemes[day][one.scheme] += step
            for part, dose in self.fixed[option]:
                self.dose[part][day] += dose * step
                self.total[part] += dose * step
            change += self._count(day, option, step)
        return change

    def _count(self, day: int, option: int, step: int) -> float:
        change = 0.0
        if self.family[option]:
            self.families[self.family[option]] += step
        for name in self.members[option]:
            self.on_day[day][name] += step
            was, now = self.in_week[name], self.in_week[name] + step
            self.in_week[name] = now
            if bool(was) != bool(now):
                change += step * (self.net[name] + self.must[name])
        return change

    def try_move(self, move: Move) -> tuple[float, list[tuple[int, int, int]]] | None:
        """Make a move; its gain and the way back, or None (nothing changed) if it breaks rules."""
        back = [(day, option, self.days[day].get(option, 0)) for day, option, _ in move]
        missing = self._missing() if self.groups else 0.0
        gain = sum(self.set_to(day, option, sets) for day, option, sets in move)
        touched = {part for _, option, _ in move for part, _ in self.per[option]}
        if not (self._days_stand(move) and self._parts_stand(touched)):
            for day, option, sets in reversed(back):
                self.set_to(day, option, sets)
            return None
        gain += self._reprice(move, touched)
        if self.groups:
            gain += missing - self._missing()
        return gain, back

    def undo(self, back: Move) -> None:
        """Take a move back."""
        for day, option, sets in reversed(back):
            self.set_to(day, option, sets)
        self._reprice(back, {part for _, option, _ in back for part, _ in self.per[option]})

    def _reprice(self, move: Move, touched: set[int]) -> float:
        gain = self._ease(touched)
        days = {day for day, _, _ in move}
        for part in touched:
            price = self.problem.worth[part]
            if not price:
                continue
            worth, dose = self.worth[part], self.dose[part]
            for day in days:
                worth[day] = session_worth(dose[day]) if dose[day] > SLACK else 0.0
            value = math.sqrt(self.problem.done[part] + sum(worth))
            gain += price * (value - self.part_value[part])
            self.part_value[part] = value
        return gain

    def _ease(self, touched: set[int]) -> float:
        """What less load of joints on two days in a row is worth."""
        rules, gain = self.problem.rules, 0.0
        for joint in touched:
            mark = rules.close_mark[joint]
            if mark == math.inf:
                continue
            dose = self.dose[joint]
            above = sum(max(0.0, dose[a] + dose[b] - mark) for a, b in self.problem.close)
            gain += rules.close_price * (self.above[joint] - above)
            self.above[joint] = above
        return gain

    def _days_stand(self, move: Move) -> bool:
        rules = self.problem.rules
        for day in {day for day, _, _ in move}:
            schemes = self.schemes[day]
            stops = len(self.days[day])
            if (
                self.seconds[day] > self.problem.seconds[day] + SLACK
                or stops + schemes[Scheme.SUPERSET] > rules.exercises_a_day
                or schemes[Scheme.SUPERSET] > rules.supersets_a_day
                or schemes[Scheme.DROPS] > rules.drops_a_day
            ):
                return False
        for day, option, sets in move:
            if sets:
                if self.families[self.family[option]] > 1:
                    return False
                for name in self.members[option]:
                    if self.on_day[day][name] > 1 or self.in_week[name] > rules.days_an_exercise:
                        return False
        return sum(map(bool, self.days)) <= rules.sessions

    def _parts_stand(self, touched: set[int]) -> bool:
        for part in touched:
            if self.total[part] > self.week_caps[part]:
                return False
            dose, cap = self.dose[part], self.session_caps[part]
            if max(dose) > cap:
                return False
            cap = self.close_caps[part]
            for a, b in self.problem.close:
                if dose[a] + dose[b] > cap:
                    return False
        for shares, _, most in self.groups:
            if sum(share * self.total[part] for part, share in shares) > most + SLACK:
                return False
        return True

    def selection(self) -> Selection:
        """The week as it stands."""
        return tuple(tuple(sorted(day.items())) for day in self.days)


def _asked_groups(problem: PlanProblem) -> list[tuple[list[tuple[int, float]], float, float]]:
    rules = problem.rules
    asked = [group for group in GROUP_SHARES if group in rules.least or group in rules.most]
    return [
        (
            [(PARTS.index(part), float(share)) for part, share in GROUP_SHARES[group].items()],
            rules.least.get(group, 0.0),
            rules.most.get(group, math.inf),
        )
        for group in asked
    ]
