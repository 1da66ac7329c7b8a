BEGIN IMMEDIATE;
PRAGMA application_id = 1131571554;
PRAGMA user_version = 8;
CREATE TABLE schema_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT schema_version_pkc PRIMARY KEY (version_num)
);
CREATE TABLE setting (
	name TEXT NOT NULL, 
	value TEXT NOT NULL, 
	CONSTRAINT pk_setting PRIMARY KEY (name), 
	CONSTRAINT ck_setting_value_json CHECK (value IS NULL OR json_valid(value))
);
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
CREATE INDEX ix_change_subject ON change (subject);
CREATE TRIGGER change_no_update BEFORE UPDATE ON change BEGIN SELECT RAISE(ABORT, 'what was done stays written down'); END;
CREATE TRIGGER change_no_delete BEFORE DELETE ON change BEGIN SELECT RAISE(ABORT, 'what was done stays written down'); END;
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
CREATE INDEX ix_note_kind ON note (kind);
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
CREATE INDEX ix_cutter_kind ON cutter (kind);
CREATE INDEX ix_cutter_drawer ON cutter (drawer);
CREATE INDEX ix_cutter_thread ON cutter (thread);
CREATE INDEX ix_cutter_diameter_nm ON cutter (diameter_nm);
CREATE INDEX ix_cutter_shank_nm ON cutter (shank_nm);
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
CREATE INDEX ix_cutter_marking ON cutter (marking);
CREATE INDEX ix_cutter_note ON cutter (note);
CREATE INDEX ix_cutter_rest ON cutter (rest);
INSERT INTO schema_version VALUES ('0008');
COMMIT;
