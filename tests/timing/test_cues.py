from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from conductor.score.model import Line, Saying, Score, Variant, Words
from conductor.settings import Settings
from conductor.sides import Breath
from conductor.timing.cues import AHEAD_MS, BELL_MS, GAP_MS, STROKE_MS, cues
from conductor.timing.model import Cue
from conductor.values import replace
from tests.timing.building import hold, moment, score_of, stay

KNOWN = Settings()


def texts(found: tuple[Cue, ...]) -> list[tuple[int, str, str]]:
    return [(cue.start, cue.slot, cue.saying.text) for cue in found]


def led(score: Score, lengths: dict[str, int], **more: object) -> tuple[Cue, ...]:
    measured = {Saying(text): length for text, length in lengths.items()}
    return cues(score, measured, replace(KNOWN, **more))[0]


def flow() -> Score:
    return score_of(
        moment("a"),
        moment("b", Breath.OUT, text="fold forward"),
        moment("c", Breath.IN, text="half lift"),
        moment("d", Breath.OUT, text="step back"),
    )


def test_the_breath_word_is_heard_ahead_of_its_breath() -> None:
    assert [cue.start for cue in led(flow(), {})] == [-400, 3600, 7600, 11_600]
    assert [cue.start for cue in led(flow(), {}, room="new")] == [-1100, 2900, 6900, 10_900]
    assert [cue.word_at for cue in led(flow(), {})] == [-400, 3600, 7600, 11_600]


def test_lengths_are_measured_or_marked_as_estimated() -> None:
    found = led(flow(), {"Exhale, fold forward.": 1930})
    assert [(cue.measured, cue.length) for cue in found][1] == (True, 1930)
    assert not found[2].measured
    slow = led(flow(), {}, rate=100)
    assert slow[2].length > found[2].length > 0


def test_what_does_not_fit_is_said_shorter() -> None:
    words = Words("step the left foot back", "left foot back", "Exhale")
    score = score_of(
        moment("a"), replace(moment("b", Breath.OUT), words=words), moment("c", text="lift")
    )
    full, short = "Exhale, step the left foot back.", "Exhale, left foot back."
    for lengths, form in (
        ({full: 4000, short: 3000}, "full"),
        ({full: 4001, short: 3000}, "short"),
        ({full: 4001, short: 4001, "Exhale.": 700}, "breath"),
    ):
        cue = led(score, lengths)[1]
        assert (cue.form, cue.fits, cue.room) == (form, True, 4000)


def test_the_plans_own_words_stay_and_do_not_fit() -> None:
    words = Words("let everything go that you do not need", "", "Exhale", "full", written=True)
    score = score_of(
        moment("a"), replace(moment("b", Breath.OUT), words=words), moment("c", text="lift")
    )
    cue = led(score, {"Exhale, let everything go that you do not need.": 4500})[1]
    assert (cue.form, cue.fits, cue.room) == ("full", False, 4000)


def test_early_words_are_over_before_the_breath_word() -> None:
    early = replace(moment("b", Breath.OUT, text="turn to the far end"), early=True)
    score = score_of(moment("a"), hold("h", 2), early, moment("c"))
    found = led(score, {"Turn to the far end.": 1500, "Exhale.": 700})
    assert texts(found)[1:3] == [
        (15_600, "ahead", "Turn to the far end."),
        (19_600, "main", "Exhale."),
    ]


def test_a_moving_class_hears_early_words_just_before_their_breath_word() -> None:
    words = Words("turn to the far end", "turn round", "Exhale")
    early = replace(moment("b", Breath.OUT), words=words, early=True)
    score = score_of(moment("o", Breath.OUT), moment("a", text="lift"), early)
    found = led(score, {"Inhale, lift.": 1200, "Turn to the far end.": 1500})
    assert texts(found)[1:] == [
        (3600, "main", "Inhale, lift."),
        (7600 - AHEAD_MS - 1500, "ahead", "Turn to the far end."),
        (7600, "main", "Exhale."),
    ]


def test_early_words_wait_for_the_cue_before() -> None:
    words = Words("turn to the far end", "turn round", "Exhale")
    early = replace(moment("b", Breath.OUT), words=words, early=True)
    score = score_of(moment("o", Breath.OUT), moment("a", text="lift"), early)
    close = led(score, {"Inhale, lift.": 1900, "Turn to the far end.": 1500})
    assert texts(close)[2] == (3600 + 1900 + GAP_MS, "ahead", "Turn to the far end.")
    tight = led(score, {"Inhale, lift.": 2200, "Turn to the far end.": 1500, "Turn round.": 900})
    assert texts(tight)[2][1:] == ("ahead", "Turn round.")
    full = led(score, {"Inhale, lift.": 3600, "Turn round.": 900})
    assert texts(full)[2] == (7600, "main", "Exhale, turn to the far end.")


