-- The planning of days: bench hours and step times, changes of single days, the sheet that was
-- kept, the step under way, promises.

-- One row. week, times, interruptions: as JSON, minutes of the day and thousandths of a minute.
CREATE TABLE bench_book (
    one INTEGER NOT NULL PRIMARY KEY CHECK (one = 1),
    week TEXT NOT NULL CHECK (json_valid(week)),
    rack INTEGER CHECK (rack BETWEEN 1 AND 100),
    settle INTEGER NOT NULL CHECK (settle BETWEEN 0 AND 1440),
    settle_scuff INTEGER NOT NULL CHECK (settle_scuff BETWEEN 0 AND 1440),
    keep INTEGER NOT NULL CHECK (keep BETWEEN 0 AND 1440),
    times TEXT NOT NULL CHECK (json_valid(times)),
    interruptions TEXT NOT NULL CHECK (json_valid(interruptions)),
    seed INTEGER NOT NULL CHECK (seed >= 0)
) STRICT;

-- from_min, to_min: minutes after midnight on the shop's wall clock; a day off has none.
CREATE TABLE slot (
    id TEXT NOT NULL PRIMARY KEY,
    day TEXT NOT NULL,
    means TEXT NOT NULL CHECK (means IN ('day-off', 'taken', 'added')),
    from_min INTEGER CHECK (from_min BETWEEN 0 AND 1439),
    to_min INTEGER CHECK (to_min BETWEEN 1 AND 1440),
    what TEXT NOT NULL,
    CHECK ((from_min IS NULL) = (means = 'day-off')),
    CHECK ((to_min IS NULL) = (means = 'day-off')),
    CHECK (from_min < to_min)
) STRICT, WITHOUT ROWID;

-- One row: the sheet kept last, as JSON.
CREATE TABLE kept_sheet (
    one INTEGER NOT NULL PRIMARY KEY CHECK (one = 1),
    day TEXT NOT NULL,
    at_ms INTEGER NOT NULL,
    lines TEXT NOT NULL CHECK (json_valid(lines)),
    jobs TEXT NOT NULL CHECK (json_valid(jobs))
) STRICT;

-- At most one row: one pair of hands.
CREATE TABLE under_way (
    one INTEGER NOT NULL PRIMARY KEY CHECK (one = 1),
    piece TEXT NOT NULL REFERENCES piece (id),
    step TEXT NOT NULL,
    since_ms INTEGER NOT NULL
) STRICT;

-- date, even, nine: days on the shop's calendar; odds: thousandths.
CREATE TABLE promise (
    id TEXT NOT NULL PRIMARY KEY,
    job TEXT NOT NULL REFERENCES job (id),
    at_ms INTEGER NOT NULL,
    date TEXT NOT NULL,
    odds INTEGER NOT NULL CHECK (odds BETWEEN 0 AND 1000),
    even TEXT NOT NULL,
    nine TEXT NOT NULL,
    open_pieces INTEGER NOT NULL CHECK (open_pieces >= 0),
    basis TEXT NOT NULL
) STRICT, WITHOUT ROWID;
