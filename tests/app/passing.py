"""A week full of what must not be passed on, for the tests of passing on."""

from __future__ import annotations

from pathlib import Path

WEEKS = Path(__file__).parents[2] / "src" / "pennate" / "data" / "weeks"
STARTERS = ("3_days", "4_days", "5_days", "6_days", "home", "travel")

SECRETS = (
    "since my surgery",
    "secret gym",
    "left knee clicks",
    "my meniscus",
    "87.5",
    "43.75",
    "luteal",
    "61.3",
    "torn labrum",
    "not on my period",
    "spare my shoulder",
    "orthopaedic",
    "sleeves for my knee",
    "hurts below",
    "17.25",
    "14-18",
)

PRIVATE_WEEK = """
name = "Strong again since my surgery"
gym = "secret gym"
priorities = ["glutes", "quads"]
note = "I weigh 61.3 now"

[targets]
glutes = "14-18"

[liked]
hip_thrust = "fine in the luteal phase"

[barred]
sissy_squat = "left knee clicks"

[[exercise]]
name = "Cable Y raise"
muscles = { "side shoulder" = 1, "upper back" = 0.5 }
equipment = ["cable"]
cue = "thumbs up; hurts below the height of the ear"

[[exercise]]
name = "Wall slide"
muscles = { "upper back" = 1 }
equipment = ["dumbbells"]
cue = "Chest up and ribs down."

[[day]]
day = "Monday"
focus = "spare my shoulder"
minutes = 60
preparation = [{ what = "what the orthopaedic surgeon and physio said", reps = 10 }]

[[day.exercise]]
exercise = "leg_press"
replaces = "back_squat_free"
reason = "sore joint"
because = "my meniscus"
note = "torn labrum, see photos"
aids = ["sleeves for my knee"]
sets = [
  { kind = "top", reps = "5-7", reserve = "1", load = "87.5 kg", note = "not on my period" },
  { kind = "back-off", reps = "8-10", reserve = "1-2", load = "43.75 kg" },
]
ladder = [{ exercise = "goblet_squat", until = 10 }, { load = "17.25 kg" }]

[[day.exercise]]
exercise = "cable_y_raise"
sets = [{ sets = 3, reps = "10-12", reserve = "1" }]

[[day.exercise]]
exercise = "wall_slide"
sets = [{ sets = 3, reps = "10-12", reserve = "1" }]
"""
