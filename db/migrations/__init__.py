"""Alembic's migrations of the register."""
