"""Small made-up gyms that the loading tests share."""

from __future__ import annotations

from fractions import Fraction

from pennate.core.exercise import EquipmentKind
from pennate.core.gym import (
    Band,
    BandSet,
    Bar,
    BodyWeight,
    Gym,
    Ladder,
    Plate,
    Sled,
    Stack,
)
from pennate.core.quantities import Mass, Unit

kg, lb = Mass.kg, Mass.lb

KG_PLATES = tuple(
    Plate(kg(mass), pairs)
    for mass, pairs in (
        ("25", 2),
        ("20", 4),
        ("15", 2),
        ("10", 4),
        ("5", 4),
        ("2.5", 3),
        ("1.25", 2),
    )
)
LB_PLATES = tuple(
    Plate(lb(mass), pairs)
    for mass, pairs in (("45", 4), ("35", 2), ("25", 2), ("10", 4), ("5", 2), ("2.5", 2))
)
BAR = Bar(id="bar", name="Bar", kind=EquipmentKind.BARBELL, mass=kg(20), station="rack")
MIXED_BAR = Bar(
    id="mixed-bar",
    name="Bar for both",
    kind=EquipmentKind.BARBELL,
    mass=kg(20),
    units=(Unit.KG, Unit.LB),
)
GUIDED = Bar(id="guided", name="Guided bar", kind=EquipmentKind.GUIDED_BAR, mass=kg(8))
UNKNOWN_GUIDED = Bar(
    id="guided-unknown",
    name="Old guided bar",
    kind=EquipmentKind.GUIDED_BAR,
    mass=kg(0),
    label_only=True,
)
DUMBBELLS = Ladder(
    id="dumbbells",
    name="Dumbbells",
    kind=EquipmentKind.DUMBBELLS,
    masses=tuple(kg(mass) for mass in (*range(1, 11), *range(12, 31, 2))),
)
CABLE = Stack(
    id="cable",
    name="Cable",
    kind=EquipmentKind.CABLE,
    start=kg(5),
    step=kg(5),
    top=kg(80),
    ratio=Fraction(1, 2),
)
LEG_CURL = Stack(
    id="leg-curl",
    name="Leg curl",
    kind=EquipmentKind.STACK,
    start=kg(5),
    step=kg(5),
    top=kg(100),
    add_ons=(kg("2.5"),),
)
ASSISTED = Stack(
    id="assisted",
    name="Assisted chin-up",
    kind=EquipmentKind.ASSISTED,
    start=kg(5),
    step=kg(5),
    top=kg(50),
)
SLED = Sled(
    id="leg-press",
    name="Leg press",
    kind=EquipmentKind.SLED,
    mass=kg(40),
    angle_deg=Fraction(45),
)
CHIN_UP_BAR = BodyWeight(
    id="chin-up-bar", name="Chin-up bar", kind=EquipmentKind.BODY_WEIGHT, belt=True
)
BANDS = BandSet(
    id="bands",
    name="Bands",
    kind=EquipmentKind.BANDS,
    bands=(Band("thin", kg(8)), Band("middle", kg(16)), Band("thick", kg(30))),
    assists=True,
)
GYM = Gym(
    id="here",
    name="Here",
    plates=(*KG_PLATES, *LB_PLATES),
    items=(
        BAR,
        MIXED_BAR,
        GUIDED,
        UNKNOWN_GUIDED,
        DUMBBELLS,
        CABLE,
        LEG_CURL,
        ASSISTED,
        SLED,
        CHIN_UP_BAR,
        BANDS,
    ),
)
