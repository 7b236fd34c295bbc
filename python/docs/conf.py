"""How the reference of the package is built: `cargo xtask test python-docs`."""

import halimeda

project = "halimeda"
author = "The halimeda developers"
project_copyright = author
release = version = halimeda.__version__

extensions = ["sphinx.ext.autodoc", "sphinx.ext.doctest", "sphinx.ext.napoleon"]

autodoc_default_options = {"members": True, "member-order": "bysource"}
# What is not given is told in words; the stubs have the types.
autodoc_preserve_defaults = True
python_maximum_signature_line_length = 80

napoleon_google_docstring = False
napoleon_custom_sections = [("Source", "References")]
# Types of arguments are words such as "array of float", not names to look up.
napoleon_use_param = False
napoleon_use_rtype = False
napoleon_use_ivar = True

# Every name of this package that is mentioned has to lead somewhere. Names of other
# packages are not looked up: that would need a connection. The native half is inside.
nitpicky = True
nitpick_ignore_regex = [("py:.*", r"(?!halimeda\b).*|halimeda\._native\..*")]

# Words in the types of attributes, such as "shape", that are also names of some.
suppress_warnings = ["ref.python"]

html_theme = "furo"
html_title = f"halimeda {version}"
html_copy_source = False
html_show_sourcelink = False
