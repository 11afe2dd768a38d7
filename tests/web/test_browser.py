"""Real pages in a real browser: fit, targets, keyboard, accessibility."""

from __future__ import annotations

from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from .test_pages import READ_PAGES

pytestmark = pytest.mark.browser

SESSION_PAGES = tuple(path for path in READ_PAGES if path.startswith(("/today", "/floor")))
WIDTHS = (320, 390, 1280)

SMALL_TARGETS = """
least => [...document.querySelectorAll('a, button, summary, input, select, textarea')]
  .filter(one => one.checkVisibility() && one.type !== 'hidden')
  .filter(one => !one.closest('.skip-link') && !(one.closest('p, li') && one.matches('.plain')))
  .map(one => (one.matches('.keys input, .tick input') ? one.parentElement : one))
  .map(one => ({words: one.innerText || one.name, box: one.getBoundingClientRect()}))
  .filter(({box}) => box.height < least || box.width < least)
  .map(({words, box}) => `${words}: ${Math.round(box.width)} × ${Math.round(box.height)}`)
"""


def _open(browser: Browser, address: str, width: int = 390, **more: Any) -> Page:
    page = browser.new_page(
        viewport={"width": width, "height": 844}, reduced_motion="reduce", **more
    )
    page.goto(address)
    return page


@pytest.mark.parametrize("path", READ_PAGES)
def test_axe_finds_nothing(chromium: Browser, demo_address: str, path: str) -> None:
    """No violation of the accessibility rules axe can check, in either look."""
    page = _open(chromium, demo_address + path)
    found = []
    for look in ("light", "dark"):
        page.evaluate("look => { document.documentElement.dataset.look = look }", look)
        found += Axe().run(page).response["violations"]
    page.close()
    assert [(one["id"], one["nodes"][0]["html"]) for one in found] == []


def test_nothing_sticks_out(chromium: Browser, demo_address: str) -> None:
    """No page scrolls sideways at 320, 390 or 1280 px."""
    page = chromium.new_page()
    wide = []
    for path in READ_PAGES:
        page.goto(demo_address + path)
        for width in WIDTHS:
            page.set_viewport_size({"width": width, "height": 700})
            over = page.evaluate("document.documentElement.scrollWidth - innerWidth")
            wide += [(path, width, over)] if over > 0 else []
    page.close()
    assert wide == []


def test_two_hundred_percent_text_fits(large_text: Browser, demo_address: str) -> None:
    """With the browser's text at twice the usual size, pages grow downwards only."""
    page = large_text.new_page(viewport={"width": 390, "height": 844})
    wide = []
    for path in SESSION_PAGES:
        page.goto(demo_address + path)
        assert page.evaluate("getComputedStyle(document.documentElement).fontSize") == "32px"
        over = page.evaluate("document.documentElement.scrollWidth - innerWidth")
        wide += [(path, over)] if over > 0 else []
    page.close()
    assert wide == []


TORN = """
for (const text of document.querySelectorAll('h1, .stop .words *, .days span, .asked *')) {
  for (const node of text.childNodes) {
    if (node.nodeType !== Node.TEXT_NODE) continue
    for (const word of node.data.matchAll(/\\p{L}{2,}/gu)) {
      const range = document.createRange()
      range.setStart(node, word.index)
      range.setEnd(node, word.index + word[0].length)
      const lines = new Set([...range.getClientRects()].filter(r => r.width > 0).map(r => r.top))
      if (lines.size > 1) return word[0]
    }
  }
}
return ''
"""


@pytest.mark.parametrize(("path", "words"), [("/today", ".stop .words"), ("/week", ".days span")])
def test_no_word_of_the_day_or_week_is_torn_at_twice_the_text(
    large_text: Browser, demo_address: str, path: str, words: str
) -> None:
    """WCAG 1.4.4: with text twice as large the line and the lanes leave room for whole words."""
    page = large_text.new_page(viewport={"width": 390, "height": 844})
    page.goto(demo_address + path)
    assert page.locator(words).count() > 3
    torn = page.evaluate(f"(() => {{{TORN}}})()")
    page.close()
    assert torn == ""


