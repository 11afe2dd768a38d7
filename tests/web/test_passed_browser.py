"""The passed-on page in a real browser: no reception, no requests, Python's loads."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from pennate.app.pass_on import passed_file
from pennate.core.follow import Group, Option, Source, Told, Typed, loads_for
from pennate.core.passed_on import Passed, PassedOption
from pennate.core.performed import SetKind
from pennate.sheets.passed_page import page as drawn
from pennate.sheets.passed_sheet import sheet
from tests.app.passing import STARTERS, WEEKS

pytestmark = pytest.mark.browser
MOST_SHOWN = 40
CASES = 60

TYPE_ALL = """cases => cases.map(one => {
  const put = (input, value) => {
    if (!input) return;
    input.value = value;
    input.dispatchEvent(new Event("input", { bubbles: true }));
  };
  put(document.getElementById("body"), one.body);
  const box = document.querySelector(`[data-option="${one.place}"]`);
  for (const [name, value] of Object.entries(one.fields)) {
    put(box.querySelector(`[data-field=${name}]`), value);
  }
  const text = (query) => {
    const found = box.querySelector(query);
    return found && !found.hidden ? found.textContent : "";
  };
  return {
    complaint: text("[data-complaint]"),
    groups: one.groups.map(n => [text(`[data-group="${n}"]`), text(`[data-likely="${n}"]`)]),
  };
})"""


@pytest.fixture(scope="module")
def routine() -> Passed:
    """A week with supersets, drops, written warm-ups, body weight and stacks."""
    return passed_file(WEEKS / "5_days.toml")


@pytest.fixture(scope="module")
def file(routine: Passed, tmp_path_factory: pytest.TempPathFactory) -> str:
    """The address of the page as a file."""
    out: Path = tmp_path_factory.mktemp("passed") / "page.html"
    out.write_text(drawn(routine), encoding="utf-8")
    return out.as_uri()


@pytest.fixture
def asked() -> list[str]:
    """Every request that the page makes."""
    return []


@pytest.fixture
def opened(chromium: Browser, file: str, asked: list[str]) -> Iterator[Page]:
    """The page on a phone without reception, all its requests and complaints noted."""
    context = chromium.new_context(
        viewport={"width": 390, "height": 844}, offline=True, reduced_motion="reduce"
    )
    page = context.new_page()
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda line: asked.append(line.text))
    page.on("pageerror", lambda error: asked.append(str(error)))
    page.goto(file)
    yield page
    context.close()


def _placed(routine: Passed) -> dict[str, PassedOption]:
    days = [day for day in routine.days if not day.rest]
    return {
        f"e{d}-{s}-{e}-{o}": option
        for d, day in enumerate(days, start=1)
        for s, stop in enumerate(day.stops, start=1)
        for e, one in enumerate(stop.exercises, start=1)
        for o, option in enumerate(one.options)
        if option.follow
    }


def _number(thousandths: int) -> str:
    return f"{abs(thousandths) / 1000:.3f}".rstrip("0").rstrip(".")


def _load_text(load: int | None, option: Option, *, each: bool) -> str:
    if load is None:
        return "Lighter than the lightest you have"
    number = f"{_number(load)} kg"
    if option.bodily and load < 0:
        return f"{number} of help, from a band or a machine"
    if option.bodily or (option.helped and load >= 0):
        alone = "without help" if option.helped else "body weight alone"
        return f"body weight + {number}" if load else alone
    if option.helped:
        return f"{number} of help"
    return number + (" together" if option.together else " each" if each else "")


def _range(reps: tuple[int, int]) -> str:
    low, high = reps
    if low >= MOST_SHOWN:
        return f"{MOST_SHOWN} or more"
    if high >= MOST_SHOWN:
        return f"{low} or more"
    return str(low) if low == high else f"{low}–{high}"


def _likely_text(told: Told, group: Group, count: int) -> str:
    if told.first is None or told.last is None:
        return ""
    left = f" with {group.reserve} left" if group.reserve else ""
    last = f"; in the last set {_range(told.last)}" if count > 1 else ""
    if told.last == told.first or _range(told.last) == _range(told.first):
        last = ""
    return f"Likely {_range(told.first)} reps{left}{last}."


def _case(place: str, option: Option, rng: Random) -> tuple[dict[str, Any], Typed]:
    """What somebody types, as text and as Python reads it."""
    typed = Typed(
        load=rng.randrange(10_000, 160_000, 250),
        reps=rng.randint(1, 30),
        reserve=rng.randint(0, 4),
        lightest=rng.choice((1_000, 5_000, 20_000)),
        step=rng.choice((1_000, 1_250, 2_268, 2_500, 5_000)),
        body=rng.randrange(250_000, 280_000, 500),
    )
    fields = {
        "load": _number(typed.load).replace(".", rng.choice(".,")),
        "reps": str(typed.reps),
        "reserve": str(typed.reserve),
        "start": _number(typed.lightest),
        "step": _number(typed.step),
    }
    groups = list(range(len(option.groups)))
    case = {"place": place, "body": _number(typed.body), "fields": fields, "groups": groups}
    if option.bodily or option.helped:
        del fields["start"]
        typed = Typed(
            load=typed.load,
            reps=typed.reps,
            reserve=typed.reserve,
            step=typed.step,
            body=typed.body,
        )
    return case, typed


def test_loads_are_those_of_python(opened: Page, routine: Passed) -> None:
    """For random sets and steps, typed into the page, each load and interval is Python's own.

    On every exercise and substitute of the week, drops and warm-ups included.
    """
    rng = Random(20261130)
    placed = _placed(routine)
    cases, wanted = [], []
    for place, option in [*placed.items(), *rng.choices(list(placed.items()), k=CASES)]:
        follow = option.follow
        assert follow is not None
        case, typed = _case(place, follow, rng)
        counts = {group.number: group.count for group in option.groups}
        each = option.on in {"dumbbells", "kettlebells"}
        cases.append(case)
        wanted.append(
            [
                [_load_text(told.load, follow, each=each), _likely_text(told, group, count)]
                if told
                else ["", ""]
                for told, group, count in zip(
                    loads_for(follow, typed, routine.curves),
                    follow.groups,
                    [counts.get(number, 1) for number in range(len(follow.groups))],
                    strict=True,
                )
            ]
        )
    shown = opened.evaluate(TYPE_ALL, cases)
    for case, there, ours in zip(cases, shown, wanted, strict=True):
        assert there["complaint"] == "", case
        assert there["groups"] == ours, case


def test_nothing_is_asked_of_anybody(opened: Page, asked: list[str], file: str) -> None:
    """Without reception, typing, choosing and clearing ask for nothing beyond the file itself."""
    box = opened.locator("[data-option='e1-1-1-0']")
    box.locator("[data-field=load]").fill("60")
    box.locator("[data-field=reps]").fill("8")
    opened.locator("[name='e1-1-1'][value='1']").check()
    opened.locator("#clear").click()
    assert asked == [file]


def test_the_policy_stops_what_is_not_the_page_s_own(opened: Page, asked: list[str]) -> None:
    """A request that some script would try is stopped by the policy in the page's head."""
    went = opened.evaluate(
        "() => fetch('https://example.org/').then(() => 'went', () => 'stopped')"
    )
    assert went == "stopped"
    assert any("Content Security Policy" in line for line in asked)
    assert not any("example.org" in line for line in asked if line.startswith("http"))


