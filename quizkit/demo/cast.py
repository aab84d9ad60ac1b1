"""Who works in the invented shop, and what each of them did when. All of it is made up; days count back from today."""

from __future__ import annotations

from dataclasses import dataclass, field

MANAGER = "Ines Varga"
FIRST_TRAINER = "Tomas Brandt"
SECOND_TRAINER = "Odile Marsh"
FOUNDED = 395
"""Days ago that the shop began."""
NEW_MASKS = 58
"""Days ago that most were fitted again, with new masks."""
MATERIAL = "Keel adhesive"
BONDING = ("ratio-pairing", "applicator-pressure", "balancing", "bead-volume")
OFFICE = ("storage", "billing")


@dataclass(frozen=True, slots=True)
class Course:
    """What somebody did in one module.

    Lessons and practice on `day`, the check the day after ("passed", "failed", "open" or "" for none), the sheet on
    the day `sheet` by the trainer `by`; `refused` is a day before it on which the sheet was refused.
    """

    skill: str
    day: int
    check: str = "passed"
    sheet: int | None = None
    by: str = FIRST_TRAINER
    practice: int = 8
    lessons: bool = True
    material: str = MATERIAL
    refused: int | None = None


@dataclass(frozen=True, slots=True)
class Member:
    """Somebody of the shop. `hit` is how often practice goes right; `proofs` are (kind, day seen, days it holds)."""

    name: str
    role: str
    site: str
    secret: str
    joined: int
    hit: float = 0.8
    proofs: tuple[tuple[str, int, int | None], ...] = ()
    courses: tuple[Course, ...] = field(default=())


def _cleared(skill: str, day: int, by: str = FIRST_TRAINER, practice: int = 8, material: str = MATERIAL) -> Course:
    return Course(skill, day, "passed", day - 3, by, practice, material=material)


def _renewed(skill: str, day: int, by: str = FIRST_TRAINER) -> Course:
    return Course(skill, day, "passed", day - 2, by, practice=5, lessons=False)


CAST = (
    Member(MANAGER, "manager", "north", "one shelf two bays", FOUNDED),
    Member(FIRST_TRAINER, "trainer", "north", "square rods first", FOUNDED),
    Member(
        SECOND_TRAINER,
        "trainer",
        "south",
        "level before nozzle",
        FOUNDED,
        0.95,
        (("medical-clearance", 393, 800), ("fit-test", 393, None), ("fit-test", 40, None)),
        (
            _cleared("ppe", 392, practice=4),
            _cleared("ratio-pairing", 386, practice=4),
            _cleared("applicator-pressure", 381, practice=4),
            _cleared("balancing", 376, practice=4),
            _cleared("bead-volume", 371, practice=4),
            _renewed("ppe", 47),
            _renewed("balancing", 38),
        ),
    ),
    Member(
        "Ruth Adeyo",
        "technician",
        "north",
        "4831",
        200,
        0.93,
        (("medical-clearance", 199, 730), ("fit-test", 199, None), ("fit-test", NEW_MASKS, None)),
        (
            _cleared("ppe", 198),
            _cleared("ratio-pairing", 190),
            _cleared("applicator-pressure", 182),
            _cleared("balancing", 174),
            _cleared("bead-volume", 166),
            _cleared("storage", 152, SECOND_TRAINER),
            _cleared("billing", 143, SECOND_TRAINER),
            Course("bead-volume", 24, "", practice=4, lessons=False),
        ),
    ),
    Member(
        "Jonas Pell",
        "technician",
        "north",
        "2076",
        332,
        0.85,
        (("medical-clearance", 331, 730), ("fit-test", 331, None)),
        (
            _cleared("ppe", 328),
            _cleared("ratio-pairing", 312),
            _cleared("bead-volume", 293),
            _cleared("applicator-pressure", 281),
            _cleared("balancing", 272),
            Course("ppe", 12, "", practice=5, lessons=False),
        ),
    ),
    Member(
        "Amira Holt",
        "technician",
        "south",
        "7719",
        392,
        0.8,
        (("medical-clearance", 391, 800), ("fit-test", 391, None), ("fit-test", 33, None)),
        (
            _cleared("ppe", 389),
            _cleared("ratio-pairing", 371),
            _cleared("storage", 352, SECOND_TRAINER),
            Course("billing", 66, "failed", practice=6),
        ),
    ),
    Member(
        "Caleb Strand",
        "technician",
        "south",
        "5094",
        242,
        0.88,
        (("medical-clearance", 241, 730), ("fit-test", 241, None), ("fit-test", NEW_MASKS, None)),
        (
            _cleared("ppe", 238, SECOND_TRAINER),
            _cleared("ratio-pairing", 231, SECOND_TRAINER, material="Garth sealer"),
            _cleared("applicator-pressure", 222, SECOND_TRAINER),
            _cleared("balancing", 215, SECOND_TRAINER),
            Course("bead-volume", 203, "passed", 195, SECOND_TRAINER, refused=200),
            _cleared("storage", 184, SECOND_TRAINER),
        ),
    ),
    Member(
        "Lena Fisk",
        "apprentice",
        "north",
        "3358",
        112,
        0.82,
        (("medical-clearance", 111, 730), ("fit-test", 110, None), ("fit-test", NEW_MASKS, None)),
        (
            _cleared("ppe", 106),
            _cleared("applicator-pressure", 62),
            Course("ratio-pairing", 12, "", practice=8),
            Course("ratio-pairing", 3, "passed", None, practice=6, lessons=False),
        ),
    ),
    Member(
        "Marco Teel",
        "apprentice",
        "north",
        "6142",
        92,
        0.65,
        (
            ("medical-clearance", 91, 730),
            ("fit-test", 90, None),
            ("fit-test", NEW_MASKS, None),
        ),
        (
            Course("ppe", 88, "failed", practice=6),
            Course("ppe", 84, "passed", 81, practice=8, lessons=False),
            _cleared("billing", 44, SECOND_TRAINER),
            Course("ratio-pairing", 15, "failed", practice=5),
            Course("ratio-pairing", 8, "failed", practice=5, lessons=False),
            Course("bead-volume", 5, "", practice=6),
        ),
    ),
    Member(
        "Sunniva Dale",
        "apprentice",
        "south",
        "8803",
        30,
        0.75,
        (("medical-clearance", 29, 730), ("fit-test", 28, None)),
        (
            Course("ppe", 22, "", practice=6),
            Course("ppe", 9, "", practice=8, lessons=False),
            Course("ppe", 2, "open", practice=4, lessons=False),
        ),
    ),
    Member(
        "Owen Birk",
        "apprentice",
        "south",
        "1947",
        6,
        0.6,
        (),
        (Course("ppe", 4, "", practice=4),),
    ),
)
"""A manager, two trainers, eight apprentices and technicians: somebody for every standing."""
