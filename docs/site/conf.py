"""How Sphinx makes the site of docs/site/build.py's folder of pages."""

import sys
from pathlib import Path

from docutils import nodes
from latex2mathml.converter import convert
from sphinx.application import Sphinx

project = "libfeed"
html_title = "libfeed"
extensions = ["myst_parser", "breathe", "sphinx.ext.autodoc", "sphinx.ext.napoleon"]
source_suffix = {".md": "markdown"}
exclude_patterns = ["python", "static"]
html_static_path = ["static"]
html_css_files = ["try.css"]
myst_enable_extensions = ["dollarmath", "colon_fence"]
myst_heading_anchors = 4
# Blocks in the pages are of many kinds; none of them is to be reckoned out.
highlight_language = "text"
suppress_warnings = [
    "misc.highlighting_failure",
    "myst.header",
    # C has `typedef struct feed_error feed_error`: one name, declared twice.
    "duplicate_declaration.c",
    # Each header opens the same namespace.
    "duplicate_declaration.cpp",
]
html_theme = "furo"
html_theme_options = {
    "light_css_variables": {"color-brand-primary": "#24463f", "color-brand-content": "#8a3f27"},
    "dark_css_variables": {"color-brand-primary": "#9fd1c0", "color-brand-content": "#f0a285"},
}
html_show_sphinx = False
html_copy_source = False
breathe_projects = {"c": "doxygen/c/xml", "cpp": "doxygen/cpp/xml"}
breathe_default_project = "c"
breathe_domain_by_extension = {"h": "c", "hpp": "cpp"}
# The Python package as reference.py has laid it out: its stub stands in for what is compiled.
sys.path.insert(0, str(Path(__file__).parent / "python"))
autodoc_mock_imports = ["numpy", "pandas", "matplotlib"]
napoleon_use_ivar = True
autodoc_member_order = "bysource"
html_math_renderer = "mathml"

# Browsers know no names of spaces any more.
SPACES = {"negativethinmathspace": "-0.167em", "thinmathspace": "0.167em"}


def mathml(formula: str, display: str) -> str:
    made: str = convert(formula, display=display)
    for name, width in SPACES.items():
        made = made.replace(f'"{name}"', f'"{width}"')
    return made


def inline_formula(translator, node):  # type: ignore[no-untyped-def]
    translator.body.append(mathml(node.astext(), "inline"))
    raise nodes.SkipNode


def set_formula(translator, node):  # type: ignore[no-untyped-def]
    translator.body.append(f'<div class="formula">{mathml(node.astext(), "block")}</div>')
    raise nodes.SkipNode


def setup(app: Sphinx) -> None:
    """Formulas become MathML while the site is made: no script, nothing fetched to read one."""
    app.add_html_math_renderer("mathml", (inline_formula, None), (set_formula, None))
