"""The commands, in the order of a job."""

import click

from halfdrop.cli.commands.audit import audit
from halfdrop.cli.commands.book import book
from halfdrop.cli.commands.check import check, survey
from halfdrop.cli.commands.new import new
from halfdrop.cli.commands.open import open_
from halfdrop.cli.commands.plan import plan
from halfdrop.cli.commands.reference import completion, explain, practice, schema
from halfdrop.cli.commands.scheme import scheme
from halfdrop.cli.commands.shopping import shopping
from halfdrop.cli.commands.takeoff import takeoff

ALL: tuple[click.Command, ...] = (
    new,
    open_,
    check,
    survey,
    audit,
    scheme,
    shopping,
    takeoff,
    plan,
    book,
    explain,
    practice,
    schema,
    completion,
)
