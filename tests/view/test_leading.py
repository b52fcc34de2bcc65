import inspect

from conductor.view.leading import Leading, Telling


def test_a_telling_class_is_a_leading_one_with_news() -> None:
    leading = {name for name, _ in inspect.getmembers(Leading, inspect.isfunction)}
    telling = {name for name, _ in inspect.getmembers(Telling, inspect.isfunction)}
    wanted = {"snapshot", "now", "post", "trouble", "after"}
    assert wanted <= leading
    assert {name for name in telling - leading if not name.startswith("_")} == {"news"}
