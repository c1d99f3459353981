"""The three athletes that every estimate speaks of."""

from typing import Literal

Profile = Literal["newcomer", "regular", "advanced"]
PROFILES: tuple[Profile, ...] = ("newcomer", "regular", "advanced")
