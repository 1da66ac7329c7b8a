PRAGMA application_id = 1131571554;
PRAGMA user_version = 8;
BEGIN TRANSACTION;
CREATE TABLE change (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	at TEXT NOT NULL, 
	who TEXT NOT NULL, 
	what TEXT NOT NULL, 
	subject TEXT NOT NULL, 
	"before" TEXT, 
	"after" TEXT, 
	undoes INTEGER, 
	CONSTRAINT fk_change_undoes_change FOREIGN KEY(undoes) REFERENCES change (id), 
	CONSTRAINT ck_change_before_json CHECK (before IS NULL OR json_valid(before)), 
	CONSTRAINT ck_change_after_json CHECK (after IS NULL OR json_valid(after))
);
INSERT INTO "change" VALUES(1,'2026-11-28T13:30:52+00:00','','take-in','cutter 1',NULL,'{"angle_deg":3.0,"condition":"unknown","count":1,"from":"gift","hand":"right","id":1,"kind":"taper-end-mill","label":"tapered end mill, 3 degrees","material":"unknown","reground":false,"tip_mm":3.175}',NULL);
INSERT INTO "change" VALUES(2,'2026-11-28T13:30:52+00:00','','take-in','cutter 2',NULL,'{"centre_cutting":true,"condition":"unknown","count":1,"diameter_mm":12.7,"flutes":2,"from":"gift","hand":"right","id":2,"kind":"end-mill","label":"1/2 end mill, 2 flutes","length_of_cut_mm":25.4,"material":"hss","overall_length_mm":82.55,"reground":false,"shank_mm":12.7}',NULL);
INSERT INTO "change" VALUES(3,'2026-11-28T13:30:52+00:00','','take-in','cutter 3',NULL,'{"bore_mm":19.05,"condition":"unknown","count":1,"diameter_mm":50.8,"flutes":5,"from":"gift","hand":"right","id":3,"kind":"face-mill","label":"2\" face mill, 5 flutes, 3/4 bore","material":"unknown","reground":false}',NULL);
INSERT INTO "change" VALUES(4,'2026-11-28T13:30:52+00:00','','take-in','cutter 4',NULL,'{"condition":"unknown","count":1,"diameter_mm":63.5,"from":"gift","hand":"right","id":4,"kind":"fly-cutter","label":"2-1/2 fly cutter","material":"unknown","reground":false,"shank_mm":12.7}',NULL);
INSERT INTO "change" VALUES(5,'2026-11-28T13:30:52+00:00','','take-in','cutter 5',NULL,'{"condition":"unknown","count":1,"diameter_mm":15.875,"face_mm":4.7625,"flutes":10,"from":"gift","hand":"right","id":5,"kind":"keyseat-cutter","label":"5/8 x 3/16 keyseat cutter","material":"hss","neck_mm":6.35,"overall_length_mm":57.15,"reach_mm":17.4625,"reground":false,"shank_mm":12.7}',NULL);
INSERT INTO "change" VALUES(6,'2026-11-28T13:30:52+00:00','','take-in','cutter 6',NULL,'{"condition":"unknown","count":1,"diameter_mm":24.60625,"face_mm":9.921875,"flutes":8,"from":"gift","hand":"right","id":6,"kind":"t-slot-cutter","label":"31/32 x 25/64 T-slot cutter","material":"hss","neck_mm":13.49375,"overall_length_mm":87.3125,"reach_mm":30.0,"reground":false,"shank_mm":19.05}',NULL);
INSERT INTO "change" VALUES(7,'2026-11-28T13:30:52+00:00','','take-in','cutter 7',NULL,'{"bore_mm":25.4,"condition":"unknown","count":1,"diameter_mm":76.2,"face_mm":1.5875,"from":"gift","hand":"right","id":7,"kind":"slitting-saw","label":"3 x 1/16 slitting saw, 1 bore","material":"unknown","reground":false}',NULL);
INSERT INTO "change" VALUES(8,'2026-11-28T13:30:52+00:00','','take-in','cutter 8',NULL,'{"bore_mm":25.4,"condition":"unknown","count":1,"diameter_mm":76.2,"face_mm":6.35,"from":"gift","hand":"right","id":8,"kind":"side-cutter","label":"3 x 1/4 side cutter, 1 bore","material":"unknown","reground":false}',NULL);
INSERT INTO "change" VALUES(9,'2026-11-28T13:30:52+00:00','','take-in','cutter 9',NULL,'{"angle_deg":60.0,"condition":"unknown","count":1,"diameter_mm":19.05,"face_mm":7.9375,"flutes":6,"from":"gift","hand":"right","id":9,"kind":"dovetail-cutter","label":"3/4 dovetail cutter, 60 degrees","material":"hss","neck_mm":9.525,"overall_length_mm":60.325,"reach_mm":12.7,"reground":false,"shank_mm":9.525}',NULL);
INSERT INTO "change" VALUES(10,'2026-11-28T13:30:52+00:00','','take-in','cutter 10',NULL,'{"angle_deg":45.0,"bore_mm":25.4,"condition":"unknown","count":1,"diameter_mm":63.5,"face_mm":12.7,"from":"gift","hand":"right","id":10,"kind":"angle-cutter","label":"2-1/2 x 1/2 angle cutter, 45 degrees","material":"hss","reground":false}',NULL);
INSERT INTO "change" VALUES(11,'2026-11-28T13:30:52+00:00','','take-in','cutter 11',NULL,'{"angle_deg":90.0,"condition":"unknown","count":1,"diameter_mm":12.7,"flutes":4,"from":"gift","hand":"right","id":11,"kind":"chamfer-cutter","label":"1/2 chamfer cutter, 90 degrees, 4 flutes","material":"hss","reground":false,"shank_mm":12.7,"tip_mm":1.5875}',NULL);
INSERT INTO "change" VALUES(12,'2026-11-28T13:30:52+00:00','','take-in','cutter 12',NULL,'{"angle_deg":82.0,"condition":"unknown","count":1,"diameter_mm":12.7,"flutes":3,"from":"gift","hand":"right","id":12,"kind":"countersink","label":"1/2 countersink, 82 degrees, 3 flutes","material":"unknown","reground":false}',NULL);
INSERT INTO "change" VALUES(13,'2026-11-28T13:30:52+00:00','','take-in','cutter 13',NULL,'{"condition":"unknown","count":1,"diameter_mm":12.7,"from":"gift","hand":"right","id":13,"kind":"corner-rounding-cutter","label":"1/2 corner-rounding cutter, 1/8 radius","material":"hss","radius_mm":3.175,"reground":false,"shank_mm":12.7,"tip_mm":6.35}',NULL);
INSERT INTO "change" VALUES(14,'2026-11-28T13:30:52+00:00','','take-in','cutter 14',NULL,'{"bore_mm":25.4,"condition":"unknown","count":1,"diameter_mm":57.15,"face_mm":6.35,"from":"gift","hand":"right","id":14,"kind":"form-cutter","label":"2-1/4 x 1/4 form cutter, 1/8 radius","material":"unknown","note":"convex","radius_mm":3.175,"reground":false}',NULL);
INSERT INTO "change" VALUES(15,'2026-11-28T13:30:52+00:00','','take-in','cutter 15',NULL,'{"angle_deg":90.0,"condition":"unknown","count":1,"diameter_mm":12.7,"from":"gift","hand":"right","id":15,"kind":"spot-drill","label":"1/2 spot drill, 90 degrees","material":"unknown","reground":false}',NULL);
INSERT INTO "change" VALUES(16,'2026-11-28T13:30:52+00:00','','take-in','cutter 16',NULL,'{"angle_deg":60.0,"condition":"unknown","count":1,"diameter_mm":7.9375,"from":"gift","hand":"right","id":16,"kind":"centre-drill","label":"5/16 centre drill, 60 degrees","material":"unknown","reground":false,"tip_mm":2.778125}',NULL);
INSERT INTO "change" VALUES(17,'2026-11-28T13:30:52+00:00','','take-in','cutter 17',NULL,'{"condition":"unknown","count":1,"diameter_mm":12.7,"from":"gift","hand":"right","id":17,"kind":"step-drill","label":"1/2 step drill","material":"unknown","reground":false,"tip_mm":3.175}',NULL);
INSERT INTO "change" VALUES(18,'2026-11-28T13:30:52+00:00','','take-in','cutter 18',NULL,'{"condition":"unknown","count":1,"diameter_mm":26.9875,"from":"gift","hand":"right","id":18,"kind":"annular-cutter","label":"1-1/16 annular cutter","material":"unknown","reground":false,"shank_mm":19.05}',NULL);
INSERT INTO "change" VALUES(19,'2026-11-28T13:30:52+00:00','','take-in','cutter 19',NULL,'{"condition":"unknown","count":1,"diameter_mm":6.35,"from":"gift","hand":"right","id":19,"kind":"taper-reamer","label":"1/4 taper reamer","material":"unknown","reground":false}',NULL);
INSERT INTO "change" VALUES(20,'2026-11-28T13:30:52+00:00','','take-in','cutter 20',NULL,'{"condition":"unknown","count":1,"diameter_mm":9.525,"flutes":6,"from":"gift","hand":"right","id":20,"kind":"reamer","label":"3/8 reamer","material":"unknown","reground":false}',NULL);
INSERT INTO "change" VALUES(21,'2026-11-28T13:30:52+00:00','','take-in','cutter 21',NULL,'{"condition":"unknown","count":1,"diameter_mm":10.31875,"from":"gift","hand":"right","id":21,"kind":"counterbore","label":"13/32 counterbore, 17/64 pilot","material":"unknown","pilot_mm":6.746875,"reground":false}',NULL);
INSERT INTO "change" VALUES(22,'2026-11-28T13:30:52+00:00','','take-in','cutter 22',NULL,'{"bore_mm":12.7,"condition":"unknown","count":1,"diameter_mm":50.8,"from":"gift","hand":"right","id":22,"kind":"boring-head","label":"2\" boring head, 1/2 bore","material":"unknown","reground":false}',NULL);
INSERT INTO "change" VALUES(23,'2026-11-28T13:30:52+00:00','','take-in','cutter 23',NULL,'{"condition":"unknown","count":1,"diameter_mm":9.525,"face_mm":1.4,"from":"gift","hand":"right","id":23,"kind":"grooving-bar","label":"3/8 x 1.4 mm grooving bar, holes from .461","length_of_cut_mm":2.0,"material":"hss","min_hole_mm":11.7,"overall_length_mm":76.2,"reach_mm":38.1,"reground":false,"shank_mm":12.7}',NULL);
INSERT INTO "change" VALUES(24,'2026-11-28T13:30:52+00:00','','take-in','cutter 24',NULL,'{"condition":"unknown","count":1,"diameter_mm":12.7,"face_mm":6.35,"from":"gift","hand":"right","id":24,"kind":"trepanning-tool","label":"1/4 x 1/2 trepanning tool, holes from 1-1/2","length_of_cut_mm":6.35,"material":"hss","min_hole_mm":38.1,"reground":false,"shank_mm":12.7}',NULL);
INSERT INTO "change" VALUES(25,'2026-11-28T13:30:52+00:00','','take-in','cutter 25',NULL,'{"condition":"unknown","count":1,"diameter_mm":9.525,"from":"gift","hand":"right","id":25,"kind":"boring-bar","label":"3/8 boring bar, holes from 7/16","material":"unknown","min_hole_mm":11.1125,"reground":false}',NULL);
INSERT INTO "change" VALUES(26,'2026-11-28T13:30:52+00:00','','take-in','cutter 26',NULL,'{"condition":"unknown","count":1,"diameter_mm":12.7,"face_mm":4.7625,"from":"gift","hand":"right","id":26,"kind":"slotting-tool","label":"3/16 x 1/2 slotting tool, holes from 11/16","material":"hss","min_hole_mm":17.4625,"reach_mm":50.8,"reground":false,"shank_mm":12.7}',NULL);
INSERT INTO "change" VALUES(27,'2026-11-28T13:30:52+00:00','','take-in','cutter 27',NULL,'{"condition":"unknown","count":1,"diameter_mm":4.7625,"from":"gift","hand":"right","id":27,"kind":"broach","label":"3/16 broach","material":"unknown","reground":false}',NULL);
INSERT INTO "change" VALUES(28,'2026-11-28T13:30:52+00:00','','take-in','cutter 28',NULL,'{"condition":"unknown","count":1,"diameter_mm":9.525,"from":"gift","hand":"right","id":28,"kind":"blank","label":"3/8 blank, 3 long","material":"unknown","overall_length_mm":76.2,"reground":false}',NULL);
INSERT INTO "change" VALUES(29,'2026-11-28T13:30:52+00:00','','take-in','cutter 29',NULL,'{"condition":"unknown","count":1,"diameter_mm":25.4,"from":"gift","hand":"right","id":29,"kind":"die","label":"1/4-20 die","material":"unknown","reground":false,"thread":"1/4-20"}',NULL);
INSERT INTO "change" VALUES(30,'2026-11-28T13:30:52+00:00','','take-in','cutter 30',NULL,'{"condition":"unknown","count":1,"flutes":4,"from":"gift","hand":"right","id":30,"kind":"tap","label":"1/4-20 tap, plug","material":"unknown","reground":false,"tap_chamfer":"plug","thread":"1/4-20"}',NULL);
INSERT INTO "change" VALUES(31,'2026-11-28T13:30:52+00:00','','take-in','cutter 31',NULL,'{"angle_deg":118.0,"condition":"unknown","count":1,"diameter_mm":5.1054,"from":"gift","hand":"right","id":31,"kind":"drill","label":"#7 drill","material":"unknown","reground":false}',NULL);
INSERT INTO "change" VALUES(32,'2026-11-28T13:30:52+00:00','','amend','cutter 2','{"diameter_mm":12.7,"drawer":null,"known":{"diameter_mm":"stated","nominal_mm":null},"label":"1/2 end mill, 2 flutes","nominal_mm":null,"reground":false,"typed":{}}','{"diameter_mm":null,"drawer":"B2","known":{"diameter_mm":null,"nominal_mm":"stamped"},"label":"5/8 end mill, 2 flutes, reground, not measured","nominal_mm":15.875,"reground":true,"typed":{}}',NULL);
INSERT INTO "change" VALUES(33,'2026-11-28T13:30:52+00:00','','shop','shop','{"arbors":null,"collets_mm":null}','{"arbors":[{"bore_mm":25.4,"flange_mm":44.45}],"collets_mm":[6.35]}',NULL);
INSERT INTO "change" VALUES(34,'2026-11-28T13:30:52+00:00','','hold-back','held-back 1',NULL,'{"text":"½ großer Fräser","why":"no kind"}',NULL);
INSERT INTO "change" VALUES(35,'2026-11-28T13:30:53+00:00','','note hole','note 1',NULL,'{"about":{"cutter":47,"drill_nm":5105400,"hole_nm":5200000},"words":"the #7"}',NULL);
INSERT INTO "change" VALUES(36,'2026-11-28T13:30:53+00:00','','note price','note 2',NULL,'{"about":{"cutter":{"angle_deg":3.0,"kind":"taper-end-mill","tip_nm":3175000},"price":9.5,"seen":"2026-03-01","shipping":6.0,"where":"a list"},"words":"3/8 end mill"}',NULL);
INSERT INTO "change" VALUES(37,'2026-11-28T13:30:53+00:00','','part','part slide',NULL,'{"text":"name = \"slide\"  # ours\nstock = \"6 x 2 x 1\"\n\n[[feature]]\nkind = \"slot\"\nwidth = 1/2\n"}',NULL);
CREATE TABLE "cutter" (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	kind TEXT NOT NULL, 
	count INTEGER NOT NULL, 
	drawer TEXT, 
	condition TEXT NOT NULL, 
	material TEXT NOT NULL, 
	thread TEXT, 
	marking TEXT, 
	note TEXT, 
	diameter_nm BIGINT, 
	nominal_nm BIGINT, 
	face_nm BIGINT, 
	neck_nm BIGINT, 
	neck_fillet_nm BIGINT, 
	reach_nm BIGINT, 
	shank_nm BIGINT, 
	length_of_cut_nm BIGINT, 
	overall_length_nm BIGINT, 
	corner_radius_nm BIGINT, 
	radius_nm BIGINT, 
	tip_nm BIGINT, 
	bore_nm BIGINT, 
	pilot_nm BIGINT, 
	min_hole_nm BIGINT, 
	came_from TEXT, 
	typed TEXT NOT NULL, 
	rest TEXT NOT NULL, version INTEGER DEFAULT 1 NOT NULL CONSTRAINT ck_cutter_version CHECK (version >= 1), 
	CONSTRAINT ck_cutter_kind CHECK (length(kind) > 0), 
	CONSTRAINT ck_cutter_count CHECK ("count" >= 0), 
	CONSTRAINT ck_cutter_diameter CHECK (diameter_nm > 0), 
	CONSTRAINT ck_cutter_nominal CHECK (nominal_nm > 0), 
	CONSTRAINT ck_cutter_condition CHECK (condition IN ('sharp', 'used', 'dull', 'chipped', 'burnt', 'bent', 'unknown')), 
	CONSTRAINT ck_cutter_material CHECK (material IN ('hss', 'cobalt', 'carbide', 'carbide-tipped', 'carbon-steel', 'unknown')), 
	CONSTRAINT ck_cutter_came_from CHECK (came_from IN ('gift', 'purchase', 'made', 'found')), 
	CONSTRAINT ck_cutter_typed_json CHECK (typed IS NULL OR json_valid(typed)), 
	CONSTRAINT ck_cutter_rest_json CHECK (rest IS NULL OR json_valid(rest))
);
INSERT INTO "cutter" VALUES(1,'taper-end-mill',1,NULL,'unknown','unknown',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,3175000,NULL,NULL,NULL,'gift','{"diameter_mm":"1/2"}','{"angle_deg":3.0}',1);
INSERT INTO "cutter" VALUES(2,'end-mill',1,'B2','unknown','hss',NULL,NULL,NULL,NULL,15875000,NULL,NULL,NULL,NULL,12700000,25400000,82550000,NULL,NULL,NULL,NULL,NULL,NULL,'gift','{}','{"centre_cutting":true,"flutes":2,"reground":true}',2);
INSERT INTO "cutter" VALUES(3,'face-mill',1,NULL,'unknown','unknown',NULL,NULL,NULL,50800000,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,19050000,NULL,NULL,'gift','{}','{"flutes":5}',1);
INSERT INTO "cutter" VALUES(4,'fly-cutter',1,NULL,'unknown','unknown',NULL,NULL,NULL,63500000,NULL,NULL,NULL,NULL,NULL,12700000,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'gift','{}','{}',1);
INSERT INTO "cutter" VALUES(5,'keyseat-cutter',1,NULL,'unknown','hss',NULL,NULL,NULL,15875000,NULL,4762500,6350000,NULL,17462500,12700000,NULL,57150000,NULL,NULL,NULL,NULL,NULL,NULL,'gift','{}','{"flutes":10}',1);
INSERT INTO "cutter" VALUES(6,'t-slot-cutter',1,NULL,'unknown','hss',NULL,NULL,NULL,24606250,NULL,9921875,13493750,NULL,30000000,19050000,NULL,87312500,NULL,NULL,NULL,NULL,NULL,NULL,'gift','{}','{"flutes":8}',1);
INSERT INTO "cutter" VALUES(7,'slitting-saw',1,NULL,'unknown','unknown',NULL,NULL,NULL,76200000,NULL,1587500,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,25400000,NULL,NULL,'gift','{}','{}',1);
INSERT INTO "cutter" VALUES(8,'side-cutter',1,NULL,'unknown','unknown',NULL,NULL,NULL,76200000,NULL,6350000,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,25400000,NULL,NULL,'gift','{}','{}',1);
INSERT INTO "cutter" VALUES(9,'dovetail-cutter',1,NULL,'unknown','hss',NULL,NULL,NULL,19050000,NULL,7937500,9525000,NULL,12700000,9525000,NULL,60325000,NULL,NULL,NULL,NULL,NULL,NULL,'gift','{}','{"angle_deg":60.0,"flutes":6}',1);
INSERT INTO "cutter" VALUES(10,'angle-cutter',1,NULL,'unknown','hss',NULL,NULL,NULL,63500000,NULL,12700000,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,25400000,NULL,NULL,'gift','{}','{"angle_deg":45.0}',1);
INSERT INTO "cutter" VALUES(11,'chamfer-cutter',1,NULL,'unknown','hss',NULL,NULL,NULL,12700000,NULL,NULL,NULL,NULL,NULL,12700000,NULL,NULL,NULL,NULL,1587500,NULL,NULL,NULL,'gift','{}','{"angle_deg":90.0,"flutes":4}',1);
INSERT INTO "cutter" VALUES(12,'countersink',1,NULL,'unknown','unknown',NULL,NULL,NULL,12700000,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'gift','{}','{"angle_deg":82.0,"flutes":3}',1);
INSERT INTO "cutter" VALUES(13,'corner-rounding-cutter',1,NULL,'unknown','hss',NULL,NULL,NULL,12700000,NULL,NULL,NULL,NULL,NULL,12700000,NULL,NULL,NULL,3175000,6350000,NULL,NULL,NULL,'gift','{}','{}',1);
INSERT INTO "cutter" VALUES(14,'form-cutter',1,NULL,'unknown','unknown',NULL,NULL,'convex',57150000,NULL,6350000,NULL,NULL,NULL,NULL,NULL,NULL,NULL,3175000,NULL,25400000,NULL,NULL,'gift','{}','{}',1);
INSERT INTO "cutter" VALUES(15,'spot-drill',1,NULL,'unknown','unknown',NULL,NULL,NULL,12700000,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'gift','{}','{"angle_deg":90.0}',1);
INSERT INTO "cutter" VALUES(16,'centre-drill',1,NULL,'unknown','unknown',NULL,NULL,NULL,7937500,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,2778125,NULL,NULL,NULL,'gift','{}','{"angle_deg":60.0}',1);
INSERT INTO "cutter" VALUES(17,'step-drill',1,NULL,'unknown','unknown',NULL,NULL,NULL,12700000,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,3175000,NULL,NULL,NULL,'gift','{}','{}',1);
INSERT INTO "cutter" VALUES(18,'annular-cutter',1,NULL,'unknown','unknown',NULL,NULL,NULL,26987500,NULL,NULL,NULL,NULL,NULL,19050000,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'gift','{}','{}',1);
INSERT INTO "cutter" VALUES(19,'taper-reamer',1,NULL,'unknown','unknown',NULL,NULL,NULL,6350000,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'gift','{}','{}',1);
INSERT INTO "cutter" VALUES(20,'reamer',1,NULL,'unknown','unknown',NULL,NULL,NULL,9525000,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'gift','{}','{"flutes":6}',1);
INSERT INTO "cutter" VALUES(21,'counterbore',1,NULL,'unknown','unknown',NULL,NULL,NULL,10318750,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,6746875,NULL,'gift','{}','{}',1);
INSERT INTO "cutter" VALUES(22,'boring-head',1,NULL,'unknown','unknown',NULL,NULL,NULL,50800000,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,12700000,NULL,NULL,'gift','{}','{}',1);
INSERT INTO "cutter" VALUES(23,'grooving-bar',1,NULL,'unknown','hss',NULL,NULL,NULL,9525000,NULL,1400000,NULL,NULL,38100000,12700000,2000000,76200000,NULL,NULL,NULL,NULL,NULL,11700000,'gift','{}','{}',1);
INSERT INTO "cutter" VALUES(24,'trepanning-tool',1,NULL,'unknown','hss',NULL,NULL,NULL,12700000,NULL,6350000,NULL,NULL,NULL,12700000,6350000,NULL,NULL,NULL,NULL,NULL,NULL,38100000,'gift','{}','{}',1);
INSERT INTO "cutter" VALUES(25,'boring-bar',1,NULL,'unknown','unknown',NULL,NULL,NULL,9525000,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,11112500,'gift','{}','{}',1);
INSERT INTO "cutter" VALUES(26,'slotting-tool',1,NULL,'unknown','hss',NULL,NULL,NULL,12700000,NULL,4762500,NULL,NULL,50800000,12700000,NULL,NULL,NULL,NULL,NULL,NULL,NULL,17462500,'gift','{}','{}',1);
INSERT INTO "cutter" VALUES(27,'broach',1,NULL,'unknown','unknown',NULL,NULL,NULL,4762500,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'gift','{}','{}',1);
INSERT INTO "cutter" VALUES(28,'blank',1,NULL,'unknown','unknown',NULL,NULL,NULL,9525000,NULL,NULL,NULL,NULL,NULL,NULL,NULL,76200000,NULL,NULL,NULL,NULL,NULL,NULL,'gift','{}','{}',1);
INSERT INTO "cutter" VALUES(29,'die',1,NULL,'unknown','unknown','1/4-20',NULL,NULL,25400000,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'gift','{}','{}',1);
INSERT INTO "cutter" VALUES(30,'tap',1,NULL,'unknown','unknown','1/4-20',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'gift','{}','{"flutes":4,"tap_chamfer":"plug"}',1);
INSERT INTO "cutter" VALUES(31,'drill',1,NULL,'unknown','unknown',NULL,NULL,NULL,5105400,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'gift','{}','{"angle_deg":118.0}',1);
CREATE TABLE held_back (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	at TEXT NOT NULL, 
	file TEXT, 
	line INTEGER NOT NULL, 
	text TEXT NOT NULL, 
	why TEXT NOT NULL, 
	help TEXT NOT NULL, beside TEXT CONSTRAINT ck_held_back_beside_json CHECK (beside IS NULL OR json_valid(beside)), 
	CONSTRAINT ck_held_back_line CHECK (line >= 1)
);
INSERT INTO "held_back" VALUES(1,'2026-11-28T13:30:52+00:00','list.csv',3,'½ großer Fräser','no kind','say --kind','{"heading":"what,size","units":"mm"}');
CREATE TABLE note (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	at TEXT NOT NULL, 
	who TEXT NOT NULL, 
	kind TEXT NOT NULL, 
	words TEXT NOT NULL, 
	about TEXT NOT NULL, 
	CONSTRAINT ck_note_kind CHECK (kind IN ('price', 'lent', 'time', 'hole')), 
	CONSTRAINT ck_note_about_json CHECK (json_valid(about))
);
INSERT INTO "note" VALUES(1,'2026-11-28T13:30:53+00:00','','hole','the #7','{"cutter":47,"drill_nm":5105400,"hole_nm":5200000}');
INSERT INTO "note" VALUES(2,'2026-11-28T13:30:53+00:00','','price','3/8 end mill','{"cutter":{"angle_deg":3.0,"kind":"taper-end-mill","tip_nm":3175000},"price":9.5,"seen":"2026-03-01","shipping":6.0,"where":"a list"}');
CREATE TABLE part (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	name TEXT NOT NULL, 
	at TEXT NOT NULL, 
	who TEXT NOT NULL, 
	text TEXT NOT NULL, 
	version INTEGER DEFAULT '1' NOT NULL, 
	CONSTRAINT uq_part_name UNIQUE (name), 
	CONSTRAINT ck_part_name CHECK (length(name) > 0), 
	CONSTRAINT ck_part_version CHECK (version >= 1)
);
INSERT INTO "part" VALUES(1,'slide','2026-11-28T13:30:53+00:00','','name = "slide"  # ours
stock = "6 x 2 x 1"

[[feature]]
kind = "slot"
width = 1/2
',1);
CREATE TABLE question (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	first_at TEXT NOT NULL, 
	at TEXT NOT NULL, 
	who TEXT NOT NULL, 
	kind TEXT NOT NULL, 
	texts TEXT NOT NULL, 
	units TEXT NOT NULL, 
	times INTEGER NOT NULL, 
	answer TEXT NOT NULL, 
	"plan" TEXT NOT NULL, 
	CONSTRAINT uq_question_kind_texts_units UNIQUE (kind, texts, units), 
	CONSTRAINT ck_question_units CHECK (units IN ('in', 'mm')), 
	CONSTRAINT ck_question_times CHECK (times >= 1), 
	CONSTRAINT ck_question_texts_json CHECK (json_valid(texts)), 
	CONSTRAINT ck_question_plan_json CHECK (json_valid(plan))
);
INSERT INTO "question" VALUES(1,'2026-11-28T13:30:53+00:00','2026-11-28T13:30:54+00:00','','slot','{"depth":".250","width":"1/2"}','in',2,'as drawn','{"change":34,"cost":8.5,"currency":"USD","cutters":[1],"minutes":31.0}');
CREATE TABLE schema_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT schema_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "schema_version" VALUES('0008');
CREATE TABLE setting (
	name TEXT NOT NULL, 
	value TEXT NOT NULL, 
	CONSTRAINT pk_setting PRIMARY KEY (name), 
	CONSTRAINT ck_setting_value_json CHECK (value IS NULL OR json_valid(value))
);
INSERT INTO "setting" VALUES('collets_mm','[6.35]');
INSERT INTO "setting" VALUES('arbors','[{"bore_mm":25.4,"flange_mm":44.45}]');
CREATE INDEX ix_change_subject ON change (subject);
CREATE TRIGGER change_no_update BEFORE UPDATE ON change BEGIN SELECT RAISE(ABORT, 'what was done stays written down'); END;
CREATE TRIGGER change_no_delete BEFORE DELETE ON change BEGIN SELECT RAISE(ABORT, 'what was done stays written down'); END;
CREATE INDEX ix_note_kind ON note (kind);
CREATE INDEX ix_cutter_kind ON cutter (kind);
CREATE INDEX ix_cutter_drawer ON cutter (drawer);
CREATE INDEX ix_cutter_thread ON cutter (thread);
CREATE INDEX ix_cutter_diameter_nm ON cutter (diameter_nm);
CREATE INDEX ix_cutter_shank_nm ON cutter (shank_nm);
CREATE INDEX ix_cutter_marking ON cutter (marking);
CREATE INDEX ix_cutter_note ON cutter (note);
CREATE INDEX ix_cutter_rest ON cutter (rest);
DELETE FROM "sqlite_sequence";
INSERT INTO "sqlite_sequence" VALUES('cutter',31);
INSERT INTO "sqlite_sequence" VALUES('change',37);
INSERT INTO "sqlite_sequence" VALUES('held_back',1);
INSERT INTO "sqlite_sequence" VALUES('question',1);
INSERT INTO "sqlite_sequence" VALUES('note',2);
INSERT INTO "sqlite_sequence" VALUES('part',1);
COMMIT;
