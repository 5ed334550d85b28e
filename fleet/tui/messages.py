"""What screens tell the application."""

from textual.message import Message


class RegisterChanged(Message):
    """Something was written: every screen shows the register anew."""


class ShowFindings(Message):
    """Go to Audit, narrowed to the findings of one customer."""

    def __init__(self, customer_id: int) -> None:
        super().__init__()
        self.customer_id = customer_id
