"""What the voice gets must be said, not spelled: asked of the real voice library, by phonemes."""

import json
import re
import subprocess
import sys

import pytest

from conductor.shapes.catalogue import load

SHAPES = tuple(load().shapes.values())
# In a process of its own: the library writes to standard output and cannot be unloaded.
CHILD = """
import ctypes, json, sys
import espeakng_loader

lib = ctypes.CDLL(espeakng_loader.get_library_path())
lib.espeak_Initialize(1, 0, espeakng_loader.get_data_path().encode(), 0)
lib.espeak_SetVoiceByName(b"gmw/en")
lib.espeak_TextToPhonemes.restype = ctypes.c_char_p


def phonemes(text):
    place, found = ctypes.c_char_p(text.encode()), []
    while place.value is not None:
        found.append(lib.espeak_TextToPhonemes(ctypes.byref(place), 1, 2).decode())
    return " ".join(found)


words = json.loads(sys.stdin.read())
print("\\n" + json.dumps({word: phonemes(word) for word in words}))
"""
_NAMES = (
    "b biː c siː d diː f ɛf g dʒiː h eɪtʃ j dʒeɪ k keɪ l ɛl m ɛm n ɛn p piː q kjuː r ɑː s ɛs t tiː"
)
LETTERS = dict(zip(*[iter(f"{_NAMES} v viː w dʌbəl x ɛks z zɛd".split())] * 2, strict=True))
MARKS = ("lɛtə", "makɹɒn", "kjuːt", "dɒt biləʊ", "tɪldə")


def phonemes(words: set[str]) -> dict[str, str]:
    done = subprocess.run(
        [sys.executable, "-c", CHILD],
        input=json.dumps(sorted(words)),
        capture_output=True,
        text=True,
        check=True,
    )
    found: dict[str, str] = json.loads(done.stdout.splitlines()[-1])
    return {word: re.sub("[ˈˌ]", "", heard) for word, heard in found.items()}


def spelled_out(word: str, heard: str) -> bool:
    """Whether a cluster of consonants is read as letters, or a mark is named."""
    if any(mark in heard for mark in MARKS):
        return True
    cluster = re.match(r"[bcdfghjklmnpqrstvwxz]{2}", word.lower())
    return bool(cluster) and heard.startswith(LETTERS[word[0].lower()])


@pytest.mark.parametrize("word", ["tāḍāsana", "shvanasana", "vrksasana", "śvānāsana"])
def test_the_check_hears_what_is_spelled_out(word: str) -> None:
    assert spelled_out(word, phonemes({word})[word])


def test_no_spoken_form_is_spelled_out() -> None:
    said = {shape.spoken_sanskrit for shape in SHAPES} | {shape.spoken for shape in SHAPES}
    said |= {name for shape in SHAPES for name in shape.names}
    heard = phonemes({word for text in said for word in re.findall(r"[^\s-]+", text)})
    assert len(heard) > 300
    assert [word for word, sounds in heard.items() if spelled_out(word, sounds)] == []


def test_spoken_forms_are_plain_letters() -> None:
    for shape in SHAPES:
        for text in (shape.spoken, shape.spoken_sanskrit):
            assert re.fullmatch(r"[a-z -]*", text), text
        assert all(re.fullmatch(r"[a-z0-9' -]+", name) for name in shape.names)


def test_the_sounds_that_go_wrong_are_respelled() -> None:
    sanskrit = {shape.id: shape.spoken_sanskrit for shape in SHAPES}
    words = {"treekohnaasana", "shuhvaanaasana", "shavaasana", "kohnaasana"}
    assert words & set(" ".join(sanskrit.values()).split()) == words
    heard = phonemes(words)
    assert heard["treekohnaasana"].startswith("tɹiː")
    assert heard["shuhvaanaasana"].startswith("ʃ")
    assert heard["shavaasana"].startswith("ʃav")
    assert heard["kohnaasana"].startswith("kəʊ")
