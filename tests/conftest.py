"""Property tests draw the same examples on every run, so that a red run is a real change.

HYPOTHESIS_PROFILE=search draws fresh and many more; what it finds becomes an exact test.
"""

import os

from hypothesis import HealthCheck, settings

settings.register_profile(
    "steady",
    derandomize=True,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
settings.register_profile("search", deadline=None, max_examples=2_000, print_blob=True)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "steady"))
