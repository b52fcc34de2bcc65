from conductor.engine.phrases import phrases, resting
from conductor.score.model import Saying
from conductor.values import replace
from tests.engine.make import small


def test_every_phrase_that_may_be_said_is_known_before_class() -> None:
    known = phrases(small())
    assert Saying("We take it up again in downward dog.") in known
    assert Saying("Rest in child's pose if you like.") in known
    assert Saying("Hold here.") in known


def test_without_child_s_pose_the_easiest_shape_to_land_in_is_offered() -> None:
    given = small()
    shapes = {key: info for key, info in given.shapes.items() if key != "child"}
    assert resting(replace(given, shapes=shapes)) == "mountain"
    assert resting(replace(given, shapes={})) == "any easy shape"
