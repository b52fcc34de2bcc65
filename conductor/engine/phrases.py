"""The few fixed phrases of leading; they are rendered before class like every other cue."""

from conductor.score.model import Lengths, Saying, Score, ShapeInfo

MS_A_WORD = 400  # 150 words a minute: good enough to keep two phrases apart


def taken_up(shape: str) -> Saying:
    """Said when a class is taken up again after a long stop."""
    where = f"in {shape}" if shape else "from the beginning"
    return Saying(f"We take it up again {where}.")


def offered(shape: str) -> Saying:
    """Said when a shape that loads has been held for two breaths."""
    return Saying(f"Rest in {shape} if you like.")


def resting(score: Score) -> str:
    """A shape to rest in: child's pose if the class has it, else the easiest one to land in."""
    landing = [info for info in score.shapes.values() if info.landing]
    if not landing:
        return "any easy shape"

    def key(info: ShapeInfo) -> tuple[bool, int, str]:
        return (info.name != "child's pose" and info.id != "child's pose", info.level, info.name)

    return min(landing, key=key).name


def phrases(score: Score) -> frozenset[Saying]:
    """Every fixed phrase this class may need."""
    used = {moment.shape for moment in score.moments}
    landing = [i.name for key, i in score.shapes.items() if i.landing and key in used]
    return frozenset(
        {offered(resting(score)), taken_up(""), *(taken_up(shape) for shape in landing)}
    )


def spoken_ms(saying: Saying, lengths: Lengths) -> int:
    """How long a phrase lasts: as rendered, else estimated from its words."""
    return lengths.get(saying, MS_A_WORD * len(saying.text.split()))
