-- The first layout of a store.
--
-- Lengths are whole nanometres, areas whole square micrometres, volumes whole microlitres, masses
-- whole milligrams, money whole cents, moments whole milliseconds UTC since 1970, days
-- YYYY-MM-DD, identifiers UUIDs in lower case with hyphens. There is no REAL column, so that a row
-- written out as JSON and read back is the same row.

-- The shop's settings: one row.
CREATE TABLE setting (
    one INTEGER NOT NULL PRIMARY KEY CHECK (one = 1),
    shop_name TEXT NOT NULL,
    shop_address TEXT NOT NULL,
    length TEXT NOT NULL CHECK (length IN ('Sixteenths', 'ThirtySeconds', 'Millimetres')),
    temperature TEXT NOT NULL CHECK (temperature IN ('Fahrenheit', 'Celsius')),
    volume TEXT NOT NULL CHECK (volume IN ('FluidOunces', 'Millilitres')),
    zone TEXT NOT NULL,
    look TEXT NOT NULL CHECK (look IN ('auto', 'dark', 'light', 'plain'))
) STRICT;

CREATE TABLE client (
    id TEXT NOT NULL PRIMARY KEY,
    name TEXT NOT NULL,
    phone TEXT NOT NULL,
    email TEXT NOT NULL,
    address TEXT NOT NULL,
    notes TEXT NOT NULL
) STRICT;

CREATE TABLE job (
    id TEXT NOT NULL PRIMARY KEY,
    no INTEGER NOT NULL UNIQUE CHECK (no >= 0),
    client TEXT NOT NULL REFERENCES client (id),
    title TEXT NOT NULL,
    site TEXT NOT NULL,
    house_built INTEGER,
    promised TEXT,
    notes TEXT NOT NULL,
    taken TEXT NOT NULL
) STRICT;
CREATE INDEX job_by_client ON job (client);

-- label: the figures on the can as JSON, its decimals written as text.
CREATE TABLE product (
    id TEXT NOT NULL PRIMARY KEY,
    name TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('wipe', 'sealer', 'stain', 'topcoat')),
    family TEXT NOT NULL,
    basis TEXT NOT NULL CHECK (basis IN ('label', 'family-range')),
    label TEXT NOT NULL CHECK (json_valid(label)),
    can_ul INTEGER NOT NULL,
    price_cents INTEGER NOT NULL
) STRICT;

-- schedule: the finish schedule as JSON.
CREATE TABLE recipe (
    id TEXT NOT NULL PRIMARY KEY,
    name TEXT NOT NULL,
    schedule TEXT NOT NULL CHECK (json_valid(schedule))
) STRICT;

-- schedule: the piece's own copy, from the moment work started.
CREATE TABLE piece (
    id TEXT NOT NULL PRIMARY KEY,
    job TEXT NOT NULL REFERENCES job (id),
    no INTEGER NOT NULL CHECK (no >= 0),
    name TEXT NOT NULL,
    kind TEXT NOT NULL,
    species TEXT NOT NULL,
    construction TEXT NOT NULL
        CHECK (construction IN ('face_grain', 'edge_grain', 'end_grain', 'solid_slab')),
    outline TEXT NOT NULL CHECK (outline IN ('rectangle', 'circle')),
    length_nm INTEGER,
    width_nm INTEGER,
    diameter_nm INTEGER,
    thickness_nm INTEGER NOT NULL,
    profile TEXT NOT NULL CHECK (profile IN ('square', 'eased', 'round_over', 'chamfer')),
    profile_nm INTEGER,
    band_nm INTEGER,
    recipe TEXT NOT NULL REFERENCES recipe (id),
    schedule TEXT CHECK (schedule IS NULL OR json_valid(schedule)),
    stage TEXT NOT NULL CHECK (stage IN ('sanding', 'sealing', 'staining', 'topcoats', 'set')),
    finished INTEGER NOT NULL CHECK (finished IN (0, 1)),
    UNIQUE (job, no),
    CHECK ((length_nm IS NOT NULL) = (outline = 'rectangle')),
    CHECK ((width_nm IS NOT NULL) = (outline = 'rectangle')),
    CHECK ((diameter_nm IS NOT NULL) = (outline = 'circle')),
    CHECK ((profile_nm IS NULL) = (profile = 'square'))
) STRICT;
CREATE INDEX piece_by_recipe ON piece (recipe);
CREATE INDEX piece_open ON piece (job, no) WHERE finished = 0;

