"""Forms of Today, the Floor and the review."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from fractions import Fraction

from fastapi import APIRouter
from starlette.datastructures import FormData
from starlette.responses import Response

from pennate.app import today as day_of_training
from pennate.app.book import Book
from pennate.app.doubts import doubt
from pennate.app.notes import save_notes
from pennate.app.record import Recorded, finish, record, undo
from pennate.core.card import Card, CardSet
from pennate.core.performed import Effort
from pennate.core.quantities import LoadReading, Unit, parse_number
from pennate.core.readiness import ALARM, Ill, PainAction, Readiness
from pennate.errors import InputError, Where
from pennate.web.here import Form, Records, Text, day_of
from pennate.web.hurts import MUSCLE, WORST, PainSaid, pain_said
from pennate.web.render import go
from pennate.web.views.floor import takes_off

actions = APIRouter()


def _text(form: FormData, name: str) -> str:
    value = form.get(name, "")
    return value.strip() if isinstance(value, str) else ""


def _card(book: Book, day: date) -> Card:
    card = day_of_training.card_for(book, day)
    if isinstance(card, day_of_training.RestDay):
        raise InputError("no session is open today", remedy="choose one on the Today page")
    return card


# Before


@actions.post("/today/choose")
def choose(book: Records, weekday: Text, day: Text = "") -> Response:
    """Another day's session today."""
    on = day_of(day, book)
    day_of_training.planned_for(book, on, weekday)
    day_of_training.open_session(book, on, weekday.capitalize())
    return go("/today")


@actions.post("/today/check-in")
def check_in(book: Records, toggle: Text, day: Text = "") -> Response:
    """One answer to what is different today, on or off."""
    on = day_of(day, book)
    card = day_of_training.card_for(book, on)
    if isinstance(card, day_of_training.RestDay):
        return _at_rest(book, on, toggle)
    said = card.readiness or Readiness(day=on)
    weekday = card.session.capitalize()
    minutes = day_of_training.day_state(book, on, weekday).minutes
    to_ask = {
        "hurts": not said.pain,
        "sore": not said.sore,
        "time": minutes is None,
        "ill": not said.ill,
    }
    if to_ask.get(toggle):
        return go(f"/today?ask={toggle}#ask")
    kept = None if toggle in {"time", "nothing"} else minutes
    day_of_training.check_in(book, on, weekday, _toggled(said, toggle), kept)
    return go("/today?ask=sore#ask" if toggle.startswith("sore:") else "/today")


def _at_rest(book: Book, on: date, toggle: str) -> Response:
    said = day_of_training.told_at_rest(book, on)[0] or Readiness(day=on)
    if toggle == "ill" and not said.ill:
        return go("/today?ask=ill#ask")
    day_of_training.check_in_at_rest(book, on, _toggled(said, toggle))
    return go("/today")


def _toggled(said: Readiness, what: str) -> Readiness:
    if what.startswith("sore:"):
        place = what.removeprefix("sore:")
        kept = tuple(one for one in said.sore if one != place)
        return replace(said, sore=kept if place in said.sore else (*said.sore, place))
    other = {
        "short_sleep": replace(said, short_sleep=not said.short_sleep),
        "low_energy": replace(said, low_energy=not said.low_energy),
        "ill": replace(said, ill=Ill.NO),
        "ill:now": replace(said, ill=Ill.NOW),
        "ill:before": replace(said, ill=Ill.BEFORE),
        "sore": replace(said, sore=()),
        "hurts": replace(said, pain={}, alarming=frozenset()),
        "time": said,
    }
    return other.get(what, Readiness(day=said.day))


@actions.post("/today/pain")
def pain(
    book: Records,
    joint: Text,
    score: Text,
    alarming: Text = "",
    day: Text = "",
    corrects: Text = "",
) -> Response:
    """A joint that hurts before the session."""
    said = PainSaid(joint, _score(score), bool(alarming))
    _hurting(book, _card(book, day_of(day, book)), said, corrects=bool(corrects))
    return go("/today")


