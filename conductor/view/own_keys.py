"""A person's own keys: laid over the table of actions, each refused that would not work.

What is refused keeps the keys it had, so that no file can leave a class without its ways out.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping

from conductor.values import Struct, replace
from conductor.view.actions import EVERY, Action
from conductor.view.keys import TAKEN, KeyNameError, key_of, shown

NEVER_ENDS = ("escape", "f5", "pagedown", "pageup", "space")
"""What a presenter remote sends, or a hand finds in the dark: none of it may end a class."""


class Keyed(Struct, frozen=True):
    """The actions with their keys, and what is wrong with the keys asked for, a line each."""

    actions: tuple[Action, ...] = EVERY
    troubles: tuple[str, ...] = ()


def keyed(wanted: Mapping[str, object], actions: tuple[Action, ...] = EVERY) -> Keyed:
    """The actions with the keys a person wants: each list takes the place of all it had.

    A key may belong to one action only; where two want it, what was asked for is refused.
    """
    known = {action.id: action for action in actions}
    asked: dict[str, tuple[str, ...]] = {}
    troubles: list[str] = []
    for name, value in wanted.items():
        try:
            action = _action(name, known)
            if action.id in asked:
                raise KeyNameError(f'"{action.id}" stands there twice; the first is taken')
            asked[action.id] = _keys(action, value)
        except KeyNameError as error:
            troubles.append(f"{name}: {error}")
    refused = list(_refused(known, asked))
    return Keyed(tuple(_with(one, asked) for one in actions), (*troubles, *refused))


def _refused(known: Mapping[str, Action], asked: dict[str, tuple[str, ...]]) -> Iterable[str]:
    """Take out of what is `asked` whatever gives one key to two actions, and say so.

    What is taken out has its old keys again, which may meet another's new ones: until none do.
    """
    while True:
        holders: dict[str, list[str]] = defaultdict(list)
        for name, action in known.items():
            for key in dict.fromkeys(_all(_with(action, asked))):
                holders[key].append(name)
        both = {key: names for key, names in holders.items() if len(names) > 1}
        if not any(name in asked for names in both.values() for name in names):
            return
        for key, names in both.items():
            for name in [one for one in names if one in asked]:
                others = " and ".join(f'"{one}"' for one in names if one != name)
                yield f"{name}: {shown(key)} is a key of {others} too; give each its own"
        for name in {name for names in both.values() for name in names}:
            asked.pop(name, None)


def _with(action: Action, asked: Mapping[str, tuple[str, ...]]) -> Action:
    if action.id not in asked:
        return action
    kept = tuple(key for key in _all(action) if key in TAKEN)  # end and help stay within reach
    return replace(action, keys=tuple(dict.fromkeys((*asked[action.id], *kept))), remote=())


def _all(action: Action) -> tuple[str, ...]:
    return (*action.keys, *action.remote)


def _action(name: str, known: Mapping[str, Action]) -> Action:
    """The action of a name as people write it."""
    words = " ".join(name.replace("_", " ").lower().split())
    for action in known.values():
        if words in (action.id, action.label.lower()):
            return action
    from rapidfuzz import process  # noqa: PLC0415 -- only on a slip

    near = process.extractOne(words, list(known), score_cutoff=60)
    hint = f'did you mean "{near[0]}"?' if near else f"known: {', '.join(known)}"
    raise KeyNameError(f"no action is called so; {hint}")


def _keys(action: Action, value: object) -> tuple[str, ...]:
    """The keys written for an action: one, or a list of them."""
    texts = [value] if isinstance(value, str) else value
    if not isinstance(texts, list) or not all(isinstance(one, str) for one in texts):
        raise KeyNameError(f"a key is written in quotation marks, not {value!r}")
    keys: list[str] = []
    for text in texts:
        try:
            keys.append(key_of(text))
        except KeyNameError:
            if text.lower() not in {shown(one).lower() for one in _all(action) if one in TAKEN}:
                raise
    for key in keys:
        if action.asks and key in NEVER_ENDS:
            raise KeyNameError(f"{shown(key)} never ends a class: a remote sends it, or a slip")
    return tuple(dict.fromkeys(keys))


def start(actions: tuple[Action, ...] = EVERY) -> str:
    """A table of keys for a file of settings: every action as it is, to be changed by hand."""
    lines = [
        "[keys]  # take the # from a line and change it; what you write replaces all of its keys",
    ]
    for action in actions:
        name = f'"{action.id}"' if " " in action.id else action.id
        written = [f'"{shown(key)}"' for key in dict.fromkeys(_all(action)) if key not in TAKEN]
        lines.append(f"# {name} = [{', '.join(written)}]")
    return "\n".join([*lines, ""])
