# Written by `cargo xtask stubs`; change the Rust side instead.
"""
The native half of halimeda; import `halimeda` instead.
"""

from typing import Final

__all__ = ["__version__"]

__version__: Final[str]
"""
The version of the package.
"""
