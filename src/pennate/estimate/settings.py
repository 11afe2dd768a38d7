"""All hyper-parameters of the model in one value, with the register's numbers as defaults.

The benchmark tunes by passing another value; the product uses the defaults.
"""

from __future__ import annotations

from dataclasses import dataclass

from pennate.core.evidence import strength as s
from pennate.core.evidence import strength_sets as t


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """Population values; each field is described in the evidence register."""

    shape: float = s.SHAPE
    shape_person_sd: float = s.SHAPE_PERSON_SD
    shape_exercise_sd: float = s.SHAPE_EXERCISE_SD
    slope_person_sd: float = s.SLOPE_PERSON_SD
    slope_exercise_sd: float = s.SLOPE_EXERCISE_SD
    choice_reserve: float = s.CHOICE_RESERVE
    choice_sd: float = s.CHOICE_SD
    habit_sd: float = s.HABIT_SD
    habit_reserve: float = s.HABIT_RESERVE
    day_sd: float = s.DAY_SD
    day_sd_novice: float = s.DAY_SD_NOVICE
    day_memory: float = s.DAY_MEMORY_DAYS
    own_day_sd: float = s.OWN_DAY_SD
    own_day_tired: float = s.OWN_DAY_TIRED
    drift: float = s.DRIFT
    ways_drift: float = s.WAYS_DRIFT
    shared_drift: float = s.SHARED_DRIFT
    trend_sd: float = s.TREND_SD
    gain_sd: float = s.GAIN_SD
    own_trend_sd: float = s.OWN_TREND_SD
    own_gain_sd: float = s.OWN_GAIN_SD
    trend_memory: float = s.TREND_MEMORY_WEEKS
    jump_sd: float = s.JUMP_SD
    jump_share: float = s.JUMP_SHARE
    learning: float = s.LEARNING
    learning_sd: float = s.LEARNING_SD
    learning_keep: float = s.LEARNING_KEEP
    layoff_loss: float = s.LAYOFF_LOSS
    layoff_sd: float = s.LAYOFF_SD
    regain: float = s.REGAIN
    slow: float = t.SLOW
    slow_sd: float = t.SLOW_SD
    slow_own_sd: float = t.SLOW_OWN_SD
    slow_s: float = t.SLOW_S
    slow_s_sd: float = t.SLOW_S_SD
    reserve_power: float = t.RESERVE_POWER
    acute: float = t.ACUTE
    acute_sd: float = t.ACUTE_SD
    acute_own_sd: float = t.ACUTE_OWN_SD
    slow_error: float = t.SLOW_ERROR
    acute_error: float = t.ACUTE_ERROR
    acute_s: float = t.ACUTE_S
    acute_s_sd: float = t.ACUTE_S_SD
    lighter: float = t.LIGHTER
    lighter_sd: float = t.LIGHTER_SD
    acute_most: float = t.ACUTE_MOST
    overlap: float = t.OVERLAP
    set_noise: float = t.SET_NOISE
    set_noise_rep: float = t.SET_NOISE_REP
    report_bias: float = t.REPORT_BIAS
    report_bias_rep: float = t.REPORT_BIAS_REP
    report_far_bias: float = t.REPORT_FAR_BIAS
    report_noise: float = t.REPORT_NOISE
    report_noise_rep: float = t.REPORT_NOISE_REP
    report_far_noise: float = t.REPORT_FAR_NOISE
    report_person_sd: float = t.REPORT_PERSON_SD
    guess_bias: float = t.GUESS_BIAS
    guess_noise: float = t.GUESS_NOISE
    guess_noise_rep: float = t.GUESS_NOISE_REP
    outlier: float = t.OUTLIER
    stop_failure: float = t.STOP_FAILURE
    stop_target: float = t.STOP_TARGET
    stop_weight: float = t.STOP_WEIGHT
    variance_weight: float = t.VARIANCE_WEIGHT

    @property
    def report_law(self) -> tuple[float, ...]:
        """What reports of a reserve she aimed at are like: bias, and noise.

        Each plain, by rep left, and far out.
        """
        return (
            self.report_bias,
            self.report_bias_rep,
            self.report_far_bias,
            self.report_noise,
            self.report_noise_rep,
            self.report_far_noise,
        )

    @property
    def guess_law(self) -> tuple[float, ...]:
        """The same of a reserve that is told after stopping at the number asked."""
        bias, bias_rep, far_bias, noise, noise_rep, far_noise = self.report_law
        bias, noise = bias + self.guess_bias, noise + self.guess_noise
        return bias, bias_rep, far_bias, noise, noise_rep + self.guess_noise_rep, far_noise


DEFAULTS = Settings()
