-- Wood: moisture readings, the air at the client's, how pieces lie and are held, the shop's own
-- woods, the rule of readiness.
--
-- Moisture contents are whole tenths of a per cent, temperatures whole thousandths of a degree
-- Celsius, humidities whole tenths of a per cent.

-- corrected: whether the meter's figure was corrected for the species; added_tenths: by how much.
CREATE TABLE moisture (
    id TEXT NOT NULL PRIMARY KEY,
    piece TEXT NOT NULL REFERENCES piece (id),
    at_ms INTEGER NOT NULL,
    place TEXT NOT NULL CHECK (place <> ''),
    depth_nm INTEGER CHECK (depth_nm >= 0),
    meter TEXT NOT NULL CHECK (meter IN ('pin', 'pad', 'oven')),
    corrected TEXT NOT NULL CHECK (corrected IN ('not-noted', 'in-meter', 'added')),
    added_tenths INTEGER,
    tenths INTEGER NOT NULL CHECK (tenths BETWEEN 0 AND 2000),
    CHECK ((added_tenths IS NOT NULL) = (corrected = 'added'))
) STRICT;
CREATE INDEX moisture_by_piece ON moisture (piece, at_ms);

-- basis: what is known of the rooms' air: nothing, winter and summer air, a region of the
-- handbook, or the driest and wettest moisture content.
CREATE TABLE site (
    job TEXT NOT NULL PRIMARY KEY REFERENCES job (id),
    basis TEXT NOT NULL CHECK (basis IN ('unknown', 'air', 'region', 'given')),
    winter_mc INTEGER,
    winter_rh_tenths INTEGER CHECK (winter_rh_tenths BETWEEN 0 AND 1000),
    summer_mc INTEGER,
    summer_rh_tenths INTEGER CHECK (summer_rh_tenths BETWEEN 0 AND 1000),
    region TEXT CHECK (region IN ('most', 'dry-southwest', 'damp-warm-coast')),
    driest_tenths INTEGER CHECK (driest_tenths BETWEEN 0 AND 2000),
    wettest_tenths INTEGER CHECK (wettest_tenths BETWEEN driest_tenths AND 2000),
    radiant_floor INTEGER NOT NULL CHECK (radiant_floor IN (0, 1)),
    new_slab INTEGER NOT NULL CHECK (new_slab IN (0, 1)),
    CHECK ((winter_mc IS NOT NULL) = (basis = 'air')),
    CHECK ((winter_rh_tenths IS NOT NULL) = (basis = 'air')),
    CHECK ((summer_mc IS NOT NULL) = (basis = 'air')),
    CHECK ((summer_rh_tenths IS NOT NULL) = (basis = 'air')),
    CHECK ((region IS NOT NULL) = (basis = 'region')),
    CHECK ((driest_tenths IS NOT NULL) = (basis = 'given')),
    CHECK ((wettest_tenths IS NOT NULL) = (basis = 'given'))
) STRICT;

-- wood: its name in the table of woods, empty when the species of the ticket says it. held: where
-- the width is held, as seen from the edge with the gap. situations: words parted by spaces.
CREATE TABLE piece_wood (
    piece TEXT NOT NULL PRIMARY KEY REFERENCES piece (id),
    wood TEXT NOT NULL,
    grain TEXT NOT NULL CHECK (grain IN ('flat', 'quarter', 'mixed', 'unknown')),
    held TEXT NOT NULL CHECK (held IN ('this-edge', 'middle', 'opposite-edge')),
    screw_nm INTEGER NOT NULL CHECK (screw_nm > 0),
    spacing TEXT NOT NULL CHECK (spacing IN ('wide', 'close', 'own')),
    spacing_nm INTEGER CHECK (spacing_nm > 0),
    eight_nm INTEGER NOT NULL CHECK (eight_nm > 0),
    situations TEXT NOT NULL,
    CHECK ((spacing_nm IS NOT NULL) = (spacing = 'own'))
) STRICT;

-- A wood of the shop's own. Shrinkage in whole thousandths of a per cent, change per point of
-- moisture in hundred-millionths, specific gravity in thousandths.
CREATE TABLE own_wood (
    id TEXT NOT NULL PRIMARY KEY,
    name TEXT NOT NULL CHECK (name <> ''),
    botanical TEXT NOT NULL,
    shrink_radial INTEGER,
    shrink_tangential INTEGER,
    change_radial INTEGER,
    change_tangential INTEGER,
    gravity INTEGER,
    source TEXT NOT NULL,
    CHECK ((shrink_radial IS NULL) = (shrink_tangential IS NULL)),
    CHECK ((change_radial IS NULL) = (change_tangential IS NULL)),
    CHECK (shrink_radial IS NOT NULL OR change_radial IS NOT NULL)
) STRICT;

-- The rule by which a piece counts as dry and steady: one row, or none for the usual one.
CREATE TABLE ready_rule (
    one INTEGER NOT NULL PRIMARY KEY CHECK (one = 1),
    days_apart INTEGER NOT NULL CHECK (days_apart > 0),
    within_tenths INTEGER NOT NULL CHECK (within_tenths > 0),
    care_tenths INTEGER NOT NULL,
    stop_tenths INTEGER NOT NULL CHECK (stop_tenths >= care_tenths),
    fresh_days INTEGER NOT NULL CHECK (fresh_days >= 0)
) STRICT;
