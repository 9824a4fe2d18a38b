-- Cans, their logs, and what passes drew from them.
--
-- What is left in a can is in no column: it follows from these rows. held: what was in it when it
-- came. keeps: whole days by the label, from the day it came and from the day it was opened.

CREATE TABLE can (
    id TEXT NOT NULL PRIMARY KEY,
    no INTEGER NOT NULL UNIQUE CHECK (no > 0),
    product TEXT NOT NULL REFERENCES product (id),
    size_ul INTEGER NOT NULL CHECK (size_ul > 0),
    held_ul INTEGER NOT NULL CHECK (held_ul > 0),
    batch TEXT NOT NULL,
    came TEXT NOT NULL CHECK (came IN ('bought', 'mixed')),
    on_day TEXT,
    price_cents INTEGER CHECK (price_cents >= 0),
    mixed_ms INTEGER,
    keeps_sealed INTEGER CHECK (keeps_sealed BETWEEN 0 AND 36500),
    keeps_open INTEGER CHECK (keeps_open BETWEEN 0 AND 36500),
    empty_mg INTEGER CHECK (empty_mg >= 0),
    place TEXT NOT NULL,
    CHECK ((on_day IS NOT NULL) = (came = 'bought')),
    CHECK ((price_cents IS NOT NULL) = (came = 'bought')),
    CHECK ((mixed_ms IS NOT NULL) = (came = 'mixed'))
) STRICT;
CREATE INDEX can_by_product ON can (product);

-- What else happened to a can. Which columns are filled follows from the kind.
CREATE TABLE can_line (
    id TEXT NOT NULL PRIMARY KEY,
    can TEXT NOT NULL REFERENCES can (id),
    at_ms INTEGER NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN (
        'opened', 'weighed', 'jar', 'lost', 'mixed-into', 'discarded', 'moved'
    )),
    mass_mg INTEGER CHECK (mass_mg >= 0),
    volume_ul INTEGER CHECK (volume_ul > 0),
    client TEXT REFERENCES client (id),
    job TEXT REFERENCES job (id),
    into_can TEXT REFERENCES can (id),
    reason TEXT,
    place TEXT,
    CHECK ((mass_mg IS NOT NULL) = (kind = 'weighed')),
    CHECK ((volume_ul IS NOT NULL) = (kind IN ('jar', 'lost', 'mixed-into'))),
    CHECK ((client IS NOT NULL) + (job IS NOT NULL) = (kind = 'jar')),
    CHECK ((into_can IS NOT NULL) = (kind = 'mixed-into')),
    CHECK ((reason IS NOT NULL) = (kind IN ('lost', 'discarded'))),
    CHECK ((place IS NOT NULL) = (kind = 'moved')),
    CHECK (into_can IS NULL OR into_can > can)
) STRICT;
CREATE INDEX can_line_by_can ON can_line (can);
CREATE INDEX can_line_by_client ON can_line (client) WHERE client IS NOT NULL;
CREATE INDEX can_line_by_job ON can_line (job) WHERE job IS NOT NULL;
CREATE INDEX can_line_into ON can_line (into_can) WHERE into_can IS NOT NULL;

-- What a pass took from which can. The volumes of a pass add up to what it used.
CREATE TABLE pass_can (
    pass TEXT NOT NULL REFERENCES pass (id),
    pos INTEGER NOT NULL CHECK (pos >= 0),
    can TEXT NOT NULL REFERENCES can (id),
    used_ul INTEGER NOT NULL CHECK (used_ul >= 0),
    before_mg INTEGER,
    after_mg INTEGER,
    PRIMARY KEY (pass, pos),
    CHECK ((before_mg IS NULL) = (after_mg IS NULL)),
    CHECK (before_mg IS NULL OR before_mg >= after_mg)
) STRICT, WITHOUT ROWID;
CREATE INDEX pass_can_by_can ON pass_can (can);

-- How the product was put on, and what stayed in rag and tray: as weighed and as volume.
ALTER TABLE pass ADD COLUMN method TEXT CHECK (method IN ('wiped', 'brushed', 'sprayed'));
ALTER TABLE pass ADD COLUMN lost_mg INTEGER CHECK (lost_mg > 0);
ALTER TABLE pass ADD COLUMN lost_ul INTEGER
    CHECK (lost_ul > 0 AND (lost_ul IS NULL) = (lost_mg IS NULL));
