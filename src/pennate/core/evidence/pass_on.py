"""Constants of the page that is passed on: what a stranger's remembered set may say."""

from pennate.core.evidence.register import Status, constant

MOST_REPS = constant(
    "pass_on.most_reps",
    20,
    "reps to failure",
    low=12,
    high=30,
    status=Status.OUR_CHOICE,
    source="a set of many reps says little of a heavy one, as people differ most there "
    "(Mitter 2023); what is longer counts as this long, which errs to the light side",
    used_for="the longest remembered set that the passed-on page reads as it is",
)


def _usual(name: str, value: float, unit: str, what: str) -> float:
    return constant(
        f"pass_on.{name}",
        value,
        unit,
        low=value / 2,
        high=value * 2,
        status=Status.COMMON_PRACTICE,
        source=f"{what}; the reader corrects it on the page",
        used_for="what stands in the fields of the passed-on page before anything is typed",
    )


BAR_KG = _usual("bar_kg", 20, "kg", "the men's bar of the sport, usual in gyms")
BAR_LB = _usual("bar_lb", 45, "lb", "the usual bar where plates are in pounds")
PAIR_KG = _usual("pair_kg", 2.5, "kg", "the smallest pair of plates in most gyms, 1.25 kg each")
PAIR_LB = _usual("pair_lb", 5, "lb", "the smallest pair of plates in most gyms, 2.5 lb each")
HAND_KG = _usual("hand_kg", 2, "kg", "steps of a usual rack of dumbbells")
HAND_LB = _usual("hand_lb", 5, "lb", "steps of a usual rack of dumbbells")
PIN_KG = _usual("pin_kg", 5, "kg", "steps of a usual stack")
PIN_LB = _usual("pin_lb", 10, "lb", "steps of a usual stack")
