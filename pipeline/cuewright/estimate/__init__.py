"""How long a plan takes, for three athlete profiles."""

from cuewright.estimate.session import estimate

__all__ = ["estimate"]
