from conductor.view.glass import Glass, Mirror


def test_a_key_turns_the_mirror_on_and_off_again() -> None:
    glass = Glass("both")
    assert glass.now == Mirror(screen=True, cues=True)
    assert glass.may_speak
    assert not glass.turn().on
    assert glass.turn() == Mirror(screen=True, cues=True)


def test_where_none_was_wished_for_the_key_mirrors_the_screen_alone() -> None:
    glass = Glass()
    assert not glass.now.on
    assert not glass.may_speak
    assert glass.turn() == Mirror(screen=True)
