"""`halfdrop explain`, `practice`, `schema` and `completion`: what halfdrop knows and how it is written down."""

from __future__ import annotations

from pathlib import Path

import click
from click.shell_completion import CompletionItem, get_completion_class

from halfdrop.audit.rule import PARTS, all_rules, find_rule
from halfdrop.cli.options import json_option
from halfdrop.cli.talk import say_json, say_table
from halfdrop.job.schema import json_schema
from halfdrop.practice import SETS, load_practice


def _rule_ids(ctx: click.Context, param: click.Parameter, typed: str) -> list[CompletionItem]:
    return [CompletionItem(rule.id, help=rule.title) for rule in all_rules() if rule.id.startswith(typed)]


@click.command()
@click.argument("rule", required=False, shell_complete=_rule_ids)
@json_option
def explain(rule: str | None, as_json: bool) -> None:
    """Tell the story of RULE: why, by which source, where it fails, where it passes, when it is silent.

    Without RULE, list them all.

    \b
    Examples:
      halfdrop explain
      halfdrop explain rugs.front-legs
    """
    rules = all_rules() if rule is None else (find_rule(rule),)
    if as_json:
        say_json(
            [
                {
                    "id": r.id,
                    "title": r.title,
                    "grade": str(r.grade),
                    "practice": list(r.practice),
                    "story": r.story,
                }
                for r in rules
            ]
        )
        return
    if rule is None:
        say_table([[r.id, str(r.grade), r.title] for r in rules], ("rule", "grade", "what it says"))
        return
    one = rules[0]
    click.echo(f"{one.id} ({one.grade})\n{one.title}.\n")
    for part in PARTS:
        if part in one.story:
            click.echo(click.wrap_text(f"{part}: {one.story[part]}", 96, subsequent_indent="  "))
    values = load_practice("us")
    if one.practice:
        click.echo("\nPractice:")
        say_table([[key, values[key].text, values[key].source] for key in one.practice])


@click.command()
@click.argument("prefix", required=False, default="")
@click.option(
    "--set", "name", type=click.Choice(list(SETS)), default="us", show_default=True, help="Which set."
)
@click.option(
    "--house", type=click.Path(path_type=Path, exists=True, dir_okay=False), help="A house file over it."
)
@json_option
def practice(prefix: str, name: str, house: Path | None, as_json: bool) -> None:
    """List the values a decorator works to, each with its source and how sure it is.

    \b
    Examples:
      halfdrop practice rugs
      halfdrop practice --set metric --json
    """
    values = load_practice(name, house_file=house)
    found = [values[key] for key in values.keys(prefix)]
    if not found:
        raise click.UsageError(f"no practice value begins with `{prefix}`")
    if as_json:
        say_json([v.to_json() for v in found])
        return
    say_table(
        [[v.key, v.text, v.origin, v.sure, v.source] for v in found],
        ("value", "is", "from", "sureness", "source"),
    )


@click.command()
def schema() -> None:
    """Print the JSON Schema of the job document.

    \b
    Example:
      halfdrop schema > job.schema.json
    """
    say_json(json_schema())


@click.command()
@click.argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
@click.pass_context
def completion(ctx: click.Context, shell: str) -> None:
    """Print the completion script for SHELL.

    \b
    Example:
      halfdrop completion bash >> ~/.bashrc
    """
    maker = get_completion_class(shell)
    assert maker is not None
    click.echo(maker(ctx.find_root().command, {}, "halfdrop", "_HALFDROP_COMPLETE").source())
