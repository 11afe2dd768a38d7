"""Everything that can be wrong with a week file, and the sentence it must bring."""

from __future__ import annotations

HEAD = 'name = "Week"\n[[day]]\nday = "Monday"\n'
SQUAT = '[[day.exercise]]\nexercise = "back_squat_free"\n'
SETS = 'sets = [{ sets = 3, reps = "8-12" }]\n'
ONE = HEAD + SQUAT
NAMELESS = HEAD.removeprefix('name = "Week"\n')

BAD = {
    "unknown exercise": (
        f'{HEAD}[[day.exercise]]\nexercise = "back_squad"\n{SETS}',
        (
            "line 5, day 1, exercise 1, exercise: there is no exercise “back_squad”; "
            "did you mean “back_squat"
        ),
    ),
    "unknown variant": (
        f'{ONE}variant = "wid"\n{SETS}',
        (
            "line 6, day 1, exercise 1, variant: “back_squat_free” has no variant “wid”; "
            "did you mean “wide”?"
        ),
    ),
    "unknown key": (
        f'{ONE}equipement = "rack"\n{SETS}',
        (
            "line 6, day 1, exercise 1, equipement: unknown key “equipement”; "
            "did you mean “equipment”?"
        ),
    ),
    "unknown key in sets": (
        f'{ONE}sets = [\n  {{ rep = "8" }},\n]\n',
        "line 7, day 1, exercise 1, sets 1, rep: unknown key “rep”; did you mean “reps”?",
    ),
    "wrong type": (
        f'{ONE}sets = [{{ sets = "three", reps = "8" }}]\n',
        (
            'line 6, day 1, exercise 1, sets 1, sets: "three" must be a whole number; '
            "write it like sets = 3"
        ),
    ),
    "reps without end": (
        f'{ONE}sets = [{{ reps = "8-" }}]\n',
        'line 6, day 1, exercise 1, sets 1, reps: “8-” has no upper end; write "8-10", or "8+"',
    ),
    "reps backwards": (
        f'{ONE}sets = [{{ reps = "12-8" }}]\n',
        'line 6, day 1, exercise 1, sets 1, reps: “12-8” runs backwards; write "8-12"',
    ),
    "no reps": (
        f'{ONE}sets = [{{ reps = "0" }}]\n',
        "sets 1, reps: “0” asks for nothing; start the range at 1 or more",
    ),
    "load without unit": (
        f'{ONE}sets = [{{ reps = "8", load = "60" }}]\n',
        'line 6, day 1, exercise 1, sets 1, load: “60” has no unit; write "60 kg" or "60 lb"',
    ),
    "load as a bare number": (
        f'{ONE}sets = [{{ reps = "8", load = 62.5 }}]\n',
        'load: “62.5” has no unit; write "62.5 kg" or "62.5 lb"',
    ),
    "wrong unit": (
        f'{ONE}sets = [{{ reps = "8", load = "9 stone" }}]\n',
        "load: “stone” is not a unit of load; write kg or lb",
    ),
    "share of nothing": (
        f'{ONE}sets = [{{ reps = "8", load = "80 %" }}]\n',
        'load: “80 %” does not say of what; end it with "of top" or "of the set before"',
    ),
    "rest": (
        f'{ONE}sets = [{{ reps = "8", rest = "2.30 h" }}]\n',
        'rest: “2.30 h” is not a time; write it like "2:30"',
    ),
    "reserve": (
        f'{ONE}sets = [{{ reps = "8", reserve = "some" }}]\n',
        'reserve: “some” is not a range; write "1", "0-2" or "fail"',
    ),
    "kind": (
        f'{ONE}sets = [{{ reps = "8", kind = "backoff" }}]\n',
        "kind: “backoff” is not known here; did you mean “back-off”?",
    ),
    "tempo": (
        f'{ONE}sets = [{{ reps = "8", tempo = "slow" }}]\n',
        'tempo: “slow” is not a tempo; write seconds down, held, up, like "3-1-1"',
    ),
    "reason": (
        f'{ONE}replaces = "leg_press"\nreason = "sore join"\n{SETS}',
        (
            "line 7, day 1, exercise 1, reason: “sore join” is not known here; "
            "did you mean “sore joint”?"
        ),
    ),
    "reason alone": (
        f'{ONE}reason = "taste"\n{SETS}',
        "line 6, day 1, exercise 1, reason: a reason without what is replaced",
    ),
    "day twice": (
        f'{HEAD}[[day]]\nday = "monday"\n',
        "line 5, day 2, day: Monday is there twice; put both into one day",
    ),
    "day unknown": (
        '[[day]]\nday = "Mondy"\n',
        "line 2, day 1, day: “Mondy” is not a day of the week; did you mean “Monday”?",
    ),
    "one bracket": (
        '[day]\nday = "Monday"\n',
        "line 1, day: “day” may come more than once; write [[day]] in double brackets",
    ),
    "one bracket further in": (
        f'{HEAD}[day.exercise]\nexercise = "curl"\n{SETS}',
        "day 1, exercise: “exercise” may come more than once; write [[day.exercise]] in double",
    ),
    "plural": (
        '[[days]]\nday = "Monday"\n',
        "line 1, days: unknown key “days”; did you mean “day”?",
    ),
    "no list": (
        f'priorities = "glutes"\n{HEAD}',
        'priorities: "glutes" must be a list in square brackets; write it like priorities = [',
    ),
    "too long": (
        f'gym = "{"x" * 300}"\n{HEAD}',
        "has more than 200 characters; write it like gym",
    ),
    "amrap as reps": (
        f'{ONE}sets = [{{ reps = "AMRAP" }}]\n',
        'reps: “AMRAP” is a kind of set; write kind = "amrap", reps = "8+"',
    ),
    "no day": ('name = "Week"\n', "week.toml, line 1, day: “day” is missing"),
    "priority": (
        f'priorities = ["glute"]\n{HEAD}',
        "line 1, priorities 1: “glute” is not known here; did you mean “glutes”",
    ),
    "priority twice": (
        f'priorities = ["glutes",\n "glutes"]\n{HEAD}',
        "line 2, priorities 2: “glutes” is listed twice; keep the first",
    ),
    "target": (
        f'{HEAD}[targets]\nquds = "10"\n',
        "line 5, targets, quds: “quds” is not known here; did you mean “quads”?",
    ),
    "barred": (
        f'{HEAD}[barred]\nsisy_squat = "knee"\n',
        "line 5, barred, sisy_squat: there is no exercise “sisy_squat”; did you mean “",
    ),
    "superset of one": (
        f'{ONE}superset = "A"\n{SETS}',
        (
            "line 6, day 1, exercise 1, superset: superset “A” has only one exercise; "
            'give its partner superset = "A" too'
        ),
    ),
    "superset interrupted": (
        HEAD + "".join(f"{SQUAT}superset = {mark}\n{SETS}" for mark in ('"A"', '""', '"A"')),
        "superset: superset “A” is interrupted; put its exercises next to each other",
    ),
    "drop first": (
        f'{ONE}sets = [\n{{ kind = "warm-up", reps = "5" }},\n{{ kind = "drop", reps = "8" }}]\n',
        (
            "line 8, day 1, exercise 1, sets 2: a drop set has no set before it to drop from; "
            "put a working or top set before it"
        ),
    ),
    "too many sets": (
        f'{ONE}sets = [{{ sets = 6, reps = "8" }}, {{ sets = 5, reps = "8" }}]\n',
        "line 6, day 1, exercise 1, sets: “back_squat_free” has 11 sets, but 10 is the most",
    ),
    "eleven alike": (
        f'{ONE}sets = [{{ sets = 11, reps = "8" }}]\n',
        "sets 1, sets: 11 is more than 10; write it like sets = 3",
    ),
    "no sets": (f"{ONE}sets = []\n", "line 6, day 1, exercise 1, sets:"),
    "sets missing": (
        ONE,
        "line 4, day 1, exercise 1, sets: “sets” is missing; add sets = [{ sets = 3, reps = ",
    ),
    "neither reps nor seconds": (
        f"{ONE}sets = [{{ sets = 3 }}]\n",
        'sets 1: this set has neither reps nor seconds; give a counted set reps = "8-12"',
    ),
    "share of top without top": (
        f'{ONE}sets = [{{ reps = "8" }}, {{ reps = "8", load = "80 % of top" }}]\n',
        "sets 2, load: a share of the top set needs a top set to go by; give the heaviest",
    ),
    "share of nothing before": (
        f'{ONE}sets = [{{ reps = "8", load = "80 % of the set before" }}]\n',
        "sets 1, load: there is no set before this one",
    ),
    "own exercise": (
        f'[[exercise]]\nname = "Mine"\nmuscles = {{ qads = 1 }}\nequipment = "cable"\n{NAMELESS}',
        "line 3, exercise 1, muscles: “qads” is not a muscle; did you mean “quads”?",
    ),
    "own exercise twice": (
        '[[exercise]]\nname = "Mine"\nmuscles = { quads = 1 }\nequipment = ["cable"]\n' * 2
        + NAMELESS,
        "line 5, exercise 2: “mine” is defined twice; give one of them another id",
    ),
    "load of a planet": (
        f'{ONE}sets = [{{ reps = "8", load = "99999999 kg" }}]\n',
        "load: “99999999 kg” is more than anyone lifts; check the number",
    ),
    "not TOML": (
        f"{HEAD}minutes = an hour\n",
        "week.toml, line 4: not readable as TOML",
    ),
    "empty": ("", "week.toml: the file is empty; begin with a [[day]]"),
}
