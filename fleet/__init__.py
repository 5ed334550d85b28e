"""Coldround: the maintenance of commercial refrigeration on many sites."""

__version__ = "0.1.0"
