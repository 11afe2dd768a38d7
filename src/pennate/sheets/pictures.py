"""The load as it will look: one drawing for every way an item can be loaded."""

from __future__ import annotations

from pennate.core.gym import AnyItem, BandSet, Bar, Ladder, Sled, Stack
from pennate.core.loaded import Loaded
from pennate.sheets.pictures_picks import bands_picture, picks_picture, stack_picture
from pennate.sheets.pictures_plates import bar_picture, belt_picture, sled_picture


def picture(loaded: Loaded, item: AnyItem) -> str:
    """SVG text of the loaded item, 398 wide, at most 130 high, read out as its words.

    Plate diameters are to scale; competition plates wear their colours, and every plate its
    number. Nothing relies on colour.
    """
    if isinstance(item, Bar):
        return bar_picture(item, loaded)
    if isinstance(item, Sled):
        return sled_picture(item, loaded)
    if isinstance(item, Stack):
        return stack_picture(item, loaded)
    if isinstance(item, Ladder):
        return picks_picture(item, loaded)
    if isinstance(item, BandSet):
        return bands_picture(item, loaded)
    return belt_picture(loaded)