def test_the_cue_before_gives_way_to_early_words_where_it_has_a_short_form() -> None:
    before = replace(moment("a"), words=Words("lift half way up", "half lift", "Inhale"))
    early = replace(moment("b", Breath.OUT, text="turn to the far end"), early=True)
    lengths = {
        "Inhale, lift half way up.": 2500,
        "Inhale, half lift.": 1500,
        "Turn to the far end.": 1500,
    }
    found = led(score_of(moment("o", Breath.OUT), before, early), lengths)
    assert [text for _, _, text in texts(found)][1:3] == [
        "Inhale, half lift.",
        "Turn to the far end.",
    ]


def test_written_words_are_not_cut_short_to_be_ahead() -> None:
    words = Words("turn to the far end of the mat", "turn round", "Exhale", "full", written=True)
    early = replace(moment("b", Breath.OUT), words=words, early=True)
    before = replace(moment("a"), words=Words("lift half way up", "half lift", "Inhale"))
    score = score_of(moment("o", Breath.OUT), before, early, moment("c"))
    lengths = {
        "Inhale, lift half way up.": 2500,
        "Inhale, half lift.": 1500,
        "Turn to the far end of the mat.": 2900,
        "Turn round.": 900,
        "Exhale, turn to the far end of the mat.": 3800,
    }
    found = texts(led(score, lengths))
    assert found[1:3] == [
        (3600, "main", "Inhale, lift half way up."),
        (7600, "main", "Exhale, turn to the far end of the mat."),
    ]
    tight = texts(led(score, {**lengths, "Exhale, turn to the far end of the mat.": 4500}))
    assert tight[2:4] == [
        (3600 + 2500 + GAP_MS, "ahead", "Turn round."),
        (7600, "main", "Exhale."),
    ]


def test_the_cue_before_is_full_where_shorter_words_ahead_leave_room() -> None:
    before = replace(moment("a"), words=Words("lift half way up", "half lift", "Inhale"))
    words = Words("turn to the far end", "turn round", "Exhale")
    early = replace(moment("b", Breath.OUT), words=words, early=True)
    lengths = {
        "Inhale, lift half way up.": 2500,
        "Inhale, half lift.": 1500,
        "Turn to the far end.": 1500,
        "Turn round.": 900,
    }
    found = led(score_of(moment("o", Breath.OUT), before, early), lengths)
    assert [text for _, _, text in texts(found)][1:3] == [
        "Inhale, lift half way up.",
        "Turn round.",
    ]


def test_the_last_of_a_series_is_no_longer_than_those_before_it() -> None:
    up = replace(moment("u"), words=Words("lift the right leg", "", "Inhale"), early=True)
    down = replace(
        moment("d", Breath.OUT), words=Words("lower the right leg", "leg down", "Exhale")
    )
    lengths = {"Lift the right leg.": 1300, "Exhale, lower the right leg.": 2300}
    score = score_of(moment("o", Breath.OUT), up, down, up, down, moment("e"), down)
    said = [cue.saying.text for cue in led(score, lengths)]
    assert [text for text in said if "leg down" in text or "lower" in text] == [
        "Exhale, leg down.",
        "Exhale, leg down.",
        "Exhale, leg down.",
    ]
    far = score_of(moment("o", Breath.OUT), up, down, up, *(moment("x"),) * 20, down)
    assert led(far, lengths)[-1].saying.text == "Exhale, lower the right leg."


def test_before_the_class_begins_words_are_said_in_the_run_in() -> None:
    found = led(score_of(moment("a", text="reach up"), moment("b", Breath.OUT)), {"Reach up.": 800})
    assert texts(found)[:2] == [
        (-400 - GAP_MS - 800, "ahead", "Reach up."),
        (-400, "main", "Inhale."),
    ]


def test_a_class_may_open_with_words_and_no_breath() -> None:
    opening = moment("a", Breath.FREE, 8000, text="Stand tall. Let the breath arrive.")
    score = score_of(opening, moment("b", Breath.IN, text="reach up"))
    said = "Stand tall. Let the breath arrive."
    assert texts(led(score, {said: 3000}))[0] == (-400, "main", said)
    assert texts(led(score, {said: 10_000}))[0] == (7600 - 10_000, "main", said)


