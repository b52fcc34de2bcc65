"""A small class made by hand, and snapshots of it, for the front ends to show."""

from conductor.engine.model import Do, Reply, Snapshot, State
from conductor.score.model import (
    Hold,
    Line,
    Meta,
    Moment,
    Part,
    Saying,
    Score,
    ShapeInfo,
    Variant,
    Words,
)
from conductor.sides import Breath, Side
from conductor.spans import Span
from conductor.stance import Base, Foot, Stance
from conductor.values import replace

STANDING = Stance(Base.FEET, Foot.TOP, Foot.TOP)
HALF = 4000

SHAPES = {
    info.id: info
    for info in (
        ShapeInfo("mountain", "mountain", "Tāḍāsana", landing=True),
        ShapeInfo("arms-up", "arms overhead", "Ūrdhva hastāsana"),
        ShapeInfo("fold", "standing fold", "Uttānāsana", unseen=True),
        ShapeInfo("down-dog", "downward dog", "Adho mukha śvānāsana", landing=True, unseen=True),
        ShapeInfo(
            "crescent",
            "crescent lunge",
            "Añjaneyāsana",
            side_means="front foot",
            side_part="foot",
            balance=True,
            cautions=("recent knee surgery", "neck complaints"),
        ),
        ShapeInfo(
            "warrior-two",
            "warrior two",
            "Vīrabhadrāsana II",
            side_means="front foot",
            side_part="foot",
            cautions=("neck complaints",),
        ),
        ShapeInfo("plank", "plank", "Phalakāsana", loads=True),
        ShapeInfo("child", "child's pose", "Bālāsana", landing=True, unseen=True, props=("block",)),
        ShapeInfo("cow", "cow"),
        ShapeInfo("cat", "cat"),
        ShapeInfo("rest", "final rest", "Śavāsana", unseen=True),
    )
}


def span(line: int) -> Span:
    return Span("tide.yaml", line, 3)


def moment(at: int, start: int, breath: Breath, shape: str, **more: object) -> Moment:
    values: dict[str, object] = {
        "id": f"{at}",
        "start": start,
        "length": HALF,
        "breath": breath,
        "shape": shape,
        "side": None,
        "decided": "",
        "stance": STANDING,
        "words": Words(full=shape, breath={"in": "Inhale", "out": "Exhale"}.get(breath, "")),
        "origin": span(at + 10),
        "part": 0,
    }
    return Moment(**{**values, **more})  # type: ignore[arg-type]


def build() -> Score:
    """Arms up, fold; a lunge and warrior two stayed in on the right, then on the left; rest."""
    moments: list[Moment] = []

    def add(breath: Breath, shape: str, **more: object) -> None:
        start = moments[-1].end if moments else 0
        moments.append(moment(len(moments), start, breath, shape, **more))

    add(Breath.FREE, "mountain", length=8000)
    add(Breath.IN, "arms-up")
    add(Breath.OUT, "fold")
    add(Breath.IN, "plank")
    add(Breath.OUT, "down-dog")
    for side in Side:
        passing = {"side": side, "part": 1, "pass_side": side, "pass_key": "stand"}
        add(
            Breath.IN,
            "crescent",
            **passing,
            early=True,
            note="look for the back heels",
            variants=(Variant("ease", "back knee down"),),
        )
        add(Breath.OUT, "warrior-two", **passing, turn="long side", with_="arms wide")
        for breath in range(5):
            for half in (Breath.IN, Breath.OUT):
                add(
                    half,
                    "warrior-two",
                    **passing,
                    with_="arms wide",
                    hold=f"stay-{side}",
                    of_stay=(breath + 1, 5),
                    arriving=False,
                    lines=(Line(0, Saying("Sink the hips.")),) if breath == 0 else (),
                )
        add(Breath.IN, "plank", part=1)
        add(Breath.OUT, "down-dog", part=1)
    add(Breath.FREE, "cow", length=40000, cycle=("cow", "cat"), part=2)
    add(Breath.FREE, "child", length=8000, part=2)
    add(Breath.FREE, "rest", length=20000, part=2)
    add(Breath.FREE, "rest", length=300000, part=2, hold="rest", arriving=False)
    last = len(moments)
    parts = (Part("Arrive", 0, 5), Part("Stand", 5, last - 4), Part("Rest", last - 4, last))
    holds = {
        "stay-right": Hold("stay-right", 5, 3, 8, 8000, 4000, ("stay-left",)),
        "stay-left": Hold("stay-left", 5, 3, 8, 8000, 4000, ("stay-right",)),
        "rest": Hold("rest", 300000, 240000, 600000, 8000, 4000, rest=True, timed=True),
    }
    meta = Meta("Tide Table", length=moments[-1].end, props=("two blocks",), for_="mixed level")
    return Score(meta, tuple(moments), parts, holds, SHAPES)


def snap(index: int, into: int = 0, state: State = State.LEADING, **more: object) -> Snapshot:
    """The class at moment `index`, `into` ms after it was entered, begun at now = 1000."""
    score = build()
    here = score.moments[index]
    entered = 1000 + here.start
    values: dict[str, object] = {
        "state": state,
        "now": entered + into,
        "score": score,
        "index": index,
        "entered": entered,
        "leaves": entered + here.length,
        "pace": 1000,
        "pass_no": 1,
        "held": 0,
        "ends_at": 1000 + score.length,
        "planned_end": 1000 + score.length,
        "offers": frozenset({Do.STOP, Do.SILENCE, Do.HOLD, Do.NEXT, Do.BACK, Do.END, Do.LEVEL}),
        "begun": 1000,
    }
    return Snapshot(**{**values, **more})  # type: ignore[arg-type]


def refusing(snapshot: Snapshot, words: str) -> Snapshot:
    return replace(snapshot, reply=Reply(False, words))