CREATE TABLE opening (
    piece TEXT NOT NULL REFERENCES piece (id),
    kind TEXT NOT NULL CHECK (kind IN ('cutout', 'hole')),
    no INTEGER NOT NULL CHECK (no BETWEEN 1 AND 255),
    pos INTEGER NOT NULL,
    x_nm INTEGER NOT NULL,
    y_nm INTEGER NOT NULL,
    width_nm INTEGER,
    depth_nm INTEGER,
    corner_nm INTEGER,
    diameter_nm INTEGER,
    PRIMARY KEY (piece, kind, no),
    CHECK ((width_nm IS NOT NULL) = (kind = 'cutout')),
    CHECK ((depth_nm IS NOT NULL) = (kind = 'cutout')),
    CHECK ((corner_nm IS NOT NULL) = (kind = 'cutout')),
    CHECK ((diameter_nm IS NOT NULL) = (kind = 'hole'))
) STRICT, WITHOUT ROWID;

-- One product applied once, in one go.
CREATE TABLE pass (
    id TEXT NOT NULL PRIMARY KEY,
    kind TEXT NOT NULL CHECK (kind IN ('seal', 'stain', 'topcoat')),
    product TEXT NOT NULL REFERENCES product (id),
    started_ms INTEGER NOT NULL,
    ended_ms INTEGER NOT NULL,
    used_ul INTEGER NOT NULL,
    basis TEXT NOT NULL CHECK (basis IN ('estimated', 'measured', 'weighed')),
    before_mg INTEGER,
    after_mg INTEGER,
    air_mc INTEGER,
    air_rh_tenths INTEGER CHECK (air_rh_tenths BETWEEN 0 AND 1000),
    CHECK ((before_mg IS NOT NULL) = (basis = 'weighed')),
    CHECK ((after_mg IS NOT NULL) = (basis = 'weighed')),
    CHECK ((air_mc IS NULL) = (air_rh_tenths IS NULL))
) STRICT;
CREATE INDEX pass_by_product ON pass (product);

