"""The drawings: readable aloud, in grey, at 320 pixels, and true to scale."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree import ElementTree as ET

import pytest

from pennate.core.gym import AnyItem, Bar, Plate
from pennate.core.loaded import Loaded
from pennate.loading import Target, ladder, solve
from pennate.loading.ladder import with_plates
from pennate.sheets.pictures import picture
from pennate.sheets.pictures_marks import ACCENT, SOFT
from pennate.sheets.pictures_plates import COMPETITION
from tests.loading.gyms import BAR, GYM, KG_PLATES, kg

SVG = "{http://www.w3.org/2000/svg}"
EVERY = [
    (item, state)
    for item in GYM.items
    for state in (ladder(GYM, item)[0], ladder(GYM, item)[5 % len(ladder(GYM, item))])
]
PAPER = "#ffffff"


def drawn(item: AnyItem, state: Loaded) -> ET.Element:
    return ET.fromstring(picture(state, item))  # noqa: S314 - our own drawing


def texts(root: ET.Element) -> list[str]:
    return [element.text or "" for element in root.iter(f"{SVG}text")]


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    long = colour if len(colour) == 7 else "#" + "".join(c * 2 for c in colour[1:])
    parts = [int(long[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize(("item", "state"), EVERY, ids=lambda value: getattr(value, "words", ""))
def test_every_drawing_is_read_out_and_fits(item: AnyItem, state: Loaded) -> None:
    """One image role with its words, 398 wide, at most 130 high, nothing beyond the edges."""
    root = drawn(item, state)
    _, _, width, height = (float(part) for part in root.attrib["viewBox"].split())
    assert (width, root.attrib["role"]) == (398, "img")
    assert height <= 130
    assert root.attrib["aria-label"] == state.words
    assert (root.findtext(f"{SVG}title")) == state.words
    for shape in root.iter(f"{SVG}rect"):
        left, top = float(shape.attrib["x"]), float(shape.attrib["y"])
        assert left >= 0
        assert left + float(shape.attrib["width"]) <= width
        assert top >= 0
        assert top + float(shape.attrib["height"]) <= height


def test_the_words_say_bar_and_plates() -> None:
    """The example of the specification, word for word."""
    side = tuple(p for p in KG_PLATES if p.mass in {kg(15), kg(5), kg("1.25")})
    assert with_plates(BAR, side).words == "20 kg bar, each side: 15, 5, 1.25"


def test_every_plate_carries_its_number_on_both_sides() -> None:
    """A number on each of the plates drawn, left and right."""
    root = drawn(BAR, with_plates(BAR, KG_PLATES))
    for plate in KG_PLATES:
        assert texts(root).count(str(plate.mass).removesuffix(" kg")) == 2


def test_plates_lie_inner_to_outer() -> None:
    """From the middle outward the drawing follows the order on the sleeve, mirrored."""
    root = drawn(BAR, with_plates(BAR, KG_PLATES[:4]))
    right = [
        (float(element.attrib["x"]), element.text)
        for element in root.iter(f"{SVG}text")
        if float(element.attrib["x"]) > 199 and "bar" not in (element.text or "")
    ]
    assert [text for _, text in sorted(right)] == ["25", "20", "15", "10"]


def test_diameters_are_to_scale() -> None:
    """450 mm (competition discs of 10 kg and more) and half of it are drawn two to one."""
    big, small = Plate(kg(20), 2, 450), Plate(kg(5), 2, 225)
    root = drawn(BAR, with_plates(BAR, (big, small)))
    heights = {float(shape.attrib["height"]) for shape in root.iter(f"{SVG}rect")}
    assert max(heights) == 112
    assert 56 in heights


def test_numbers_stay_readable_on_a_small_phone() -> None:
    """With four plates a side no figure is smaller than 11 pixels on a page 288 wide."""
    root = drawn(BAR, with_plates(BAR, KG_PLATES[1:5]))
    sizes = [
        float(element.attrib.get("font-size", root.attrib["font-size"]))
        for element in root.iter(f"{SVG}text")
    ]
    assert min(sizes) * 288 / 398 >= 11


def test_colours_are_those_of_the_rules() -> None:
    """25 red, 20 blue, 15 yellow, 10 green, and again from 2.5 down (IWF discs)."""
    hues = {fill: COMPETITION[mass.in_kg][0] for fill, mass in (("red", kg(25)), ("blue", kg(20)))}
    for big, small in ((25, "2.5"), (20, "2"), (15, "1.5"), (10, "1"), (5, "0.5")):
        assert COMPETITION[kg(big).in_kg] == COMPETITION[kg(small).in_kg]
    assert len({COMPETITION[kg(mass).in_kg][0] for mass in (25, 20, 15, 10, 5)}) == 5
    assert int(hues["red"][1:3], 16) > int(hues["red"][5:], 16)
    assert int(hues["blue"][5:], 16) > int(hues["blue"][1:3], 16)


def test_colour_only_where_the_gym_has_it() -> None:
    """Plain iron is drawn without fill; the same plate to the rules wears its colour."""
    plain = Plate(kg(20), 2)
    coloured = replace(plain, competition=True)
    assert COMPETITION[kg(20).in_kg][0] not in picture(with_plates(BAR, (plain,)), BAR)
    assert COMPETITION[kg(20).in_kg][0] in picture(with_plates(BAR, (coloured,)), BAR)


@pytest.mark.parametrize("mass", COMPETITION, ids=str)
def test_numbers_on_colours_keep_their_contrast(mass: object) -> None:
    """Figures on coloured plates reach 7:1, as all text here must."""
    fill, ink = next(pair for key, pair in COMPETITION.items() if key == mass)
    assert contrast(fill, ink) >= 7


def test_strokes_keep_their_contrast() -> None:
    """Strokes in accent and soft ink reach 4.5:1 on the paper."""
    assert min(contrast(ACCENT, PAPER), contrast(SOFT, PAPER)) >= 4.5


def test_no_colour_outside_the_tokens() -> None:
    """Drawings use the accent, the soft ink and competition colours, and no others."""
    allowed = {ACCENT, SOFT} | {colour for pair in COMPETITION.values() for colour in pair}
    for item, state in EVERY:
        assert set(re.findall(r"#[0-9a-f]{3,6}", picture(state, item))) <= allowed


def test_the_pin_is_where_the_words_say() -> None:
    """The label at the pin is the bold one; its neighbours are light."""
    item = next(one for one in GYM.items if one.id == "leg-curl")
    state = solve(GYM, item, [Target(felt_kg=45.0)]).states[0]
    root = drawn(item, state)
    strong = [e.text for e in root.iter(f"{SVG}text") if e.attrib.get("font-size") == "20"]
    assert strong == ["45"]


def test_names_cannot_break_the_drawing() -> None:
    """A band called <script> stays text."""
    from pennate.core.gym import Band, BandSet
    from tests.loading.gyms import BANDS

    odd = BandSet(
        id="odd", name="odd", kind=BANDS.kind, bands=(Band('<script>"&', kg(10)),), assists=False
    )
    state = ladder(GYM, odd)[0]
    assert "<script>" not in picture(state, odd)
    assert '<script>"&' in texts(drawn(odd, state))


def test_bars_with_one_free_end_show_one_sleeve() -> None:
    """Where one end stands in a joint, plates are drawn once."""
    joint = Bar(id="j", name="j", kind=BAR.kind, mass=kg(20), one_end=True)
    root = drawn(joint, with_plates(joint, KG_PLATES[1:2]))
    assert texts(root).count("20") == 1
