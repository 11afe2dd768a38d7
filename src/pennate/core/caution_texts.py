"""The cautions themselves: plain sentences with what brings them up and their sources."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from pennate.core.evidence.body_recovery import PAIN_COUNTS
from pennate.core.evidence.safety import (
    BRACE_LOAD_LEVEL,
    BREAKDOWN_DAYS,
    KNEE_LOAD_LEVEL,
    LOW_ENERGY_KCAL_KG,
    NEW_AGAIN_DAYS,
    NEW_CARE_DAYS,
    NO_PERIOD_DAYS,
    PAIN_PERSISTS_DAYS,
    PAIN_REDUCE_FROM,
    PAIN_STOP_ABOVE,
    SETS_JUMP,
)


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution in one or two plain sentences.

    Emergency lines are shown every time; the rest once a session unless they say otherwise.
    A caution stays the same whichever joints its text names.
    """

    id: str
    text: str = field(compare=False)
    source: str
    when: str = field(default="", compare=False, kw_only=True)
    """What brings it up."""
    emergency: bool = False
    once_a_session: bool = True
    named: str = field(default="", compare=False)
    """The same with {} for the joints it speaks of."""

    def of(self, joints: Sequence[str]) -> Caution:
        """The caution with the joints it speaks of; as it is where none is known."""
        if not joints or not self.named:
            return self
        return replace(self, text=self.named.format(" and ".join(joints)))


def _emergency(
    id: str,  # noqa: A002 - the field's own name
    text: str,
    source: str,
    *,
    when: str,
) -> Caution:
    return Caution(id, text, source, when=when, emergency=True, once_a_session=False)


