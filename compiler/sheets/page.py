"""The desk and phone page: one HTML file that needs nothing but itself.

Texts of a show are escaped by the template engine, and none of them ever stands in a
script, a style or an attribute. `safe` is said in the templates of our own drawings, style
and script alone.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from jinja2 import Template


def page_html(plan: Mapping[str, Any]) -> str:
    """The whole page of a plan: overview, wiring sheets, load table, cues."""
    from compiler.sheets.views import views

    return _template().render(v=views(plan)) + "\n"


def _template() -> Template:
    from importlib.resources import files

    from jinja2 import DictLoader, Environment, StrictUndefined

    folder = files("compiler.sheets").joinpath("page")
    texts = {item.name: item.read_text(encoding="utf-8") for item in folder.iterdir()}
    environment = Environment(
        loader=DictLoader(texts),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.globals.update(css=texts["page.css"], js=texts["page.js"])
    return environment.get_template("page.html.j2")