def test_what_was_typed_stays_until_it_is_cleared(opened: Page) -> None:
    """It stands there again when the page is opened anew, and one button removes it all."""
    load = "[data-option='e1-1-1-0'] [data-field=load]"
    opened.locator("[data-option='e1-1-1-0'] [data-field=reps]").fill("8")
    opened.locator(load).fill("60")
    opened.reload()
    assert opened.locator(load).input_value() == "60"
    assert opened.locator("[data-option='e1-1-1-0'] .load").nth(3).is_visible()
    opened.locator("#clear").click()
    assert opened.evaluate("localStorage.length") == 0
    opened.reload()
    assert opened.locator(load).input_value() == ""
    assert opened.locator(".load:visible").count() == 0


def test_a_slip_is_one_sentence_and_nothing_is_lost(opened: Page) -> None:
    """A mistyped number is named with its remedy, and what was typed stays in the field."""
    box = opened.locator("[data-option='e1-1-1-0']")
    box.locator("[data-field=load]").fill("6o")
    box.locator("[data-field=reps]").fill("8")
    complaint = box.locator("[data-complaint]").inner_text()
    assert complaint == "Load: “6o” is no number from 0 to 2000; write it like 42.5."
    assert box.locator("[data-field=load]").input_value() == "6o"
    assert box.locator("[aria-invalid=true]").count() == 1
    assert box.locator(".load:visible").count() == 0


