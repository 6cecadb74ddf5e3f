-- A workbox of schema 2 as it was written then. Never changed: it stands for users' old files.
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

INSERT INTO revision (only, edits) VALUES (1, 5)

PRAGMA application_id = 1330926411

PRAGMA user_version = 2
