"""The one door to the library of frozen values, whose classes are made and copied in no time.

A plan is checked in a tenth of a second; a hundred classes of `dataclasses` take half of that to
make, and copying steps of forty fields most of the rest. It reads JSON as well (`decode`).
"""

from msgspec import Struct, field
from msgspec.json import decode
from msgspec.structs import replace

__all__ = ["Struct", "decode", "field", "replace"]
