"""Water of reef aquaria, and its nutrients exported by turf algae on a lit screen."""

from halimeda._errors import HalimedaError, HalimedaTypeError, HalimedaValueError
from halimeda._native import __version__

__all__ = [
    "HalimedaError",
    "HalimedaTypeError",
    "HalimedaValueError",
    "__version__",
]