def test_in_a_stay_only_its_lines_are_said() -> None:
    lines = (("first", "Sink the hips."), ("last", "Last breath."))
    found = led(score_of(moment("a"), hold("h", 4, lines=lines), moment("b")), {})
    assert texts(found) == [
        (-400, "main", "Inhale."),
        (4300, "line0", "Sink the hips."),
        (28_300, "line0", "Last breath."),
        (35_600, "main", "Inhale."),
    ]


def test_a_line_waits_for_the_words_of_its_own_movement() -> None:
    line = Line(300, Saying("Reach."))
    score = score_of(
        moment("o", Breath.OUT),
        replace(moment("a", text="arms overhead"), lines=(line,)),
        moment("b"),
    )
    found = led(score, {"Inhale, arms overhead.": 1700, "Reach.": 500})
    assert texts(found)[2] == (3600 + 1700 + GAP_MS, "line0", "Reach.")
    assert all(cue.fits for cue in found)


def test_a_line_counted_from_the_end_is_over_by_then() -> None:
    line = Line(-1, Saying("And last."))
    score = score_of(moment("a"), replace(moment("b"), lines=(line,), words=Words()), moment("c"))
    assert texts(led(score, {"And last.": 900}))[1] == (7100, "line0", "And last.")


def test_a_line_waits_until_the_bell_has_been_heard() -> None:
    lines = (("first", "Sit tall."),)
    of = hold("h", 2, lines=lines)
    for strokes, start in ((0, 4300), (1, 4000 + BELL_MS), (2, 4000 + BELL_MS + STROKE_MS)):
        grown = stay(of)
        rung = (replace(grown[0], bells=strokes), *grown[1:])
        found = led(score_of(moment("a"), rung, moment("b")), {"Sit tall.": 1000})
        assert texts(found)[1] == (start, "line0", "Sit tall.")


def test_a_line_does_not_wait_for_the_bell_past_its_room() -> None:
    line = Line(300, Saying("Sit tall."))
    rung = replace(moment("b", Breath.OUT), lines=(line,), bells=1, words=Words())
    found = led(score_of(moment("a"), rung, moment("c")), {"Sit tall.": 2000})
    assert texts(found)[1] == (7600 - 2000, "line0", "Sit tall.")
    assert found[1].fits


def test_rest_is_silent_but_for_its_lines() -> None:
    still = hold("r", 60_000, timed=True, rest=True, lines=(("last", "Come back slowly."),))
    found = led(score_of(moment("a"), still), {"Come back slowly.": 1500})
    assert [cue.slot for cue in found] == ["main", "line0"]
    assert found[1].start + found[1].length < 64_000 - 1000


def test_the_level_chooses_the_words() -> None:
    gentle = Variant("ease", "knee down", words=Words("lower the back knee", "", "Inhale"))
    score = score_of(moment("o"), replace(moment("a", text="lunge"), variants=(gentle,)))
    assert cues(score, {}, KNOWN, "ease")[0][1].saying.text == "Inhale, lower the back knee."
    ease = replace(KNOWN, level="ease")
    assert cues(score, {}, ease)[0][1].saying.text == "Inhale, lower the back knee."
    assert cues(score, {}, ease, "")[0][1].saying.text == "Inhale, lunge."


def test_prompting_is_terse_and_half_a_breath_ahead() -> None:
    lines = (("first", "Sink the hips."),)
    score = score_of(*flow().moments, hold("h", 1, lines=lines))
    found, wanted = cues(score, {}, replace(KNOWN, prompting=True))
    assert texts(found) == [
        (-4000, "main", "Inhale."),
        (0, "main", "Fold forward."),
        (4000, "main", "Half lift."),
        (8000, "main", "Step back."),
    ]
    assert {cue.saying for cue in found} <= wanted


WORDS = st.builds(
    Words,
    full=st.sampled_from(["", "lift", "step the left foot back", "turn to the far end of the mat"]),
    short=st.sampled_from(["", "left foot back"]),
    breath=st.just("Inhale"),
    form=st.sampled_from(["full", "short", "breath", "nothing"]),
    written=st.booleans(),
)


