-- Layout and cutting: the shop's own figures, how each piece will stand, what was accepted.

-- One row. rules: only the checks that the shop changed, by their words; router, lumber: as JSON,
-- lengths in whole nanometres.
CREATE TABLE layout_book (
    one INTEGER NOT NULL PRIMARY KEY CHECK (one = 1),
    rules TEXT NOT NULL CHECK (json_valid(rules)),
    router TEXT NOT NULL CHECK (json_valid(router)),
    lumber TEXT NOT NULL CHECK (json_valid(lumber)),
    page TEXT NOT NULL CHECK (page IN ('a4', 'letter'))
) STRICT;

-- How a piece will stand, as JSON; a piece of which nothing was said has no row.
CREATE TABLE standing (
    piece TEXT NOT NULL PRIMARY KEY REFERENCES piece (id),
    standing TEXT NOT NULL CHECK (json_valid(standing))
) STRICT;

-- A finding the person takes as it is. about: the things it concerns, by their codes.
CREATE TABLE accepted (
    piece TEXT NOT NULL REFERENCES piece (id),
    rule TEXT NOT NULL,
    about TEXT NOT NULL,
    missing_nm INTEGER NOT NULL CHECK (missing_nm >= 0),
    weight TEXT NOT NULL CHECK (weight IN ('note', 'warning', 'serious')),
    reason TEXT NOT NULL CHECK (reason <> ''),
    PRIMARY KEY (piece, rule, about)
) STRICT, WITHOUT ROWID;
