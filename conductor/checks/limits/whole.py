"""Thresholds of load, words, sight, time and care."""

from conductor.checks.limits.model import COMMON, Limit

ARC = "Stephens, Yoga Sequencing (2012): an arc of five parts; the figure is common practice"

LOAD_LIMITS: tuple[Limit, ...] = (
    Limit("prepared", 2, "of the area's own scale, summed over earlier shapes", COMMON),
    Limit("inversion after seconds", 300, "s", "Light on Yoga p.59, items 18-19: not at the start"),
    Limit("inversion after share", 10, "% of the class", COMMON),
    Limit("cooled after seconds", 120, "s", COMMON),
    Limit("undo within movements", 6, "movements", "handbooks on sequencing (from memory)"),
    Limit("fold after seconds", 10, "s", "handbooks on sequencing (from memory); about a breath"),
    Limit("peak from share", 33, "% of the class", ARC),
    Limit("peak until share", 85, "% of the class", ARC),
    Limit("wrist seconds", 120, "s of plank and the like without a whole breath off", COMMON),
    Limit("wrist break seconds", 8, "s", COMMON),
    Limit("low planks a minute", 0.7, "a minute of class, over the whole", COMMON),
    Limit("low planks at least", 20, "in all", COMMON),
    Limit("one leg seconds", 90, "s", "Light on Yoga p.74: 20 to 30 s in warrior three; threefold"),
    Limit("hold long", 1.25, "times the usual most of the shape", COMMON),
    Limit("hold extreme", 3, "times the usual most of the shape", COMMON),
    Limit("hold short", 0.25, "of the usual least of the shape", COMMON),
    Limit("frame from seconds", 300, "s; a shorter class is a fragment", COMMON),
    Limit(
        "arrival seconds",
        20,
        "s of quiet",
        "a measured class rested 10 of 50 min first (Ward et al. 2013, J Yoga Phys Ther 3:3), the "
        "45 minute protocol gives 2; three slow breaths are common practice",
    ),
    Limit("stillness seconds", 60, "s of sitting still that count as rest near the end", COMMON),
    Limit("arrival within seconds", 120, "s from the start", COMMON),
    Limit(
        "rest seconds",
        300,
        "s",
        "5 min is the studio norm and 5 min an hour is published; Light on Yoga p.59 asks for at "
        "least 10 to 15 min",
    ),
    Limit("rest share", 8, "% of the class", "published: 1 min in 10, 5 min an hour (8.3 %)"),
    Limit("rest part", 6, "parts of a short class, one of them rest", "published: 5 min in 30"),
)

WORDS_LIMITS: tuple[Limit, ...] = (
    Limit(
        "breath word by share",
        50,
        "% of the half breath",
        "teacher training: speak before movement, then allow time to respond",
    ),
    Limit("breath word by seconds", 2, "s into the half breath", COMMON),
    Limit("side word by share", 50, "% of the half breath", "as for the breath word"),
    Limit("side word by seconds", 2, "s into the half breath", COMMON),
    Limit("talk share", 67, "% of the class without its rest", "a third silent: common practice"),
    Limit("talk words", 130, "words in a minute", "published rates: a public talk 100-130"),
    Limit("talk from seconds", 300, "s; shorter plans are not judged by share", COMMON),
    Limit("rest silence seconds", 60, "s without a word", COMMON),
    Limit("rest silence share", 50, "% of the rest", COMMON),
    Limit("rest end seconds", 60, "s", COMMON),
    Limit("same cue", 8, "times", COMMON),
)

SIGHT_LIMITS: tuple[Limit, ...] = (Limit("unseen seconds", 20, "s", COMMON),)

TIME_LIMITS: tuple[Limit, ...] = (
    Limit("proportion from seconds", 600, "s; shorter classes are not judged", COMMON),
    Limit("warm-up share", 10, "% of the class", ARC),
    Limit("warm-up part share", 5, "% of the class", ARC),
    Limit("part share", 70, "% of a class of four parts or more", COMMON),
    Limit(
        "most rest share",
        40,
        "% of the class",
        "published: 1 min in 10 up to 15 min after practice; 5 of 50 min as measured",
    ),
)

WHOLE: tuple[Limit, ...] = (*LOAD_LIMITS, *WORDS_LIMITS, *SIGHT_LIMITS, *TIME_LIMITS)