@st.composite
def classes(draw: st.DrawFn, lines: bool = True) -> Score:
    pieces: list[object] = []
    for k in range(draw(st.integers(1, 8))):
        if draw(st.integers(0, 3)) == 0:
            anchors = draw(st.lists(st.sampled_from(["", "first", "last"]), max_size=4))
            words_in = tuple((anchor, "Sink the hips.") for anchor in anchors if lines)
            timed = draw(st.booleans())
            amount = draw(st.integers(1, 40_000) if timed else st.integers(1, 4))
            pieces.append(hold(f"h{k}", amount, timed=timed, lines=words_in, rest=timed))
            continue
        breath = draw(st.sampled_from(list(Breath)))
        length = draw(st.sampled_from([600, 2000, 4000, 5000]))
        words = draw(WORDS)
        word = {Breath.IN: "Inhale", Breath.OUT: "Exhale"}.get(breath, "")
        pieces.append(
            replace(
                moment(f"m{k}", breath, length),
                words=replace(words, breath=word),
                early=draw(st.booleans()),
                lines=(Line(300, Saying("Reach.")),) if lines and draw(st.booleans()) else (),
            )
        )
    return score_of(*pieces)  # type: ignore[arg-type]


@given(classes(), st.sampled_from(["known", "new"]), st.booleans())
def test_cues_keep_every_law(score: Score, room: str, prompting: bool) -> None:
    chosen = replace(KNOWN, room=room, prompting=prompting)
    found, wanted = cues(score, {}, chosen)
    assert [cue.start for cue in found] == sorted(cue.start for cue in found)
    assert len({(cue.moment, cue.slot) for cue in found}) == len(found)
    for cue, following in pairwise(found):
        assert cue.room == following.start - cue.start
        assert not cue.fits or cue.start + cue.length <= following.start
    for cue in found:
        its = score.moments[cue.moment]
        assert cue.saying in wanted
        assert cue.saying.text
        if cue.slot == "ahead":
            assert cue.start + cue.length < its.start - chosen.lead_ms
        elif cue.slot == "main" and not prompting and its.words.breath:
            assert cue.word_at == its.start - chosen.lead_ms
        if cue.slot != "main":
            assert its.words.form != "nothing" or cue.slot.startswith("line")
    assert cues(score, {}, chosen)[0] == found


@given(classes(lines=False))
def test_only_what_cannot_be_shortened_is_left_not_fitting(score: Score) -> None:
    for cue in cues(score, {}, KNOWN)[0]:
        words = score.moments[cue.moment].words
        assert (
            cue.fits
            or cue.form == "breath"
            or not words.breath
            or (words.written and not words.short)
        )


def tight(words: Words) -> Score:
    return score_of(
        moment("z", Breath.OUT),
        replace(moment("a"), words=words),
        moment("b", Breath.OUT, text="fold forward"),
    )


LONG = Words("reach both of your long arms up", "", "Inhale", written=True)
LONG_SAID = "Inhale, reach both of your long arms up."


def test_words_that_cannot_be_shorter_are_spoken_faster_up_to_the_limit() -> None:
    said = {Saying(LONG_SAID): 4400, Saying(LONG_SAID, 15): 3800}
    found, _ = cues(tight(LONG), said, replace(KNOWN, fastest=15))
    assert (found[1].saying, found[1].fits) == (Saying(LONG_SAID, 15), True)
    still, _ = cues(tight(LONG), said, replace(KNOWN, fastest=0))
    assert (still[1].saying, still[1].fits) == (Saying(LONG_SAID), False)


def test_words_are_made_shorter_before_they_are_spoken_faster() -> None:
    words = replace_words(LONG, short="reach up")
    said = {Saying(LONG_SAID): 4400, Saying(LONG_SAID, 15): 3800, Saying("Inhale, reach up."): 1200}
    found, _ = cues(tight(words), said, KNOWN)
    assert found[1].saying == Saying("Inhale, reach up.")


def test_no_faster_words_are_wanted_in_class_than_were_rendered() -> None:
    found, _ = cues(tight(LONG), {Saying(LONG_SAID): 4400}, KNOWN)
    assert (found[1].saying, found[1].fits) == (Saying(LONG_SAID), False)


def test_what_may_have_to_hurry_is_wanted_before_class() -> None:
    _, wanted = cues(tight(LONG), {Saying(LONG_SAID): 3800}, KNOWN)
    assert Saying(LONG_SAID, 15) in wanted
    _, calm = cues(tight(LONG), {Saying(LONG_SAID): 2000}, KNOWN)
    assert Saying(LONG_SAID, 15) not in calm


def replace_words(words: Words, **more: str) -> Words:
    return replace(words, **more)
