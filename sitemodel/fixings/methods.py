"""METHODS: every way of fixing an anchor, each a module with TITLE, check_anchors and utilisations."""

from collections.abc import Mapping
from types import MappingProxyType, ModuleType

from sitemodel.fixings import spreader_block
from sitemodel.fixings.method import MethodName

METHODS: Mapping[MethodName, ModuleType] = MappingProxyType({spreader_block.NAME: spreader_block})
"""By the name that the brief uses."""
