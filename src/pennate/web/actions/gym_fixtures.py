"""What a gym has to hang from, lie on and step on."""

from __future__ import annotations

from urllib.parse import quote

from fastapi import APIRouter
from starlette.responses import Response

from pennate.app import gym_page as gyms
from pennate.app.gyms import with_fixtures
from pennate.web.here import Form, Records
from pennate.web.render import go

actions = APIRouter()


@actions.post("/gym/fixtures")
def fixtures(book: Records, form: Form) -> Response:
    """Only what is ticked is there from now on."""
    known = gyms.gym_of(book, str(form.get("gym", "")))
    ticked = {str(one) for one in form.getlist("fixture")}
    gyms.save(book, with_fixtures(known, ticked))
    return go(f"/gym?at={quote(known.id)}#fixtures", "gym")
