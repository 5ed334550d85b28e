"""The equipment register: models, engine, unit of work, queries, migrations, backup.

Importing this package costs nothing; each module imports SQLAlchemy itself, and Alembic only where a
register is made or upgraded.
"""
