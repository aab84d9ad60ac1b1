-- A shop file after step 0001. Its head: 0000000000000000000000000000000000000000000000000000000000000000
PRAGMA application_id = 1366649210;
BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'records','0001','2026-11-25 15:45:49.550790+00:00');
CREATE TABLE draft (
  person INTEGER NOT NULL REFERENCES person (number),
  what TEXT NOT NULL,
  body TEXT NOT NULL CHECK (json_valid(body)),
  saved_at TEXT NOT NULL,
  PRIMARY KEY (person, what)
) STRICT;
CREATE TABLE pack (
  hash TEXT PRIMARY KEY CHECK (length(hash) = 64),
  body BLOB NOT NULL
) STRICT;
INSERT INTO "pack" VALUES('852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c',X'7B227061636B223A307D');
CREATE TABLE person (
  number INTEGER PRIMARY KEY,
  name TEXT,                                      -- nothing once the person has left; its salted hash is evidence
  role TEXT NOT NULL,
  site TEXT NOT NULL,
  language TEXT NOT NULL,
  secret TEXT,                                    -- slow hash of a PIN or passphrase, never evidence
  left_on TEXT
) STRICT;
CREATE TABLE photo (
  key TEXT PRIMARY KEY CHECK (length(key) = 64),  -- HMAC-SHA-256 of the picture under its salt
  person INTEGER REFERENCES person (number),
  salt BLOB NOT NULL CHECK (length(salt) = 32),
  mime TEXT NOT NULL,
  body BLOB NOT NULL
) STRICT;
CREATE TABLE private_text (
  key TEXT PRIMARY KEY CHECK (length(key) = 64),  -- HMAC-SHA-256 of the text under its salt
  person INTEGER REFERENCES person (number),      -- with whom it goes; nothing where it is about nobody
  salt BLOB NOT NULL CHECK (length(salt) = 32),
  body TEXT NOT NULL
) STRICT;
CREATE TABLE reading (
  person INTEGER NOT NULL REFERENCES person (number),
  module TEXT NOT NULL,
  lesson TEXT NOT NULL,
  read_at TEXT NOT NULL,
  PRIMARY KEY (person, module, lesson)
) STRICT;
CREATE TABLE session (
  token TEXT PRIMARY KEY,                         -- hash of the token in the cookie
  person INTEGER NOT NULL REFERENCES person (number),
  started_at TEXT NOT NULL,
  touched_at TEXT NOT NULL,
  address TEXT NOT NULL
) STRICT;
CREATE TABLE sign_in_try (
  number INTEGER PRIMARY KEY,
  person INTEGER NOT NULL,                        -- a number that was tried, whether or not somebody has it
  address TEXT NOT NULL,
  tried_at TEXT NOT NULL,
  was_right INTEGER NOT NULL CHECK (was_right IN (0, 1))
) STRICT;
CREATE TABLE tip (
  one INTEGER PRIMARY KEY CHECK (one = 1),
  position INTEGER NOT NULL,                      -- number of the last row of evidence
  seal TEXT NOT NULL,
  recorded_at TEXT NOT NULL
) STRICT;
INSERT INTO "tip" VALUES(1,0,'0000000000000000000000000000000000000000000000000000000000000000','');
CREATE UNIQUE INDEX "idx__sqlite_migrations_migration_set_name"
    ON "_sqlite_migrations" ("migration_set", "name");
CREATE TRIGGER person_kept BEFORE DELETE ON person
BEGIN SELECT RAISE(ABORT, 'a person is erased, never deleted'); END;
CREATE TRIGGER person_numbered BEFORE UPDATE OF number ON person
BEGIN SELECT RAISE(ABORT, 'a number stays with its person'); END;
CREATE INDEX private_text_person ON private_text (person);
CREATE INDEX photo_person ON photo (person);
CREATE INDEX session_person ON session (person);
CREATE INDEX sign_in_try_person ON sign_in_try (person, tried_at);
CREATE INDEX sign_in_try_address ON sign_in_try (address, tried_at);
CREATE TRIGGER pack_stays BEFORE UPDATE ON pack BEGIN SELECT RAISE(ABORT, 'pack is never changed'); END;
CREATE TRIGGER pack_kept BEFORE DELETE ON pack BEGIN SELECT RAISE(ABORT, 'pack is never deleted'); END;
CREATE TRIGGER pack_once BEFORE INSERT ON pack WHEN EXISTS (SELECT 1 FROM pack WHERE (hash = NEW.hash)) BEGIN SELECT RAISE(ABORT, 'pack is never replaced'); END;
COMMIT;