GENERAL = Caution(
    "general",
    "General training information, not medical advice. Numbers are averages, and people differ "
    "as much as the averages are large.",
    "Hubal 2005; Ahtiainen 2016",
    when="always",
)
RED_FLAGS = _emergency(
    "red_flags",
    "Stop and get medical help: chest pain, fainting, unusual breathlessness, sudden bad "
    "headache, numbness or weakness, lost feeling between the legs or bladder control, a joint "
    "that locks or gives way, pain at night or at rest, fever with back pain, dark urine.",
    "standard warning signs, from memory",
    when="a note of today names one of these signs, in common words",
)
BREAKDOWN = _emergency(
    "breakdown",
    "Dark urine, or severe swelling, pain or weakness of a muscle in the five days after hard new "
    "work: go to urgent care now, it can harm the kidneys.",
    "Scalco 2016; RACGP 2016; Honda 2017",
    when=f"up to {BREAKDOWN_DAYS:g} days after {SETS_JUMP:.0%} more sets than usual, or after the "
    f"first session in {NEW_AGAIN_DAYS:g} days",
)
NEW_EXERCISE = Caution(
    "new_exercise",
    "New, or not done for four weeks: start light and with few sets for two weeks, because "
    "soreness and loss of strength are greatest now.",
    "Maeo 2021; Damas 2018; Apeland 2017",
    when=f"not done before, or not for {NEW_AGAIN_DAYS:g} days; then for {NEW_CARE_DAYS:g} days",
)
SAFETIES_MISSING = Caution(
    "safeties_missing",
    "Go to failure with a free bar only inside safeties or with a spotter. Else stop with two "
    "in reserve.",
    "common practice",
    when="a set to failure with a free bar, no safeties or spotter noted",
)
SAFETIES_CHECK = Caution(
    "safeties_check",
    "Before the first hard set: put the safeties just below your lowest point and try them with "
    "the empty bar.",
    "common practice",
    when="a set to failure with a free bar, safeties or spotter noted",
)
STOPS_MISSING = Caution(
    "stops_missing",
    "No stops are noted here, so do not go to failure on it: stop with two in reserve.",
    "common practice",
    when="a set to failure on rails, a sled or a squat machine, no stops noted",
)
STOPS_CHECK = Caution(
    "stops_check",
    "Before the first hard set: set the stops just below your lowest point and test them empty.",
    "common practice",
    when="a set to failure on rails, a sled or a squat machine, stops noted",
)
BRACE = Caution(
    "brace",
    "Brace the trunk before each rep, and end the set when the back no longer holds its shape.",
    "Cholewicki 1991; Hartmann 2016",
    when=f"a set with at most one left that loads the lower back {BRACE_LOAD_LEVEL:g} of 3 or more",
)
BREATH = Caution(
    "breath",
    "Breathe on every rep. A short hold at the hardest point is natural; holding through the set "
    "drives blood pressure up.",
    "MacDougall 1985; Hackett and Chow 2013, from memory",
    when="a set with at most one left",
)
BREATH_CLINICIAN = Caution(
    "breath_clinician",
    "Do not hold your breath, and leave four or more in reserve. Light loads to exhaustion raise "
    "blood pressure as much as heavy ones.",
    "MacDougall 1985; Nery 2010",
    when="under 18, pregnant, or told to avoid strain, as the start page was answered",
)
STRAIN_FIRST = Caution(
    "strain_first",
    "Do not hold your breath through a set. With high blood pressure, an aneurysm, glaucoma, or "
    "after eye or hernia surgery, ask your doctor first; light loads to exhaustion spare you no "
    "pressure.",
    "MacDougall 1985; Nery 2010; list of conditions from memory",
    when="asked before the first session",
)
AVOID_STRAIN = Caution(
    "avoid_strain",
    "You were told to avoid strain: ask your doctor before you train, and show this session. No "
    "sets to failure, no tests of what you can lift at most.",
    "MacDougall 1985; Nery 2010; list of conditions from memory",
    when="told to avoid strain, as the start page was answered",
)
UNDER_18 = Caution(
    "under_18",
    "Under 18: ask your doctor if you have any complaint, and learn each exercise under the eye "
    "of somebody qualified. No sets to failure, no tests of what you can lift at most.",
    "Stricker (AAP) 2020; Lloyd 2014",
    when="under 18, as the start page was answered",
)
PREGNANCY = Caution(
    "pregnancy",
    "Pregnant or recently gave birth: talk to your doctor or midwife first. No maximal lifts, "
    "nothing you could fall with, and not on your back if that makes you unwell.",
    "Mottola 2018; IJWH 2024",
    when="pregnant or recently gave birth, as the start page was answered",
)
PREGNANCY_STOP = _emergency(
    "pregnancy_stop",
    "Stop and call your doctor or midwife: bleeding, loss of fluid, contractions, chest pain, "
    "or a swollen, painful calf.",
    "Mottola 2018; list from memory",
    when="pregnant or recently gave birth, as the start page was answered",
)
ILL = Caution(
    "ill",
    "Fever, a cough deep in the chest, aches all over or a sick stomach: do not train until you "
    "have been two days without fever and without medicine. Severe, or not passing: see a doctor.",
    "common practice after infections, from memory",
    when="ill today, as you said",
)
AFTER_ILLNESS = Caution(
    "after_illness",
    "After fever, begin only after two days without it and without medicine; after a severe or "
    "long illness, or with heart or lung trouble, ask your doctor first. Chest pain, a racing "
    "heart, faintness or unusual breathlessness: stop and get help.",
    "common practice after infections, because of the heart muscle; from memory",
    when="the easy days after an illness you told of",
)
PAIN_REDUCE = Caution(
    "pain_reduce",
    "Pain of 3 to 5: reduce load, range or exercise now. Go on only if it does not rise and has "
    "settled by next morning.",
    "Silbernagel 2007; Thomeé 1997",
    once_a_session=False,
    named="Pain of 3 to 5 in your {}: reduce load, range or exercise now. Go on only if it does "
    "not rise and has settled by next morning.",
    when=f"pain of {PAIN_REDUCE_FROM:g} to {PAIN_STOP_ABOVE:g} in a joint that this loads",
)
PAIN_STOP = Caution(
    "pain_stop",
    "Pain above 5, or sharp, swelling, locking or giving way: stop this exercise today.",
    "Silbernagel 2007; Thomeé 1997",
    once_a_session=False,
    named="Your {}: pain above 5, or sharp, swelling, locking or giving way: stop this exercise "
    "today.",
    when=f"pain above {PAIN_STOP_ABOVE:g}, or one of these signs, in a joint that this loads",
)
PAIN_SLIGHT = Caution(
    "pain_slight",
    "A joint that this loads slightly hurts above 5, or is sharp, swells, locks or gives way: go "
    "on only while it stays free of pain here, else stop.",
    "Silbernagel 2007; Thomeé 1997",
    once_a_session=False,
    named="Your {}, which this loads slightly: pain above 5, or sharp, swelling, locking or giving "
    "way. Go on only while it stays free of pain here, else stop.",
    when=f"pain above {PAIN_STOP_ABOVE:g}, or one of these signs, in a joint loaded slightly",
)
PAIN_SWAP = Caution(
    "pain_swap",
    "It had not settled by next morning, or rises from week to week: swap the exercise for one "
    "that spares the joint.",
    "Silbernagel 2007; Thomeé 1997",
    when=f"pain still {PAIN_COUNTS:g} or more the morning after, or more than the week before",
)
PAIN_CLINICIAN = Caution(
    "pain_clinician",
    "Joint pain for more than two weeks, at night or at rest: have it looked at by a clinician.",
    "standard warning signs, from memory; Silbernagel 2007",
    when=f"a joint sore for more than {PAIN_PERSISTS_DAYS:g} days",
)
SORE_KNEE = Caution(
    "sore_knee",
    "Your knee is sore and this loads it a lot: choose less bend or an exercise that leads with "
    "the hip, and keep sissy, hack and deep one-leg squats for last.",
    "Song 2023; Hart 2022; Willy 2019",
    when=f"pain in a knee that this loads {KNEE_LOAD_LEVEL:g} of 3 or more",
)
NO_PERIOD = Caution(
    "no_period",
    "No period for three months, or newly irregular, or a second stress fracture: see a "
    "clinician, and stop any energy deficit until then.",
    "Mountjoy 2023; gynaecological criteria",
    when=f"no first day logged for {NO_PERIOD_DAYS:g} days, cycles grown irregular, or more than "
    "one stress fracture noted",
)
LOW_ENERGY = Caution(
    "low_energy",
    "Energy left for the body is estimated as low: stop the deficit and see a clinician. The "
    "estimate is rough.",
    "Mountjoy 2023; Areta 2021",
    when=f"food noted, less training, leaves under {LOW_ENERGY_KCAL_KG:g} kcal a day for each "
    "kilogram of lean mass",
)
UNDER_18_TARGETS = Caution(
    "under_18_targets",
    "Under 18 there are no deficit targets here.",
    "Stricker (AAP) 2020; IOC 2023",
    when="a deficit asked for by somebody under 18",
)
BODY_NUMBERS = Caution(
    "body_numbers",
    "A change smaller than the detectable change is noise. Weight moves by a kilogram from day "
    "to day, and by half a kilogram with the period.",
    "section on measurement error of the evidence; Kanellakis 2023",
    when="a change of girth or weight is shown",
)
EATING = Caution(
    "eating",
    "If numbers about weight or food weigh on you, hide them: everything else works without. "
    "Deficits above 500 kcal a day also cost muscle.",
    "Murphy and Koehler 2022; Mountjoy 2023",
    when="food or a weight target is shown",
)

EVERY_CAUTION: tuple[Caution, ...] = (
    RED_FLAGS, BREAKDOWN, PREGNANCY_STOP, ILL, AFTER_ILLNESS, PAIN_STOP, PAIN_SLIGHT,
    PAIN_REDUCE, PAIN_SWAP, PAIN_CLINICIAN, UNDER_18, PREGNANCY, AVOID_STRAIN, STRAIN_FIRST,
    SAFETIES_MISSING, SAFETIES_CHECK, STOPS_MISSING, STOPS_CHECK, BREATH_CLINICIAN, BREATH, BRACE,
    NEW_EXERCISE, SORE_KNEE, NO_PERIOD, LOW_ENERGY, UNDER_18_TARGETS, BODY_NUMBERS, EATING, GENERAL,
)  # fmt: skip
"""All cautions, the most urgent first; they are shown in this order."""
