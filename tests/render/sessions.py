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
    weights = [
        {"low": 16, "high": 16, "unit": "kg", "who": "women"},
        {"low": 24, "high": 24, "unit": "kg", "who": "men"},
    ]
    best = [{"low": 75, "high": 75, "unit": "%1rm"}]
    warm_up = block(
        {"kind": "quality"},
        effort("jog", 180, "s", said=said(96.0, "three minutes of easy jogging along the bank")),
        {
            "do": "repeat",
            "times": {"low": 2, "high": 2},
            "said": said(100.4, "then two rounds of"),
            "items": [
                effort("air-squat", 10, said=said(101.2, "ten air squads")),
                effort(
                    "leg-swing", 10, per_side=True, said=said(103.0, "ten leg swings each side")
                ),
            ],
        },
        id="b1",
        kind="warm-up",
        stated_time=[
            {"low": 300, "high": 360, "said": said(108.0, "five or six minutes and you're warm")}
        ],
        said=said(94.0, "before any of that we get warm together"),
    )
    squats = block(
        {"kind": "sets", "rest_s": 180},
        {
            "do": "repeat",
            "times": {"low": 5, "high": 5},
            "said": said(121.0, "five sets of five back squats"),
            "items": [
                effort(
                    "back-squat",
                    5,
                    load=best,
                    said=said(124.0, "seventy five percent of your best"),
                )
            ],
        },
        id="b2",
        kind="strength",
        said=said(119.0, "strength first tonight"),
    )
    piece = block(
        {"kind": "for-time", "cap_s": 1680},
        effort("run", 1200, "m", said=said(38.5, "a run out along the bank that's 1200 metres")),
        {
            "do": "repeat",
            "times": {"low": 4, "high": 4},
            "said": said(44.0, "for rounds of"),
            "items": [
                effort("row", 250, "m", said=said(45.2, "250 metres on the erg")),
                effort("step-up", 18, said=said(48.0, "18 step ups")),
                effort(
                    "kettlebell-swing",
                    20,
                    load=weights,
                    said=[
                        *said(50.0, "20 cattle bell swings"),
                        *said(205.0, "16 kilos for the women and 24 for the men"),
                    ],
                ),
                effort(
                    "sit-up",
                    15,
                    alternatives=["dead-bug"],
                    said=said(52.7, "15 set ups or dead bugs"),
                ),
                effort(
                    "heron-stand",
                    None,
                    "none",
                    known=False,
                    as_said="heron stands",
                    said=said(55.0, "and heron stands"),
                ),
            ],
        },
        effort("run", 600, "m", said=said(58.0, "then you go out again 600 metres this time")),
        id="b3",
        name="Low Water",
        said=said(31.0, "tonight's piece is called low water and it's four time"),
    )
    clock = block(
        {"kind": "every", "every_s": 60, "times": 8, "duration_s": 480},
        {
            "do": "slot",
            "index": 1,
            "items": [effort("plank", 40, "s", said=said(140.0, "forty second plank"))],
        },
        {
            "do": "slot",
            "index": 2,
            "items": [
                effort("push-up", 8, said=said(143.0, "eight push ups")),
                effort("hollow-rock", 10, said=said(145.0, "ten hollow rocks")),
            ],
        },
        id="b4",
        kind="accessory",
        said=said(137.0, "every minute for eight minutes"),
    )
    return Plan.model_validate(
        {
            "source": {**SOURCE, "language": "en"},
            "title": "Low Water",
            "date": {
                "month": 11,
                "day": 12,
                "weekday": "thursday",
                "said": said(12.0, "it's thursday the 12th of november"),
            },
            "blocks": [warm_up, squats, piece, clock],
            "targets": [
                {
                    "about": "run",
                    "unit": "s",
                    "low": 360,
                    "high": 360,
                    "said": said(64.0, "that first run in about six minutes"),
                },
                {
                    "about": "round",
                    "unit": "s",
                    "low": 300,
                    "high": 300,
                    "said": said(68.0, "each round in about five minutes"),
                },
                {
                    "about": "b3",
                    "unit": "s",
                    "low": 1320,
                    "high": 1500,
                    "said": said(74.0, "the whole piece done in 22 to 25 minutes"),
                },
                {
                    "about": "kettlebell-swing",
                    "unit": "sets",
                    "low": 2,
                    "high": 2,
                    "said": said(300.0, "swings done in two sets"),
                },
                {
                    "about": "total",
                    "unit": "rpe",
                    "low": 7,
                    "high": 8,
                    "said": said(304.0, "seven or eight out of ten"),
                },
            ],
            "options": [
                {
                    "about": "kettlebell-swing",
                    "kind": "lighter",
                    "low": 12,
                    "high": 12,
                    "unit": "kg",
                    "said": said(209.0, "if that's more than you've swung before take the 12"),
                },
                {
                    "about": "step-up",
                    "kind": "substitute",
                    "to": "glute-bridge",
                    "said": said(230.0, "swap the step ups for glute bridges same number"),
                },
                {
                    "about": "push-up",
                    "kind": "easier",
                    "to": "incline-push-up",
                    "said": said(236.0, "hands on the bench if you need to"),
                },
                {
                    "about": "back-squat",
                    "kind": "lighter",
                    "said": said(239.0, "go lighter if you're new"),
                },
            ],
            "cues": [
                {
                    "about": "row",
                    "text": "legs then body then arms, and undo it in that order",
                    "said": said(
                        178.0,
                        "legs then body then arms and then you undo it in that order on the way back",
                    ),
                },
                {
                    "about": "kettlebell-swing",
                    "text": "it's a hinge, not a squat",
                    "said": said(200.0, "it's a hinge it's not a squat"),
                },
            ],
            "advice": [
                {
                    "about": "total",
                    "text": "don't fly out the door on the first run",
                    "said": said(
                        290.0,
                        "the mistake everybody makes is they fly out the door on the first run",
                    ),
                }
            ],
            "claims": [
                {
                    "kind": "total-time",
                    "about": "total",
                    "low": 2700,
                    "high": 2700,
                    "unit": "s",
                    "said": said(20.0, "we'll be done in forty five minutes"),
                }
            ],
            "estimate": {
                "total": _profiles(
                    _secs(3400, 3720, 4150), _secs(2900, 3120, 3420), _secs(2600, 2760, 2980)
                ),
                "blocks": [
                    {
                        "id": "b1",
                        **_profiles(
                            _secs(280, 318, 372), _secs(265, 295, 340), _secs(250, 275, 310)
                        ),
                    },
                    {
                        "id": "b2",
                        **_profiles(
                            _secs(820, 860, 930), _secs(800, 842, 900), _secs(790, 830, 880)
                        ),
                    },
                    {
                        "id": "b3",
                        **_profiles(
                            _secs(1640, 1930, 2290, finish=0.12),
                            _secs(1390, 1545, 1760, finish=0.81),
                            _secs(1200, 1310, 1450, finish=1.0),
                        ),
                    },
                    {
                        "id": "b4",
                        **_profiles(
                            _secs(480, 480, 480, spare_s=4, behind=0.31),
                            _secs(480, 480, 480, spare_s=13.5, behind=0.04),
                            _secs(480, 480, 480, spare_s=20, behind=0.0),
                        ),
                    },
                ],
                "stated": {"low_s": 2700, "high_s": 2700},
                "from_targets": {"low_s": 1740, "high_s": 1740, "complete": False},
                "unknown_pace": ["heron-stand"],
                "basis": {"draws": 4000, "seed": 7, "results": 0},
            },
            "findings": [
                {
                    "rule": "sum-claim-wrong",
                    "severity": "error",
                    "about": "row",
                    "message": "The rows add up to 1000 m, not 1500 m.",
                    "expected": "4 x 250 m = 1000 m",
                    "found": "1500 m",
                    "said": [
                        *said(44.0, "for rounds of"),
                        *said(45.2, "250 metres on the erg"),
                        *said(88.0, "and 1500 metres on the erg"),
                    ],
                    "suggestion": "Say 1000 metres, or row 375 m a round.",
                },
                {
                    "rule": "total-vs-model",
                    "severity": "warning",
                    "about": "total",
                    "message": "Hardly anybody will be done in 45:00.",
                    "expected": "46:00 for the advanced",
                    "found": "45:00",
                    "said": said(20.0, "we'll be done in forty five minutes"),
                    "suggestion": "Plan 55 minutes, or take a round out.",
                },
                {
                    "rule": "load-missing",
                    "severity": "note",
                    "about": "b2",
                    "message": "Nobody is told what to do without a known best.",
                    "suggestion": "Give a weight for people who have never tested.",
                },
            ],
            "unknown": [
                {
                    "heard": "heron stands",
                    "nearest": ["tree-pose", "wall-sit"],
                    "said": said(55.0, "and heron stands"),
                }
            ],
            "repairs": [
                {
                    "heard": "air squads",
                    "meant": "air squats",
                    "said": said(101.2, "ten air squads"),
                },
                {
                    "heard": "cattle bell",
                    "meant": "kettlebell",
                    "said": said(50.0, "20 cattle bell swings"),
                },
            ],
            "warnings": ["Four captions overlap; they were read one after another."],
        }
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
