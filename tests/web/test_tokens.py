"""The stylesheet keeps to its tokens, and its colours to the house's contrast."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

STATIC = Path(__file__).parents[2] / "src" / "pennate" / "web" / "static"
CSS = "".join((STATIC / name).read_text(encoding="utf-8") for name in ("pennate.css", "pages.css"))
PRINT = "\n".join(re.findall(r"@media print \{.*?\n\}", CSS, re.DOTALL))
SCREEN = re.sub(r"@media print \{.*?\n\}", "", CSS, flags=re.DOTALL)
TOKEN = re.compile(r"(--[a-z0-9]+):\s*(#[0-9a-f]{6});")


def _colours(selector: str) -> dict[str, str]:
    block = CSS[CSS.index(selector + " {") :]
    return dict(TOKEN.findall(block[: block.index("}")]))


LIGHT = _colours(":root")
DARK = {**LIGHT, **_colours(':root[data-look="dark"]')}


def _luminance(colour: str) -> float:
    """Relative luminance by the definition of WCAG 2.2."""
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio by the definition of WCAG 2.2."""
    low, high = sorted((_luminance(one), _luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_contrast_of_known_pairs() -> None:
    """Black on white is 21:1, equal colours 1:1 (WCAG 2.2, definition of contrast ratio)."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#777777") == 1
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("look", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("token", ["--ink", "--soft", "--accent", "--caution", "--error", "--done"])
def test_text_reads_in_a_bright_room(look: dict[str, str], token: str) -> None:
    """All text is at least 7:1 on the ground, above WCAG's 4.5; so are edges drawn in it."""
    assert contrast(look[token], look["--ground"]) >= 7


def test_few_font_sizes() -> None:
    """Six sizes at most on screen, all from the tokens."""
    named = set(re.findall(r"--(?:xl|l|m|body|s):\s*([\d.]+rem)", CSS))
    assert len(named) <= 6
    used = re.findall(r"font-size:\s*([^;]+);", SCREEN)
    assert set(used) <= {f"var(--{name})" for name in ("xl", "l", "m", "body", "s")}


def test_no_size_below_seventeen_pixels() -> None:
    """Nothing on screen is smaller than 17 px at the usual setting."""
    sizes = re.findall(r"--(?:xl|l|m|body|s):\s*([\d.]+)rem", CSS)
    assert min(float(size) * 16 for size in sizes) >= 17


def test_print_is_readable() -> None:
    """Nothing on paper is smaller than 8 pt."""
    sizes = re.findall(r"font-size:\s*([\d.]+)pt", PRINT)
    assert all(float(size) >= 8 for size in sizes)


def test_no_colour_outside_the_tokens() -> None:
    """Colours are declared once, in the two token blocks."""
    after = CSS[CSS.index("/* Ground") :]
    assert re.findall(r"#[0-9a-fA-F]{3,8}\b|rgb|hsl", after) == []


def test_nothing_comes_from_elsewhere() -> None:
    """The stylesheet loads nothing."""
    assert "url(" not in CSS
    assert "@import" not in CSS