def _hurting(book: Book, card: Card, hurt: PainSaid, *, corrects: bool = False) -> None:
    """Take a joint's pain into account in all that loads it today."""
    said = card.readiness or Readiness(day=card.day)
    weekday = card.session.capitalize()
    minutes = day_of_training.day_state(book, card.day, weekday).minutes
    hurting = said.hurting({hurt.where: hurt.score}, alarming=hurt.alarming, corrects=corrects)
    day_of_training.check_in(book, card.day, weekday, hurting, minutes)


def _score(text: str) -> int:
    if not text.isdigit() or int(text) > 10:
        raise InputError(f"“{text[:10]}” is not a number from 0 to 10", Where(field="How much"))
    return int(text)


@actions.post("/today/time")
def time_left(book: Records, minutes: Text = "", day: Text = "") -> Response:
    """The minutes she has."""
    card = _card(book, day_of(day, book))
    said = card.readiness or Readiness(day=card.day)
    if minutes and not minutes.isdigit():
        raise InputError(f"“{minutes[:10]}” is not a number of minutes", remedy="like 45")
    weekday = card.session.capitalize()
    day_of_training.check_in(book, card.day, weekday, said, int(minutes) if minutes else None)
    return go("/today")


@actions.post("/today/stop")
def stop(book: Records, do: Text, stop: Text, weekday: Text, day: Text = "") -> Response:
    """Order or leave out a stop."""
    on, index = day_of(day, book), _index(stop)
    if do == "skip":
        day_of_training.skip(book, on, weekday, index)
    elif do == "take up":
        day_of_training.take_up(book, on, weekday, index)
    else:
        day_of_training.move(book, on, weekday, index, earlier=do == "earlier")
    return go("/today")


@actions.post("/today/swap")
def swap(book: Records, form: Form) -> Response:
    """Another exercise at a stop, today."""
    on = day_of(_text(form, "day"), book)
    to = {name: _text(form, name) for name in ("exercise", "item", "reason")}
    day_of_training.swap(book, on, _text(form, "weekday"), _index(_text(form, "stop")), to)
    return go("/today" if _text(form, "back") == "/today" else "/floor", "swapped")


def _index(text: str) -> int:
    if not text.isdigit():
        raise InputError(f"“{text[:10]}” is not a stop", remedy="reload the page")
    return int(text)


# During


@actions.post("/floor/close")
def close(book: Records, form: Form) -> Response:
    """A set is done: as asked, by a number, or with other values typed in."""
    card = _card(book, day_of(_text(form, "day"), book))
    key = _text(form, "key")
    if key != card.next_key:
        return go("/floor")
    found = card.find(key)
    if found is None:
        return go("/floor")
    stop, one = found
    reported = recorded(form, one, helps=stop.item is not None and takes_off(stop.item))
    doubt(book, record(book, card.day, key, reported, weekday=card.session.capitalize()))
    return go("/floor", "stopped" if reported.stops else "")


def recorded(form: FormData, one: CardSet, *, helps: bool = False) -> Recorded:
    """What the form says was done; what she did not touch stays unsaid.

    On an item that `helps` another load is help, with or without its sign. Raises InputError
    with the field that cannot be read.
    """
    reps, seconds = _amount(form, one)
    load, unit, reading = _load(form)
    amount = parse_number(load) if load else None
    effort, said = _text(form, "effort"), pain_said(_text(form, "pain"))
    return Recorded(
        reps=reps,
        seconds=seconds,
        load=-abs(amount) if helps and amount is not None else amount,
        unit=Unit(unit) if load and unit else None,
        reading=_reading(reading),
        effort=Effort(effort) if effort else None,
        pain=_joint(said),
        note="; ".join(filter(None, (_text(form, "note"), *_remarks(said)))),
        stops=said is not None and said.action is PainAction.STOP,
    )


def _load(form: FormData) -> tuple[str, str, str]:
    """Load, unit and reading where she typed one or moved to one; else the reading alone."""
    shown = _text(form, "reading")
    if _text(form, "other") and _text(form, "other_load"):
        counted = _text(form, "other_reading")
        return _text(form, "other_load"), _text(form, "other_unit"), counted or shown
    if _text(form, "by_hand"):
        return _text(form, "load"), _text(form, "unit"), shown
    return "", "", shown


