"""Pictures in which breed people speak of eyes, ears, neck, forefeet, chest and back: common practice."""

from collections.abc import Callable

import pytest

from hands_on.notes import Reading


@pytest.mark.parametrize(
    ("note", "region", "fault"),
    [
        ("A bit of blue in the right eye.", "eyes", "eyes.wall"),
        ("Irises are unmatched.", "eyes", "eyes.odd"),
        ("Mustardy eye, I don't care for it.", "eyes", "eyes.yellow"),
        ("This eye tone isn't listed.", "eyes", "eyes.wrong-shade"),
        ("Eyes like two coals.", "eyes", "eyes.dark"),
        ("Eyes jut out of the sockets.", "eyes", "eyes.protruding"),
        ("Eyes lie buried under a heavy brow.", "eyes", "eyes.deep-set"),
        ("Lower lid tucks under.", "eyes", "eyes.entropion"),
        ("A spare row of eyelashes on the lid.", "eyes", "eyes.lashes"),
        ("Skimpy leathers.", "ears", "ears.short"),
        ("Leathers trail on the ground when he sniffs.", "ears", "ears.long"),
        ("Ears slipped halfway down the head.", "ears", "ears.low-set"),
        ("Ears sit up near the crown.", "ears", "ears.high-set"),
        ("Both ears point skyward.", "ears", "ears.erect"),
        ("Ears like a wet dishcloth.", "ears", "ears.heavy"),
        ("Point of the ear keels over.", "ears", "ears.tipped"),
        ("Ears have no backbone, they wave about.", "ears", "ears.soft"),
        ("Leather tapers to a tip.", "ears", "ears.pointed"),
        ("Neck goes on for miles.", "neck", "neck.long"),
        ("A weightlifter's neck.", "neck", "neck.thick"),
        ("Neck scooped out above.", "neck", "neck.ewe"),
        ("Neck comes out too far down the shoulder.", "neck", "neck.set-low"),
        ("Neck bolted on at a right angle.", "neck", "neck.set-high"),
        ("Forefeet aim at the corners.", "forefeet", "forefeet.east-west"),
        ("Front feet like flippers.", "forefeet", "forefeet.flat"),
        ("Daylight between the toes in front.", "forefeet", "forefeet.splayed"),
        ("Feet like soup plates.", "forefeet", "forefeet.large"),
        ("Forefoot fisted.", "forefeet", "forefeet.toes-over-arched"),
        ("Toe rides over the next one.", "forefeet", "forefeet.toes-deformed"),
        ("Front claws clack on the table.", "forefeet", "forefeet.nails-long"),
        ("Brisket is shy of the elbow by an inch.", "chest", "chest.shallow"),
        ("Keel scrapes the ground.", "chest", "chest.too-deep"),
        ("Ribs like a wine cask.", "chest", "chest.barrel"),
        ("Chest like a funnel seen from above.", "chest", "chest.narrow-behind"),
        ("Ribs give out halfway along.", "chest", "chest.ribs-short"),
        ("Breastbone chopped off.", "chest", "chest.sternum-cut-off"),
        ("My thumbs won't meet round him.", "chest", "chest.not-spannable"),
        ("Back like a sponge under my palm.", "back", "back.soft"),
        ("Topline like a toboggan run.", "back", "back.slope-excess"),
        ("Withers planed flat.", "back", "back.withers-flat"),
        ("Loin cramped, the last rib touches the hip.", "back", "back.loin-short"),
        ("Loin nipped in like an hourglass.", "back", "back.loin-narrow"),
        ("Underline shoots up behind the ribs.", "back", "back.tuck-up-excess"),
        ("Belly slung low.", "back", "back.tuck-up-lacking"),
    ],
)
def test_pictures_of_the_ring_are_understood(
    read: Callable[..., Reading], note: str, region: str, fault: str
) -> None:
    assert fault in {f.id for f in read(note, region).faults}


@pytest.mark.parametrize(
    ("note", "region"),
    [
        ("Canary in a cage is loud, wait.", "eyes"),
        ("Buried in paperwork, one moment.", "eyes"),
        ("I mean the second dog.", "ears"),
        ("Felt both ears twice.", "ears"),
        ("Put the blanket down first.", "ears"),
        ("Tap the steward on the shoulder, please.", "forefeet"),
        ("Hooks for the leads are on the wall.", "forefeet"),
        ("Forever waiting for this one.", "back"),
        ("The sponge is under the table.", "back"),
        ("Lids snug against the eyeball.", "eyes"),
        ("Brisket drops to the elbow, as it should.", "chest"),
        ("Front nails trimmed short.", "forefeet"),
    ],
)
def test_their_words_alone_or_in_praise_are_no_fault(
    read: Callable[..., Reading], note: str, region: str
) -> None:
    assert not [f for f in read(note, region).faults if f.status == "present"]
