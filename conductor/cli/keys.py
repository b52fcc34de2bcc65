"""`conductor keys`: the keys in class as they are set, and a start for one's own."""

import click

from conductor import own_file, store
from conductor.view.actions import table
from conductor.view.own_keys import keyed, start


@click.command()
@click.option("--write", is_flag=True, help="Put all keys into your settings, to be changed.")
def keys(write: bool) -> None:
    """List the keys in class, your own among them.

    Your own stand below a line [keys] in settings.toml, an action to a line: next = ["z", "Page
    Down"]. They take the place of all that action had. Exit code 1 when one of them cannot be used.
    """
    file = store.settings_file()
    if write:
        try:
            own_file.add_keys(file, start())
        except store.SettingsError as error:
            raise click.ClickException(str(error)) from error
        click.echo(f"{file}: take the # from a line and change its keys.", err=True)
    kept = store.kept(file)
    own = keyed(kept.keys)
    rows = [
        (action.id, shown, label)
        for action, (shown, label, _) in zip(own.actions, table(own.actions), strict=True)
    ]
    broad = [max(len(row[at]) for row in rows) for at in (0, 1)]
    for name, shown, label in rows:
        click.echo(f"{name.ljust(broad[0])}  {shown.ljust(broad[1])}  {label}")
    for words in (*kept.troubles, *(f"{file}: [keys] {one}" for one in own.troubles)):
        click.echo(words, err=True)
    raise SystemExit(1 if own.troubles else 0)
