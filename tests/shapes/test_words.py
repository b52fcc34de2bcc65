from conductor.shapes import words
from conductor.stance import Base, Frame, Hands, Trunk


def test_every_value_of_a_stance_has_a_plain_word() -> None:
    assert {stand[0] for stand in words.STANDS.values()} == set(Base)
    assert set(words.FACES.values()) == set(Frame)
    assert set(words.BENDS.values()) == set(Trunk) == set(words.SPINES)
    assert set(words.ARMS.values()) == set(Hands)
    assert set(words.BREATHS.values()) == {"in", "out", "either"}


def test_words_are_lower_case_and_clean() -> None:
    for table in (words.STANDS, words.FACES, words.BENDS, words.ARMS, words.BREATHS):
        assert all(word == word.lower().strip() for word in table)
