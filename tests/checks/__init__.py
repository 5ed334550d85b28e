"""Tests of the preventive checks."""
