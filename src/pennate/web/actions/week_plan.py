"""The brief is sent, the work stopped, a proposed week used or dropped."""

from __future__ import annotations

from dataclasses import replace

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import Response

from pennate.app.week_block import begin_block, end_block, go_on, wish_of
from pennate.app.week_brief import Wishes, keep_wishes
from pennate.app.week_happened import TO_COME, Told, place_named
from pennate.app.week_plan import Proposal, start_plan, start_replan, use_proposal
from pennate.app.week_work import Task, Work
from pennate.core.brief import JointLimit
from pennate.core.exercise import EquipmentKind, Fixture
from pennate.core.muscles import Group, Joint
from pennate.core.prescribed import WEEKDAYS, Week
from pennate.errors import InputError, Where
from pennate.web.here import Form, Plans, Records, Text
from pennate.web.render import go, page
from pennate.web.views.week_changed import SPANS, ChangedView, changed_view
from pennate.web.views.week_plan import brief_view

actions = APIRouter()


def _text(form: Form, name: str) -> str:
    return str(form.get(name, "")).strip()


def wishes_of(form: Form) -> Wishes:
    """The form as typed; a day that is not ticked has no minutes."""
    chosen = {str(day) for day in form.getlist("day")}
    days = {
        day: (_text(form, f"minutes_{day}") or "60") if day in chosen else "" for day in WEEKDAYS
    }
    targets = {group.value: _text(form, f"target_{group.value}") for group in Group}
    joints = {joint.value: _text(form, f"joint_{joint.value}") for joint in Joint}
    return Wishes(
        days=days,
        sessions=_text(form, "sessions"),
        gym=_text(form, "gym"),
        priorities=tuple(str(one) for one in form.getlist("priority") if one),
        targets={group: text for group, text in targets.items() if text},
        joints={joint: text for joint, text in joints.items() if text},
        liked=_text(form, "liked"),
        barred=_text(form, "barred"),
        required=_text(form, "required"),
        years=_text(form, "years"),
        reserve=_text(form, "reserve"),
        supersets=_text(form, "supersets") == "yes",
        most_exercises=_text(form, "most_exercises"),
        near=_text(form, "near") != "no",
    )


@actions.post("/week/brief")
def send_brief(request: Request, book: Records, work: Plans, form: Form) -> Response:
    """Begin to plan; what cannot be read comes back as typed."""
    wishes = wishes_of(form)
    try:
        task = start_plan(book, work, wishes)
    except InputError as error:
        return page(request, "week_brief", brief_view(book, wishes), error=str(error), status=422)
    keep_wishes(book, wishes)
    return go(f"/week/plan/{task.key}")


@actions.post("/week/changed")
def send_changed(request: Request, book: Records, work: Plans, form: Form) -> Response:
    """Begin to change the rest of the week."""
    week = book.week()
    if week is None:
        raise InputError("there is no week yet", remedy="choose one on the start page")
    try:
        told = replace(_told(form, week), place=place_named(book, _text(form, "place")))
        task = start_replan(book, work, told, weeks=_weeks(form))
    except InputError as error:
        view = _as_typed(changed_view(book, week), form)
        return page(request, "week_changed", view, error=str(error), status=422)
    return go(f"/week/plan/{task.key}")


def _weeks(form: Form) -> int:
    """How many weeks the change is for; nought until she changes it."""
    text = _text(form, "for") or "1"
    return int(text) if text in dict(SPANS) else 1


def _told(form: Form, week: Week) -> Told:
    days = [day.day for day in week.days if not day.rest]
    return Told(
        states={day: _text(form, f"state_{day}") or TO_COME for day in days},
        gone={str(one) for one in form.getlist("gone")},
        kit={EquipmentKind(one) for one in form.getlist("kit") if one in set(EquipmentKind)},
        fixtures={Fixture(one) for one in form.getlist("kit") if one in set(Fixture)},
        joint_limits={
            joint: JointLimit(text).highest
            for joint in Joint
            if (text := _text(form, f"joint_{joint.value}")) in set(JointLimit)
        },
        minutes={day: _day_minutes(day, text) for day in days if (text := _minutes(form, day))},
    )


def _minutes(form: Form, day: str) -> str:
    return _text(form, f"minutes_{day}")


def _day_minutes(day: str, text: str) -> int:
    if not text.isdigit() or not 5 <= int(text) <= 300:
        remedy = "write it like 45, from 5 to 300, or leave it empty"
        raise InputError(f"“{text[:20]}” is not a session on {day}", Where(field="Minutes"), remedy)
    return int(text)


def _as_typed(view: ChangedView, form: Form) -> ChangedView:
    days = tuple(
        replace(
            one,
            state=_text(form, f"state_{one.day}") or one.state,
            minutes=_minutes(form, one.day),
        )
        for one in view.days
    )
    sore = {joint: _text(form, f"joint_{joint}") for joint in view.joints}
    return replace(
        view,
        days=days,
        gone=tuple(str(one) for one in form.getlist("gone")),
        kit=tuple(str(one) for one in form.getlist("kit")),
        sore=sore,
        place=_text(form, "place"),
        weeks=str(_weeks(form)),
    )


@actions.post("/week/block")
def follow(
    book: Records, do: Text, weeks: Text = "6", ramp: Text = "effort", lighter: Text = "no"
) -> Response:
    """Begin a block, go on to its week that is due, or end it."""
    if do == "begin":
        begin_block(book, wish_of(weeks, ramp, lighter=lighter == "yes"))
    elif do == "end":
        end_block(book)
    else:
        go_on(book)
    return go("/week", "week")


def _task(work: Work[Proposal], key: str) -> Task[Proposal]:
    task = work.find(key)
    if task is None:
        raise InputError("this week is no longer remembered", remedy="ask for it again")
    return task


@actions.post("/week/plan/{key}/stop")
def stop(work: Plans, key: str) -> Response:
    """End the work soon, with the best week found so far."""
    _task(work, key).stop()
    return go(f"/week/plan/{key}")


@actions.post("/week/plan/{key}/use")
def use(book: Records, work: Plans, key: str, do: Text = "use") -> Response:
    """Follow the proposed week, or forget it."""
    if do == "drop":
        work.drop(key)
        return go("/week", "nothing")
    use_proposal(book, _task(work, key).outcome())
    return go("/week", "week")
