"""What a drafted class says and offers: few words, our own, to be changed by who teaches it."""

from collections.abc import Mapping

_STAYS = """
mountain: Feel both feet, all four corners of them. | Tall, and easy about it.
downward-dog: Press the floor away, let the heels sink. | Bend one knee, then the other. |
  Long sides, soft neck. | Spread the fingers, rest in the breath.
standing-fold: Let the head hang. | Heavy arms, soft knees.
ragdoll: Let the head hang, and sway a little. | Nothing in the neck holds on.
big-toe-fold: Elbows wide, shoulders away from the ears.
childs-pose: Heavy hips, long arms, nothing to do. | Breathe into the back, and let it grow wide. |
  Let the forehead have its weight.
all-fours: Push the floor away a little.
puppy: Let the chest melt toward the floor. | Hips stay over the knees.
thread-the-needle: Let the neck be long. | The shoulder gets heavy.
bird-dog: One long line, fingers to heel.
tiger: Lift from the back of the leg.
crocodile: Rest the forehead on the hands. | Let the heart settle.
sphinx: Elbows draw back, chest forward. | Let the belly be heavy.
cobra: Light hands, long neck. | Lift from the back, not from the arms.
baby-cobra: Hardly any weight in the hands.
locust: Long legs, long neck. | Reach back through the feet.
half-locust: Lengthen the leg before you lift it higher.
bow: Press the feet back into the hands. | Breathe where it is tight.
half-camel: Lift the heart before it leans back.
camel: Hips forward, chest up, neck easy. | Lift first, then lean.
thunderbolt: Sit tall, shoulders wide.
high-kneel: Tall from the knees to the crown.
gate: The upper arm grows long.
low-lunge: Heavy hips, light chest. | Sink a little with each exhale.
half-split: Hips back, long spine. | Fold from the hips, let the head hang.
lizard: Let the hips sink, one breath at a time. | Soften the jaw, soften the hips.
low-lunge-twist: Longer as you inhale, turn as you exhale.
twisted-lunge-with-hand-down: Reach up, and let the breath open the ribs.
crescent-lunge: Back heel away, arms light. | Hips level, eyes quiet.
crescent-twist: Longer as you inhale, turn as you exhale. | Press the palms together, and turn.
open-lunge-twist: Arms wide, like a wingspan.
warrior-one: Lift the chest, let the shoulders be. | Root the back heel.
warrior-one-with-cactus-arms: Open the front of the chest.
humble-warrior: Bow, and let the head be heavy.
warrior-two: Sink the hips, reach through both hands. | Look far out over the front hand.
reverse-warrior: Front knee stays deep.
side-angle: One long line, heel to fingertips. | Let the ribs turn up.
triangle: Open the chest to the long side. | Both legs strong, breath soft.
bound-side-angle: Roll the chest open.
pyramid: Both hips point forward. | Long spine first, then fold.
pyramid-with-flat-back: Lengthen through the crown.
revolved-triangle: Hips level, turn from the ribs.
revolved-side-angle: Back heel away, turn from the middle.
warrior-three: Level, from fingertips to heel. | One long line, looking down.
airplane: Arms wide, light in all directions.
half-moon: Stack the hips, reach out through the heel. | Breathe, and grow in all directions.
sugarcane: Press the foot back, open the chest.
revolved-half-moon: Turn slowly, keep the lifted leg strong.
tree: Foot and leg press against each other. | Grow from the standing foot.
standing-knee-lift: Stand into the floor.
eagle: Squeeze to the middle, then breathe wide. | Sit low, lift the elbows.
dancer: Press the foot into the hand. | Forward and up, slowly.
standing-figure-four: Sit back, flex the upper foot.
hand-to-big-toe: Stand tall, the leg comes second.
tiptoe-stand: Find one still point. | Ankles close, eyes quiet.
chair: Sit back, heels heavy. | Lift the chest out of the hips.
chair-twist: Knees stay side by side.
garland: Elbows open the knees. | Let the tail be heavy.
goddess: Knees wide, over the ankles. | Tall spine, deep legs.
goddess-with-cactus-arms: Elbows in line with the shoulders.
wide-legged-fold: Let the head hang like a bell. | Feet press out, head is heavy.
wide-legged-twist: Turn from the ribs, hips stay level.
side-plank: Push the floor away, hips high.
kneeling-side-plank: Reach up, hips high.
wild-thing: Open the heart, press through the feet.
plank: Heels back, crown forward.
forearm-plank: Elbows under the shoulders, legs long.
dolphin: Push the floor away, shoulders wide.
knee-to-nose: Round, and push the floor away.
crow: Look forward, lift the belly. | Press the floor away, keep breathing.
easy-seat: Tall and soft. | Let the face be smooth.
bound-angle: Let the knees be heavy. | Sit up out of the hips.
butterfly-fold: Let the back round, let the knees be heavy. | Give the head its weight.
seated-side-bend: Both sitting bones stay heavy.
seated-twist: Grow tall, then turn a little more.
deer: Both hips heavy, spine long.
fire-log: Flex the feet, and wait. | Sit tall over the shins.
cow-face: Let the seat sink, breathe behind the heart.
staff: Press the heels away, sit tall.
seated-fold: Let the back round, and the breath be slow. | Let the neck be long.
head-to-knee: Fold with the exhale, rest with the inhale. | Let the shoulders go.
revolved-head-to-knee: Turn the ribs up.
wide-angle-seated-fold: Walk the hands, then wait. | Toes up, spine long.
marichis-twist: Grow tall, then turn.
half-lord-of-the-fishes: Longer as you inhale, turn as you exhale.
bharadvajas-twist: Both hips heavy, turn from the ribs.
heron: Draw the leg near, keep the back long.
boat: Chest high, breath quiet.
bent-knee-boat: Lift the chest.
half-boat: Ribs heavy, legs light.
reverse-table: Knees over the heels, hips level.
upward-plank: Toes reach down, chest reaches up.
resting-frog: Let the hips find their own way down. | Wait, and breathe.
pigeon: Grow tall over the hips. | Hips level, chest high.
sleeping-pigeon: Let the floor have the weight. | Breathe into the hip.
constructive-rest: Let the back sink into the floor.
knees-to-chest: Rock gently from side to side. | Heavy sacrum, soft shoulders.
bridge: Knees forward, chest to the chin. | Press the feet down, open the heart.
one-legged-bridge: Hips stay level.
wheel: Push away from the floor, breathe. | Feet heavy, heart high.
half-plow: Reach up through the heels.
raised-legs: Press the back down.
figure-four: Keep the upper foot flexed. | Draw the legs closer as you exhale.
supine-cow-face: Draw the knees near, let the tail sink.
happy-baby: Tail heavy, knees toward the armpits. | Rock a little, if you like.
reclined-twist: Both shoulders stay heavy. | Let the breath unwind you.
belly-twist: Both shoulders stay heavy.
reclined-bound-angle: Hands on the belly, feel it rise. | Let the knees be carried.
reclined-hand-to-big-toe: The other leg stays long.
wind-relieving: Soft belly, the long leg heavy.
supine-stretch: As long as you are.
"""