def test_a_substitute_takes_the_place(opened: Page) -> None:
    """One tap shows the other exercise with its own loads; a second takes it back."""
    place = opened.locator("[data-place='e1-1-1']")
    name = place.locator("h3 [data-name]")
    before = name.inner_text()
    place.locator("label", has_text="Front squat").click()
    assert name.inner_text() == "Front squat"
    assert place.locator("[data-option='e1-1-1-1']").is_visible()
    assert place.locator("[data-option='e1-1-1-0']").is_hidden()
    place.locator("label", has_text=before).click()
    assert name.inner_text() == before


def test_the_keyboard_reaches_the_first_load(opened: Page) -> None:
    """By Tab and typing alone somebody gets from the top of the page to a load."""
    for _ in range(60):
        opened.keyboard.press("Tab")
        if opened.evaluate("document.activeElement.id") == "e1-1-1-0-load":
            break
    opened.keyboard.type("60")
    opened.keyboard.press("Tab")
    opened.keyboard.type("8")
    shown = opened.locator("[data-option='e1-1-1-0'] .load:visible").last.inner_text()
    assert re.fullmatch(r"[\d.]+ kg", shown)


def test_the_unit_changes_the_usual_steps(opened: Page) -> None:
    """Pounds bring the usual bar and plates in pounds, and leave what was corrected."""
    opened.locator("#yours summary").click()
    bar = opened.locator("[data-kind='barbell'] [data-field=start]")
    stack = opened.locator("[data-kind='stack'] [data-field=step]")
    stack.fill("7")
    opened.locator("[name=unit][value=lb]").check()
    assert bar.input_value() == "45"
    assert stack.input_value() == "7"


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("script", [True, False], ids=["script", "no script"])
def test_axe_finds_nothing(chromium: Browser, file: str, scheme: Any, script: bool) -> None:  # noqa: FBT001 - a table
    """No violation that axe can check, in either look; without script the same page is read."""
    context = chromium.new_context(color_scheme=scheme, reduced_motion="reduce", bypass_csp=True)
    page = context.new_page()
    page.goto(file)
    if not script:
        page.evaluate(
            "for (const s of document.querySelectorAll('.mine, .choose, #yours')) s.hidden = true"
        )
        page.evaluate("for (const s of document.querySelectorAll('.instead')) s.hidden = false")
        page.evaluate("for (const s of document.querySelectorAll('details')) s.open = true")
    found = Axe().run(page).response["violations"]
    context.close()
    assert [(one["id"], one["nodes"][0]["html"]) for one in found] == []


@pytest.mark.parametrize("width", [320, 390, 1280])
@pytest.mark.parametrize("size", [16, 32], ids=["usual text", "text twice as large"])
def test_nothing_sticks_out(chromium: Browser, file: str, width: int, size: int) -> None:
    """No sideways scrolling at phone and desktop widths, nor with text of 200 %."""
    context = chromium.new_context(viewport={"width": width, "height": 700}, bypass_csp=True)
    page = context.new_page()
    page.goto(file)
    page.evaluate(f"document.documentElement.style.fontSize = '{size}px'")
    page.evaluate("for (const s of document.querySelectorAll('details')) s.open = true")
    over = page.evaluate("document.documentElement.scrollWidth - innerWidth")
    context.close()
    assert over <= 0


