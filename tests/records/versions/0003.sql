-- A shop file after step 0003. Its head: 1ab98930269ba1bb9db513aae8f6939fa818dfc04948a095f9ac121fe49c7ad1
PRAGMA application_id = 1366649210;
BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'records','0001','2026-11-25 13:38:53.504728+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'records','0002','2026-11-25 13:38:53.509122+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'records','0003','2026-11-25 13:38:53.510640+00:00');
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
INSERT INTO "admin" VALUES(1,'2026-11-25','2026-11-25T08:00:00.000000Z',NULL,'joined',1,'bc34223a78d891628b54dba26f8475f95048a43e82e5569389e6450e001d620d','manager','north',NULL,'efdcd19d7d3c903e0092625490c4014550d73163e159e2a8083c4626a365fe14');
INSERT INTO "admin" VALUES(31,'2026-11-25','2026-11-25T08:00:00.000000Z',1,'setting',1,'7094cc096f8928f2fb556cb7cdb7960663a2b20b528cf32df06cec2d437f7f18','manager','north','zone','63791600d42a3109814f99f2de6eb46a99ccdec2c8500ac938289ef7ff517dc5');
INSERT INTO "admin" VALUES(32,'2026-11-25','2026-11-25T08:00:00.000000Z',1,'renamed',1,'23e9314459cff8feff5d43c36f88e760cb131487e410fdde692fee21fa6ff199',NULL,NULL,NULL,'c6cacdcd615eb407ec25fe5b635c819370492bf0cab4d18b91b75d188b73f571');
INSERT INTO "admin" VALUES(33,'2026-11-25','2026-11-25T08:01:00.000000Z',NULL,'joined',2,'9107d05557f54f301c0ea71e285becbacd7226a14abf7e650219cb126d5a80a8','manager','north',NULL,'7398855f5ea85f4f164969004a1e4626bf3840ca66320483a66923c1811ee278');
INSERT INTO "admin" VALUES(63,'2026-11-25','2026-11-25T08:01:00.000000Z',2,'setting',2,'c91e4518fcd1edd2ee6a7d25a9dfc5fe4718bdc115b4c3677338257e3fe1a75c','manager','north','zone','379f9e8532d66c516faae42bbf9202858122991b6281e78615470a5958b08f96');
INSERT INTO "admin" VALUES(64,'2026-11-25','2026-11-25T08:01:00.000000Z',2,'renamed',2,'eb96570406ec6ec735efc6f2f1cd207785f4f134b0a88fb9489df53068c9169d',NULL,NULL,NULL,'1ab98930269ba1bb9db513aae8f6939fa818dfc04948a095f9ac121fe49c7ad1');
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
INSERT INTO "answer" VALUES(7,'2026-11-25','2026-11-25T08:00:00.000000Z',1,5,1,'{"answer":"2½ turns"}','{"total":"180"}','{"answer":"right"}','1/2','1','1',0,'852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c','68ef00aef0795581014c30f7d235f838c7620bd8ce7421b3cd328e033bcdef2a');
INSERT INTO "answer" VALUES(39,'2026-11-25','2026-11-25T08:01:00.000000Z',2,37,1,'{"answer":"2½ turns"}','{"total":"180"}','{"answer":"right"}','1/2','1','1',0,'bb8697858b7229392460122b46ef53bec7178fc9c04110fa11a6b0936f5260d5','2f845919bdb3de198607eb7e3e84233ddd4955442f6b8f1fe438c13d78752a39');
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
INSERT INTO "appeal" VALUES(18,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,5,12,'3565ad80a8ee5788c0b1a096ec7ea01033cc356432df41fb24d96414b392b22c','a75eef8145b5eeced52b631319753851c392bdb06eb55c7d2f3befbde18801c1');
INSERT INTO "appeal" VALUES(50,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,37,44,'29c53f0bf3caf1b5f0bd68c5e3c9ab13cfd537b3ed745c4efbedd6272b3936de','691efb7f080c9d321548cf6dcfeaaf8e26f843150b770186c5e8eaef99f9f59d');
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
INSERT INTO "appeal_answer" VALUES(19,'2026-11-25','2026-11-25T08:00:00.000000Z',1,18,1,1,'c251ed16169ead8532637b635282fb7d4ee27f96dbbd43a6aef172662c0b76ee','9121a96d7cf9f383f1916f2d9698117ff50e6bc4d8a720d844a17bd2522c6348');
INSERT INTO "appeal_answer" VALUES(51,'2026-11-25','2026-11-25T08:01:00.000000Z',2,50,2,1,'a3a31e7390e952152fe574c7c5b6e118361bd9261ee0ae7aef5f2c5a2f1fd0bf','0ae593a5c7ec05aa2f357c0f4392ae9d89beadde74bc6e2379a2b76fa8356e97');
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
INSERT INTO "certificate" VALUES(22,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'bonder','["beads"]','2027-11-25','cdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcd','852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c','cd8c4f4c9179e4986acfe2a5bb7ea7bf519937e301bac9ccafbcaf0eacb60b53');
INSERT INTO "certificate" VALUES(54,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'bonder','["beads"]','2027-11-25','cdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcdcd','bb8697858b7229392460122b46ef53bec7178fc9c04110fa11a6b0936f5260d5','bdd0788353e5ebad02f6bbd678d505fe0bec0b34bb0f3892daf3833070f5f569');
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
INSERT INTO "certificate_end" VALUES(23,'2026-11-25','2026-11-25T08:00:00.000000Z',1,22,1,'5c073069b7af40590a2189ccbd1a617a5f41e499b33b692a9b0f9dc78d0e7f4e','01ab9e4c654a22deb0b5b87adc8b03254f489003130bad944e096b9798c56269');
INSERT INTO "certificate_end" VALUES(55,'2026-11-25','2026-11-25T08:01:00.000000Z',2,54,2,'d972bd049dd3b85eceefd71cce90ec7a47ebbbb468e82c7dd263933db2b9b9f8','f51d535d8db685f1bda20fffe483c09b3bc842d030e6739d5aeb623a136c4365');
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
INSERT INTO "draw" VALUES(3,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'beads','beads/share','abababababababababababababababababababababababababababababababab','852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c',3,'[2,1]','1937cd5b3443988e8b61c51b0b033d95b1b5f4d213ac9abf384faacd77bebacd');
INSERT INTO "draw" VALUES(35,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'beads','beads/share','abababababababababababababababababababababababababababababababab','bb8697858b7229392460122b46ef53bec7178fc9c04110fa11a6b0936f5260d5',3,'[2,1]','90da33f8548e8ab334513ed83c84a0620c867ee3c699a99ab3a65a44538f60ed');
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
INSERT INTO "entitlement" VALUES(11,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'beads','2026-11-25','2028-01-01',1,'0940a0e1cb7cc53fa76f7819ee100f94febeb19c63f8bc9405d88e9b4b3fb7f5','4e805acd7221b4e6483b7d70a167195b356af5530af194167f002e09916c655c');
INSERT INTO "entitlement" VALUES(43,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'beads','2026-11-25','2028-01-01',1,'d6c0cf90011df8d401bfc4a313e207e82cc9d7e9999896a85a2d5720dfe217ef','db269b020cbdf8afc384614ab0f0b549b2085c783fad754622c22d42562d6c31');
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
INSERT INTO "entitlement_end" VALUES(14,'2026-11-25','2026-11-25T08:00:00.000000Z',1,11,1,'a4a6976b8534a701b091e79bd9332b354240aa3c8504f1465fa38634fce6db21','28c4733d330c15fc42ef158c2c5569339eea99e9c03312af59211565192e5616');
INSERT INTO "entitlement_end" VALUES(46,'2026-11-25','2026-11-25T08:01:00.000000Z',2,43,2,'14aa9361b3b29532c2389b7829a98fd2b8ec1e33bed0554f671d30c8215f85a3','53d98f8d37915a952e1af235d068886119ad655744827df7ea46632f3c34e553');
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
INSERT INTO "form" VALUES(5,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'beads','full','852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c','en','read aloud','e49bfa9ced305f86489b8a88ed1fc011e7f440f40db69c67bb20f7b2b173fca3','north','Europe/Dublin','2026-11-25T12:00:00.000000Z',0,'bd2ebffdfed7b00ed75ff17b12f2eeaafb626d96b43d3c8232ded6babca3b553','a2ba6eb46c9e72271a628392e55146835062209d8e8ca861d44dc265f39756b8');
INSERT INTO "form" VALUES(37,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'beads','full','bb8697858b7229392460122b46ef53bec7178fc9c04110fa11a6b0936f5260d5','en','read aloud','08585af1e434ab9afcd94661033d06f6a6cc10ff800a8b39be133e8450f2b947','north','Europe/Dublin','2026-11-25T12:01:00.000000Z',0,'b5e66ba0aba43a167402518d1cf14057592f14af8ea0ca9f946762d0194d18aa','01a5f542663bf988fe3b6a26ad40e39c29ff0fc67f6b1bceb5e9610fb597a141');
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
INSERT INTO "form_item" VALUES(6,'2026-11-25','2026-11-25T08:00:00.000000Z',1,5,1,'beads/share','abababababababababababababababababababababababababababababababab',3,'[2,1]',1,'c884074c5aa37de786ba4af1891d9d8ad466d5ba6f0b925fdc3fb337a20d1f6d');
INSERT INTO "form_item" VALUES(38,'2026-11-25','2026-11-25T08:01:00.000000Z',2,37,1,'beads/share','abababababababababababababababababababababababababababababababab',3,'[2,1]',1,'65165967c6a518cb3637bc930f0245c3292d7cee636c53f25d8b59da719776bd');
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
INSERT INTO "job" VALUES(24,'2026-11-25','2026-11-25T08:00:00.000000Z',1,'T-1','panel',1,1,'north','2026-11-25','23.40','b13cdd411fe3614048928b040985bf98065e5a1dfd0e955bc2d6f3d55d5352b2');
INSERT INTO "job" VALUES(56,'2026-11-25','2026-11-25T08:01:00.000000Z',2,'T-1','panel',2,2,'north','2026-11-25','23.40','bef4937ae4dbd8bcfb246838cc1a4cc7746a7116144799ef9805f3eac7245550');
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
INSERT INTO "job_use" VALUES(25,'2026-11-25','2026-11-25T08:00:00.000000Z',1,24,'m1','A1','B1','35',2,'14.50','51889c06ac222075d8f02bd2dc1213f116723d4ba5d0efd68a95889a979d5c3d');
INSERT INTO "job_use" VALUES(57,'2026-11-25','2026-11-25T08:01:00.000000Z',2,56,'m1','A1','B1','35',2,'14.50','cc757f6709cd35470f7075b251d144dfe5fc4096cfeee6860b4c9a1348410d34');
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
INSERT INTO "lift" VALUES(10,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'beads',5,'7dcbda05d7dd742beabb4b6a3098bed80e0ce64f2ae8998bd7c4380b659eac39','12952e38dd0abe280f998dfdf46dd903944f86043161e9398e485fe4c555b214');
INSERT INTO "lift" VALUES(42,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'beads',37,'66f026e008d6ed3a1a17e1d4159f2bdcf3d13c2e386621434295fab74495b61e','59af34dd599c7293a4bf772cb74008db53c1310a84d465161cb2192fda036523');
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
INSERT INTO "month" VALUES(27,'2026-11-25','2026-11-25T08:00:00.000000Z',1,'2026-10','north','[]','8c9adfceac26fb6fe3c67959c06413d0a3bb7effcfd014db86439727d4959ce0');
INSERT INTO "month" VALUES(59,'2026-11-25','2026-11-25T08:01:00.000000Z',2,'2026-10','north','[]','9e28b2e161dccdac9a2fe4718a8c2d903eb87bf4d6baa15a1ccbb1d9bb2e3f74');
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
INSERT INTO "outside_proof" VALUES(17,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'fit test','2027-01-01','half mask, M',1,'417acaf7487258ea2351ba80155c4b915bc7cb4c59c69bfd403f8ae4bda1d563');
INSERT INTO "outside_proof" VALUES(49,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'fit test','2027-01-01','half mask, M',2,'d8bd661f5c3e08e046def3d84c036e0c04136ecf8d8267a2d2794abb8dfc1d53');
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
INSERT INTO "photo" VALUES('bfe57f9c751e1fedf0db449fee17dd104c14d55991dd29e26870fe710c7e76b2',1,X'1B1A231278F9E4E8A9F3FBB88DC0CBCD5C07D2EF7B200BCC364ACCD74026EA40','image/png',X'89504E4730');
INSERT INTO "photo" VALUES('82ece1324e74dd2068d14cae3432833fc171e89dd8542cb53d3175f4b5079185',2,X'6607C67E757B05E8F3F05A73CD0AE3E09C50869A6FAC5CD5F47615CF82578C96','image/png',X'89504E4731');
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
INSERT INTO "pin_reset" VALUES(30,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'person','da5546c558704d78b3e5b160889cca32b5c52670c80a03b7251357a3dde9f6df','a8ee10270b8e0dd3f599f7f9d79adabd325b22b0be28022f7f7951fa7d4e28b2');
INSERT INTO "pin_reset" VALUES(62,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'person','00c669b31f3e2ec5a02769dc9a955d78dc910b4e63b3ac36f5b0332f69b51e7b','68873c079d66ae9b56cee6dd931830b8212cd9adba208dc3a43ca59acefabb93');
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
INSERT INTO "practice" VALUES(4,'2026-11-25','2026-11-25T08:00:00.000000Z',1,3,1,'beads','beads/share','abababababababababababababababababababababababababababababababab','852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c',3,'[2,1]','{"answer":"2½ turns"}','{"total":"180"}','{"answer":"right"}','1/2','1','1','f07beeafc2bc1843129a5074fb84cdcd0c4a1d4932bf6e187e468c6e7f2b099e');
INSERT INTO "practice" VALUES(36,'2026-11-25','2026-11-25T08:01:00.000000Z',2,35,2,'beads','beads/share','abababababababababababababababababababababababababababababababab','bb8697858b7229392460122b46ef53bec7178fc9c04110fa11a6b0936f5260d5',3,'[2,1]','{"answer":"2½ turns"}','{"total":"180"}','{"answer":"right"}','1/2','1','1','532350112db4806752c8412c3d2f838579e82ec049fe70008a5bafbf9310fee4');
CREATE TABLE private_text (
  key TEXT PRIMARY KEY CHECK (length(key) = 64),  -- HMAC-SHA-256 of the text under its salt
  person INTEGER REFERENCES person (number),      -- with whom it goes; nothing where it is about nobody
  salt BLOB NOT NULL CHECK (length(salt) = 32),
  body TEXT NOT NULL
) STRICT;
INSERT INTO "private_text" VALUES('bc34223a78d891628b54dba26f8475f95048a43e82e5569389e6450e001d620d',1,X'959FB86711119D8E7FF8092AA8F81C6F6F698F6EE2C514A6DD4F5CA11B3E0A9F','Máire 0');
INSERT INTO "private_text" VALUES('e49bfa9ced305f86489b8a88ed1fc011e7f440f40db69c67bb20f7b2b173fca3',1,X'3A2187F118593BDF82E5E6BF84890A745DD10991B318517768EED6B683A36011','Read by Ann 0');
INSERT INTO "private_text" VALUES('bd2ebffdfed7b00ed75ff17b12f2eeaafb626d96b43d3c8232ded6babca3b553',1,X'AEC72C786660D47FC149D87CA9004F66DFAE9B62633E06FC5CDFA64408232550','asked for more time 0');
INSERT INTO "private_text" VALUES('996444ad915fd427d1012b9329159bc67e7d843fba49cefdc1492228dd59627c',1,X'5F4B119BA85B6B49287C262587D7FFD1871A8F5C56A6264A3F692BF96452C7E4','practised shares 0');
INSERT INTO "private_text" VALUES('7dcbda05d7dd742beabb4b6a3098bed80e0ce64f2ae8998bd7c4380b659eac39',1,X'0BE32DEB7C034CC0E145E388EFA82897B69712D1D4B96C3EF09F4A9B6332616F','reader was broken 0');
INSERT INTO "private_text" VALUES('0940a0e1cb7cc53fa76f7819ee100f94febeb19c63f8bc9405d88e9b4b3fb7f5',1,X'D29ED442D01163660331D5DC96126D029305D23CE853C33EF713297A3332FA9D','maker''s course 0');
INSERT INTO "private_text" VALUES('8e841fc30013f8a632b53dbc5d6c01bdffcd92988af37984727aa397baac658e',1,X'DDA0B61BCEA5133B3802449CA46129081C1DD998360BADBCAEFD59FC32D70360','steady hand 0');
INSERT INTO "private_text" VALUES('a4a6976b8534a701b091e79bd9332b354240aa3c8504f1465fa38634fce6db21',1,X'7CC5707425719C36C0AACBA8642D9FF8B10B3BAEF08D38F73C04719256B03137','moved 0');
INSERT INTO "private_text" VALUES('7244813701b3d1d1d3c1654795bb9bf8a40443c01ea98d678831259904751ea1',1,X'BF577ACCF7E8F737973E52676D7FBD9011A295F56705CF4FB2DF6FD34017C8A7','bond failed 0');
INSERT INTO "private_text" VALUES('d02e8ea22cfdd8559bb7e4bf42eb38d5aa5f37348c8ea67eaa706146ef09e442',1,X'ED75AF679AE1820F99E451612EFDAB771C44D4299D50E35BEFAA95DFA7EFC3DD','trained again 0');
INSERT INTO "private_text" VALUES('3565ad80a8ee5788c0b1a096ec7ea01033cc356432df41fb24d96414b392b22c',1,X'7AF8D2B7537989EBD6229C60374E6BFC7AC09499931D334216C029B75D422544','the scale was off 0');
INSERT INTO "private_text" VALUES('c251ed16169ead8532637b635282fb7d4ee27f96dbbd43a6aef172662c0b76ee',1,X'490B9A9A89DC740C38B694EEBFF9F1BEAC3554E25421340B8265C5DD49E547D5','it was 0');
INSERT INTO "private_text" VALUES('2d98aa306ccb21f190885d452d109a4a73847032b278f67c510df21a00177531',1,X'F4EB3752E19F58605310989D90EA58AA2424F46FF0858091A69EA2CBE4B3653F','wrong givens 0');
INSERT INTO "private_text" VALUES('292520d85fd52325ba3da80c238199f367e761ed124c1d00118e74d0ba3fc5e6',1,X'573235B58B6065CFCF90149CD38B7524B961DEA412747D7CC7C97C8C8579B15A','wrong person 0');
INSERT INTO "private_text" VALUES('5c073069b7af40590a2189ccbd1a617a5f41e499b33b692a9b0f9dc78d0e7f4e',1,X'6AEF35C1C346F9BC4173814BC38C0BF83822FFFF6B0BF24F9275CA4EDA6BB371','in error 0');
INSERT INTO "private_text" VALUES('c299eca04240a38105990015df0accc5bf3caabbc6fe2092dc9f9337161c5bf6',NULL,X'3F50B4E4CE02590BE663BF7242C1225E34D53433E60EA20F1411F38A50D65B2D','back shelf 0');
INSERT INTO "private_text" VALUES('da5546c558704d78b3e5b160889cca32b5c52670c80a03b7251357a3dde9f6df',1,X'DD1AD88744B50C36C2B92905B51D61EA4133D0ACE53B63F5CE228CDDC4606536','forgotten 0');
INSERT INTO "private_text" VALUES('7094cc096f8928f2fb556cb7cdb7960663a2b20b528cf32df06cec2d437f7f18',1,X'FEAB8004DFEA3E4D4EF881F9EBA202F6E49A41D5181E3C7C0B9255AEBEEA1F57','Máire 0');
INSERT INTO "private_text" VALUES('23e9314459cff8feff5d43c36f88e760cb131487e410fdde692fee21fa6ff199',1,X'178E75AE0C82F15A835A32601135FDF1D83186708D084B69D0CC926FD359601C','Máire 0');
INSERT INTO "private_text" VALUES('9107d05557f54f301c0ea71e285becbacd7226a14abf7e650219cb126d5a80a8',2,X'7D3A7E18F73085FB6C40BF4DF0ED3E61800324596B352B1F9A944E434F6E3D69','Máire 1');
INSERT INTO "private_text" VALUES('08585af1e434ab9afcd94661033d06f6a6cc10ff800a8b39be133e8450f2b947',2,X'9CE537556FBE9A40B8A1985E3403A5DF62892C3E542BBEF8D220099423F697F6','Read by Ann 1');
INSERT INTO "private_text" VALUES('b5e66ba0aba43a167402518d1cf14057592f14af8ea0ca9f946762d0194d18aa',2,X'E31F763A2437229E5B1D8D1B205CABA4CD44FEDE3A814AA53C4832D837B218BF','asked for more time 1');
INSERT INTO "private_text" VALUES('bd0295c73279d3ca6ac6b34f0fe53d4c49df66d75423008df958d5d6958ba68c',2,X'11260A04ED53C2E8EC0B75FF2D8CC43966CE81EDC4D595600ADA58DDF4A71E41','practised shares 1');
INSERT INTO "private_text" VALUES('66f026e008d6ed3a1a17e1d4159f2bdcf3d13c2e386621434295fab74495b61e',2,X'23DB1F282325BC5FA5D646E7EBCB1D1657C0FFFFACC8A27DF3122BF5F8FF2EC8','reader was broken 1');
INSERT INTO "private_text" VALUES('d6c0cf90011df8d401bfc4a313e207e82cc9d7e9999896a85a2d5720dfe217ef',2,X'00A63A4C7B4F596F08CB7FE3A123347EB9BB5CFF737E569EF9DDEC3C81A83215','maker''s course 1');
INSERT INTO "private_text" VALUES('8925b89130b9aef9e800a8631524c0e4a6ab08700950bcf28cd83b3b69d8f919',2,X'12265F0644AC14D9C73154EBF8F8967538C7E7798E6F8A6B05A61BCEA05C3A5D','steady hand 1');
INSERT INTO "private_text" VALUES('14aa9361b3b29532c2389b7829a98fd2b8ec1e33bed0554f671d30c8215f85a3',2,X'6E60F24000B724AFA035D82A554251324518B142B2EB0D2CDBF3145169211736','moved 1');
INSERT INTO "private_text" VALUES('54469ef3da510e5f2d52f1d2039fbd220f7970106c956ed97b01cd1e5c35b6fe',2,X'D800627911EA71DB9F0A2CA51E0346D9B7B1FEC6418EB827C8A1EE41AB4F3892','bond failed 1');
INSERT INTO "private_text" VALUES('8f966e58aa87faf89a5d21241369ee34dd55277380e381a0a0a3868dc1eb33ba',2,X'C436ED498AF71BB0BD88AA90AA431AB5F3D5A5FB8FC23E1C835D7F04EDB1E382','trained again 1');
INSERT INTO "private_text" VALUES('29c53f0bf3caf1b5f0bd68c5e3c9ab13cfd537b3ed745c4efbedd6272b3936de',2,X'A6A400854E6E4F7801F2A527FFF65CEB7E28DE640E24C3436B41B5DC9760AEFB','the scale was off 1');
INSERT INTO "private_text" VALUES('a3a31e7390e952152fe574c7c5b6e118361bd9261ee0ae7aef5f2c5a2f1fd0bf',2,X'97C18BF830B375AE4045B2B2EB26994DB8558794753733FBD1216FE01616A773','it was 1');
INSERT INTO "private_text" VALUES('d291aec8b1ecbe0fcb74127a2d8278703cd7f62c93a92fafc264b5aaca959bf7',2,X'92C78135FB6D4AA69B5111D65FDC5F41364C627A632663931E9F8977A3007D62','wrong givens 1');
INSERT INTO "private_text" VALUES('bc5d1c7c5d2de3570d66e5abd22d4f14e824867b41616ee9ee8c0307876e34ae',2,X'6785B34A0ABEA677E0F88FC37ECCE95F57121CE2CD008B5CDA2C1C0D3577899C','wrong person 1');
INSERT INTO "private_text" VALUES('d972bd049dd3b85eceefd71cce90ec7a47ebbbb468e82c7dd263933db2b9b9f8',2,X'9C2782EC730925B19AE391ABB49D60A74B980394F8C6F904EA7D4298298E01CD','in error 1');
INSERT INTO "private_text" VALUES('c002f03f1e9cb46a0b6fda663936ea8f19ff2238d0a42180cde280ea02962d61',NULL,X'2236E37B2CBF3100EF0A01EE954E87A5E62C5B4ECC684DEE0B885D9B1AA4F6F2','back shelf 1');
INSERT INTO "private_text" VALUES('00c669b31f3e2ec5a02769dc9a955d78dc910b4e63b3ac36f5b0332f69b51e7b',2,X'E3671FCB0BC3CBB34B4E62866C2D7874DB905EA3D99D46016103AEA82B628398','forgotten 1');
INSERT INTO "private_text" VALUES('c91e4518fcd1edd2ee6a7d25a9dfc5fe4718bdc115b4c3677338257e3fe1a75c',2,X'00D41012E3E419C54066364F269F4432FAC0DD2BF5AD60C22CF4224657516DBC','Máire 1');
INSERT INTO "private_text" VALUES('eb96570406ec6ec735efc6f2f1cd207785f4f134b0a88fb9489df53068c9169d',2,X'E7B9F3522FA90334DDA897A04DF854E099928A646844ACF8AB0056652C589CCD','Máire 1');
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
INSERT INTO "product_change" VALUES(28,'2026-11-25','2026-11-25T08:00:00.000000Z',1,2,'m1','{}','{}','3298b2038566d4e28baf42b41620a779a628efaa65d8d97e095ab9bf2e7ea885');
INSERT INTO "product_change" VALUES(60,'2026-11-25','2026-11-25T08:01:00.000000Z',2,34,'m1','{}','{}','83a7ab3e665514fbeaefb077f85af274e8052d76e62f2ddc72dccc71518e49e7');
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
INSERT INTO "product_mark" VALUES(29,'2026-11-25','2026-11-25T08:00:00.000000Z',1,28,'large','2027-01-01','6bda847d1766a3c45cc6af8b880ba81d894c8071fe1208af54e61c49b266344f');
INSERT INTO "product_mark" VALUES(61,'2026-11-25','2026-11-25T08:01:00.000000Z',2,60,'large','2027-01-01','57d6f873b508fdbabbb132fc7c29212139fe90683edb0c1b893067d3a74f9506');
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
INSERT INTO "publication" VALUES(2,'2026-11-25','2026-11-25T08:00:00.000000Z',1,'852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c','Shop','[]','ae0413c87cce71bba67b1fa74ba950781f9b04233e1870a89eb5903fec4e70fc');
INSERT INTO "publication" VALUES(34,'2026-11-25','2026-11-25T08:01:00.000000Z',2,'bb8697858b7229392460122b46ef53bec7178fc9c04110fa11a6b0936f5260d5','Shop','[]','67af84a0f9f2c9d4bc103442424ff7d9cb7b55b66b47cb254362e72c1ca27369');
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
INSERT INTO "remark" VALUES(20,'2026-11-25','2026-11-25T08:00:00.000000Z',1,8,5,1,1,'beads/share','852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c','852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c','1/2','1',1,0,1,'2d98aa306ccb21f190885d452d109a4a73847032b278f67c510df21a00177531','0edaacb36c761438f6bfd27ded0b37a54ecd7fff1f934c2a291f4b6b94d144e0');
INSERT INTO "remark" VALUES(52,'2026-11-25','2026-11-25T08:01:00.000000Z',2,40,37,2,1,'beads/share','bb8697858b7229392460122b46ef53bec7178fc9c04110fa11a6b0936f5260d5','bb8697858b7229392460122b46ef53bec7178fc9c04110fa11a6b0936f5260d5','1/2','1',1,0,1,'d291aec8b1ecbe0fcb74127a2d8278703cd7f62c93a92fafc264b5aaca959bf7','33776c288f61aaf0f8392c43482ed65f3690b79b9afafb76ad90f4cac2f5dfeb');
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
INSERT INTO "result" VALUES(8,'2026-11-25','2026-11-25T08:00:00.000000Z',1,5,1,'beads','full',1,0,'21','24','20',0,'2027-11-25','{"lapsing":30}','7999f1e082e3186f132f7eda40bc64ee27a940eb779f1f4611a2e7942c249eed');
INSERT INTO "result" VALUES(40,'2026-11-25','2026-11-25T08:01:00.000000Z',2,37,2,'beads','full',1,0,'21','24','20',0,'2027-11-25','{"lapsing":30}','14b3c04cf2fbaff70afd761c7a3d9de7be06ee1675e4d528732f758e2b933d27');
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
INSERT INTO "sheet" VALUES(12,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'beads','observed','m1','epoxy','2:1','852eede188cb3e62f96408e9815eb6a451827e2a0de1f336a6639406ed62991c','[1,2]','{"shot":"9.6 g"}','{"shot":true}','scale 4, 0.1 g',0,1,11,1,'T-1','2027-11-25','{}','8e841fc30013f8a632b53dbc5d6c01bdffcd92988af37984727aa397baac658e','bfe57f9c751e1fedf0db449fee17dd104c14d55991dd29e26870fe710c7e76b2','9ed16f697c5e0ef559c9358613332880c14d6720e12d5c5f49fc11e25ad84145');
INSERT INTO "sheet" VALUES(44,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'beads','observed','m1','epoxy','2:1','bb8697858b7229392460122b46ef53bec7178fc9c04110fa11a6b0936f5260d5','[1,2]','{"shot":"9.6 g"}','{"shot":true}','scale 4, 0.1 g',0,2,43,1,'T-1','2027-11-25','{}','8925b89130b9aef9e800a8631524c0e4a6ab08700950bcf28cd83b3b69d8f919','82ece1324e74dd2068d14cae3432833fc171e89dd8542cb53d3175f4b5079185','079cefe3462bb224084c5db61444837ed6a8975457b0066863cfa62b68bcd55b');
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
INSERT INTO "signature" VALUES(13,'2026-11-25','2026-11-25T08:00:00.000000Z',1,12,1,11,1,'2027-11-25','{}','c8675f4286bc301a97cc83f8def13754b3827d625f0fb1b7d059a69ff47a44a7');
INSERT INTO "signature" VALUES(45,'2026-11-25','2026-11-25T08:01:00.000000Z',2,44,2,43,1,'2027-11-25','{}','7f4b18eb822e51228d8d4bb3f66ff909014e20394cf62ca72d56e38812cf6b7e');
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
INSERT INTO "stock" VALUES(26,'2026-11-25','2026-11-25T08:00:00.000000Z',1,'counted','m1','north','4.5','A1',NULL,'c299eca04240a38105990015df0accc5bf3caabbc6fe2092dc9f9337161c5bf6','153df69180b9afff55e10b1858dcaf8f7cf04b8b3284dfb63c567ab27517723b');
INSERT INTO "stock" VALUES(58,'2026-11-25','2026-11-25T08:01:00.000000Z',2,'counted','m1','north','4.5','A1',NULL,'c002f03f1e9cb46a0b6fda663936ea8f19ff2238d0a42180cde280ea02962d61','2d4ca4ad95cc260da9e496794e9f20ccf6406cca8687e2f0bc80a278d0270556');
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
INSERT INTO "strike" VALUES(21,'2026-11-25','2026-11-25T08:00:00.000000Z',1,'sheet',12,1,'292520d85fd52325ba3da80c238199f367e761ed124c1d00118e74d0ba3fc5e6','83e7b97854b98356a37977fb661f6442f3f147047d8f84461acc58356545b73d');
INSERT INTO "strike" VALUES(53,'2026-11-25','2026-11-25T08:01:00.000000Z',2,'sheet',44,2,'bc5d1c7c5d2de3570d66e5abd22d4f14e824867b41616ee9ee8c0307876e34ae','59a918e03f3d2ea5bf814a3437a59b171871053225705c23933f89e5eacdfcc5');
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
INSERT INTO "talk" VALUES(9,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'beads',5,'996444ad915fd427d1012b9329159bc67e7d843fba49cefdc1492228dd59627c','976e37388c61616c5c12bd55b1cc353722bafcc7f68d371d871bfe2634efb429');
INSERT INTO "talk" VALUES(41,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'beads',37,'bd0295c73279d3ca6ac6b34f0fe53d4c49df66d75423008df958d5d6958ba68c','c2eb1f20a8be8f5d3a1f995b4618df0a52e88d14e3314c89853d67f862b09702');
CREATE TABLE tip (
  one INTEGER PRIMARY KEY CHECK (one = 1),
  position INTEGER NOT NULL,                      -- number of the last row of evidence
  seal TEXT NOT NULL,
  recorded_at TEXT NOT NULL
) STRICT;
INSERT INTO "tip" VALUES(1,64,'1ab98930269ba1bb9db513aae8f6939fa818dfc04948a095f9ac121fe49c7ad1','2026-11-25T08:01:00.000000Z');
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
INSERT INTO "withdrawal" VALUES(15,'2026-11-25','2026-11-25T08:00:00.000000Z',1,1,'beads','7244813701b3d1d1d3c1654795bb9bf8a40443c01ea98d678831259904751ea1','bff321b77e77dd7fe41f4626755f1e208a6dea4798210cda9411ee03f88709ad');
INSERT INTO "withdrawal" VALUES(47,'2026-11-25','2026-11-25T08:01:00.000000Z',2,2,'beads','54469ef3da510e5f2d52f1d2039fbd220f7970106c956ed97b01cd1e5c35b6fe','817705cead75c8b67e38ecfb323ef30d625c9be0b9b0f64128402d783d8f5c52');
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
INSERT INTO "withdrawal_end" VALUES(16,'2026-11-25','2026-11-25T08:00:00.000000Z',1,15,1,1,'d02e8ea22cfdd8559bb7e4bf42eb38d5aa5f37348c8ea67eaa706146ef09e442','f069a2b5c6796d5d83cf7302aa9d1598529d40120609db20b4d5d403c5351817');
INSERT INTO "withdrawal_end" VALUES(48,'2026-11-25','2026-11-25T08:01:00.000000Z',2,47,2,1,'8f966e58aa87faf89a5d21241369ee34dd55277380e381a0a0a3868dc1eb33ba','9d05ade02e7fc9f72cdade35c7baafcc332d5949a903c97babeb42d1ad14bc13');
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
CREATE INDEX draw_person ON draw (person, skill);
CREATE INDEX practice_person ON practice (person, skill);
CREATE INDEX practice_draw ON practice (draw);
CREATE INDEX form_person ON form (person, skill);
CREATE INDEX answer_form ON answer (form, item);
CREATE INDEX result_person ON result (person, skill);
CREATE INDEX talk_person ON talk (person, skill);
CREATE INDEX lift_person ON lift (person, skill);
CREATE INDEX lift_form ON lift (form);
CREATE INDEX entitlement_person ON entitlement (person, skill);
CREATE INDEX entitlement_end_entitlement ON entitlement_end (entitlement);
CREATE INDEX sheet_person ON sheet (person, skill);
CREATE INDEX signature_sheet ON signature (sheet);
CREATE INDEX withdrawal_person ON withdrawal (person, skill);
CREATE INDEX withdrawal_end_withdrawal ON withdrawal_end (withdrawal);
CREATE INDEX outside_proof_person ON outside_proof (person);
CREATE INDEX appeal_person ON appeal (person);
CREATE INDEX appeal_answer_appeal ON appeal_answer (appeal);
CREATE INDEX remark_result ON remark (result);
CREATE INDEX remark_form ON remark (form);
CREATE INDEX strike_row ON strike (of_row);
CREATE INDEX certificate_person ON certificate (person);
CREATE INDEX certificate_end_certificate ON certificate_end (certificate);
CREATE INDEX job_person ON job (person, done_on);
CREATE INDEX job_ticket ON job (ticket);
CREATE INDEX job_use_job ON job_use (job);
CREATE INDEX job_use_lot_a ON job_use (lot_a);
CREATE INDEX job_use_lot_b ON job_use (lot_b);
CREATE INDEX stock_material ON stock (material, seen_on);
CREATE INDEX product_mark_change ON product_mark (product_change);
CREATE INDEX pin_reset_person ON pin_reset (person);
CREATE INDEX admin_person ON admin (person);
COMMIT;