CHARTED = ("/exercises/back_squat_free", "/body/weight", "/body/site/thigh")
CHART_TEXT = """
async () => {
  const img = document.querySelector('.chart img')
  await img.decode()
  const text = await (await fetch(img.currentSrc)).text()
  const svg = new DOMParser().parseFromString(text, 'image/svg+xml')
  const scale = img.getBoundingClientRect().width / svg.documentElement.getAttribute('width')
  const words = [...svg.querySelectorAll('text')]
  const sizes = words.map((one) => parseFloat(one.getAttribute('font-size')))
  return Math.min(...sizes.filter(Boolean)) * scale
}
"""


@pytest.mark.parametrize("path", CHARTED)
def test_chart_words_grow_with_the_text(
    large_text: Browser, chromium: Browser, demo_address: str, path: str
) -> None:
    """WCAG 1.4.4: with text twice as large the words at the axes are about twice as large too."""
    sizes = []
    for browser in (chromium, large_text):
        page = _open(browser, demo_address + path)
        sizes.append(page.evaluate(CHART_TEXT))
        page.close()
    assert sizes[1] >= 1.9 * sizes[0]


ROWS_NEXT = """
() => [...document.querySelectorAll('.next tbody tr')].map((row) => {
  const [name, step, why] = ['.row-name', 'td:nth-child(2) strong', '.why'].map((one) => {
    const range = document.createRange()
    range.selectNodeContents(row.querySelector(one))
    return range.getClientRects()[0]
  })
  return [name, step, why].map((box) => [Math.round(box.left), Math.round(box.top)])
})
"""


def test_a_row_of_what_comes_next_reads_across_and_down(
    chromium: Browser, demo_address: str
) -> None:
    """Wide, name, step and reason begin on one line; on a phone each begins at the left edge."""
    page = _open(chromium, demo_address + "/review/week", 1280)
    wide = page.evaluate(ROWS_NEXT)
    page.set_viewport_size({"width": 390, "height": 844})
    narrow = page.evaluate(ROWS_NEXT)
    page.close()
    assert len(wide) > 5
    assert all(max(y for _, y in row) - min(y for _, y in row) <= 4 for row in wide)
    assert {x for row in narrow for x, _ in row} == {16}


@pytest.mark.parametrize("path", ["/data", "/body/photos", "/start/week"])
def test_the_button_for_a_file_is_one_of_ours(
    chromium: Browser, demo_address: str, path: str
) -> None:
    """48 px high and edged like every other button, not as small as the browser draws it."""
    page = _open(chromium, demo_address + path)
    style = page.evaluate(
        "() => { const one = document.querySelector('input[type=file]');"
        " const it = getComputedStyle(one, '::file-selector-button');"
        " return [it.minHeight, it.borderTopWidth, it.fontSize] }"
    )
    page.close()
    assert style == ["48px", "2px", "20px"]


FOOT_ASIDE = """
() => [...document.querySelectorAll('.foot:not(.hands) > *, .foot .pair > *')].filter(one => {
  const [box, page] = [one, document.querySelector('main')].map(it => it.getBoundingClientRect())
  return box.left < page.left || box.right > page.right
}).map(one => one.innerText)
"""


@pytest.mark.parametrize("path", [*READ_PAGES, "/body", "/body/girth", "/review/2026-11-23"])
def test_the_act_at_the_foot_stands_under_its_page(
    chromium: Browser, demo_address: str, path: str
) -> None:
    """On a wide screen the button stands below the form it closes, not at the screen's edge."""
    page = _open(chromium, demo_address + path, 1280)
    aside = page.evaluate(FOOT_ASIDE)
    page.close()
    assert aside == []


@pytest.mark.parametrize("path", SESSION_PAGES)
@pytest.mark.parametrize("width", [320, 390])
def test_targets_are_large_enough_for_a_thumb(
    chromium: Browser, demo_address: str, path: str, width: int
) -> None:
    """Anything to touch on a session page is 48 px or more; house rule above WCAG 2.5.5."""
    page = _open(chromium, demo_address + path, width)
    small = page.evaluate(SMALL_TARGETS, 48)
    page.close()
    assert small == []


