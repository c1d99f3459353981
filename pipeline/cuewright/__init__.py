"""A coach's spoken session walkthrough in; a written, time-stamped, checked plan out.

    from cuewright import read_plan
    plan = read_plan("talk.vtt")

Names are fetched when first used, so that importing the package costs next to nothing.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from cuewright.flow import compare, read_plan
    from cuewright_models.comparison import Comparison
    from cuewright_models.finding import Finding
    from cuewright_models.plan import Plan

__all__ = ["Comparison", "Finding", "Plan", "__version__", "compare", "read_plan"]

_HOMES = {
    "Comparison": "cuewright_models.comparison",
    "compare": "cuewright.flow",
    "Finding": "cuewright_models.finding",
    "Plan": "cuewright_models.plan",
    "read_plan": "cuewright.flow",
}


def __getattr__(name: str) -> Any:
    if name == "__version__":
        return import_module("importlib.metadata").version("cuewright")
    if name in _HOMES:
        return getattr(import_module(_HOMES[name]), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
