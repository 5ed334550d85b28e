"""Tests of the refrigerant catalogue and the saturation tables."""
