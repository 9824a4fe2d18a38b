-- The day's end: what was ticked of its chores, and the days that were closed.
--
-- A day is the date on the shop's calendar, YYYY-MM-DD. Both tables are keyed by what they speak
-- of, so that the same day and chore is one row on any machine.

CREATE TABLE chore (
    day TEXT NOT NULL,
    chore TEXT NOT NULL CHECK (chore IN (
        'oily-rags', 'solvent-rags', 'lacquer-waste', 'finish-dust', 'wood-dust'
    )),
    way TEXT CHECK (way IN ('flat-outdoors', 'water-can')),
    at_ms INTEGER NOT NULL,
    PRIMARY KEY (day, chore),
    CHECK ((way IS NOT NULL) = (chore = 'oily-rags'))
) STRICT, WITHOUT ROWID;

-- reason: why it was closed although oily rags were not logged.
CREATE TABLE day_closed (
    day TEXT NOT NULL PRIMARY KEY,
    at_ms INTEGER NOT NULL,
    reason TEXT
) STRICT, WITHOUT ROWID;
