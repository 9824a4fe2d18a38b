-- Shapes: more outlines, more edge profiles, a band round the openings, what an opening is for.
--
-- The checks of `piece` and `opening` change, which SQLite does only by making the table anew: the
-- twelve steps of its page on ALTER TABLE, the foreign keys being off and checked afterwards by
-- whoever runs this. What else is in the database and points at `piece` keeps pointing at it,
-- since the new table takes the old one's name after the old one is gone. Row images in the
-- journal from before know nothing of the new columns; all of them may be left out.

-- form: the outline as JSON, lengths in whole nanometres, where length, width and diameter do not
-- say it. band_round: whether the band goes round the openings too.
CREATE TABLE new_piece (
    id TEXT NOT NULL PRIMARY KEY,
    job TEXT NOT NULL REFERENCES job (id),
    no INTEGER NOT NULL CHECK (no >= 0),
    name TEXT NOT NULL,
    kind TEXT NOT NULL,
    species TEXT NOT NULL,
    construction TEXT NOT NULL
        CHECK (construction IN ('face_grain', 'edge_grain', 'end_grain', 'solid_slab')),
    outline TEXT NOT NULL CHECK (outline IN (
        'rectangle', 'circle', 'oval', 'cornered', 'l', 'u', 'quad', 'live'
    )),
    length_nm INTEGER,
    width_nm INTEGER,
    diameter_nm INTEGER,
    thickness_nm INTEGER NOT NULL,
    profile TEXT NOT NULL CHECK (profile IN (
        'square', 'eased', 'round_over', 'chamfer', 'ogee', 'cove', 'bullnose'
    )),
    profile_nm INTEGER,
    band_nm INTEGER,
    recipe TEXT NOT NULL REFERENCES recipe (id),
    schedule TEXT CHECK (schedule IS NULL OR json_valid(schedule)),
    stage TEXT NOT NULL CHECK (stage IN ('sanding', 'sealing', 'staining', 'topcoats', 'set')),
    finished INTEGER NOT NULL CHECK (finished IN (0, 1)),
    form TEXT CHECK (form IS NULL OR json_valid(form)),
    band_round INTEGER NOT NULL DEFAULT 0 CHECK (band_round IN (0, 1)),
    UNIQUE (job, no),
    CHECK ((length_nm IS NOT NULL) = (outline = 'rectangle')),
    CHECK ((width_nm IS NOT NULL) = (outline = 'rectangle')),
    CHECK ((diameter_nm IS NOT NULL) = (outline = 'circle')),
    CHECK ((form IS NULL) = (outline IN ('rectangle', 'circle'))),
    CHECK ((profile_nm IS NULL) = (profile = 'square')),
    CHECK (band_round = 0 OR band_nm IS NOT NULL)
) STRICT;
INSERT INTO new_piece (id, job, no, name, kind, species, construction, outline, length_nm,
    width_nm, diameter_nm, thickness_nm, profile, profile_nm, band_nm, recipe, schedule, stage,
    finished)
SELECT id, job, no, name, kind, species, construction, outline, length_nm,
    width_nm, diameter_nm, thickness_nm, profile, profile_nm, band_nm, recipe, schedule, stage,
    finished
FROM piece;
DROP TABLE piece;
ALTER TABLE new_piece RENAME TO piece;
CREATE INDEX piece_by_recipe ON piece (recipe);
CREATE INDEX piece_open ON piece (job, no) WHERE finished = 0;

-- What an opening is for, as JSON, lengths in whole nanometres; empty where it was not said.
ALTER TABLE opening ADD COLUMN purpose TEXT CHECK (purpose IS NULL OR json_valid(purpose));
