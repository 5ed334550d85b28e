"""How Alembic reaches the register: over the connection it is given, or ``-x register=PATH``."""

from alembic import context
from sqlalchemy import Connection

from db.engine import connect_register, writer
from db.models import Base


def _run(connection: Connection) -> None:
    context.configure(
        connection=connection,
        target_metadata=Base.metadata,
        render_as_batch=connection.dialect.name == "sqlite",
        compare_server_default=True,
    )
    with context.begin_transaction():
        context.run_migrations()


given = context.config.attributes.get("connection")
if given is not None:
    _run(given)
else:
    with writer(connect_register(context.get_x_argument(as_dictionary=True)["register"])).connect() as own:
        _run(own)
        own.commit()