def test_closing_a_set_is_a_large_target(chromium: Browser, demo_address: str) -> None:
    """The button that closes a set is 64 px high, and its neighbours are 8 px away."""
    page = _open(chromium, demo_address + "/floor")
    heights = page.eval_on_selector_all(
        ".closing button", "all => all.map(one => one.getBoundingClientRect().height)"
    )
    page.close()
    assert min(heights) >= 64


def test_nothing_is_asked_from_elsewhere(chromium: Browser, demo_address: str) -> None:
    """Opening every page sends requests to this server only, and few of them."""
    page = chromium.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    for path in READ_PAGES:
        page.goto(demo_address + path)
    page.close()
    assert all(url.startswith(demo_address) for url in asked)


def test_the_floor_is_light(chromium: Browser, demo_address: str) -> None:
    """The page of a set with everything it needs stays under 60 kB, uncompressed even."""
    page = chromium.new_page()
    sizes: list[int] = []
    page.on("response", lambda response: sizes.append(len(response.body())))
    page.goto(demo_address + "/floor", wait_until="networkidle")
    page.close()
    assert 0 < sum(sizes) < 60_000


def test_nothing_shifts_while_a_page_loads(chromium: Browser, demo_address: str) -> None:
    """Cumulative layout shift is zero: nothing moves under the thumb."""
    page = chromium.new_page(viewport={"width": 390, "height": 844})
    page.add_init_script(
        "window.shift = 0; new PerformanceObserver(list => {"
        " for (const one of list.getEntries()) window.shift += one.value;"
        "}).observe({type: 'layout-shift', buffered: true});"
    )
    for path in ("/today", "/floor"):
        page.goto(demo_address + path, wait_until="networkidle")
        assert page.evaluate("window.shift") == 0
    page.close()


def test_focus_is_seen_and_not_hidden(chromium: Browser, demo_address: str) -> None:
    """Tabbing through the Floor, every stop is outlined and above the bar at the foot."""
    page = _open(chromium, demo_address + "/floor?ask=notes")
    seen = 0
    for _ in range(40):
        page.keyboard.press("Tab")
        box, outline = page.evaluate(
            "() => { const one = document.activeElement.matches('.keys input')"
            " ? document.activeElement.nextElementSibling : document.activeElement;"
            " const box = one.getBoundingClientRect(), foot = document.querySelector('.hands');"
            " const hidden = !foot.contains(one) && box.bottom > foot.getBoundingClientRect().top;"
            " return [hidden, getComputedStyle(one).outlineStyle]; }"
        )
        if page.evaluate("document.activeElement === document.body"):
            break
        seen += 1
        assert outline != "none"
        assert not box
    page.close()
    assert seen > 15


def test_the_act_of_a_wide_page_begins_at_its_left_edge(
    chromium: Browser, demo_address: str
) -> None:
    """“Measure” stands under the heading it belongs to, as everything else on the page does."""
    page = _open(chromium, demo_address + "/body", 1280)
    heading, act = (page.locator(one).bounding_box() for one in ("h1", ".foot .button"))
    page.close()
    assert heading
    assert act
    assert act["x"] == pytest.approx(heading["x"], abs=1)


MINUTES_OF_STOPS = """
() => [...document.querySelectorAll('.stop:not(.skipped)')].map((stop) => {
  const [at, rail] = [stop.querySelector('.at'), stop.querySelector('.rail circle')]
  at.style.alignSelf = 'start'  // as high as its words, not as its row
  const [high, line] = [at.clientHeight, parseFloat(getComputedStyle(at).lineHeight)]
  const [box, dot] = [at, rail].map((one) => one.getBoundingClientRect())
  return [high < 2 * line, box.left + at.scrollWidth <= dot.left, box.left >= 0]
})
"""


@pytest.mark.parametrize("width", [320, 390])
def test_the_minute_of_a_stop_is_one_line(chromium: Browser, demo_address: str, width: int) -> None:
    """“1 min” beside the first stop does not break, and keeps clear of the line."""
    page = _open(chromium, demo_address + "/today", width)
    stops = page.evaluate(MINUTES_OF_STOPS)
    page.evaluate("document.querySelector('.stop .at').lastChild.textContent = '12'")
    later = page.evaluate(MINUTES_OF_STOPS)[0]
    page.close()
    assert len(stops) > 3
    assert all(one == [True, True, True] for one in (*stops, later))
