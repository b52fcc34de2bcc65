from conductor.shapes import cautions

CODES = "BP LBP HT GL P MN DI LB AB NK WR SH EL KN HP AN HM BA HA"


def test_every_code_of_the_trade_has_words_and_a_source() -> None:
    table = cautions.table()
    assert set(table) == set(CODES.split())
    for code, caution in table.items():
        assert caution.code == code
        assert caution.words
        assert caution.more.endswith(".")
        assert caution.source


def test_no_caution_calls_anything_safe() -> None:
    for caution in cautions.table().values():
        assert "safe" not in f"{caution.words} {caution.more}".lower()


def test_the_words_are_lower_case_for_a_list() -> None:
    assert cautions.legend()["GL"] == "glaucoma or trouble with the retina"
    assert all(words == words.lower() for words in cautions.legend().values())
