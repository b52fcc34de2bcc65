from conductor.engine.engine import Engine
from conductor.run.through import through
from conductor.settings import Settings
from tests.support import plan_of, score_of


def test_a_class_is_led_through_without_waiting_each_moment_at_its_time() -> None:
    score = score_of(plan_of("- come to: mountain\n- in: arms overhead\n- out: mountain\n"))
    told = [one for some in through(Engine(score, {}, Settings())) for one in some]
    entered = [(one.moment, one.now) for one in told if one.kind == "moment"]
    begun = entered[0][1]
    assert entered == [(moment.id, begun + moment.start) for moment in score.moments]
    assert told[-1].kind == "finished"
    assert told[-1].now == begun + score.length
