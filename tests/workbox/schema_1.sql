-- A workbox of schema 1 as it was written then. Never changed: it stands for users' old files.
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

INSERT INTO card VALUES (3, 'Harbour', '["code","name","L","a","b","drawer"]')

INSERT INTO thread VALUES (12, 3, 5, 'h2', 'Slate', 41.25, -2.5, -9.75, NULL, 'cotton', 'matt', 6, 8.0, 1.5, 'in', 'B7', 0.4, 'top shelf', '["left"]')

INSERT INTO thread VALUES (11, 3, 9, 'h1', 'Foam', 92.0, -1.0, 2.0, '#e9e8e4', '', '', 4, 10.0, 0.0, '', '', NULL, '', '[]')

PRAGMA application_id = 1330926411

PRAGMA user_version = 1

PRAGMA journal_mode = WAL
