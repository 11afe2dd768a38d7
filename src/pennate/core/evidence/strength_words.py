"""Four words to declare a constant of the strength model in one breath.

The text is `source | used for`.
"""

from pennate.core.evidence.register import Status, constant


def published(name: str, value: float, unit: str, span: tuple[float, float], why: str) -> float:
    """Declare a number read in a publication."""
    return declare(name, value, unit, span, why, Status.PUBLISHED)


def memory(name: str, value: float, unit: str, span: tuple[float, float], why: str) -> float:
    """Declare a number that is from memory."""
    return declare(name, value, unit, span, why, Status.FROM_MEMORY)


def fitted(name: str, value: float, unit: str, span: tuple[float, float], why: str) -> float:
    """Declare a number tuned on the benchmark's tuning folds."""
    return declare(name, value, unit, span, why, Status.FITTED)


def choice(name: str, value: float, unit: str, span: tuple[float, float], why: str) -> float:
    """Declare a number we chose."""
    return declare(name, value, unit, span, why, Status.OUR_CHOICE)


def declare(
    name: str, value: float, unit: str, span: tuple[float, float], why: str, status: Status
) -> float:
    """Declare with the status given; `span` is the plausible range."""
    source, _, use = why.partition(" | ")
    return constant(
        f"strength.{name}",
        value,
        unit,
        low=span[0],
        high=span[1],
        status=status,
        source=source,
        used_for=use or "the strength model",
    )
