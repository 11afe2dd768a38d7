"""Where the system's own few colours are forced, signs keep their shapes."""

from __future__ import annotations

from base64 import b64encode

import pytest
from playwright.sync_api import Browser

INKED = """async ([png, share]) => {
  const image = new Image();
  image.src = `data:image/png;base64,${png}`;
  await image.decode();
  const canvas = new OffscreenCanvas(image.width, image.height), pen = canvas.getContext("2d");
  pen.drawImage(image, 0, 0);
  const { data, width } = pen.getImageData(0, 0, image.width, image.height);
  const at = (x, y) => data[4 * (y * width + x)];
  const ground = at(width - 1, image.height - 1);
  return [...Array(Math.round(share * 1.4)).keys()].map((y) =>
    [...Array(Math.round(share)).keys()].filter((x) => Math.abs(at(x, y) - ground) > 96).length);
}"""
"""How many points of each row at the upper left of a picture are not of its ground."""


@pytest.mark.browser
def test_the_sign_of_a_caution_stays_a_triangle(chromium: Browser, demo_address: str) -> None:
    """Narrow above, wide below: borders that are forced visible once made it a square."""
    page = chromium.new_page(forced_colors="active", viewport={"width": 390, "height": 844})
    page.goto(f"{demo_address}/today")
    caution = page.locator(".caution").first
    size = page.evaluate("parseFloat(getComputedStyle(document.documentElement).fontSize)")
    picture = b64encode(caution.screenshot()).decode()
    blank = chromium.new_page()
    rows = [count for count in blank.evaluate(INKED, [picture, 1.2 * size]) if count]
    assert len(rows) >= 0.6 * size
    assert rows[1] < 0.4 * rows[-2]
    blank.close()
    page.close()
