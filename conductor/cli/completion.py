"""`conductor completion`: what a shell needs to complete the command line."""

import click
from click.shell_completion import get_completion_class

from conductor.cli import cli

VARIABLE = "_CONDUCTOR_COMPLETE"
INSTALL = {
    "bash": 'eval "$(conductor completion bash)"   in ~/.bashrc',
    "zsh": 'eval "$(conductor completion zsh)"   in ~/.zshrc, after compinit',
    "fish": "conductor completion fish > ~/.config/fish/completions/conductor.fish",
}


@click.command()
@click.argument("shell", type=click.Choice([*INSTALL]))
def completion(shell: str) -> None:
    """Print the script by which SHELL completes plans, shapes, rules and options at the tab key.

    Its first line says how to install it.
    """
    script = get_completion_class(shell)
    assert script is not None  # noqa: S101 -- the three that click knows
    click.echo(f"# Install: {INSTALL[shell]}")
    click.echo(script(cli, {}, "conductor", VARIABLE).source().strip())
