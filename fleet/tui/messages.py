"""What screens tell the application."""

from textual.message import Message


class RegisterChanged(Message):
    """Something was written: every screen shows the register anew."""