_EASE = """
plank: knees down
low-plank: knees, chest and chin down
upward-dog: cobra
downward-dog: knees bent, heels high
standing-fold: bend the knees
chair: sit less deep
chair-twist: hands on the thighs
crescent-lunge: the back knee stays down
crescent-twist: hands on the front thigh
open-lunge-twist: hands on the hips
warrior-three: the back toes touch the floor
airplane: the back toes touch the floor
half-moon: top hand on the hip, leg low
sugarcane: leave the foot, and look down
revolved-half-moon: top hand on the hip
tree: toes stay on the floor
standing-knee-lift: hold the knee with both hands
eagle: toes to the floor, arms crossed
dancer: the foot stays low
standing-figure-four: sit less deep
hand-to-big-toe: hold the knee
tiptoe-stand: heels stay low
crow: toes stay on the floor
side-plank: bottom knee down
wild-thing: stay in the side plank, knee down
dolphin: knees down
forearm-plank: knees down
knee-to-nose: the foot touches down
bow: lift only the chest
locust: the legs stay down
camel: hands stay on the back
half-camel: only lift the chest
cobra: elbows stay down
wheel: hips up, head and shoulders stay down
bridge: lift only a little
one-legged-bridge: both feet stay down
upward-plank: knees bent, feet under the knees
reverse-table: hips low
pigeon: the shin closer to you
sleeping-pigeon: stay upright on the hands
lizard: arms long, hands down
humble-warrior: hands on the front thigh
triangle: hand on the shin
side-angle: forearm on the thigh
bound-side-angle: no bind, arm overhead
revolved-triangle: hand on the shin, knee soft
revolved-side-angle: back knee down
pyramid: hands on the shin
wide-angle-seated-fold: sit tall, hands behind you
seated-fold: bend the knees
head-to-knee: bend the long leg a little
revolved-head-to-knee: hand on the thigh
fire-log: shins crossed lightly
cow-face: hands on the thighs
marichis-twist: hug the knee
half-lord-of-the-fishes: the lower leg stays long
heron: hold behind the knee
boat: knees bent
half-boat: feet touch the floor
bent-knee-boat: hands hold the thighs
resting-frog: knees less wide
garland: heels up, hands on the floor
raised-legs: one leg at a time
big-toe-fold: bend the knees
"""

