"""The phone's page, its service worker, and the week of sessions it takes along."""

from __future__ import annotations

import json
from dataclasses import asdict
from datetime import timedelta
from functools import partial
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Query
from starlette.requests import Request
from starlette.responses import Response

from pennate.app.book import Book
from pennate.app.changes import SAID
from pennate.app.choose import Choice
from pennate.app.new_work import outlook, working_days
from pennate.core.caution_texts import AFTER_ILLNESS, BREAKDOWN, ILL
from pennate.core.evidence.safety import BACK_RESERVE, BREAKDOWN_DAYS
from pennate.core.muscles import Group, Joint
from pennate.core.readiness import PainAction
from pennate.estimate.curve import MOST_REPS
from pennate.web.here import Records
from pennate.web.lean import lean
from pennate.web.pages.session import LIKELY_RULE, PAIN_WORDS
from pennate.web.pages.start import next_step
from pennate.web.phone.document import DAYS, Json, day_document, days_ahead, last_trained
from pennate.web.phone.kept import Kept, Stand
from pennate.web.render import STATIC, fingerprint, page
from pennate.web.sync import own_device
from pennate.web.words import EFFORT_WORDS

FORM = 4
"""Of the cards, as `outbox.js` knows it: raised when a script could not use older ones."""

ILL_SAID = {
    "ill": ILL.text,
    "was_ill": AFTER_ILLNESS.text,
    "easy": "Easier sessions come from the records, once in reach; until then do half of the sets "
    f"of each exercise, with {int(BACK_RESERVE)} or more left in each",
}
"""What is heeded where she is or was ill, and what to do while these cards do not know of it."""

pages = APIRouter()
cards = APIRouter(prefix="/api", dependencies=[Depends(own_device)], tags=["sync"])


@pages.get("/phone")
def phone(request: Request) -> Response:
    """The Floor as one page that the phone keeps; everything else comes from its own store."""
    return page(request, "phone", {"version": fingerprint()})


@pages.get("/sw.js")
def service_worker() -> Response:
    """The service worker, from the root so that it reaches every page."""
    text = (STATIC / "sw.js").read_text(encoding="utf-8").replace("VERSION", fingerprint())
    return Response(lean(text), media_type="text/javascript", headers={"Cache-Control": "no-cache"})


@cards.get("/cards")
def ahead(
    request: Request, book: Records, days: Annotated[int, Query(ge=1, le=DAYS)] = DAYS
) -> Response:
    """Cards and response sheets of the sessions planned on the coming days, today first."""
    kept: Kept = request.app.state.kept
    begun = _stand(book)
    made = [
        kept.day(partial(_stand, book), day, partial(day_document, book, day, weekday))
        for day, weekday in (() if next_step(book) else days_ahead(book, days))
    ]
    oldest = min((stand for stand, _ in made), key=lambda one: one[1], default=begun)
    whole = _whole(book, oldest, [document for _, document in made])
    return Response(as_json(whole), media_type="application/json")


def _stand(book: Book) -> Stand:
    return book.ledger.generation(), book.ledger.position(), book.today


def as_json(document: Json) -> bytes:
    """A document as it travels."""
    return json.dumps(document, ensure_ascii=False, separators=(",", ":")).encode()


def _whole(book: Book, stand: Stand, days: list[Json]) -> dict[str, Any]:
    generation, position, today = stand
    profile = book.profile()
    return {
        "form": FORM,
        "made_at": book.now().isoformat(),
        "generation": generation,
        "position": position,
        "today": str(today),
        "trained": last_trained(book),
        "unit": profile.unit.value,
        "joints": [joint.value for joint in Joint],
        "groups": [group.value for group in Group],
        "said": {**SAID, **ILL_SAID},
        "efforts": [[effort.value, words] for effort, words in EFFORT_WORDS.items()],
        "pain": {
            "go_on": PAIN_WORDS[PainAction.GO_ON],
            "reduce": PAIN_WORDS[PainAction.REDUCE],
            "stop": PAIN_WORDS[PainAction.STOP],
        },
        "likely_rule": LIKELY_RULE,
        "most_reps": MOST_REPS,
        "spared": Choice.SPARED.value,
        "next": {
            "heavier": _sentence(Choice.RAISED),
            "lighter": _sentence(Choice.LOWERED),
            "the same": _sentence(Choice.LAST_TIME),
        },
        "care": _care(book),
        "days": days,
    }


def _sentence(choice: Choice) -> str:
    return f"{choice.value[0].upper()}{choice.value[1:]}."


def _care(book: Book) -> Json:
    """The signs of muscle breakdown, and on which of the coming days they are to be told."""
    working, trained = working_days(book.history()), book.profile().trained is True
    coming = [book.today + timedelta(days=further) for further in range(DAYS)]
    days = {str(day): asdict(outlook(working, day, trained=trained)) for day in coming}
    return {"text": BREAKDOWN.text, "for_days": int(BREAKDOWN_DAYS), "days": days}
