"""What all tests share: Hypothesis runs the same examples every time."""

from hypothesis import settings

settings.register_profile("steady", derandomize=True, deadline=None, print_blob=False)
settings.load_profile("steady")
