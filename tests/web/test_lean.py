"""Scripts travel without comments and indentation, and mean what they meant."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Browser

from pennate.app.book import Book
from pennate.web.lean import ORDER, PHONE, bundle, lean
from pennate.web.render import STATIC, static

from .conftest import served

SCRIPTS = sorted(path.name for path in STATIC.glob("*.js"))
PARSE = """(texts) => texts.map((text) => {
  const bare = text.replace(/^(import|export) /gm, "").replace(/^.* from ".*";$/gm, "");
  try {
    new Function(`return async () => {${bare}\n}`);
    return "";
  } catch (error) {
    return String(error);
  }
})"""


@pytest.mark.parametrize("name", SCRIPTS)
def test_only_comments_and_indentation_go(name: str) -> None:
    """Taken out are whole-line comments and leading spaces: every other line stands as it was."""
    text = (STATIC / name).read_text(encoding="utf-8")
    bare = re.sub(r"/\*\*.*?\*/", "", text, flags=re.DOTALL)
    lines = [line.strip(" ") for line in bare.splitlines()]
    kept = [line for line in lines if line and not line.startswith("//")]
    assert [line for line in lean(text).splitlines() if line] == kept
    quotes = [line.count("`") % 2 for line in kept]
    assert not any(quotes), "a text over several lines would lose its spaces"


TOP = re.compile(r"^(?:export )?(?:async )?(?:function|const|let|class) (\w+)", re.MULTILINE)


def test_no_name_stands_in_two_scripts_of_the_phone() -> None:
    """In one script every name at the top is declared once, and no import has another name."""
    texts = [(STATIC / f"{name}.js").read_text(encoding="utf-8") for name in ORDER]
    names = [name for text in texts for name in TOP.findall(text)]
    assert len(names) > 100
    assert [name for name in names if names.count(name) > 1] == []
    assert all(f" {name}" in bundle(STATIC) for name in names)
    assert not any(re.search(r"^import .* as ", text, re.MULTILINE) for text in texts)
    used = {name for text in texts for name in re.findall(r'from "\./(\w+)\.js"', text)}
    assert used <= set(ORDER)


def test_every_script_still_parses(own_demo: Book, chromium: Browser) -> None:
    """As they are sent, in a browser."""
    with served(own_demo) as address:
        page = chromium.new_page()
        page.goto(address + "/data")
        sent = page.evaluate(
            "(urls) => Promise.all(urls.map((url) => fetch(url).then((one) => one.text())))",
            [static(name) for name in (*SCRIPTS, PHONE)],
        )
        assert page.evaluate(PARSE, sent) == [""] * len(sent)
        page.close()
    assert sent[:-1] == [lean((STATIC / name).read_text(encoding="utf-8")) for name in SCRIPTS]
