-- Evidence. `id` is the place of a row in the one chain over all these tables; `seen_on` the day it happened,
-- `recorded_at` the moment it was written down (UTC), `done_by` who did it. No column has a default: what is sealed is
-- what was given. `name`, `note`, `basis`, `helper` and `photo` hold salted hashes of what lies in private_text and photo.

-- A pack that came into force. `changes`: what it changed, as JSON.
CREATE TABLE publication (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  pack TEXT NOT NULL REFERENCES pack (hash),
  title TEXT NOT NULL,
  changes TEXT NOT NULL CHECK (json_valid(changes)),
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- A variant put in front of somebody to practise, written before it is shown.
CREATE TABLE draw (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  person INTEGER NOT NULL REFERENCES person (number),
  skill TEXT NOT NULL,
  question TEXT NOT NULL,
  question_hash TEXT NOT NULL,
  pack TEXT NOT NULL REFERENCES pack (hash),
  variant INTEGER NOT NULL,
  ordering TEXT NOT NULL CHECK (json_valid(ordering)),
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- An answer in practice. Marks are exact numbers as text.
CREATE TABLE practice (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  draw INTEGER REFERENCES draw (id),
  person INTEGER NOT NULL REFERENCES person (number),
  skill TEXT NOT NULL,
  question TEXT NOT NULL,
  question_hash TEXT NOT NULL,
  pack TEXT NOT NULL REFERENCES pack (hash),
  variant INTEGER NOT NULL,
  ordering TEXT NOT NULL CHECK (json_valid(ordering)),
  typed TEXT NOT NULL CHECK (json_valid(typed)),
  givens TEXT NOT NULL CHECK (json_valid(givens)),
  verdict TEXT NOT NULL CHECK (json_valid(verdict)),
  marks TEXT NOT NULL,
  out_of TEXT NOT NULL,
  marking TEXT NOT NULL,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- A check as drawn. `person` is nothing on paper that nobody has filled in yet; `helper` and `note` are kept apart.
CREATE TABLE form (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  person INTEGER REFERENCES person (number),
  skill TEXT NOT NULL,
  kind TEXT NOT NULL CHECK (kind IN ('full', 'renewal', 'difference')),
  pack TEXT NOT NULL REFERENCES pack (hash),
  language TEXT NOT NULL,
  help TEXT,
  helper TEXT,
  site TEXT NOT NULL,
  zone TEXT NOT NULL,
  closes_at TEXT,
  paper INTEGER NOT NULL CHECK (paper IN (0, 1)),
  note TEXT,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- A question of a form, with its variant and the order of its options.
CREATE TABLE form_item (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  form INTEGER NOT NULL REFERENCES form (id),
  item INTEGER NOT NULL,
  question TEXT NOT NULL,
  question_hash TEXT NOT NULL,
  variant INTEGER NOT NULL,
  ordering TEXT NOT NULL CHECK (json_valid(ordering)),
  critical INTEGER NOT NULL CHECK (critical IN (0, 1)),
  seal TEXT NOT NULL CHECK (length(seal) = 64),
  UNIQUE (form, item)
) STRICT;

-- An answer in a check; the latest of an item counts.
CREATE TABLE answer (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  form INTEGER NOT NULL REFERENCES form (id),
  item INTEGER NOT NULL,
  typed TEXT NOT NULL CHECK (json_valid(typed)),
  givens TEXT NOT NULL CHECK (json_valid(givens)),
  verdict TEXT NOT NULL CHECK (json_valid(verdict)),
  marks TEXT NOT NULL,
  out_of TEXT NOT NULL,
  marking TEXT NOT NULL,
  unread INTEGER NOT NULL CHECK (unread IN (0, 1)),
  pack TEXT NOT NULL REFERENCES pack (hash),
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- A check handed in, once. `terms`: what the scheme said then, as JSON.
CREATE TABLE result (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  form INTEGER NOT NULL REFERENCES form (id),
  person INTEGER NOT NULL REFERENCES person (number),
  skill TEXT NOT NULL,
  kind TEXT NOT NULL CHECK (kind IN ('full', 'renewal', 'difference')),
  passed INTEGER NOT NULL CHECK (passed IN (0, 1)),
  critical_missed INTEGER NOT NULL CHECK (critical_missed IN (0, 1)),
  marks TEXT NOT NULL,
  out_of TEXT NOT NULL,
  pass_mark TEXT NOT NULL,
  by_itself INTEGER NOT NULL CHECK (by_itself IN (0, 1)),
  valid_until TEXT CHECK (valid_until IS date(valid_until, '+0 days')),
  terms TEXT NOT NULL CHECK (json_valid(terms)),
  seal TEXT NOT NULL CHECK (length(seal) = 64),
  UNIQUE (form)
) STRICT;

-- A talk about what was practised after failed checks.
CREATE TABLE talk (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  person INTEGER NOT NULL REFERENCES person (number),
  skill TEXT NOT NULL,
  form INTEGER REFERENCES form (id),
  note TEXT NOT NULL,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- A wait lifted by a trainer, with a reason.
CREATE TABLE lift (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  person INTEGER NOT NULL REFERENCES person (number),
  skill TEXT NOT NULL,
  form INTEGER REFERENCES form (id),
  note TEXT NOT NULL,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- The right to sign sheets of a skill. `basis` is kept apart.
CREATE TABLE entitlement (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  person INTEGER NOT NULL REFERENCES person (number),
  skill TEXT NOT NULL,
  starts TEXT NOT NULL CHECK (starts IS date(starts, '+0 days')),
  until TEXT CHECK (until IS date(until, '+0 days')),
  founding INTEGER NOT NULL CHECK (founding IN (0, 1)),
  basis TEXT,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- The end of such a right.
CREATE TABLE entitlement_end (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  entitlement INTEGER NOT NULL REFERENCES entitlement (id),
  person INTEGER NOT NULL REFERENCES person (number),
  note TEXT NOT NULL,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- A sheet of observed steps and measured values; refused ones too.
CREATE TABLE sheet (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  person INTEGER NOT NULL REFERENCES person (number),
  skill TEXT NOT NULL,
  outcome TEXT NOT NULL CHECK (outcome IN ('signed', 'refused', 'observed')),
  material TEXT NOT NULL,
  family TEXT NOT NULL,
  ratio TEXT NOT NULL,
  pack TEXT NOT NULL REFERENCES pack (hash),
  seen TEXT NOT NULL CHECK (json_valid(seen)),
  measures TEXT NOT NULL CHECK (json_valid(measures)),
  judged TEXT NOT NULL CHECK (json_valid(judged)),
  instrument TEXT NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  observer INTEGER REFERENCES person (number),
  entitlement INTEGER REFERENCES entitlement (id),
  founding INTEGER NOT NULL CHECK (founding IN (0, 1)),
  ticket TEXT,
  valid_until TEXT CHECK (valid_until IS date(valid_until, '+0 days')),
  terms TEXT NOT NULL CHECK (json_valid(terms)),
  note TEXT,
  photo TEXT,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- A trainer signs a sheet that somebody else observed.
CREATE TABLE signature (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  sheet INTEGER NOT NULL REFERENCES sheet (id),
  person INTEGER NOT NULL REFERENCES person (number),
  entitlement INTEGER REFERENCES entitlement (id),
  founding INTEGER NOT NULL CHECK (founding IN (0, 1)),
  valid_until TEXT CHECK (valid_until IS date(valid_until, '+0 days')),
  terms TEXT NOT NULL CHECK (json_valid(terms)),
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- A clearance taken away, with a reason.
CREATE TABLE withdrawal (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  person INTEGER NOT NULL REFERENCES person (number),
  skill TEXT NOT NULL,
  note TEXT NOT NULL,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- The end of a withdrawal. `restores`: earlier evidence counts again.
CREATE TABLE withdrawal_end (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  withdrawal INTEGER NOT NULL REFERENCES withdrawal (id),
  person INTEGER NOT NULL REFERENCES person (number),
  restores INTEGER NOT NULL CHECK (restores IN (0, 1)),
  note TEXT NOT NULL,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- A dated paper from elsewhere. No medical detail.
CREATE TABLE outside_proof (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  person INTEGER NOT NULL REFERENCES person (number),
  kind TEXT NOT NULL,
  until TEXT CHECK (until IS date(until, '+0 days')),
  detail TEXT,
  paper_seen_by INTEGER NOT NULL REFERENCES person (number),
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- An appeal against a check or a sheet.
CREATE TABLE appeal (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  person INTEGER NOT NULL REFERENCES person (number),
  form INTEGER REFERENCES form (id),
  sheet INTEGER REFERENCES sheet (id),
  note TEXT NOT NULL,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- The answer to an appeal.
CREATE TABLE appeal_answer (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  appeal INTEGER NOT NULL REFERENCES appeal (id),
  person INTEGER NOT NULL REFERENCES person (number),
  upheld INTEGER NOT NULL CHECK (upheld IN (0, 1)),
  note TEXT NOT NULL,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- A check worked out again. `signed`: a trainer stands for a result that it lowers.
CREATE TABLE remark (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  result INTEGER NOT NULL REFERENCES result (id),
  form INTEGER NOT NULL REFERENCES form (id),
  person INTEGER NOT NULL REFERENCES person (number),
  item INTEGER NOT NULL,
  question TEXT NOT NULL,
  old_pack TEXT NOT NULL REFERENCES pack (hash),
  new_pack TEXT NOT NULL REFERENCES pack (hash),
  old_marks TEXT NOT NULL,
  new_marks TEXT NOT NULL,
  passed INTEGER NOT NULL CHECK (passed IN (0, 1)),
  critical_missed INTEGER NOT NULL CHECK (critical_missed IN (0, 1)),
  signed INTEGER NOT NULL CHECK (signed IN (0, 1)),
  note TEXT,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- A row that was wrong, withdrawn with a reason.
CREATE TABLE strike (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  of_table TEXT NOT NULL,
  of_row INTEGER NOT NULL,
  person INTEGER REFERENCES person (number),
  note TEXT NOT NULL,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- A certificate for a set of skills, with the seal that it prints.
CREATE TABLE certificate (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  person INTEGER NOT NULL REFERENCES person (number),
  set_id TEXT NOT NULL,
  skills TEXT NOT NULL CHECK (json_valid(skills)),
  valid_until TEXT NOT NULL CHECK (valid_until IS date(valid_until, '+0 days')),
  head TEXT NOT NULL,
  pack TEXT NOT NULL REFERENCES pack (hash),
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- A certificate withdrawn.
CREATE TABLE certificate_end (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  certificate INTEGER NOT NULL REFERENCES certificate (id),
  person INTEGER NOT NULL REFERENCES person (number),
  note TEXT NOT NULL,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- A bonding job as on its ticket. `billed`: money as exact text.
CREATE TABLE job (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  ticket TEXT NOT NULL,
  kind TEXT NOT NULL,
  person INTEGER NOT NULL REFERENCES person (number),
  beside INTEGER REFERENCES person (number),
  site TEXT NOT NULL,
  done_on TEXT NOT NULL CHECK (done_on IS date(done_on, '+0 days')),
  billed TEXT NOT NULL,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- A material used on a job: its lots, the amount used and billed as exact text.
CREATE TABLE job_use (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  job INTEGER NOT NULL REFERENCES job (id),
  material TEXT NOT NULL,
  lot_a TEXT NOT NULL,
  lot_b TEXT NOT NULL,
  used TEXT NOT NULL,
  nozzles INTEGER NOT NULL,
  billed TEXT NOT NULL,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- Stock counted, received or scrapped.
CREATE TABLE stock (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  what TEXT NOT NULL CHECK (what IN ('counted', 'received', 'scrapped')),
  material TEXT NOT NULL,
  site TEXT NOT NULL,
  amount TEXT NOT NULL,
  lot TEXT,
  person INTEGER REFERENCES person (number),
  note TEXT,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- The figures of a month as they were saved.
CREATE TABLE month (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  month TEXT NOT NULL,
  site TEXT NOT NULL,
  figures TEXT NOT NULL CHECK (json_valid(figures)),
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- A row of the shelf that a publication made new or changed.
CREATE TABLE product_change (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  publication INTEGER NOT NULL REFERENCES publication (id),
  material TEXT NOT NULL,
  old_row TEXT NOT NULL CHECK (json_valid(old_row)),
  new_row TEXT NOT NULL CHECK (json_valid(new_row)),
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- How large such a change is, and by when a difference check is due.
CREATE TABLE product_mark (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  product_change INTEGER NOT NULL REFERENCES product_change (id),
  size TEXT NOT NULL CHECK (size IN ('small', 'large')),
  until TEXT CHECK (until IS date(until, '+0 days')),
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- A PIN or passphrase set anew: whose, by what way, why. Never a hash of it.
CREATE TABLE pin_reset (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  person INTEGER NOT NULL REFERENCES person (number),
  way TEXT NOT NULL,
  note TEXT,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;

-- An administrative deed: somebody joined, moved, was renamed, left; a setting changed.
CREATE TABLE admin (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  seen_on TEXT NOT NULL CHECK (seen_on IS date(seen_on, '+0 days')),
  recorded_at TEXT NOT NULL,
  done_by INTEGER REFERENCES person (number),
  deed TEXT NOT NULL,
  person INTEGER REFERENCES person (number),
  name TEXT,
  role TEXT,
  site TEXT,
  detail TEXT,
  seal TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;
