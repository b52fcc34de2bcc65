from conductor.report.chapters import cue_sheet
from tests.support import score_of

PLAN = """
plan: 1
title: The "Tide"
kind: piece
breath: 4 s in, 4 s out
parts:
  - part: One
    steps:
      - come to: mountain
      - stay: 75 s
  - part: Two
    steps:
      - in: arms overhead
"""


def test_every_part_is_a_track_with_its_start_in_frames_of_a_75th() -> None:
    sheet = cue_sheet(score_of(PLAN), "class.wav", 2_640)
    assert sheet.split("\r\n") == [
        "TITLE \"The 'Tide'\"",
        'FILE "class.wav" WAVE',
        "  TRACK 01 AUDIO",
        '    TITLE "One"',
        "    INDEX 01 00:00:00",
        "  TRACK 02 AUDIO",
        '    TITLE "Two"',
        "    INDEX 01 01:25:48",
        "",
    ]
