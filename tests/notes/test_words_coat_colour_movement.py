"""Words evaluators use for coat, colour, testicles and movement: common practice, the sentences our own."""

from collections.abc import Callable

import pytest

from hands_on.notes import Reading

_SAID = (
    ("coat-skin", "That jacket has gone wild, he needs a haircut.", "coat-skin.long"),
    ("coat-skin", "The jacket is silken where I want bristle.", "coat-skin.soft"),
    ("coat-skin", "Coat is raspy to the hand.", "coat-skin.coarse"),
    ("coat-skin", "There is a crimp in the coat over the rump.", "coat-skin.wavy"),
    ("coat-skin", "Ringlets along the neck.", "coat-skin.curly"),
    ("coat-skin", "Jacket sparse on the flanks.", "coat-skin.sparse"),
    ("coat-skin", "The hair won't lie down, a haystack.", "coat-skin.open"),
    ("coat-skin", "Nothing under the topcoat at all.", "coat-skin.no-undercoat"),
    ("coat-skin", "Fingers sink into wool.", "coat-skin.undercoat-heavy"),
    ("coat-skin", "Hide like parchment.", "coat-skin.thin-skin"),
    ("coat-skin", "Skin two sizes too big.", "coat-skin.loose-skin"),
    ("coat-skin", "Fuzz between the toes.", "coat-skin.toe-hair"),
    ("coat-skin", "Tail carries a brush like a squirrel.", "coat-skin.brush-tail"),
    ("coat-skin", "Beardless.", "coat-skin.no-beard"),
    ("coat-skin", "Wears a toupee.", "coat-skin.topknot"),
    ("colour", "Colored like a pinto.", "colour.parti"),
    ("colour", "Dyed in the wrong vat.", "colour.wrong-shade"),
    ("colour", "Spats of white, stepped in the milk.", "colour.white"),
    ("colour", "A polar bear.", "colour.white-coat"),
    ("colour", "Markings smeared.", "colour.markings-faulty"),
    ("colour", "They forgot the rust on this one.", "colour.tan-lacking"),
    ("colour", "Wool beneath is the wrong colour.", "colour.undercoat"),
    ("reproductive", "Second one never came down.", "reproductive.retained-testicle"),
    ("reproductive", "A pair of raisins.", "reproductive.testicles-atrophied"),
    ("reproductive", "Sizes don't match.", "reproductive.testicles-unequal"),
    ("movement", "Forelegs brush past each other.", "movement.close-in-front"),
    ("movement", "Straddles coming on.", "movement.wide-in-front"),
    ("movement", "Braids his legs.", "movement.crossing"),
    ("movement", "Hocks knock together on the away.", "movement.cow-hocked"),
    ("movement", "Chicken wings as he comes back.", "movement.elbows-out"),
    ("movement", "Rear tracks beside the front.", "movement.crabbing"),
    ("movement", "Shock goes up the shoulder, a jackhammer.", "movement.pounding"),
    ("movement", "Front wheel drive only.", "movement.weak-drive"),
    ("movement", "Covers little ground.", "movement.short-reach"),
    ("movement", "Dawdles along.", "movement.sluggish"),
    ("movement", "The backline jiggles.", "movement.topline-bouncing"),
)


@pytest.mark.parametrize(("region", "note", "fault"), _SAID)
def test_the_trades_words_name_their_fault(
    read: Callable[[str, str | None], Reading], region: str, note: str, fault: str
) -> None:
    assert {f.id for f in read(note, region).faults if f.status == "present"} == {fault}


@pytest.mark.parametrize(
    ("region", "note"),
    [
        ("coat-skin", "I part the hair down to the skin, all in order."),
        ("coat-skin", "Ears well fringed."),
        ("colour", "One of the permitted colours."),
        ("movement", "No hitch in her stride."),
        ("movement", "Comes on true and leaves true."),
        ("reproductive", "Both down, a matched pair."),
    ],
)
def test_their_words_in_praise_are_no_fault(
    read: Callable[[str, str | None], Reading], region: str, note: str
) -> None:
    assert not [f for f in read(note, region).faults if f.status == "present"]
