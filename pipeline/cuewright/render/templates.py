"""The templates of the web pages, each made ready once."""

from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined, Template

from cuewright.render import words


@cache
def template(name: str) -> Template:
    """The template in the file ``name``; ``clean`` and ``heard`` are its filters."""
    around = Environment(
        loader=PackageLoader("cuewright", "render"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    around.filters["clean"] = words.clean
    around.filters["heard"] = words.heard
    return around.get_template(name)
