"""What the pages claim opens to its rule and its source."""

from __future__ import annotations

import re
from datetime import timedelta
from html import unescape

import pytest
from fastapi.testclient import TestClient

from pennate.app.book import Book
from pennate.core import caution_texts as say
from pennate.core.readiness import Ill

from .conftest import Client
from .test_body import known


def behind(page: str, claim: str) -> dict[str, str]:
    """The facts of the first thing that opens after a claim, which has to stand on the page."""
    text = unescape(page).replace("\n", "")
    after = text[text.index(claim) + len(claim) :]
    found = re.match(r"(?:\s|</\w+>|<div[^>]*>)*<details[^>]*>\s*<summary>.*?</dl>", after)
    assert found, claim
    return dict(re.findall(r"<dt>(.*?)</dt><dd>(.*?)</dd>", found[0]))


@pytest.mark.parametrize("one", say.EVERY_CAUTION, ids=lambda one: one.id)
def test_every_caution_says_what_brings_it_up(one: say.Caution) -> None:
    """A caution is a claim: it has a rule of its own beside its source."""
    assert one.when
    assert one.source


def test_cautions_of_the_body_open_where_they_stand(client_of: Client, own_demo: Book) -> None:
    """Food, Body, Weight, a site: the sentence, then when it is said and by whom it is known."""
    pages = {"/body/food": say.EATING, "/body": say.BODY_NUMBERS, "/body/weight": say.BODY_NUMBERS}
    for path, caution in pages.items():
        facts = behind(client_of(own_demo).get(path).text, caution.text)
        assert facts == {"said when": caution.when, "source": caution.source}


def test_cautions_of_the_day_open_too(client_of: Client, own_demo: Book) -> None:
    """What Today says above the session opens alike."""
    client = client_of(own_demo)
    own_demo.put("readiness", own_demo.today, {"ill": Ill.NOW.value})
    facts = behind(client.get("/today").text, say.ILL.text)
    assert facts["source"] == say.ILL.source


def offered(client: TestClient, aim: str) -> dict[str, str]:
    """What is behind an intake that is offered, or behind none."""
    page = client.get("/body/food", params={"aim": aim}).text
    text = unescape(page[page.index('class="change"') :]).replace("\n", "")
    text = text[text.index("<details") : text.index("</dl>")]
    return dict(re.findall(r"<dt>(.*?)</dt><dd>(.*?)</dd>", text))


def test_an_intake_opens_to_its_rule_and_guards(client_of: Client, empty: Book) -> None:
    """A surplus rests on its trial, a deficit on both of its guards; each names maintenance."""
    known(empty)
    client = client_of(empty)
    gain, less = offered(client, "gain"), offered(client, "300")
    assert "Helms" in gain["source"]
    assert "Murphy" in less["source"]
    assert "Mountjoy" in less["source"]
    for facts in (gain, less):
        assert re.search(r"maintenance of \d+ kcal", facts["rests on"])
        assert {"rule", "contested"} <= set(facts)


def test_where_none_is_offered_that_opens_as_well(client_of: Client, empty: Book) -> None:
    """An intake that is refused says by which rule."""
    known(empty)
    for past in range(1, 11):
        day = (empty.today - timedelta(days=past)).isoformat()
        client_of(empty).post("/body/intake", data={"kcal": "1000", "day": day})
    facts = offered(client_of(empty), "300")
    assert "lean mass" in facts["rule"]
    assert "in pregnancy" in facts["rule"]
    assert say.PREGNANCY.source in facts["source"]
