"""All measurements, one after another: `python -m bench [NAME …]`.

Each writes its own committed table; the longest, the forecast benchmark, comes last.
"""

from __future__ import annotations

import subprocess
import sys

BENCHES = {
    "ledger": ["bench.ledger", "--write"],
    "loading": ["bench.loading.solve_time"],
    "loading-quality": ["bench.loading.quality"],
    "gym-setup": ["bench.loading.setup_time"],
    "body": ["bench.body"],
    "body-pages": ["bench.body.pages", "--write"],
    "phone": ["bench.phone"],
    "plan": ["bench.plan"],
    "trained-factor": ["bench.plan.trained"],
    "forecast": ["bench.forecast"],
}


def main(names: list[str]) -> int:
    """Run the named benches, or all; the exit status is the number that failed."""
    unknown = [name for name in names if name not in BENCHES]
    if unknown:
        print(f"no bench is called “{unknown[0]}”; there are: {', '.join(BENCHES)}")
        return 2
    failed = 0
    for name in names or BENCHES:
        print(f"== {name}", flush=True)
        failed += (
            subprocess.run([sys.executable, "-m", *BENCHES[name]], check=False).returncode != 0
        )
    return failed


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
