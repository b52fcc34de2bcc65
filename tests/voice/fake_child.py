"""A child that misbehaves on command: what it is asked to say is what it does."""

import json
import os
import signal
import struct
import sys
from pathlib import Path

WAV = struct.pack("<4sI4s4sIHHIIHH", b"RIFF", 236, b"WAVE", b"fmt ", 16, 1, 1, 22050, 44100, 2, 16)


def mark(name: str) -> bool:
    """True the first time that any child is asked."""
    try:
        (Path(sys.argv[1]) / name).touch(exist_ok=False)
    except FileExistsError:
        return False
    return True


def answer(question: dict[str, str]) -> dict[str, object]:
    text = question.get("text", "")
    with (Path(sys.argv[1]) / "log").open("a") as log:
        log.write(f"{os.getpid()} {question['do']} {text}\n")
    if question["do"] == "measure":
        return {"ok": True, "delivered": 150.0}
    if question["do"] != "render":
        return {"ok": True, "voices": []}
    if text.startswith("die") and ("always" in text or mark("died")):
        os.kill(os.getpid(), 9)
    if text == "hang":
        signal.pause()
    if text.startswith("babble"):
        sys.stdout.write("what was that?\n")
        sys.stdout.flush()
    if text.startswith("odd") and ("always" in text or mark("odd")):
        return {"ok": False, "kind": "odd", "words": "not a sound in it"}
    if text == "full":
        return {"ok": False, "kind": "full", "words": "No space left on device"}
    data = WAV + b"data" + struct.pack("<I", 200) + bytes(range(1, 201))
    Path(question["part"]).write_bytes(data[:100] if text == "torn" else data)
    return {"ok": True, "samples": 100}


if __name__ == "__main__":
    for line in sys.stdin:
        sys.stdout.write(json.dumps(answer(json.loads(line))) + "\n")
        sys.stdout.flush()
