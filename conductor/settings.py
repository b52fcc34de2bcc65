"""What a person sets once for their room and voice; a plan or the command line may override it."""

from conductor.values import Struct

LEAD_KNOWN_MS = 400  # 0.3 to 0.5 s ahead for a room that knows the flow (common practice)
LEAD_NEW_MS = 1100  # 0.8 to 1.5 s ahead for a room that does not (common practice)
BUFFER_MS = 200  # rides out 100 ms in which something holds the interpreter (measured)
TWICE_MS = 400  # a finger that bounces is faster, one that means two presses slower (our choice)
VOICE_DBS = (-24, 3)  # softest and loudest; 3 dB are left above the voice as it is mixed
BELLS_DBS = (-24, 0)
STALE_MS = 1500  # a cue this late confuses more than it helps


class Settings(Struct, frozen=True):
    """Settings of leading; milliseconds, metres and words a minute.

    `room` is known or new: how far ahead cues start. `level` picks variants: "" (as written),
    ease, more, or, or one that a plan names. `prompting`: terse cues half a breath
    ahead for the teacher's ear alone. `count_aloud`: the voice counts the breaths of a hold.
    `mirror`: off, screen, cues or both tell the side of a teacher who faces the class.
    `cell_mm` is the height of a row, `screen_ppi` the pixels to an inch; 0 where nobody measured.
    `voice_db` and `bells_db` are the volumes a class begins with (0 as recorded, -24 far softer). A
    key pressed again within `twice_ms` counts once. `offset_ms` moves all sound earlier (negative)
    or later, for Bluetooth (-500 to 500).
    `keep_to_the_clock`: stays give and take by themselves to end on time.
    """

    sound: bool = True
    speak: bool = True
    bells: bool = True
    voice: str = ""
    rate: int = 150
    engine: str = "espeak"
    voice_db: int = 0
    bells_db: int = 0
    twice_ms: int = TWICE_MS
    buffer_ms: int = BUFFER_MS
    offset_ms: int = 0
    fastest: int = 15  # percent a cue may be spoken faster to fit its breath; 0 never
    room: str = "known"
    level: str = ""
    prompting: bool = False
    count_aloud: bool = False
    motion: bool = True
    view_distance_m: float = 2.0
    cell_mm: float = 0.0
    screen_ppi: float = 0.0
    theme: str = "dark"
    mirror: str = "off"
    keep_to_the_clock: bool = False

    @property
    def lead_ms(self) -> int:
        """How long before its breath a cue starts."""
        return LEAD_NEW_MS if self.room == "new" else LEAD_KNOWN_MS