-- One line of a piece's log. Which columns are filled follows from its kind.
CREATE TABLE event (
    id TEXT NOT NULL PRIMARY KEY,
    piece TEXT NOT NULL REFERENCES piece (id),
    at_ms INTEGER NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN (
        'tick', 'untick', 'wipe', 'coat', 'wipe-off', 'scuff', 'touch', 'sand-back',
        'not-exposed', 'exposed', 'reshaped', 'moved', 'set-list'
    )),
    grit INTEGER CHECK (grit BETWEEN 0 AND 65535),
    pass TEXT REFERENCES pass (id),
    coat TEXT CHECK (coat IN ('seal', 'stain', 'topcoat')),
    product TEXT REFERENCES product (id),
    started_ms INTEGER,
    used_ul INTEGER,
    means TEXT CHECK (means IN ('fine-paper', 'pad', 'brown-paper')),
    verdict TEXT CHECK (verdict IN (
        'still-soft', 'touch-dry', 'tack-free', 'dry-to-recoat', 'dry-to-handle'
    )),
    reason TEXT,
    from_stage TEXT CHECK (from_stage IN ('sanding', 'sealing', 'staining', 'topcoats', 'set')),
    to_stage TEXT CHECK (to_stage IN ('sanding', 'sealing', 'staining', 'topcoats', 'set')),
    item TEXT CHECK (item IN (
        'dry-fit', 'field-cuts', 'masked', 'sealant', 'clips', 'slots', 'care-sheet'
    )),
    done INTEGER CHECK (done IN (0, 1)),
    CHECK ((grit IS NOT NULL) = (kind IN ('tick', 'untick', 'sand-back') OR means IS 'fine-paper')),
    CHECK ((pass IS NOT NULL) = (kind = 'coat')),
    CHECK ((coat IS NOT NULL) = (kind = 'coat')),
    CHECK ((product IS NOT NULL) = (kind = 'coat')),
    CHECK ((started_ms IS NOT NULL) = (kind = 'coat')),
    CHECK ((used_ul IS NOT NULL) = (kind = 'coat')),
    CHECK ((means IS NOT NULL) = (kind = 'scuff')),
    CHECK ((verdict IS NOT NULL) = (kind = 'touch')),
    CHECK ((reason IS NOT NULL) = (kind IN ('sand-back', 'not-exposed'))),
    CHECK ((from_stage IS NOT NULL) = (kind = 'moved')),
    CHECK ((to_stage IS NOT NULL) = (kind = 'moved')),
    CHECK ((item IS NOT NULL) = (kind = 'set-list')),
    CHECK ((done IS NOT NULL) = (kind = 'set-list'))
) STRICT;
CREATE INDEX event_by_piece ON event (piece, id);
CREATE INDEX event_of_coat ON event (piece, pass) WHERE pass IS NOT NULL;
CREATE INDEX event_by_pass ON event (pass) WHERE pass IS NOT NULL;
-- When pieces were finished: the last line of their set lists.
CREATE INDEX event_of_set_list ON event (at_ms, piece) WHERE kind = 'set-list';
CREATE INDEX event_by_product ON event (product) WHERE product IS NOT NULL;

-- The faces of a log line, in order. area_um2 only for coats; gone only for faces that a change of
-- shape took away.
CREATE TABLE event_face (
    event TEXT NOT NULL REFERENCES event (id),
    pos INTEGER NOT NULL CHECK (pos >= 0),
    face TEXT NOT NULL,
    area_um2 INTEGER,
    gone INTEGER NOT NULL CHECK (gone IN (0, 1)),
    PRIMARY KEY (event, pos)
) STRICT, WITHOUT ROWID;

-- What was done, in plain words. undone: 0 in force, 1 undone and can be done again, 2 undone and
-- left behind by something newer. target: the action that an undo or a redo was about.
CREATE TABLE journal (
    no INTEGER NOT NULL PRIMARY KEY,
    at_ms INTEGER NOT NULL,
    words TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('start', 'do', 'undo', 'redo')),
    target INTEGER REFERENCES journal (no),
    undone INTEGER NOT NULL CHECK (undone IN (0, 1, 2)),
    CHECK ((target IS NULL) = (kind IN ('start', 'do'))),
    CHECK (undone = 0 OR kind = 'do')
) STRICT;
CREATE INDEX journal_in_force ON journal (no) WHERE kind = 'do' AND undone = 0;
CREATE INDEX journal_again ON journal (no) WHERE undone = 1;

-- The rows an action touched, before and after, as JSON objects; written by triggers alone. key:
-- JSON array of the row's primary key.
CREATE TABLE image (
    journal INTEGER NOT NULL REFERENCES journal (no) DEFERRABLE INITIALLY DEFERRED,
    pos INTEGER NOT NULL,
    tbl TEXT NOT NULL,
    key TEXT NOT NULL,
    before TEXT,
    after TEXT,
    PRIMARY KEY (journal, pos),
    CHECK (before IS NOT NULL OR after IS NOT NULL)
) STRICT;

-- The number of the action now being written; empty between actions, so that no write can escape
-- the journal.
CREATE TABLE pen (
    one INTEGER NOT NULL PRIMARY KEY CHECK (one = 1),
    journal INTEGER
) STRICT;
INSERT INTO pen (one, journal) VALUES (1, NULL);
