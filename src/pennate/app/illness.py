"""Ill, or back after it: how long sessions stay easy, and when she is asked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from pennate.app.back_again import Easing, Pause
from pennate.app.body_notes import READINESS, check_ins
from pennate.app.book import Book
from pennate.app.day import readiness_body, readiness_of
from pennate.body.recovery import LayoffReturn, illness_return
from pennate.core.evidence.safety import (
    ILL_ASK_DAYS,
    ILL_EASY_A_DAY,
    ILL_EASY_LEAST,
    NEW_CARE_DAYS,
)
from pennate.core.history import History
from pennate.core.plural import plural
from pennate.core.readiness import Ill, Readiness

ASK = "without a session: if you were ill, say so, and the first sessions are easier"


def ill_days(book: Book) -> dict[date, Ill]:
    """The days on which she said that she is ill, or was before."""
    said = {entry.day: Ill(entry.body.get("ill", "")) for entry in check_ins(book)}
    return {day: ill for day, ill in said.items() if ill is not Ill.NO}


def illness(history: History, said: Mapping[date, Ill], today: date) -> Pause | None:
    """The easy days she is in; of several illnesses that which holds longest."""
    found = [_easing(history, day, ill, today) for day, ill in said.items() if day <= today]
    left = [one for one in found if one.easing and one.easing.day <= one.easing.of]
    return max(left, key=lambda one: one.easing.left if one.easing else 0, default=None)


def _easing(history: History, day: date, ill: Ill, today: date) -> Pause:
    """As many easy days as she was away, from the day she said so; ill now, that day alone."""
    before = history.before(day)
    off = (day - before.sets[-1].day).days if len(before) else 0
    easy = min(max(off * ILL_EASY_A_DAY, ILL_EASY_LEAST), NEW_CARE_DAYS)
    number = (today - day).days
    return Pause(off, number, Easing(number + 1, 1 if ill is Ill.NOW else round(easy)))


def illness_now(book: Book, day: date) -> Pause | None:
    """The easy days of an illness that a day lies in, by her records."""
    return illness(book.history(), ill_days(book), day)


def after_illness(pause: Pause | None) -> LayoffReturn | None:
    """How the sessions of these days differ, in words; None without an illness."""
    easing = pause.easing if pause else None
    return illness_return(easing.day, easing.of) if easing else None


def asked_of(history: History, today: date, said: Readiness | None) -> str:
    """After days without a session she is asked, until she trains or says so; else empty."""
    days = (today - history.sets[-1].day).days if len(history) else 0
    if days < ILL_ASK_DAYS or (said is not None and said.ill is not Ill.NO):
        return ""
    return f"{plural(days, 'day')} {ASK}"


def say_ill(book: Book, day: date, ill: Ill) -> None:
    """Keep that she is ill, was ill, or neither, with all else that she said that day."""
    last = next((one for one in check_ins(book) if one.day == day), None)
    body = last.body if last else {}
    said = replace(readiness_of(day, body), ill=ill)
    book.put(READINESS, day, readiness_body(said, body.get("minutes")))