def _reading(text: str) -> LoadReading:
    if text and text not in set(LoadReading):
        remedy = f"one of: {', '.join(LoadReading)}"
        raise InputError(f"“{text[:20]}” is no way to count a load", Where(field="load"), remedy)
    return LoadReading(text) if text else LoadReading.TOTAL


def _amount(form: FormData, one: CardSet) -> tuple[int | None, Fraction | None]:
    """Reps, or seconds of a hold; neither where the set stands as asked."""
    held = one.seconds is not None
    if _text(form, "other"):
        text = _text(form, "other_seconds" if held else "other_reps")
    else:
        text = _text(form, "reps")
    if not text:
        return None, None
    if not text.isdigit():
        field = "Seconds held" if held else "Full reps"
        raise InputError(f"“{text[:20]}” is not a whole number", Where(field=field), "like 8")
    return (None, Fraction(int(text))) if held else (int(text), None)


def _joint(said: PainSaid | None) -> dict[str, int]:
    return {} if said is None or said.where == MUSCLE else {said.where: said.score}


def _remarks(said: PainSaid | None) -> Iterator[str]:
    """What of the pain the set's note keeps, as the phone writes it."""
    if said is not None and said.where == MUSCLE:
        yield f"muscle pain {said.score} of {WORST}"
    if said is not None and said.alarming:
        yield ALARM


@actions.post("/floor/undo")
def take_back(book: Records, day: Text = "", back: Text = "") -> Response:
    """The set closed last is open again."""
    card = _card(book, day_of(day, book))
    undo(book, card.day, weekday=card.session.capitalize())
    return go("/today" if back == "/today" else "/floor", "undone")


@actions.post("/floor/keep")
def keep(book: Records, key: Text, day: Text = "") -> Response:
    """The load stays as it was planned."""
    card = _card(book, day_of(day, book))
    day_of_training.keep_load(book, card.day, card.session.capitalize(), key)
    return go("/floor", "kept")


@actions.post("/floor/skip")
def skip(book: Records, stop: Text, day: Text = "", pain: Text = "") -> Response:
    """The exercise is left out today; pain told beside it counts for the others too."""
    card = _card(book, day_of(day, book))
    said, index = pain_said(pain), _index(stop)
    if said is not None and said.where != MUSCLE:
        _hurting(book, card, said)
    day_of_training.skip(
        book,
        card.day,
        card.session.capitalize(),
        index,
        exercise=next((one.exercise for one in card.stops if one.index == index), ""),
        pain=_joint(said),
        note="; ".join(_remarks(said)),
    )
    return go("/floor", "skipped")


@actions.post("/floor/later")
def later(book: Records, stop: Text, day: Text = "") -> Response:
    """The exercise comes one place later."""
    card = _card(book, day_of(day, book))
    day_of_training.move(book, card.day, card.session.capitalize(), _index(stop), earlier=False)
    return go("/floor", "later")


@actions.post("/floor/hurts")
def hurts(form: Form) -> Response:
    """Pain during the session: what to do now, and the number goes with the next set."""
    joint, score = _text(form, "joint"), _score(_text(form, "score"))
    alarm = "!" if _text(form, "alarming") else ""
    return go(f"/floor?pain={joint.replace(' ', '+')}:{score}{alarm}#answer")


@actions.post("/floor/notes")
def notes(book: Records, form: Form) -> Response:
    """Her settings, cue and note for next time."""
    names = [str(one) for one in form.getlist("setting_name")]
    values = [str(one) for one in form.getlist("setting_value")]
    save_notes(
        book,
        _text(form, "exercise"),
        _text(form, "item"),
        settings=dict(zip(names, values, strict=False)),
        cue=_text(form, "cue"),
        next_time=_text(form, "next_time"),
    )
    return go("/floor", "saved")


# After


@actions.post("/review/{day}")
def finished(book: Records, day: str, note: Text = "") -> Response:
    """The session is over."""
    on = day_of(day, book)
    card = _card(book, on)
    finish(book, on, weekday=card.session.capitalize(), note=note)
    return go(f"/review/{on.isoformat()}", "saved")
