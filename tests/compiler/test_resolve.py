from tests.support import findings_of, plan_of, score_of

STEPS = "- come to: mountain\n- in: lighthouse\n  side: right\n- out: mountain\n"


def test_own_shapes_are_built_on_the_catalogue() -> None:
    head = "shapes:\n  lighthouse: {like: warrior three, with: arms wide, say it: light house}\n"
    score = score_of(plan_of(STEPS, head=head))
    info = score.shapes[score.moments[1].shape]
    assert (info.name, info.spoken, info.side_means) == (
        "lighthouse", "light house", "standing leg",
    )  # fmt: skip


def test_own_shapes_may_be_built_on_each_other() -> None:
    head = (
        "shapes:\n  beacon: {like: warrior three, with: arms wide}\n"
        "  lighthouse: {like: beacon, say it: light house}\n"
    )
    assert score_of(plan_of(STEPS, head=head)).shapes["lighthouse"].spoken == "light house"


def test_a_field_that_cannot_be_read_is_told_at_its_place() -> None:
    text = plan_of(STEPS, head="shapes:\n  lighthouse: {like: waryor nine}\n")
    told = [finding for finding in findings_of(text) if finding.rule == "own-shape"]
    assert told
    assert told[0].span is not None
    assert text.splitlines()[told[0].span.line - 1].startswith("  lighthouse")


def test_a_catalogue_name_taken_by_the_plan_is_remarked() -> None:
    text = plan_of("- come to: boat\n", head="shapes:\n  boat: {like: staff}\n")
    assert [finding.rule for finding in findings_of(text)] == ["own-name"]
    assert score_of(text).moments[0].stance.base == "seat"
