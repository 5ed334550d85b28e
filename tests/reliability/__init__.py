"""Tests of the lives of compressors."""
