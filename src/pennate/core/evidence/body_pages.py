"""Constants of what the pages on food and recovery compute from her notes."""

from __future__ import annotations

from pennate.core.evidence.register import Status, constant

SHORT_NIGHT_HOURS = constant(
    "recovery.short_night",
    7,
    "hours",
    low=6,
    high=7,
    status=Status.PUBLISHED,
    source="Watson 2015: adults seven hours or more a night (the figure on a secondary page)",
    used_for="which nights count as short when her own relation of sleep and strength is learned",
    contested="Walsh 2021, from memory: no single hour target fits every athlete",
)
SESSION_MET = constant(
    "energy.session_met",
    3.5,
    "kcal/kg per hour",
    low=3.5,
    high=6.0,
    status=Status.PUBLISHED,
    source="Ainsworth 2011, code 02054: resistance training, several exercises, 8–15 reps",
    used_for="energy a session costs, beyond the one of sitting, when energy left is estimated",
    contested="the newer compendium's value for resistance training was not seen",
)
RESTING_MET = constant(
    "energy.resting_met",
    1,
    "kcal/kg per hour",
    status=Status.STANDARD,
    source="definition: one is about a kilocalorie per kilogram and hour",
    used_for="taken off a session's cost, because resting energy is counted already",
)
FAT_LOW = constant(
    "energy.fat_low",
    0.15,
    "share of body mass",
    status=Status.OUR_CHOICE,
    source="our choice: few healthy adults lie below",
    used_for="how weight answers to intake where she gives no fat mass: one end of the range",
)
FAT_HIGH = constant(
    "energy.fat_high",
    0.38,
    "share of body mass",
    status=Status.OUR_CHOICE,
    source="our choice: few lifters lie above",
    used_for="the other end of that range; it is never shown and nothing is stored",
)
PERIOD_DAYS = constant(
    "cycle.period_days",
    4,
    "days",
    low=3,
    high=7,
    status=Status.OUR_CHOICE,
    source="our choice: the early days in which athletes say they feel worse (Carmichael 2021)",
    used_for="the stretch of the cycle whose effect on her own strength is looked for",
)
