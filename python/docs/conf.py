"""How the reference of the package is built: `cargo xtask test python-docs`."""

import halimeda

project = "halimeda"
author = "The halimeda developers"
project_copyright = "the halimeda developers"
release = version = halimeda.__version__

extensions = [
    "sphinx.ext.autodoc",
    "sphinx.ext.autosummary",
    "sphinx.ext.mathjax",
    "numpydoc",
]
# Formulas are written in plain words and letters; nothing is fetched by a page.
mathjax_path = ""
html_theme = "furo"
html_title = f"halimeda {version}"
html_copy_source = False
