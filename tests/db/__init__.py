"""Tests of the register."""
