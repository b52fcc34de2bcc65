from conductor.engine.model import Do
from tests.engine.make import Class, at, breaths, entered, move, score, stay


def halves(led: Class, hold: str) -> int:
    return sum(moment.hold == hold for moment in led.look().score.moments)


def test_one_breath_more_on_the_first_side_is_one_more_on_the_other() -> None:
    led = at("h right.2")
    assert led.do(Do.MORE).words == "One breath more. The other side gets the same."
    assert (halves(led, "h right"), halves(led, "h left")) == (8, 8)
    assert led.look().ends_at == led.look().planned_end + 16_000
    moment = led.look().score.moments[led.look().index]
    assert (moment.id, moment.of_stay) == ("h right.2", (2, 4))


def test_one_breath_more_on_the_second_side_says_that_the_first_has_been_led() -> None:
    led = at("h left.2")
    assert led.do(Do.MORE).words == "One breath more. The other side has been led already."
    assert (halves(led, "h right"), halves(led, "h left")) == (6, 8)


def test_fewer_takes_whole_breaths_still_to_come_and_no_more() -> None:
    led = at("h right.2")
    assert led.do(Do.FEWER).done
    assert (halves(led, "h right"), halves(led, "h left")) == (4, 4)
    assert not led.do(Do.FEWER).done
    assert Do.FEWER not in led.look().offers
    assert entered(led.wait(7000)) == ["h right.3", "plank right"]


def test_in_the_movement_that_leads_into_a_stay_it_is_that_stay() -> None:
    led = at("warrior right")
    led.do(Do.MORE)
    assert halves(led, "h right") == 8
    led.do(Do.FEWER)
    led.do(Do.FEWER)
    led.do(Do.FEWER)
    assert halves(led, "h right") == 2
    assert not led.do(Do.FEWER).done


def test_without_a_stay_there_is_nothing_to_change() -> None:
    led = at("flat")
    assert not led.do(Do.MORE).done
    assert Do.MORE not in led.look().offers


def test_sides_made_unequal_become_equal_when_the_first_comes_again() -> None:
    led = at("h left.0")
    led.do(Do.FEWER)
    led.do(Do.FEWER)
    led.do(Do.PREVIOUS_PART)
    led.to("h right.0")
    led.do(Do.FEWER)
    assert (halves(led, "h right"), halves(led, "h left")) == (4, 4)


def test_the_last_line_stays_with_the_last_breath() -> None:
    led = at("h right.2")
    led.do(Do.MORE)
    lines = [moment.id for moment in led.look().score.moments if moment.lines]
    assert lines[0] == "h right.6"


def test_a_breath_more_in_timed_rest_is_a_breath_of_time() -> None:
    led = at("rest.0", 5000)
    led.do(Do.MORE)
    look = led.look()
    assert look.leaves == led.now + 33_000
    for _ in range(4):
        assert led.do(Do.FEWER).done
    assert led.look().leaves == led.now + 1000
    assert not led.do(Do.FEWER).done


def test_a_cue_begun_is_said_again_only_when_its_moment_moved_away() -> None:
    led = at("h right.5", 3700)
    assert led.heard(0) == ["plank right"]
    begun = led.engine.upcoming(led.now, 0)[0]
    led.do(Do.MORE)
    assert "plank right" not in led.heard(0)
    led.to("h right.7")
    led.wait(3700)
    assert led.heard(0) == ["plank right"]
    assert led.engine.upcoming(led.now, 0)[0].id != begun.id


def test_what_must_be_said_earlier_is_said_at_once() -> None:
    # one breath fewer brings the balance so near that its words ahead should have begun
    hold = breaths("h", 2)
    given = score(
        [("All", [*stay(hold, "in", "dog"), move("leg", "in", "leg", early=True)])], [hold]
    )
    led = at("h.1", 1000, given)
    led.do(Do.FEWER)
    heard = led.engine.upcoming(led.now, 4000)
    assert [(one.id.slot, one.start - led.now) for one in heard] == [("ahead", 0), ("main", 2600)]
