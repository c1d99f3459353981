"""The public cases are not part of the repository; they run where a folder is named."""

import os

collect_ignore = [] if os.environ.get("CUEWRIGHT_PUBLIC_CASES") else ["test_public_cases.py"]
