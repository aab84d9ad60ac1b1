"""The records of a shop: one SQLite file of sealed, insert-only evidence, and beside it what may be erased.

Plain values in and out. Nothing here knows what a deed means: the shop decides what is written, this room
sees that it stays.
"""

from quizkit.records.backup import Copied, backup, restore
from quizkit.records.chain import Broken
from quizkit.records.clock import moment_of, moment_text
from quizkit.records.errors import (
    Busy,
    ClockSetBack,
    Damaged,
    Full,
    KeyTrouble,
    NoSuchFile,
    NotRecords,
    ReadOnly,
    RecordsError,
    RowRefused,
    TooNew,
)
from quizkit.records.heads import (
    SignedHead,
    daily_head,
    export_key,
    heads_path,
    key_path,
    load_key,
    make_key,
    public_text,
    read_heads,
    sign_head,
)
from quizkit.records.opening import open_records
from quizkit.records.packs import load_pack, store_pack
from quizkit.records.people import (
    add_person,
    drop_stale,
    erase_person,
    forget,
    move_person,
    rename_person,
    set_language,
    set_secret,
)
from quizkit.records.private import keep_photo, keep_text, photo_of, text_of
from quizkit.records.seal import Head
from quizkit.records.secret import form_secret, secret_path
from quizkit.records.store import Records, Row
from quizkit.records.verify import Verified, verify_file

__all__ = [
    "Broken",
    "Busy",
    "ClockSetBack",
    "Copied",
    "Damaged",
    "Full",
    "Head",
    "KeyTrouble",
    "NoSuchFile",
    "NotRecords",
    "ReadOnly",
    "Records",
    "RecordsError",
    "Row",
    "RowRefused",
    "SignedHead",
    "TooNew",
    "Verified",
    "add_person",
    "backup",
    "daily_head",
    "drop_stale",
    "erase_person",
    "export_key",
    "forget",
    "form_secret",
    "heads_path",
    "keep_photo",
    "keep_text",
    "key_path",
    "load_key",
    "load_pack",
    "make_key",
    "moment_of",
    "moment_text",
    "move_person",
    "open_records",
    "photo_of",
    "public_text",
    "read_heads",
    "rename_person",
    "restore",
    "secret_path",
    "set_language",
    "set_secret",
    "sign_head",
    "store_pack",
    "text_of",
    "verify_file",
]