_MORE = """
tree: both arms grow overhead
standing-knee-lift: eyes closed
eagle: sit lower, elbows higher
dancer: kick higher, lean forward
warrior-three: both arms long beside the ears
airplane: eyes closed for a moment
half-moon: look up
sugarcane: look up
revolved-half-moon: look up
standing-figure-four: fold over the shin
hand-to-big-toe: take the leg to the side
tiptoe-stand: eyes closed
crow: feet together, arms longer
boat: arms overhead
bent-knee-boat: arms overhead
half-boat: arms overhead
bird-dog: eyes closed
side-plank: lift the top leg
"""


def _table(text: str) -> dict[str, tuple[str, ...]]:
    joined = text.strip().replace("|\n  ", "| ")
    rows = (line.partition(": ") for line in joined.splitlines())
    return {name: tuple(word.strip() for word in words.split(" | ")) for name, _, words in rows}


STAYS: Mapping[str, tuple[str, ...]] = _table(_STAYS)
"""What may be said in a stay, by shape: any one of them."""

EASE: Mapping[str, str] = {name: words[0] for name, words in _table(_EASE).items()}
"""A gentler way of a shape, in words."""

MORE: Mapping[str, str] = {name: words[0] for name, words in _table(_MORE).items()}
"""A fuller way of a shape, in words."""

WELCOME = {
    "easy-seat": ("Welcome. Sit tall, and let the eyes close.", "Find a seat, and settle."),
    "constructive-rest": ("Welcome. Lie on your back, feet on the floor.",
                          "Lie down, knees up, and arrive."),
    "mountain": ("Welcome. Stand tall, and let the breath arrive.", "Stand, feet under the hips."),
    "childs-pose": ("Welcome. Rest over your knees, forehead down.",
                    "Come to rest, hips to the heels."),
}  # fmt: skip

ARRIVING = (
    ("Let the breath come in by itself.", "And let it go again, slowly."),
    ("Hear what there is to hear.", "And come back to the breath."),
    ("Feel the breath come in, and go out.", "Nothing has to be done about it."),
    ("In like a wave, and out like a wave.", "Let each one end before the next."),
)

REST = (
    "Stretch out on your back, and let everything be heavy.",
    "Lie down, arms beside you, and let the floor carry you.",
    "Take your time to lie down, and let go.",
)
WAKE = (
    "Slowly, let the breath grow deeper.",
    "Let the breath come back, deeper and deeper.",
    "Begin to hear the room again, and breathe deeper.",
)
MOVE = (
    "Wake up the fingers and the toes.",
    "Move the hands and the feet a little.",
    "Stretch, if you feel like it.",
)
FAREWELL = (
    ("Feel how you have arrived.", "Thank you. Go well."),
    ("Sit for a moment, with nothing to do.", "Thank you. Go gently on."),
    ("Feel the breath once more.", "Thank you for practising together."),
)
LAST = ("Last breath here.", "One more breath.", "And a last breath.", "The last one here.")
OTHER_SIDE = (
    "And the other side.",
    "And now the other side.",
    "Now the second side.",
    "The same on the other side.",
    "And change sides.",
    "Once more, on the other side.",
)

TITLES = {
    "hips": ("Low Water", "Wide Harbour", "Open Gate", "Deep Anchor", "River Mouth", "Slack Tide"),
    "backbend": (
        "High Arch",
        "Rising Sun",
        "Bow and Keel",
        "Bright Bay",
        "Full Sail",
        "Spring Tide",
    ),
    "balance": (
        "Tall Mast",
        "One Heron",
        "Still Point",
        "Steady Light",
        "Narrow Pier",
        "Plumb Line",
    ),
    "slow": ("Long Evening", "Quiet Inlet", "Soft Rain", "Slow Drift", "Low Lamp", "Ebb"),
}
