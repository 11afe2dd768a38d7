"""What must not stand in anything that is passed on: her pain, body, cycle and loads.

A plain search of words. It errs to the side of leaving a sentence out; what was left out is told
to her, and she can say it otherwise.
"""

from __future__ import annotations

import re

_JOINT = (
    r"knees?|hips?|back|spine|shoulders?|elbows?|wrists?|ankles?|neck|hamstrings?|groin|disc"
    r"|tendons?|rotator cuff|meniscus"
)
_HEALTH = re.compile(
    r"\bpain(?:s|ful|-free)?\b|\bsor(?:e|eness)\b|\bhurts?\b|\bach(?:e|es|y|ing)\b|\binjur\w*"
    r"|\bsurger\w*|\boperat(?:ed|ion)\w*|\brehab\w*|\bphysio\w*|\bswell\w*|\bswollen\b|\bstrained\b"
    r"|\btorn\b|\bclinician\w*|\bdoctor\w*|\bmedic\w*|\bdiagnos\w*|\barthr\w*|\btendin\w*"
    r"|\btendonitis\b|\bhernia\w*|\bblood pressure\b|\bpregnan\w*|\bpostpartum\b|\bgave birth\b"
    r"|\bill(?:ness\w*)?\b|\bsick(?:ness)?\b|\bfever\w*|\bflu\b|\binfluenza\b|\bcovid\w*"
    r"|\binfect\w*|\bvirus\w*|\bantibiotic\w*|\bhospital\w*|\bcough\w*|\bunwell\b"
    r"|\bperiods?\b|\bmenstru\w*|\bmenopaus\w*|\bluteal\b|\bfollicular\b|\bovulat\w*"
    r"|\bmy cycle\b|\bcycle day\b|\bthe pill\b|\bpsych\w*|\banxi\w*|\bdepress(?:ed|ion)\b"
    rf"|\b(?:my|her|left|right|bad|weak|stiff|cranky|dodgy|tweaky)\s+(?:{_JOINT})\b"
    rf"|\b(?:spare|spares|easy on|kind to|protects?)\s+(?:(?:my|the|her)\s+)?(?:{_JOINT})\b",
    re.IGNORECASE,
)
_BODY = re.compile(
    r"\bi weigh\b|\bmy weight\b|\bbody ?fat\b|\bkcal\b|\bcalor\w*|\bmy photos?\b"
    r"|\bmy (?:waist|girth|hip)",
    re.IGNORECASE,
)
_LOAD = re.compile(
    r"\d\s*(?:kg|kgs|kilos?|kilograms?|lbs?|pounds?)\b|\b[1-9]?rm\s*[:=]|\bpersonal best\b|\bpr\b"
    r"|\bmy (?:max|best|record)\b",
    re.IGNORECASE,
)


def private_words(text: str) -> str:
    """The words for which a sentence is not passed on; empty where there are none."""
    for pattern in (_HEALTH, _BODY, _LOAD):
        found = pattern.search(text)
        if found:
            return found.group(0)
    return ""
