"""Constants of the catalogue and of the published 1RM equations shown for comparison."""

from pennate.core.evidence.register import Status, constant

DIRECT_SHARE = constant(
    "catalogue.direct",
    1,
    "set",
    status=Status.PUBLISHED,
    source="direct sets 1, indirect ½ fitted best of three ways to count (Pelland 2024)",
    used_for="credit of the muscle an exercise is for",
)
INDIRECT_SHARE = constant(
    "catalogue.indirect",
    0.5,
    "set",
    low=0.07,
    high=1.38,
    status=Status.PUBLISHED,
    source="Pelland 2024; elbow flexors grew 0.47 times as much with rows as with curls "
    "(Mannarino 2021)",
    used_for="credit of a muscle that helps",
    contested="single trials put the true transfer anywhere from 0.07 to 1.38",
)
SLIGHT_SHARE = constant(
    "catalogue.slight",
    0.25,
    "set",
    low=0,
    high=0.5,
    status=Status.OUR_CHOICE,
    source="a convention; no trial supports this step",
    used_for="credit of a muscle that hardly helps",
    contested="no trial supports it",
)
EPLEY_DIVISOR = constant(
    "equations.epley",
    30,
    "reps",
    status=Status.FROM_MEMORY,
    source="Epley 1985: load × (1 + reps/30); the definition, from memory",
    used_for="the Epley figure shown beside our estimate; a peer in the benchmark",
)
BRZYCKI_TOP = constant(
    "equations.brzycki_top",
    36,
    "reps",
    status=Status.FROM_MEMORY,
    source="Brzycki 1993: load × 36/(37 − reps); the definition, from memory",
    used_for="the Brzycki figure shown beside our estimate; a peer in the benchmark",
)
EQUATION_MOST_REPS = constant(
    "equations.most_reps",
    10,
    "reps",
    low=8,
    high=12,
    status=Status.PUBLISHED,
    source="linear equations are for at most ten reps (Reynolds 2006)",
    used_for="from how many reps a published equation is shown as unreliable",
)
ARM_AND_HAND_SHARE_FEMALE = constant(
    "share.forearms_hands_female",
    0.0388,
    "of body mass",
    status=Status.PUBLISHED,
    source="both forearms and hands, 2 × (0.0138 + 0.0056), de Leva 1996",
    used_for="chin-ups, pull-ups and dips move all but this share",
)
ARM_AND_HAND_SHARE_MALE = constant(
    "share.forearms_hands_male",
    0.0446,
    "of body mass",
    status=Status.PUBLISHED,
    source="both forearms and hands, 2 × (0.0162 + 0.0061), de Leva 1996",
    used_for="chin-ups, pull-ups and dips move all but this share",
)
PUSH_UP_SHARE_FEMALE = constant(
    "share.push_up_female",
    0.677,
    "of body mass",
    low=0.651,
    high=0.703,
    status=Status.PUBLISHED,
    source="mean of the upper (0.651) and lower (0.703) position, Mier 2014",
    used_for="felt load of push-ups, planks and, taken over, inverted rows",
)
PUSH_UP_SHARE_MALE = constant(
    "share.push_up_male",
    0.708,
    "of body mass",
    low=0.67,
    high=0.746,
    status=Status.PUBLISHED,
    source="mean of the upper (0.670) and lower (0.746) position, Mier 2014",
    used_for="felt load of push-ups, planks and, taken over, inverted rows",
)
STANDING_SHARE_FEMALE = constant(
    "share.standing_female",
    0.878,
    "of body mass",
    status=Status.PUBLISHED,
    source="all but both shanks and feet, de Leva 1996",
    used_for="felt load of lunges, split squats, step-ups and squats without a bar",
)
STANDING_SHARE_MALE = constant(
    "share.standing_male",
    0.886,
    "of body mass",
    status=Status.PUBLISHED,
    source="all but both shanks and feet, de Leva 1996",
    used_for="felt load of lunges, split squats, step-ups and squats without a bar",
)
