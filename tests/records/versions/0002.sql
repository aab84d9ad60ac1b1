-- A shop file after step 0002. Its head: da3e5df42cbf93c7d89140870797072a17a15b51f0007fe5df4f7c5c0cc80ab4
PRAGMA application_id = 1366649210;
BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'records','0001','2026-11-25 15:45:49.614191+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'records','0002','2026-11-25 15:45:49.622507+00:00');
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
INSERT INTO "admin" VALUES(1,'2026-11-25','2026-11-25T08:00:00.000000Z',NULL,'joined',1,'1a43707a42a7ea4e613e93cbdc8c80265680e26730ea5e1b443d5da373f51d46','manager','north',NULL,'92dae5e912b2ab8c8ec9deb07851f7fdf33916cddba32b594edaca6269b8f27d');
INSERT INTO "admin" VALUES(31,'2026-11-25','2026-11-25T08:00:00.000000Z',1,'setting',1,'8a1b6d8dfb23cdb0965b2bc0c6b6d7a0ec2b57feaef285e0fb2fefff5f392886','manager','north','zone','40cd46dc741f75dd21977641a75aabb0889d6c08bc5c5999cde4333b87019398');
INSERT INTO "admin" VALUES(32,'2026-11-25','2026-11-25T08:00:00.000000Z',1,'renamed',1,'f1786b4c0517b79c1949ff10007e3715fa18e89d64477ec7fb08d4f9d27608dc',NULL,NULL,NULL,'b4abb422efded222b59252f68ee40526179e90106f9ae595dc67a7536c121e65');
INSERT INTO "admin" VALUES(33,'2026-11-25','2026-11-25T08:01:00.000000Z',NULL,'joined',2,'a5d6435420223c68aa6f91cc1982448ec3967ca88c605ffed937880b3da2ec55','manager','north',NULL,'4105e0d23df71567905e85c50a599b65c470ae6ad11d41de5f63bd177c2453f8');
INSERT INTO "admin" VALUES(63,'2026-11-25','2026-11-25T08:01:00.000000Z',2,'setting',2,'409119b7b0df91cab3eb7519f03ae79f812d88e3d29d977b1f5737282be9a175','manager','north','zone','9cf73bc9ec041e30a0855e735099003e4bd09c24baa34e6deed2e4f4b0eb9c67');
INSERT INTO "admin" VALUES(64,'2026-11-25','2026-11-25T08:01:00.000000Z',2,'renamed',2,'97176c596a9c326ec6497e97879e0d59c63e57fbb629b6d8c772406b2de0c690',NULL,NULL,NULL,'da3e5df42cbf93c7d89140870797072a17a15b51f0007fe5df4f7c5c0cc80ab4');
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
INSERT INTO "answer" VALUES(7,'2026-11-25','2026-11-25T08:00:00.000000Z',1,5,1,'{"answer":"2½ turns"}','{"total":"180"}','{"answer":"right"}','1/2','1','1',0,'852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c','e022d3dc6f489af48bf8b3d4e23a64d521fcf1a1f9dad316f5c2b27366a5051f');
INSERT INTO "answer" VALUES(39,'2026-11-25','2026-11-25T08:01:00.000000Z',2,37,1,'{"answer":"2½ turns"}','{"total":"180"}','{"answer":"right"}','1/2','1','1',0,'bb8697858b7229392460122b46ef53bec7178fc9c04110fa11a6b0936f5260d5','887ab3df5a616a0bf7ef419bac3fd92b92d0a53a7d8527a242a6714ae9ef04d9');
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
INSERT INTO "appeal" VALUES(18,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,5,12,'f9d8d2861c0e774159dff3970a70d628f8bd78bc59e5dbf9de72a6ae7ddc3e4d','8e86273d6ae4c6e84c516725878113519f29422eb7dd0a55e8163bd0f9464576');
INSERT INTO "appeal" VALUES(50,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,37,44,'72bc1782de293e0f0932454f5eb41fbd8492ef47b5d49f22ecf75827d0513a88','39390c4c6812acce2d2171d04f320ff7ded07a626c922bb28dbde4c46932c200');
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
INSERT INTO "appeal_answer" VALUES(19,'2026-11-25','2026-11-25T08:00:00.000000Z',1,18,1,1,'c72c2886f76d20e7ea4031696d65dfce68870b35f33e8310f83c1f77335226bd','2948c25faba07ac1121c8cc29739dbbd16c5f72593f513292dd0509077813dac');
INSERT INTO "appeal_answer" VALUES(51,'2026-11-25','2026-11-25T08:01:00.000000Z',2,50,2,1,'ef77334892bd83814967ebf10a29d9769b64eb1b438838f3aa724f7e45b132e2','0e6eacac9a69c1347fb5529bf9418d9ef80f4985d8a24ddae289f9ada2c0f642');
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
INSERT INTO "certificate" VALUES(22,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'bonder','["beads"]','2027-11-25','cdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcd','852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c','37e4859bfbf2aebd75442dc37ea5d51a4b17ad356e4ad906894d9b6af8cd37e2');
INSERT INTO "certificate" VALUES(54,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'bonder','["beads"]','2027-11-25','cdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcd','bb8697858b7229392460122b46ef53bec7178fc9c04110fa11a6b0936f5260d5','cdc4d575392cbee6cf19df20ce8824c50b5699adae0db7dccfa5491bb1a72ad8');
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
INSERT INTO "certificate_end" VALUES(23,'2026-11-25','2026-11-25T08:00:00.000000Z',1,22,1,'1b0f4d5ceafcd19b6ced8d7706f6925253083a31b4ab9f2909c9683ce77b72c9','c204488aaf01f4415845e1538a4698b478efcdacb6a30cc1970e91d6b6d538ab');
INSERT INTO "certificate_end" VALUES(55,'2026-11-25','2026-11-25T08:01:00.000000Z',2,54,2,'079296b158b4a669527e33f93a14edd3ceef959b2ebf33764f81e49c4fd491b3','41282feedee3ebef6c2e0588e51ceae9016abd9b299555e781ba7805267bf5b7');
CREATE TABLE draft (
  person INTEGER NOT NULL REFERENCES person (number),
  what TEXT NOT NULL,
  body TEXT NOT NULL CHECK (json_valid(body)),
  saved_at TEXT NOT NULL,
  PRIMARY KEY (person, what)
) STRICT;
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
INSERT INTO "draw" VALUES(3,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'beads','beads/share','abababababababababababababababababababababababababababababababab','852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c',3,'[2,1]','9394cc3a9cfcdcbeaaf0679a19bfa8baab919af7990ab45b68f7f822454737ca');
INSERT INTO "draw" VALUES(35,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'beads','beads/share','abababababababababababababababababababababababababababababababab','bb8697858b7229392460122b46ef53bec7178fc9c04110fa11a6b0936f5260d5',3,'[2,1]','c381b8b13f7476c604476febc588c2b87d576f7d977c322caee0bb176e4f4df8');
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
INSERT INTO "entitlement" VALUES(11,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'beads','2026-11-25','2028-01-01',1,'d9f2e606a1e900cd63aefb97cf4e9b5fdc30d73d7ce69b90c6265466a1360ef1','1798e8422f97bb14845e67bbeba20305acd386a62cbd1b7beaac704bb045bd69');
INSERT INTO "entitlement" VALUES(43,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'beads','2026-11-25','2028-01-01',1,'8a8012bb576fd42390967077cdde9a9b44f255f3ff4e43ab44d49d63702e6d92','b09e15b75f3d741a1291a264b5f9ac465e0265b259641eb5004ec01ffdea425d');
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
INSERT INTO "entitlement_end" VALUES(14,'2026-11-25','2026-11-25T08:00:00.000000Z',1,11,1,'f880083421da6314f08c7652db746581b9024591f8673149b3b7da86b7183ace','b2fe6b1d7d43f7d5711440417d83448de0a8b8f671014513d19431cc3b528eff');
INSERT INTO "entitlement_end" VALUES(46,'2026-11-25','2026-11-25T08:01:00.000000Z',2,43,2,'1debe072a051f820e3b0f5785e1d11851f5ad1a2b788b833c737ecd6ad5490e1','d27d4a814b57b2949b51d241a56a33c5780608695ce3fe921bf63c00dcf2e837');
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
INSERT INTO "form" VALUES(5,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'beads','full','852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c','en','read aloud','abfaf22ccfe1bbd7f5dfd00b950ce7f7ca4c1e8bb44dc6423bc75c932584adce','north','Europe/Dublin','2026-11-25T12:00:00.000000Z',0,'999f0b43014672f94b54ce02b47b8f58140df7a9153bb0dd8499c0a334b26262','a9466c5a2cfad9dec48d4e9a64db213ddce66d5f28eed1356b84ca8ead6d81aa');
INSERT INTO "form" VALUES(37,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'beads','full','bb8697858b7229392460122b46ef53bec7178fc9c04110fa11a6b0936f5260d5','en','read aloud','9469c817719a42fbca1f8691f20a98943cee8b5a778325aeeb25c61c8613c8d7','north','Europe/Dublin','2026-11-25T12:01:00.000000Z',0,'97381547210e43e72254d1cc79ed269f253431066472925356b4be344cd8eb23','592ddf8cf5175dfc836870296569eaf12143baa08a989b8adeea02a4ddb2e731');
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
INSERT INTO "form_item" VALUES(6,'2026-11-25','2026-11-25T08:00:00.000000Z',1,5,1,'beads/share','abababababababababababababababababababababababababababababababab',3,'[2,1]',1,'3e8de05be39af9ef6ac45081862c6711005b7ac94e84689b51e318444793195d');
INSERT INTO "form_item" VALUES(38,'2026-11-25','2026-11-25T08:01:00.000000Z',2,37,1,'beads/share','abababababababababababababababababababababababababababababababab',3,'[2,1]',1,'79e4a2e4bd445b85f6a80efa95dcb0c220ee895b28ece16b444a0dca8aa33f8c');
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
INSERT INTO "job" VALUES(24,'2026-11-25','2026-11-25T08:00:00.000000Z',1,'T-1','panel',1,1,'north','2026-11-25','23.40','5fcc9e1a714097097ea447622e4093b0e9492836ff3678455a81469edf9aa884');
INSERT INTO "job" VALUES(56,'2026-11-25','2026-11-25T08:01:00.000000Z',2,'T-1','panel',2,2,'north','2026-11-25','23.40','e4e83f8be503a227ecaa2b4dbeed9961d040c014d464bfe8e91a3b6517689bc8');
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
INSERT INTO "job_use" VALUES(25,'2026-11-25','2026-11-25T08:00:00.000000Z',1,24,'m1','A1','B1','35',2,'14.50','179d9b265c55041b38cf6519d1b9e9621cbb902d2896c4024553cde3231fab13');
INSERT INTO "job_use" VALUES(57,'2026-11-25','2026-11-25T08:01:00.000000Z',2,56,'m1','A1','B1','35',2,'14.50','50a80101405e3fe874b7e8869307b9012225da84e36ab1b9b76e4194ca82a38c');
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
INSERT INTO "lift" VALUES(10,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'beads',5,'f3f2b2f6b0d2ab00c1c7f8fd4e9fbed396a00e0e959013a1e79e7dcbbc2d3c5b','c898804439fa8a445da8f3a3dff219291f0e89c4040a8e5afe923a1df7122a5d');
INSERT INTO "lift" VALUES(42,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'beads',37,'ade69fc11fced00bd43bda5a428a312298ac1c6a9b366dca3ea998c307222a0c','5642f0d39841e09e1144f30e18d521423cfa7852c2dad06a701d96df6acb2ed5');
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
INSERT INTO "month" VALUES(27,'2026-11-25','2026-11-25T08:00:00.000000Z',1,'2026-10','north','[]','725bd35f614f2bad4f2d6e0bb993e6180434000fbd228e72df1b1f334f79d8db');
INSERT INTO "month" VALUES(59,'2026-11-25','2026-11-25T08:01:00.000000Z',2,'2026-10','north','[]','cc1fb5fabd5f06a46e7f2d9d8ce4ed041ce79189cf469c88eaa280c6daa9ab69');
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
INSERT INTO "outside_proof" VALUES(17,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'fit test','2027-01-01','half mask, M',1,'c3ae6846b859de1c17d8078298ea3718fa2f5fb2ca2563ed75b5167120d4e795');
INSERT INTO "outside_proof" VALUES(49,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'fit test','2027-01-01','half mask, M',2,'f4e81942d3db8760a72db40258f8fbb48a22a697e2f6964b050079b557afbc4f');
CREATE TABLE pack (
  hash TEXT PRIMARY KEY CHECK (length(hash) = 64),
  body BLOB NOT NULL
) STRICT;
INSERT INTO "pack" VALUES('852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c',X'7B227061636B223A307D');
INSERT INTO "pack" VALUES('bb8697858b7229392460122b46ef53bec7178fc9c04110fa11a6b0936f5260d5',X'7B227061636B223A317D');
CREATE TABLE person (
  number INTEGER PRIMARY KEY,
  name TEXT,                                      -- nothing once the person has left; its salted hash is evidence
  role TEXT NOT NULL,
  site TEXT NOT NULL,
  language TEXT NOT NULL,
  secret TEXT,                                    -- slow hash of a PIN or passphrase, never evidence
  left_on TEXT
) STRICT;
INSERT INTO "person" VALUES(1,'Máire 0','manager','north','en','scrypt$',NULL);
INSERT INTO "person" VALUES(2,'Máire 1','manager','north','en','scrypt$',NULL);
CREATE TABLE photo (
  key TEXT PRIMARY KEY CHECK (length(key) = 64),  -- HMAC-SHA-256 of the picture under its salt
  person INTEGER REFERENCES person (number),
  salt BLOB NOT NULL CHECK (length(salt) = 32),
  mime TEXT NOT NULL,
  body BLOB NOT NULL
) STRICT;
INSERT INTO "photo" VALUES('a6ccbba6dba60fc30dfb43b52d40f1b18630aa466d7a210df8bb12e094c2edfc',1,X'DCF9EAE36548C2BF249948197E8594D7F7FE47C00605F7A114708677548E18E5','image/png',X'89504E4730');
INSERT INTO "photo" VALUES('56f44f38342282e644774ebedb3e85c1ad0a0e535b2c3f4f0f233a862202bacd',2,X'156BDF59D64458F745ED35857554DE0F6C3B149698B3236431AF9DCD9B4BFB71','image/png',X'89504E4731');
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
INSERT INTO "pin_reset" VALUES(30,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'person','89552b1e8561fbbcf4f8b298753f7889bc720c3b1080a47a07f2b842b1eabdc6','6fa96b5040aea9c58a512fb72f22a774fa35e866f6cbbef7149dc7370f97e61d');
INSERT INTO "pin_reset" VALUES(62,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'person','54d34b6fae8ce885ac448dab04307f4875959e6e0b8f40208db3b14fd9cc6fd8','b4415a9e9d3dec8f8dff280e5edf67f8d4a7a724b3b2c7a3723b2fc851771b86');
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
INSERT INTO "practice" VALUES(4,'2026-11-25','2026-11-25T08:00:00.000000Z',1,3,1,'beads','beads/share','abababababababababababababababababababababababababababababababab','852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c',3,'[2,1]','{"answer":"2½ turns"}','{"total":"180"}','{"answer":"right"}','1/2','1','1','9f2c3bb12aa006996acdfea7f8317ee0f81457ae005ef6123e26b43d09ceee8f');
INSERT INTO "practice" VALUES(36,'2026-11-25','2026-11-25T08:01:00.000000Z',2,35,2,'beads','beads/share','abababababababababababababababababababababababababababababababab','bb8697858b7229392460122b46ef53bec7178fc9c04110fa11a6b0936f5260d5',3,'[2,1]','{"answer":"2½ turns"}','{"total":"180"}','{"answer":"right"}','1/2','1','1','f491fb3be55fc6cfed20da521a42b83e6640d60d979b22599631f4171cd90ecc');
CREATE TABLE private_text (
  key TEXT PRIMARY KEY CHECK (length(key) = 64),  -- HMAC-SHA-256 of the text under its salt
  person INTEGER REFERENCES person (number),      -- with whom it goes; nothing where it is about nobody
  salt BLOB NOT NULL CHECK (length(salt) = 32),
  body TEXT NOT NULL
) STRICT;
INSERT INTO "private_text" VALUES('1a43707a42a7ea4e613e93cbdc8c80265680e26730ea5e1b443d5da373f51d46',1,X'6C6DBF26196756CC371CAEC89386EFB4916155233A3FBE52CA17CF229158298F','Máire 0');
INSERT INTO "private_text" VALUES('abfaf22ccfe1bbd7f5dfd00b950ce7f7ca4c1e8bb44dc6423bc75c932584adce',1,X'4B4380568A620C48883A30D02FAD69F02B2F7591D3F5BCC7F72DB175FB9CEAF7','Read by Ann 0');
INSERT INTO "private_text" VALUES('999f0b43014672f94b54ce02b47b8f58140df7a9153bb0dd8499c0a334b26262',1,X'1FFCFB124107415317B2AE2EECE15FFA369FB00E0E2E73271EB791D84ED84774','asked for more time 0');
INSERT INTO "private_text" VALUES('d30ec3d04e9a0d7e179adb4b87276822d3f48c3298b504289ee9cf6963c3be1b',1,X'8E790F0E08312C2336C8C12B2360AF0EAE6EE286AEB0F58E91B9E9E415C3743C','practised shares 0');
INSERT INTO "private_text" VALUES('f3f2b2f6b0d2ab00c1c7f8fd4e9fbed396a00e0e959013a1e79e7dcbbc2d3c5b',1,X'9765D9E3F34DA57AB9E655C3B91621C5E6479CAD8BC6F1AA428B7BF3DAE94747','reader was broken 0');
INSERT INTO "private_text" VALUES('d9f2e606a1e900cd63aefb97cf4e9b5fdc30d73d7ce69b90c6265466a1360ef1',1,X'5679246A93EA9EFC25484E2EA5AAE70DCC179A710DC07C916371CD0F51FDD77A','maker''s course 0');
INSERT INTO "private_text" VALUES('e34ed4a179d7bd7c960304ca2c68db5e0640eca48beb3b395ea4022a323c305a',1,X'9AEA21D6E826A033E593266473CF2A78185077D78B335127EDAF5A52B3410CF2','steady hand 0');
INSERT INTO "private_text" VALUES('f880083421da6314f08c7652db746581b9024591f8673149b3b7da86b7183ace',1,X'B5C1B8674DF7D02CD0D0014302BA2BBE4ED24BEA557D1BD3E42F4D9A05952F93','moved 0');
INSERT INTO "private_text" VALUES('10a79c7765a4933e89b1a079315761c14b30ad5bcdd9f17ffb6263715537d23f',1,X'02AE1DC5F591466E825A69679645F6648EBD74FA484BC39876498679CDEF2525','bond failed 0');
INSERT INTO "private_text" VALUES('925acb801f0f8644259dca9d1fe1fa5f07d5aa03f29ebc02a5b69914c6719a4b',1,X'91E3CB9B1EFCB490BEC3EA3FB602A84C1823DC0ECB4885AAE15202B43D48DB70','trained again 0');
INSERT INTO "private_text" VALUES('f9d8d2861c0e774159dff3970a70d628f8bd78bc59e5dbf9de72a6ae7ddc3e4d',1,X'CBA8A654076081118A2D11E6234C1A4246E6E6E38459A03D6DF3FA20AC17923F','the scale was off 0');
INSERT INTO "private_text" VALUES('c72c2886f76d20e7ea4031696d65dfce68870b35f33e8310f83c1f77335226bd',1,X'4A80C228EB96BE344E75605D63AA6FE352FC3EC626DEB8ED4A840F1DE96F5DF3','it was 0');
INSERT INTO "private_text" VALUES('0d6dae16570f118b247bbde332b4af461cc35ff6da6f6fc36a2382e2b77dd151',1,X'F26C70EE773EC68499E864229A66773BB12E57BDF39BD4EF3D1C0B5FC28CA05F','wrong givens 0');
INSERT INTO "private_text" VALUES('f10e6fb1bf177438f87fb967f66f3f1a2f8fba5e9dc87fdda08ccfe6315b2d23',1,X'1AF9658A12606E9DE2CD1338FCFD35E9731F1F9E4C21834B69AC66E223B9E068','wrong person 0');
INSERT INTO "private_text" VALUES('1b0f4d5ceafcd19b6ced8d7706f6925253083a31b4ab9f2909c9683ce77b72c9',1,X'07BCF5ECD699E6FFBEBCED45AB8B9B48E9A5500FEF8033824A0479A216B786BD','in error 0');
INSERT INTO "private_text" VALUES('843d6da6aac8403d8113fd402a04c7479dc217479d722f295089ac23ce326b39',NULL,X'591A87976B1D5B752DF40F1DC82BC29D731C8304C3A59602E5E5400D7BF1E731','back shelf 0');
INSERT INTO "private_text" VALUES('89552b1e8561fbbcf4f8b298753f7889bc720c3b1080a47a07f2b842b1eabdc6',1,X'8C382152437D2FB427789781A7D54FD6BB55F29AEC8A4409B6A00DA15E8E776E','forgotten 0');
INSERT INTO "private_text" VALUES('8a1b6d8dfb23cdb0965b2bc0c6b6d7a0ec2b57feaef285e0fb2fefff5f392886',1,X'38AFD07A20A3E595348DCFC250505CDAF0B3CC43AF9C6F9C1EA63F8F2CF56B57','Máire 0');
INSERT INTO "private_text" VALUES('f1786b4c0517b79c1949ff10007e3715fa18e89d64477ec7fb08d4f9d27608dc',1,X'E0BE76F79440E991CEACD72360AA4A4EC3A24766A117F6536FCD0167AB2A55EE','Máire 0');
INSERT INTO "private_text" VALUES('a5d6435420223c68aa6f91cc1982448ec3967ca88c605ffed937880b3da2ec55',2,X'B9467D897240983F8417D9E1B05B028850064D05E74ED3478996B82B79349852','Máire 1');
INSERT INTO "private_text" VALUES('9469c817719a42fbca1f8691f20a98943cee8b5a778325aeeb25c61c8613c8d7',2,X'95A6F3832F92722F7B238321CCC8BF4363A557B68FDFD18B82375B0B289FF8C9','Read by Ann 1');
INSERT INTO "private_text" VALUES('97381547210e43e72254d1cc79ed269f253431066472925356b4be344cd8eb23',2,X'A1C3986E3FA327A5859FC4E7B16DD92DA1DAEA8D19B27D5C74D3672EDB1914A5','asked for more time 1');
INSERT INTO "private_text" VALUES('b56a767c512ec8d8040c8481f0317186ac6f97d40bf5ccc02e62cd38a36daa12',2,X'E1D3F2FF68A2905D3741BAD48269579787A67C53E9FE106C95BE9C0BC4D48298','practised shares 1');
INSERT INTO "private_text" VALUES('ade69fc11fced00bd43bda5a428a312298ac1c6a9b366dca3ea998c307222a0c',2,X'67B844C7A9698B2149E0BC363501649712066E7AA433B35476F434193A5DD9BB','reader was broken 1');
INSERT INTO "private_text" VALUES('8a8012bb576fd42390967077cdde9a9b44f255f3ff4e43ab44d49d63702e6d92',2,X'5A5C5C58E7367347C45022E7C59B93FD5D8D13CD4326A989A02C78AB7D3E38B2','maker''s course 1');
INSERT INTO "private_text" VALUES('bb87e0d193bdbad15b3a2c0703d39b6ce46eb80c9df51a9057b3fdcf29150d73',2,X'F73C6A44F8998125BF3868FF2A508CF56462F3C08C5256DE27DAF04140F13131','steady hand 1');
INSERT INTO "private_text" VALUES('1debe072a051f820e3b0f5785e1d11851f5ad1a2b788b833c737ecd6ad5490e1',2,X'965E4795732D28A2131F962447F40E1C46B030E77C52DB01324AA814301FC0CA','moved 1');
INSERT INTO "private_text" VALUES('b59e03dc997c7ea0a955fbdbb47e73fdae450ee56004f9587f846df06b73c925',2,X'D71C32B4D84C7CC50E2C275EC647173DF89F26E670F79AA02441FEE02307FFEB','bond failed 1');
INSERT INTO "private_text" VALUES('07c1142e8adec6d4ee54dd2b96e14295c1f3e167b9842f1ab15253f850cd3243',2,X'D58D5C0D573FA432D022077A1F78B5D793F7943AB20EB46C60EA6DE688765595','trained again 1');
INSERT INTO "private_text" VALUES('72bc1782de293e0f0932454f5eb41fbd8492ef47b5d49f22ecf75827d0513a88',2,X'91ACC5897F204F7E4368444A7A4D52473068F4632D4338EC60576C2A40AA682E','the scale was off 1');
INSERT INTO "private_text" VALUES('ef77334892bd83814967ebf10a29d9769b64eb1b438838f3aa724f7e45b132e2',2,X'EA442C0103FF8645E613D0F05D78DDE44DE01F8EA895E4C5353D4C877504C6B9','it was 1');
INSERT INTO "private_text" VALUES('e5b47576aa9eb86ccddfb5cc61d5a5e6ad1d6ca8bf0e6529df6123f8514f5269',2,X'9AAD2621202551B486BBC1ED43BEA59DD7E5DF2C861685A90F91B995ACD14875','wrong givens 1');
INSERT INTO "private_text" VALUES('2c6808a2a4fc1f51025e858be9314613148dbb43ac7953c3ce89b87bbff6373e',2,X'09332E9E2CF6E92A291175DDEA96C3BE98BB9A1E34BCE01875F3D53FC7B421CB','wrong person 1');
INSERT INTO "private_text" VALUES('079296b158b4a669527e33f93a14edd3ceef959b2ebf33764f81e49c4fd491b3',2,X'2B527B70B0E0D9D331A9E702AD88BD772E3D016DC9977CE6EFDE85D7CE000D1B','in error 1');
INSERT INTO "private_text" VALUES('911c455f00164ff45b65ab69c7ea56cd134b2d7820fc0ab98114c43cb9906d5d',NULL,X'F58605E1B27B63D92B8B0E0BAACB15A3EBAF46BD4A3103CEBA1700D35969A840','back shelf 1');
INSERT INTO "private_text" VALUES('54d34b6fae8ce885ac448dab04307f4875959e6e0b8f40208db3b14fd9cc6fd8',2,X'2508E40D50C77ED7DBFED0CDA698A8DDBF447918E8BBFC19D93E571286EF2926','forgotten 1');
INSERT INTO "private_text" VALUES('409119b7b0df91cab3eb7519f03ae79f812d88e3d29d977b1f5737282be9a175',2,X'946DFC33FEF37F93F972F6FE7ADABB867AF9F7305EF66D9FC6719420A1E6953E','Máire 1');
INSERT INTO "private_text" VALUES('97176c596a9c326ec6497e97879e0d59c63e57fbb629b6d8c772406b2de0c690',2,X'07EDB744767B344241123C6761C1D12955603435ECB6F969F587461C42DE0982','Máire 1');
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
INSERT INTO "product_change" VALUES(28,'2026-11-25','2026-11-25T08:00:00.000000Z',1,2,'m1','{}','{}','16dc9050c9ff589021a5d42328487923d3d8d752c8cd40e303ba6e7dfaa5ba2e');
INSERT INTO "product_change" VALUES(60,'2026-11-25','2026-11-25T08:01:00.000000Z',2,34,'m1','{}','{}','aecd45268b4b482fbe238759fa3cddcd0df673a922f1b973275898e7c576ad8d');
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
INSERT INTO "product_mark" VALUES(29,'2026-11-25','2026-11-25T08:00:00.000000Z',1,28,'large','2027-01-01','ede9fb16edec7c9796392b87027af1cbd739469fedd64f21ebd4b66cc056606b');
INSERT INTO "product_mark" VALUES(61,'2026-11-25','2026-11-25T08:01:00.000000Z',2,60,'large','2027-01-01','392e3c655c348db286ba9a165b9acaacd9389092bdd33cb6de21fdeff336ec0b');
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
INSERT INTO "publication" VALUES(2,'2026-11-25','2026-11-25T08:00:00.000000Z',1,'852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c','Shop','[]','414c6b34f6eca43dcbdc98ced2030dff5f6acbafd177e355d06826e8b91e8192');
INSERT INTO "publication" VALUES(34,'2026-11-25','2026-11-25T08:01:00.000000Z',2,'bb8697858b7229392460122b46ef53bec7178fc9c04110fa11a6b0936f5260d5','Shop','[]','3ef91ed1cbcac38646a33ac969891b7892ade84356520c04be3045ee1e95182f');
CREATE TABLE reading (
  person INTEGER NOT NULL REFERENCES person (number),
  module TEXT NOT NULL,
  lesson TEXT NOT NULL,
  read_at TEXT NOT NULL,
  PRIMARY KEY (person, module, lesson)
) STRICT;
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
INSERT INTO "remark" VALUES(20,'2026-11-25','2026-11-25T08:00:00.000000Z',1,8,5,1,1,'beads/share','852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c','852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c','1/2','1',1,0,1,'0d6dae16570f118b247bbde332b4af461cc35ff6da6f6fc36a2382e2b77dd151','ee8c816d4b2e83cd778fe9f10d85735698b2f49c68704567e62cb144cabf85ba');
INSERT INTO "remark" VALUES(52,'2026-11-25','2026-11-25T08:01:00.000000Z',2,40,37,2,1,'beads/share','bb8697858b7229392460122b46ef53bec7178fc9c04110fa11a6b0936f5260d5','bb8697858b7229392460122b46ef53bec7178fc9c04110fa11a6b0936f5260d5','1/2','1',1,0,1,'e5b47576aa9eb86ccddfb5cc61d5a5e6ad1d6ca8bf0e6529df6123f8514f5269','07d542747975bc04457a36aaa90737c143a1f7bfd9b5e68658c12f99437f571b');
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
INSERT INTO "result" VALUES(8,'2026-11-25','2026-11-25T08:00:00.000000Z',1,5,1,'beads','full',1,0,'21','24','20',0,'2027-11-25','{"lapsing":30}','6a12f49ed249b244e4c6c52e7b8f4d6aa82ebf9b9c2b39e394cadb5fff171e1f');
INSERT INTO "result" VALUES(40,'2026-11-25','2026-11-25T08:01:00.000000Z',2,37,2,'beads','full',1,0,'21','24','20',0,'2027-11-25','{"lapsing":30}','0104fc834d5f14093b9063e6fb9d609c8d4003df13e554f1e44ede043aab7234');
CREATE TABLE session (
  token TEXT PRIMARY KEY,                         -- hash of the token in the cookie
  person INTEGER NOT NULL REFERENCES person (number),
  started_at TEXT NOT NULL,
  touched_at TEXT NOT NULL,
  address TEXT NOT NULL
) STRICT;
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
INSERT INTO "sheet" VALUES(12,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'beads','observed','m1','epoxy','2:1','852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c','[1,2]','{"shot":"9.6 g"}','{"shot":true}','scale 4, 0.1 g',0,1,11,1,'T-1','2027-11-25','{}','e34ed4a179d7bd7c960304ca2c68db5e0640eca48beb3b395ea4022a323c305a','a6ccbba6dba60fc30dfb43b52d40f1b18630aa466d7a210df8bb12e094c2edfc','617460565c64f4f3d4c840da1143f856a046942a2199f71927e14d3056a10ce8');
INSERT INTO "sheet" VALUES(44,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'beads','observed','m1','epoxy','2:1','bb8697858b7229392460122b46ef53bec7178fc9c04110fa11a6b0936f5260d5','[1,2]','{"shot":"9.6 g"}','{"shot":true}','scale 4, 0.1 g',0,2,43,1,'T-1','2027-11-25','{}','bb87e0d193bdbad15b3a2c0703d39b6ce46eb80c9df51a9057b3fdcf29150d73','56f44f38342282e644774ebedb3e85c1ad0a0e535b2c3f4f0f233a862202bacd','122dfdb31c5eb30dbc631c6d99bef866ec83834ad6b558b9cd6e524eaca2758e');
CREATE TABLE sign_in_try (
  number INTEGER PRIMARY KEY,
  person INTEGER NOT NULL,                        -- a number that was tried, whether or not somebody has it
  address TEXT NOT NULL,
  tried_at TEXT NOT NULL,
  was_right INTEGER NOT NULL CHECK (was_right IN (0, 1))
) STRICT;
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
INSERT INTO "signature" VALUES(13,'2026-11-25','2026-11-25T08:00:00.000000Z',1,12,1,11,1,'2027-11-25','{}','a1e3c23bc871ae3496070181ff8d9024fb5ce2839f515c7e8529384ac4df9cab');
INSERT INTO "signature" VALUES(45,'2026-11-25','2026-11-25T08:01:00.000000Z',2,44,2,43,1,'2027-11-25','{}','a403c0616859efdc1cf0570bb3c2a99398c0f89aa260f8889ded913e0d95c6f6');
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
INSERT INTO "stock" VALUES(26,'2026-11-25','2026-11-25T08:00:00.000000Z',1,'counted','m1','north','4.5','A1',NULL,'843d6da6aac8403d8113fd402a04c7479dc217479d722f295089ac23ce326b39','78113581f877361c94a9451a66a761f7c2ac54cfdb584798342b610035e7e1ba');
INSERT INTO "stock" VALUES(58,'2026-11-25','2026-11-25T08:01:00.000000Z',2,'counted','m1','north','4.5','A1',NULL,'911c455f00164ff45b65ab69c7ea56cd134b2d7820fc0ab98114c43cb9906d5d','c8e69891273603611cf57ded0bdd44f096e73306d9f03eba6a299f7ff3a2ed2b');
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
INSERT INTO "strike" VALUES(21,'2026-11-25','2026-11-25T08:00:00.000000Z',1,'sheet',12,1,'f10e6fb1bf177438f87fb967f66f3f1a2f8fba5e9dc87fdda08ccfe6315b2d23','bbd6f123c08cc72f271918c140feeb922da81a7af765c21d365a317b7a7af0ee');
INSERT INTO "strike" VALUES(53,'2026-11-25','2026-11-25T08:01:00.000000Z',2,'sheet',44,2,'2c6808a2a4fc1f51025e858be9314613148dbb43ac7953c3ce89b87bbff6373e','fa5c4625c0611dbd4dcdd1944472650007de4cb3dad99ac63337b4bbae491b49');
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
INSERT INTO "talk" VALUES(9,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'beads',5,'d30ec3d04e9a0d7e179adb4b87276822d3f48c3298b504289ee9cf6963c3be1b','527bd229dfa6c748a3b2014dacc4574175db05e2417ef4b7fec87eed9e3a91a4');
INSERT INTO "talk" VALUES(41,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'beads',37,'b56a767c512ec8d8040c8481f0317186ac6f97d40bf5ccc02e62cd38a36daa12','1e8a728611c709f97b5ce426c8458adbf71f79a22746382f6f680fbbe3abac7a');
CREATE TABLE tip (
  one INTEGER PRIMARY KEY CHECK (one = 1),
  position INTEGER NOT NULL,                      -- number of the last row of evidence
  seal TEXT NOT NULL,
  recorded_at TEXT NOT NULL
) STRICT;
INSERT INTO "tip" VALUES(1,64,'da3e5df42cbf93c7d89140870797072a17a15b51f0007fe5df4f7c5c0cc80ab4','2026-11-25T08:01:00.000000Z');
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
INSERT INTO "withdrawal" VALUES(15,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'beads','10a79c7765a4933e89b1a079315761c14b30ad5bcdd9f17ffb6263715537d23f','a6e87ec1afcf4d2c3f9818b2e4611ac5b1b5ff08d33f07007190dd44d2e4fbce');
INSERT INTO "withdrawal" VALUES(47,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'beads','b59e03dc997c7ea0a955fbdbb47e73fdae450ee56004f9587f846df06b73c925','629549c559e63f8dec64cdb84cc37804c42389cef53b915fafed1b996c9dd5d8');
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
INSERT INTO "withdrawal_end" VALUES(16,'2026-11-25','2026-11-25T08:00:00.000000Z',1,15,1,1,'925acb801f0f8644259dca9d1fe1fa5f07d5aa03f29ebc02a5b69914c6719a4b','15eff60269e9065e02f6a38169534e823fd3f3f876303be4c7b4fce540b8f2ee');
INSERT INTO "withdrawal_end" VALUES(48,'2026-11-25','2026-11-25T08:01:00.000000Z',2,47,2,1,'07c1142e8adec6d4ee54dd2b96e14295c1f3e167b9842f1ab15253f850cd3243','0ca1a39e5b41ec66fc357f43f1c950ba26074499cf398ed49ed5e4ba592e07b4');
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
CREATE TRIGGER publication_stays BEFORE UPDATE ON publication BEGIN SELECT RAISE(ABORT, 'publication is never changed'); END;
CREATE TRIGGER publication_kept BEFORE DELETE ON publication BEGIN SELECT RAISE(ABORT, 'publication is never deleted'); END;
CREATE TRIGGER publication_once BEFORE INSERT ON publication WHEN EXISTS (SELECT 1 FROM publication WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'publication is never replaced'); END;
CREATE TRIGGER draw_stays BEFORE UPDATE ON draw BEGIN SELECT RAISE(ABORT, 'draw is never changed'); END;
CREATE TRIGGER draw_kept BEFORE DELETE ON draw BEGIN SELECT RAISE(ABORT, 'draw is never deleted'); END;
CREATE TRIGGER draw_once BEFORE INSERT ON draw WHEN EXISTS (SELECT 1 FROM draw WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'draw is never replaced'); END;
CREATE TRIGGER practice_stays BEFORE UPDATE ON practice BEGIN SELECT RAISE(ABORT, 'practice is never changed'); END;
CREATE TRIGGER practice_kept BEFORE DELETE ON practice BEGIN SELECT RAISE(ABORT, 'practice is never deleted'); END;
CREATE TRIGGER practice_once BEFORE INSERT ON practice WHEN EXISTS (SELECT 1 FROM practice WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'practice is never replaced'); END;
CREATE TRIGGER form_stays BEFORE UPDATE ON form BEGIN SELECT RAISE(ABORT, 'form is never changed'); END;
CREATE TRIGGER form_kept BEFORE DELETE ON form BEGIN SELECT RAISE(ABORT, 'form is never deleted'); END;
CREATE TRIGGER form_once BEFORE INSERT ON form WHEN EXISTS (SELECT 1 FROM form WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'form is never replaced'); END;
CREATE TRIGGER form_item_stays BEFORE UPDATE ON form_item BEGIN SELECT RAISE(ABORT, 'form_item is never changed'); END;
CREATE TRIGGER form_item_kept BEFORE DELETE ON form_item BEGIN SELECT RAISE(ABORT, 'form_item is never deleted'); END;
CREATE TRIGGER form_item_once BEFORE INSERT ON form_item WHEN EXISTS (SELECT 1 FROM form_item WHERE (id = NEW.id) OR (form = NEW.form AND item = NEW.item)) BEGIN SELECT RAISE(ABORT, 'form_item is never replaced'); END;
CREATE TRIGGER answer_stays BEFORE UPDATE ON answer BEGIN SELECT RAISE(ABORT, 'answer is never changed'); END;
CREATE TRIGGER answer_kept BEFORE DELETE ON answer BEGIN SELECT RAISE(ABORT, 'answer is never deleted'); END;
CREATE TRIGGER answer_once BEFORE INSERT ON answer WHEN EXISTS (SELECT 1 FROM answer WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'answer is never replaced'); END;
CREATE TRIGGER result_stays BEFORE UPDATE ON result BEGIN SELECT RAISE(ABORT, 'result is never changed'); END;
CREATE TRIGGER result_kept BEFORE DELETE ON result BEGIN SELECT RAISE(ABORT, 'result is never deleted'); END;
CREATE TRIGGER result_once BEFORE INSERT ON result WHEN EXISTS (SELECT 1 FROM result WHERE (id = NEW.id) OR (form = NEW.form)) BEGIN SELECT RAISE(ABORT, 'result is never replaced'); END;
CREATE TRIGGER talk_stays BEFORE UPDATE ON talk BEGIN SELECT RAISE(ABORT, 'talk is never changed'); END;
CREATE TRIGGER talk_kept BEFORE DELETE ON talk BEGIN SELECT RAISE(ABORT, 'talk is never deleted'); END;
CREATE TRIGGER talk_once BEFORE INSERT ON talk WHEN EXISTS (SELECT 1 FROM talk WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'talk is never replaced'); END;
CREATE TRIGGER lift_stays BEFORE UPDATE ON lift BEGIN SELECT RAISE(ABORT, 'lift is never changed'); END;
CREATE TRIGGER lift_kept BEFORE DELETE ON lift BEGIN SELECT RAISE(ABORT, 'lift is never deleted'); END;
CREATE TRIGGER lift_once BEFORE INSERT ON lift WHEN EXISTS (SELECT 1 FROM lift WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'lift is never replaced'); END;
CREATE TRIGGER entitlement_stays BEFORE UPDATE ON entitlement BEGIN SELECT RAISE(ABORT, 'entitlement is never changed'); END;
CREATE TRIGGER entitlement_kept BEFORE DELETE ON entitlement BEGIN SELECT RAISE(ABORT, 'entitlement is never deleted'); END;
CREATE TRIGGER entitlement_once BEFORE INSERT ON entitlement WHEN EXISTS (SELECT 1 FROM entitlement WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'entitlement is never replaced'); END;
CREATE TRIGGER entitlement_end_stays BEFORE UPDATE ON entitlement_end BEGIN SELECT RAISE(ABORT, 'entitlement_end is never changed'); END;
CREATE TRIGGER entitlement_end_kept BEFORE DELETE ON entitlement_end BEGIN SELECT RAISE(ABORT, 'entitlement_end is never deleted'); END;
CREATE TRIGGER entitlement_end_once BEFORE INSERT ON entitlement_end WHEN EXISTS (SELECT 1 FROM entitlement_end WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'entitlement_end is never replaced'); END;
CREATE TRIGGER sheet_stays BEFORE UPDATE ON sheet BEGIN SELECT RAISE(ABORT, 'sheet is never changed'); END;
CREATE TRIGGER sheet_kept BEFORE DELETE ON sheet BEGIN SELECT RAISE(ABORT, 'sheet is never deleted'); END;
CREATE TRIGGER sheet_once BEFORE INSERT ON sheet WHEN EXISTS (SELECT 1 FROM sheet WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'sheet is never replaced'); END;
CREATE TRIGGER signature_stays BEFORE UPDATE ON signature BEGIN SELECT RAISE(ABORT, 'signature is never changed'); END;
CREATE TRIGGER signature_kept BEFORE DELETE ON signature BEGIN SELECT RAISE(ABORT, 'signature is never deleted'); END;
CREATE TRIGGER signature_once BEFORE INSERT ON signature WHEN EXISTS (SELECT 1 FROM signature WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'signature is never replaced'); END;
CREATE TRIGGER withdrawal_stays BEFORE UPDATE ON withdrawal BEGIN SELECT RAISE(ABORT, 'withdrawal is never changed'); END;
CREATE TRIGGER withdrawal_kept BEFORE DELETE ON withdrawal BEGIN SELECT RAISE(ABORT, 'withdrawal is never deleted'); END;
CREATE TRIGGER withdrawal_once BEFORE INSERT ON withdrawal WHEN EXISTS (SELECT 1 FROM withdrawal WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'withdrawal is never replaced'); END;
CREATE TRIGGER withdrawal_end_stays BEFORE UPDATE ON withdrawal_end BEGIN SELECT RAISE(ABORT, 'withdrawal_end is never changed'); END;
CREATE TRIGGER withdrawal_end_kept BEFORE DELETE ON withdrawal_end BEGIN SELECT RAISE(ABORT, 'withdrawal_end is never deleted'); END;
CREATE TRIGGER withdrawal_end_once BEFORE INSERT ON withdrawal_end WHEN EXISTS (SELECT 1 FROM withdrawal_end WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'withdrawal_end is never replaced'); END;
CREATE TRIGGER outside_proof_stays BEFORE UPDATE ON outside_proof BEGIN SELECT RAISE(ABORT, 'outside_proof is never changed'); END;
CREATE TRIGGER outside_proof_kept BEFORE DELETE ON outside_proof BEGIN SELECT RAISE(ABORT, 'outside_proof is never deleted'); END;
CREATE TRIGGER outside_proof_once BEFORE INSERT ON outside_proof WHEN EXISTS (SELECT 1 FROM outside_proof WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'outside_proof is never replaced'); END;
CREATE TRIGGER appeal_stays BEFORE UPDATE ON appeal BEGIN SELECT RAISE(ABORT, 'appeal is never changed'); END;
CREATE TRIGGER appeal_kept BEFORE DELETE ON appeal BEGIN SELECT RAISE(ABORT, 'appeal is never deleted'); END;
CREATE TRIGGER appeal_once BEFORE INSERT ON appeal WHEN EXISTS (SELECT 1 FROM appeal WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'appeal is never replaced'); END;
CREATE TRIGGER appeal_answer_stays BEFORE UPDATE ON appeal_answer BEGIN SELECT RAISE(ABORT, 'appeal_answer is never changed'); END;
CREATE TRIGGER appeal_answer_kept BEFORE DELETE ON appeal_answer BEGIN SELECT RAISE(ABORT, 'appeal_answer is never deleted'); END;
CREATE TRIGGER appeal_answer_once BEFORE INSERT ON appeal_answer WHEN EXISTS (SELECT 1 FROM appeal_answer WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'appeal_answer is never replaced'); END;
CREATE TRIGGER remark_stays BEFORE UPDATE ON remark BEGIN SELECT RAISE(ABORT, 'remark is never changed'); END;
CREATE TRIGGER remark_kept BEFORE DELETE ON remark BEGIN SELECT RAISE(ABORT, 'remark is never deleted'); END;
CREATE TRIGGER remark_once BEFORE INSERT ON remark WHEN EXISTS (SELECT 1 FROM remark WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'remark is never replaced'); END;
CREATE TRIGGER strike_stays BEFORE UPDATE ON strike BEGIN SELECT RAISE(ABORT, 'strike is never changed'); END;
CREATE TRIGGER strike_kept BEFORE DELETE ON strike BEGIN SELECT RAISE(ABORT, 'strike is never deleted'); END;
CREATE TRIGGER strike_once BEFORE INSERT ON strike WHEN EXISTS (SELECT 1 FROM strike WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'strike is never replaced'); END;
CREATE TRIGGER certificate_stays BEFORE UPDATE ON certificate BEGIN SELECT RAISE(ABORT, 'certificate is never changed'); END;
CREATE TRIGGER certificate_kept BEFORE DELETE ON certificate BEGIN SELECT RAISE(ABORT, 'certificate is never deleted'); END;
CREATE TRIGGER certificate_once BEFORE INSERT ON certificate WHEN EXISTS (SELECT 1 FROM certificate WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'certificate is never replaced'); END;
CREATE TRIGGER certificate_end_stays BEFORE UPDATE ON certificate_end BEGIN SELECT RAISE(ABORT, 'certificate_end is never changed'); END;
CREATE TRIGGER certificate_end_kept BEFORE DELETE ON certificate_end BEGIN SELECT RAISE(ABORT, 'certificate_end is never deleted'); END;
CREATE TRIGGER certificate_end_once BEFORE INSERT ON certificate_end WHEN EXISTS (SELECT 1 FROM certificate_end WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'certificate_end is never replaced'); END;
CREATE TRIGGER job_stays BEFORE UPDATE ON job BEGIN SELECT RAISE(ABORT, 'job is never changed'); END;
CREATE TRIGGER job_kept BEFORE DELETE ON job BEGIN SELECT RAISE(ABORT, 'job is never deleted'); END;
CREATE TRIGGER job_once BEFORE INSERT ON job WHEN EXISTS (SELECT 1 FROM job WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'job is never replaced'); END;
CREATE TRIGGER job_use_stays BEFORE UPDATE ON job_use BEGIN SELECT RAISE(ABORT, 'job_use is never changed'); END;
CREATE TRIGGER job_use_kept BEFORE DELETE ON job_use BEGIN SELECT RAISE(ABORT, 'job_use is never deleted'); END;
CREATE TRIGGER job_use_once BEFORE INSERT ON job_use WHEN EXISTS (SELECT 1 FROM job_use WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'job_use is never replaced'); END;
CREATE TRIGGER stock_stays BEFORE UPDATE ON stock BEGIN SELECT RAISE(ABORT, 'stock is never changed'); END;
CREATE TRIGGER stock_kept BEFORE DELETE ON stock BEGIN SELECT RAISE(ABORT, 'stock is never deleted'); END;
CREATE TRIGGER stock_once BEFORE INSERT ON stock WHEN EXISTS (SELECT 1 FROM stock WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'stock is never replaced'); END;
CREATE TRIGGER month_stays BEFORE UPDATE ON month BEGIN SELECT RAISE(ABORT, 'month is never changed'); END;
CREATE TRIGGER month_kept BEFORE DELETE ON month BEGIN SELECT RAISE(ABORT, 'month is never deleted'); END;
CREATE TRIGGER month_once BEFORE INSERT ON month WHEN EXISTS (SELECT 1 FROM month WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'month is never replaced'); END;
CREATE TRIGGER product_change_stays BEFORE UPDATE ON product_change BEGIN SELECT RAISE(ABORT, 'product_change is never changed'); END;
CREATE TRIGGER product_change_kept BEFORE DELETE ON product_change BEGIN SELECT RAISE(ABORT, 'product_change is never deleted'); END;
CREATE TRIGGER product_change_once BEFORE INSERT ON product_change WHEN EXISTS (SELECT 1 FROM product_change WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'product_change is never replaced'); END;
CREATE TRIGGER product_mark_stays BEFORE UPDATE ON product_mark BEGIN SELECT RAISE(ABORT, 'product_mark is never changed'); END;
CREATE TRIGGER product_mark_kept BEFORE DELETE ON product_mark BEGIN SELECT RAISE(ABORT, 'product_mark is never deleted'); END;
CREATE TRIGGER product_mark_once BEFORE INSERT ON product_mark WHEN EXISTS (SELECT 1 FROM product_mark WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'product_mark is never replaced'); END;
CREATE TRIGGER pin_reset_stays BEFORE UPDATE ON pin_reset BEGIN SELECT RAISE(ABORT, 'pin_reset is never changed'); END;
CREATE TRIGGER pin_reset_kept BEFORE DELETE ON pin_reset BEGIN SELECT RAISE(ABORT, 'pin_reset is never deleted'); END;
CREATE TRIGGER pin_reset_once BEFORE INSERT ON pin_reset WHEN EXISTS (SELECT 1 FROM pin_reset WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'pin_reset is never replaced'); END;
CREATE TRIGGER admin_stays BEFORE UPDATE ON admin BEGIN SELECT RAISE(ABORT, 'admin is never changed'); END;
CREATE TRIGGER admin_kept BEFORE DELETE ON admin BEGIN SELECT RAISE(ABORT, 'admin is never deleted'); END;
CREATE TRIGGER admin_once BEFORE INSERT ON admin WHEN EXISTS (SELECT 1 FROM admin WHERE (id = NEW.id)) BEGIN SELECT RAISE(ABORT, 'admin is never replaced'); END;
COMMIT;