def test_targets_are_large_enough(opened: Page) -> None:
    """Everything to be touched is at least 44 px high (WCAG 2.2, 2.5.5) or a label that is."""
    small = opened.evaluate(
        """() => [...document.querySelectorAll("a, button, summary, input[type=text], .pick")]
        .filter(e => e.offsetParent && !e.matches(".skip"))
        .filter(e => e.getBoundingClientRect().height < 44).map(e => e.outerHTML)"""
    )
    assert small == []


def test_without_script_the_page_is_complete(chromium: Browser, file: str, routine: Passed) -> None:
    """Rules, substitutes and the table of starting shares are read; no empty field is shown."""
    context = chromium.new_context(java_script_enabled=False, offline=True)
    page = context.new_page()
    page.goto(file)
    text = page.locator("body").inner_text()
    fields = page.locator("input:visible, button:visible").count()
    tables = page.locator("table:visible").count()
    context.close()
    assert fields == 0
    assert tables == sum(not day.rest for day in routine.days)
    for day in routine.days:
        for stop in day.stops:
            for one in stop.exercises:
                assert one.asked.name in text
                assert all(f"{other.name} ({other.on})" in text for other in one.instead)
                assert all(_sentence(group.rule) in text for group in one.asked.groups)


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}."


def test_the_cautions_stand_on_it(opened: Page, routine: Passed) -> None:
    """Emergency lines and the rules on pain, age and pregnancy are on the page, once each."""
    opened.locator(".careful summary").click()
    text = opened.locator("#care").inner_text()
    for caution in (*routine.emergencies, *routine.cautions):
        assert text.count(caution.text) == 1
    assert {"pain_stop", "under_18", "pregnancy", "new_exercise", "safeties_missing"} <= {
        one.id for one in routine.cautions
    }


def test_every_source_is_met(routine: Passed) -> None:
    """The week that loads are compared on has all the ways in which a load is found."""
    met = {g.source for o in _placed(routine).values() if o.follow for g in o.follow.groups}
    assert met >= {Source.TABLE, Source.OF, Source.LIGHTEST}
    follows = [one.follow for one in _placed(routine).values() if one.follow]
    assert any(one.helped for one in follows)
    assert any(one.bodily for one in follows)
    assert any(one.together for one in follows)


@pytest.mark.parametrize("name", STARTERS)
def test_the_sheet_has_one_page_a_day(chromium: Browser, tmp_path: Path, name: str) -> None:
    """Printed on A4, each day of a starter week fills one page and no more."""
    routine = passed_file(WEEKS / f"{name}.toml")
    out = tmp_path / "sheet.html"
    out.write_text(sheet(routine), encoding="utf-8")
    page = chromium.new_page()
    page.goto(out.as_uri())
    printed = page.pdf(format="A4")
    page.close()
    pages = re.findall(rb"/Type\s*/Page\b(?!s)", printed)
    assert len(pages) == sum(not day.rest for day in routine.days)


def test_the_sheet_has_room_to_write(chromium: Browser, tmp_path: Path, routine: Passed) -> None:
    """A box of at least 10 × 8 mm for every set that counts; nothing sticks out on a phone.

    The size is what hand-filled forms ask for; axe finds nothing to complain of.
    """
    out = tmp_path / "sheet.html"
    out.write_text(sheet(routine), encoding="utf-8")
    context = chromium.new_context(viewport={"width": 320, "height": 700}, bypass_csp=True)
    page = context.new_page()
    page.goto(out.as_uri())
    boxes = page.evaluate(
        "[...document.querySelectorAll('.boxes li')].map(e => e.getBoundingClientRect())"
        ".map(r => [r.width / 96 * 25.4, r.height / 96 * 25.4])"
    )
    over = page.evaluate("document.documentElement.scrollWidth - innerWidth")
    found = Axe().run(page).response["violations"]
    context.close()
    groups = [
        group
        for day in routine.days
        for stop in day.stops
        for one in stop.exercises
        for group in one.asked.groups
    ]
    assert len(boxes) == sum(g.count for g in groups if g.kind is not SetKind.WARM_UP)
    assert all(wide >= 10 and high >= 8 for wide, high in boxes)
    assert over <= 0
    assert [(one["id"], one["nodes"][0]["html"]) for one in found] == []
