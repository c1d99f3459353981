"""The page as HTML, read back with the standard library's parser."""

import re
from collections import Counter
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path

import pytest
from render.sessions import GOLD, HOSTILE, block, effort, gold, hostile, plan, rich

from cuewright.render import html, words
from cuewright_models.plan import Plan

VOID = {"meta", "br"}
LOADS = {"src", "srcset", "data", "action", "poster", "background", "cite", "formaction"}


class Read(HTMLParser):
    """Tags with their attributes, ids, links, headings, text; fails on a stray end tag."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.open: list[str] = []
        self.text = ""
        self.feed(page)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert len(dict(attrs)) == len(attrs)
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text += data if self.open[-1:] != ["style"] else ""

    def values(self, name: str) -> list[str]:
        return [attrs[name] or "" for _, attrs in self.tags if name in attrs]


def every_plan() -> list[Plan]:
    return [rich(), plan(), *map(gold, GOLD), *map(hostile, HOSTILE)]


@pytest.mark.parametrize("given", every_plan(), ids=lambda given: (given.title or "none")[:16])
def test_ids_are_unique_and_links_resolve(given: Plan) -> None:
    page = Read(html.page(given))
    ids = Counter(page.values("id"))
    assert [name for name, count in ids.items() if count > 1] == []
    assert all(link.startswith("#") and link[1:] in ids for link in page.values("href"))
    assert {name for labels in page.values("aria-labelledby") for name in labels.split()} <= set(
        ids
    )


@pytest.mark.parametrize("given", [rich(), plan(), *map(gold, GOLD)])
def test_nothing_is_fetched(given: Plan) -> None:
    text = html.page(given)
    assert "http:" not in text
    assert "https:" not in text
    assert not re.search(r"url\(|@import|@font-face", text)
    page = Read(text)
    assert not {tag for tag, _ in page.tags} & {"script", "link", "img", "iframe", "object", "base"}
    assert not {name for _, attrs in page.tags for name in attrs} & LOADS


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_words_stay_words(text: str) -> None:
    page = Read(html.page(hostile(text)))
    assert words.clean(text) in page.text
    safe = Read(html.page(hostile("safe")))
    assert [tag for tag, _ in page.tags] == [tag for tag, _ in safe.tags]
    names = {name for _, attrs in page.tags for name in attrs}
    assert names == {name for _, attrs in safe.tags for name in attrs}
    assert words.clean(text) in page.values("title")


@pytest.mark.parametrize("given", [rich(), plan()])
def test_headings_go_down_one_level_at_a_time(given: Plan) -> None:
    tags = [tag for tag, _ in Read(html.page(given)).tags]
    levels = [int(tag[1]) for tag in tags if re.fullmatch(r"h\d", tag)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_the_page_says_what_it_is_to_assistive_software() -> None:
    page = Read(html.page(rich()))
    tags = [tag for tag, _ in page.tags]
    assert page.tags[0] == ("html", {"lang": "en"})
    assert (tags.count("header"), tags.count("main"), tags.count("nav")) == (1, 1, 1)
    scopes = [attrs.get("scope") for tag, attrs in page.tags if tag == "th"]
    assert scopes == ["col"] * 6 + ["row"] * 5
    assert tags.count("caption") == 1


def test_a_time_links_to_the_words_said_there() -> None:
    text = html.page(rich())
    assert '<a class="at" href="#t-45" title="250 metres on the erg">0:45</a>' in text
    assert re.search(r'<li id="t-45">.*>250 metres on the erg</q></li>', text)


def test_quotes_stand_in_order_of_time_and_none_is_missing() -> None:
    page = Read(html.page(rich()))
    seconds = [int(name.split("-")[1]) for name in page.values("id") if name.startswith("t-")]
    assert seconds == sorted(seconds)
    assert len(seconds) == len(set(page.values("href")) - {
        "#session", "#times", "#findings", "#cautions", "#words"
    })  # fmt: skip


def test_two_quotes_of_one_second_and_a_quote_without_a_time() -> None:
    said = [
        {"start_s": 7.1, "quote": "one"},
        {"start_s": 7.8, "quote": "two"},
        {"quote": "three"},
        {"quote": "four"},
    ]
    page = Read(html.page(plan(block({"kind": "quality"}, effort("push-up", 5, said=said)))))
    names = [name for name in page.values("id") if name.startswith("t-")]
    assert names == ["t-7", "t-7-2", "t-untimed", "t-untimed-2"]


def test_the_language_of_the_talk_is_on_its_quotes_alone() -> None:
    source = {**rich().source.model_dump(), "language": "cy"}
    page = Read(html.page(Plan.model_validate({**rich().model_dump(), "source": source})))
    assert {attrs.get("lang") for tag, attrs in page.tags if tag == "q"} == {"cy"}
    assert page.tags[0][1]["lang"] == "en"


def _luminance(colour: str) -> float:
    parts = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("scheme", [0, 1], ids=["light", "dark"])
def test_contrast(scheme: int) -> None:
    """At least 4.5 to 1: WCAG 2.2, success criterion 1.4.3; its formula from memory."""
    roots = re.findall(r":root \{(.*?)\}", html.page(plan()), re.DOTALL)
    colours = dict(re.findall(r"--(\w+): (#[0-9a-f]{6})", roots[scheme]))
    for ground in ("paper", "sheet"):
        for ink in ("ink", "soft", "link", "error", "warning", "note"):
            pair = sorted(_luminance(colours[name]) for name in (ground, ink))
            assert (pair[1] + 0.05) / (pair[0] + 0.05) >= 4.5, (ground, ink)


def test_a_talk_without_a_session() -> None:
    page = Read(html.page(plan()))
    assert "No session was found in this talk." in page.text
    assert "untitled session" in page.text
    assert "No words are quoted." in page.text


@pytest.mark.parametrize("path", GOLD, ids=lambda path: path.name.split(".")[0])
def test_the_same_plan_gives_the_same_page(path: Path) -> None:
    assert html.page(gold(path)) == html.page(gold(path))
