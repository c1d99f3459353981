"""Plans for the pages: one rich evening at the Withy Reach Rowing Club, and hostile ones."""

import json
from pathlib import Path
from typing import Any

from cuewright_models.plan import Plan

CORPUS = Path(__file__).parents[1] / "corpus"
GOLD = sorted(CORPUS.glob("*.gold.json"))
SOURCE = {"name": "low-water.vtt", "kind": "captions", "sha256": "0" * 64, "duration_s": 412.0}
HOSTILE = (
    "<script>alert('x')</script>",
    "a | b * c _d_ `e` [f](g) ![h](i) #j ~~k~~ &lt; \\l",
    "1. first",
    "- dash",
    "+ plus",
    "w" * 300,
    "\U0001f6a3\U0001f3fd\u200d\u2640\ufe0f\U0001f4aa \u6f22\u5b57" * 20,
    "\u05e9\u05dc\u05d5\u05dd \u0645\u0631\u062d\u0628\u0627 \u202eabc\u202c",
    "\x1b[31mred\x1b[0m\x07 \x9b2J",
    "[bold]markup[/bold] [/] :rowboat:",
    '"><a href="javascript:x">y</a>',
    "{{ 7 * 7 }} {% raw %}",
)


def said(start: float | None, quote: str, end: float | None = None) -> list[dict[str, Any]]:
    """One place as evidence; it ends two seconds on unless told."""
    stop = end if end is not None or start is None else start + 2
    return [{"start_s": start, "end_s": stop, "quote": quote}]


def effort(
    movement: str, low: float | None = None, unit: str = "reps", **more: Any
) -> dict[str, Any]:
    """An effort of one number; ``more`` sets or overrides fields."""
    return {
        "do": "effort",
        "movement": movement,
        "as_said": movement.replace("-", " "),
        "unit": unit,
        "low": low,
        "high": low,
        **more,
    }


def block(how: dict[str, Any], *items: dict[str, Any], **more: Any) -> dict[str, Any]:
    """A conditioning block b1 unless told."""
    return {"id": "b1", "kind": "conditioning", "structure": how, "items": list(items), **more}


def plan(*blocks: dict[str, Any], **more: Any) -> Plan:
    """A plan of these blocks from an invented talk."""
    return Plan.model_validate({"source": SOURCE, "blocks": list(blocks), **more})


def gold(path: Path) -> Plan:
    """A gold file made whole: what it leaves out is filled with plain words."""
    given = json.loads(path.read_text("utf-8"))
    given.pop("compare", None)
    for finding in given["findings"]:
        finding.update(severity="warning", message="The two do not agree.")
    for cue in given["cues"]:
        cue["text"] = "keep it tidy"
    return Plan.model_validate({"source": {**SOURCE, "name": path.name}, **given})


def _secs(low: int, likely: int, high: int, **more: Any) -> dict[str, Any]:
    return {"low_s": low, "likely_s": likely, "high_s": high, **more}


def _profiles(*rows: dict[str, Any]) -> dict[str, Any]:
    return dict(zip(("newcomer", "regular", "advanced"), rows, strict=True))


def rich() -> Plan:
    """Every part of a page filled."""
    return Plan.model_validate_json(
        Path(__file__).with_name("low-water.plan.json").read_text("utf-8")
    )


def hostile(text: str) -> Plan:
    """``text`` wherever a talk can put words of its own."""
    here = said(3.0, text)
    odd = effort("push-up", 5, as_said=text, known=False, said=here)
    return Plan.model_validate(
        {
            "source": {**SOURCE, "name": text, "language": "en"},
            "title": text,
            "blocks": [
                block(
                    {"kind": "quality"},
                    odd,
                    effort("air-squat", 5, said=here),
                    name=text,
                    said=here,
                )
            ],
            "targets": [{"about": text, "unit": "s", "low": 5, "high": 5, "said": here}],
            "options": [
                {"about": text, "kind": "easier", "to": text, "unit": text, "low": 1, "high": 2}
            ],
            "cues": [{"about": text, "text": text, "said": here}],
            "advice": [{"about": text, "text": text, "said": here}],
            "findings": [
                {
                    "rule": "load-missing",
                    "severity": "note",
                    "about": text,
                    "message": text,
                    "expected": text,
                    "found": text,
                    "said": here,
                    "suggestion": text,
                }
            ],
            "unknown": [{"heard": text, "nearest": [text], "said": here}],
            "repairs": [{"heard": text, "meant": text, "said": here}],
            "warnings": [text],
            "cautions": [text],
            "estimate": {
                "total": _profiles(*[_secs(1, 2, 3)] * 3),
                "blocks": [{"id": "b1", **_profiles(*[_secs(1, 2, 3)] * 3)}],
                "unknown_pace": [text],
            },
        }
    )
