"""What a passed-on page says of itself: what it is for, and where its numbers come from."""

from __future__ import annotations

from pennate.core.evidence.body_recovery import RETURN_SETS
from pennate.core.evidence.pass_on import MOST_REPS
from pennate.core.evidence.safety import BACK_RESERVE, NEW_AGAIN_DAYS
from pennate.core.evidence.session import SURE_ENOUGH_FIRST, SURE_ENOUGH_LATER
from pennate.core.evidence.strength import REMEMBERED_SD
from pennate.core.percent import percent

LEAD = (
    "Your loads, not somebody else’s: for each exercise, tell one set you remember of the last "
    "weeks. The page finds the load for every set and rounds it down to what your equipment can "
    "make. It opens without reception. First time on an exercise: begin light and stop early "
    "rather than late; when the top of a range leaves reps to spare, take the next step up. After "
    f"{NEW_AGAIN_DAYS // 7:g} weeks away, or an illness: once you are well, "
    f"{percent(float(RETURN_SETS))} of the sets in the first week, {BACK_RESERVE:g} or more left "
    "in each."
)
SHARES = (
    "A load to begin with is a share of what you moved in the set you remember. The share comes "
    "from a strength model that knows nothing else of you: it is the heaviest at which the low "
    f"end of the asked reps is reached by {SURE_ENOUGH_FIRST * 100:g} of 100 people in the first "
    f"set, and by {SURE_ENOUGH_LATER * 100:g} in the last, after what was done before it on "
    "that day. It is then rounded down to your steps."
)
LIKELY = (
    "The likely reps are an interval that holds 80 of 100 people with that one set. It is wide: "
    f"memory is about {REMEMBERED_SD * 100:g} % off, days differ, and people differ in how reps "
    "fall as loads rise. Reps that you had left but do not know count as none, and more than "
    f"{MOST_REPS:g} reps count as {MOST_REPS:g}; both err to the light side. After your first "
    "session, go by what you did there."
)
LIMITS = (
    "Where body weight is moved too, an average share of it counts, which fits hardly anybody. "
    "Numbers on a machine mean nothing on another: remember a set on the one you will use."
)
NUMBERS = (SHARES, LIKELY, LIMITS)
