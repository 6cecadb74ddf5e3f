-- A workbox of schema 4 as it was written then. Never changed: it stands for users' old files.
-- Statements are parted by empty lines.

CREATE TABLE card (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL UNIQUE CHECK (name <> ''),
    columns TEXT NOT NULL
) STRICT

CREATE TABLE thread (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    card INTEGER NOT NULL REFERENCES card (id) ON DELETE CASCADE,
    position INTEGER NOT NULL,
    code TEXT NOT NULL CHECK (code <> ''),
    name TEXT NOT NULL,
    L REAL NOT NULL CHECK (L BETWEEN 0 AND 100),
    a REAL NOT NULL CHECK (a BETWEEN -128 AND 128),
    b REAL NOT NULL CHECK (b BETWEEN -128 AND 128),
    entered TEXT,
    fibre TEXT NOT NULL,
    finish TEXT NOT NULL,
    strands INTEGER NOT NULL CHECK (strands >= 1),
    length_m REAL NOT NULL CHECK (length_m > 0),
    stash REAL NOT NULL CHECK (stash >= 0),
    stock TEXT NOT NULL,
    lot TEXT NOT NULL,
    spread REAL CHECK (spread >= 0),
    note TEXT NOT NULL,
    extra TEXT NOT NULL,
    UNIQUE (card, code)
) STRICT

CREATE TABLE ground (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL CHECK (name <> ''),
    L REAL NOT NULL CHECK (L BETWEEN 0 AND 100),
    a REAL NOT NULL CHECK (a BETWEEN -128 AND 128),
    b REAL NOT NULL CHECK (b BETWEEN -128 AND 128),
    shown TEXT NOT NULL,
    thread_count INTEGER NOT NULL CHECK (thread_count >= 1),
    over_threads INTEGER NOT NULL CHECK (over_threads >= 1),
    weave TEXT NOT NULL
) STRICT

CREATE TABLE setting (
    name TEXT PRIMARY KEY NOT NULL,
    value TEXT NOT NULL
) STRICT, WITHOUT ROWID

CREATE TABLE revision (
    only INTEGER PRIMARY KEY CHECK (only = 1),
    edits INTEGER NOT NULL
) STRICT

INSERT INTO card (id, name, columns) VALUES (3, 'Harbour', '["code","name","L","a","b","stash","drawer"]')

INSERT INTO thread (id, card, position, code, name, L, a, b, entered, fibre, finish, strands, length_m, stash, stock, lot, spread, note, extra) VALUES (12, 3, 0, 'h2', 'Slate', 41.25, -2.5, -9.75, NULL, 'cotton', 'matt', 6, 8.0, 1.5, 'in', 'B7', 0.4, 'top shelf', '["left"]')

INSERT INTO ground (id, name, L, a, b, shown, thread_count, over_threads, weave) VALUES (2, 'Sea mist', 70.5, -3.0, -4.25, '#a5aeb3', 32, 2, 'linen')

INSERT INTO setting (name, value) VALUES ('ground', '2')

INSERT INTO revision (only, edits) VALUES (1, 7)

CREATE TABLE chart (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL UNIQUE CHECK (name <> ''),
    columns INTEGER NOT NULL CHECK (columns BETWEEN 1 AND 2000),
    rows INTEGER NOT NULL CHECK (rows BETWEEN 1 AND 2000),
    stitches INTEGER NOT NULL CHECK (stitches >= 0),
    key_rows INTEGER NOT NULL CHECK (key_rows BETWEEN 0 AND 300),
    key TEXT NOT NULL,
    motifs TEXT NOT NULL,
    lines BLOB NOT NULL
) STRICT

CREATE TABLE chart_band (
    chart INTEGER NOT NULL REFERENCES chart (id) ON DELETE CASCADE,
    band INTEGER NOT NULL CHECK (band >= 0),
    cells BLOB NOT NULL,
    PRIMARY KEY (chart, band)
) STRICT

CREATE TABLE colourway (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    chart INTEGER NOT NULL REFERENCES chart (id) ON DELETE CASCADE,
    name TEXT NOT NULL,
    content TEXT NOT NULL
) STRICT

CREATE INDEX colourway_of_chart ON colourway (chart)

INSERT INTO chart VALUES(1,'Slope',7,5,24,2,'[["#005ac8","0","","S-0","shade \"0\", pale",1,39.29350972175598,12.678255259990692,-64.65593981742859],["#145ac7","1","","S-1","shade \"1\", pale",2,39.49107527732849,13.2769815325737,-63.743509978055954]]','{"edits":[],"step":4,"version":1}',X'000500000000000000030005000100')

INSERT INTO chart_band VALUES(1,0,X'0123000000780163606064F8FF9F014AC2686431181B462354234400D43315F7')

INSERT INTO colourway VALUES(1,1,'Dusk','{"by":"colour"}')

ALTER TABLE ground ADD COLUMN width_mm REAL NOT NULL DEFAULT 0 CHECK (width_mm >= 0)

ALTER TABLE ground ADD COLUMN height_mm REAL NOT NULL DEFAULT 0 CHECK (height_mm >= 0)

ALTER TABLE ground ADD COLUMN photo BLOB

UPDATE ground SET width_mm = 457.2, height_mm = 685.8, photo = X'89504E4700' WHERE id = 2

PRAGMA application_id = 1330926411

PRAGMA user_version = 4
