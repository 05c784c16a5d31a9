"""The `halfdrop` command: talks to people, owns no arithmetic.

Exit codes: 0 clean · 1 findings at or above `--fail-on` · 2 usage · 3 unreadable or invalid input · 70 our bug.
"""

from __future__ import annotations

import os
import sys
import traceback

import click

from halfdrop import __version__
from halfdrop.base.errors import HalfdropError
from halfdrop.cli.commands import Commands
from halfdrop.cli.talk import say_error

OUR_BUG = 70

CONTEXT = {"help_option_names": ["-h", "--help"], "max_content_width": 100}


@click.group(cls=Commands, context_settings=CONTEXT)
@click.version_option(__version__, prog_name="halfdrop")
def cli() -> None:
    """Measure, judge, propose, prove, count, draw and document a decorator's job.

    \b
    A first job:
      halfdrop new flat.yaml            begin a job file
      halfdrop check flat.yaml          is it whole, do the measures close?
      halfdrop audit flat.yaml          what is wrong, and what would put it right
      halfdrop scheme accept flat.yaml first --all
      halfdrop book flat.yaml --scheme first -o flat.pdf
    """


def run(args: list[str] | None = None) -> int:
    """Run the command line and return its exit code; no traceback ever reaches a user but for our own bugs."""
    try:
        result = cli.main(args=args, prog_name="halfdrop", standalone_mode=False)
        return result if isinstance(result, int) else 0
    except HalfdropError as error:
        say_error(error)
        return error.exit_code
    except click.exceptions.Exit as stop:
        return stop.exit_code
    except click.Abort:
        click.echo("stopped", err=True)
        return 130
    except click.ClickException as error:
        click.echo(f"error: {error.format_message()}", err=True)
        where = error.ctx.command_path if isinstance(error, click.UsageError) and error.ctx else "halfdrop"
        click.echo(f"hint: run `{where} --help`", err=True)
        return 2
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except Exception:
        traceback.print_exc()
        click.echo("error: this is a bug in halfdrop, not in your job; your files are as they were", err=True)
        click.echo("hint: keep the lines above and the job file, and report them", err=True)
        return OUR_BUG


def main() -> None:
    """Run as the `halfdrop` command."""
    sys.exit(run())
