from conductor.engine.model import Do, State
from conductor.values import replace
from tests.engine.make import at, small


def test_swapping_exchanges_a_pass_and_its_mate() -> None:
    led = at("leg right")
    reply = led.do(Do.SWAP)
    assert reply.words == "We are on the left."
    look = led.look()
    assert (led.here, look.swapped, look.state) == ("leg left", True, State.LEADING)
    names = [moment.id for moment in look.score.moments]
    assert names.index("dog left") < names.index("wait in") < names.index("leg right")
    assert [m.start for m in look.score.moments] == [m.start for m in small().moments]
    assert "warrior left" in led.heard(4000)
    led.do(Do.SWAP)
    assert led.look().score == small()


def test_swapping_on_the_second_side_puts_the_record_right() -> None:
    led = at("h left.2")
    led.do(Do.SWAP)
    assert led.here == "h right.2"
    assert led.look().score.moments[5].id == "leg left"


def test_what_was_being_said_of_the_wrong_side_ceases() -> None:
    led = at("leg right", 3700)
    assert led.heard(0) == ["warrior right"]
    led.do(Do.SWAP)
    assert "warrior right" not in led.heard(4000)
    assert led.heard(0) == ["warrior left"]


def test_outside_passages_with_two_sides_there_is_nothing_to_swap() -> None:
    led = at("flat")
    assert "no other side" in led.do(Do.SWAP).words
    assert Do.SWAP not in led.look().offers


def test_without_its_mate_a_pass_cannot_be_swapped() -> None:
    given = small()
    moments = tuple(replace(m, mate="") for m in given.moments)
    led = at("leg right", given=replace(given, moments=moments))
    assert "not in the class" in led.do(Do.SWAP).words


def test_passes_of_unequal_length_are_exchanged_as_wholes() -> None:
    given = small()
    moments = [m for m in given.moments if m.id != "plank left"]
    parts = tuple(
        replace(p, first=p.first - (p.first > 26), last=p.last - (p.last > 26)) for p in given.parts
    )
    led = at("dog right", given=replace(given, moments=tuple(moments), parts=parts))
    before = [m.id for m in led.look().score.moments]
    assert led.do(Do.SWAP).done
    after = [m.id for m in led.look().score.moments]
    assert sorted(after) == sorted(before)
    assert after.index("dog left") < after.index("wait in") < after.index("leg right")
    assert led.here == "dog left"
