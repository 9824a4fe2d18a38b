-- The shop's air: what was read, what is foretold, what the shop has set about drying, and which
-- coats touch tests were made on.
--
-- Air is kept to the whole second, temperature in thousandths of a degree Celsius, relative
-- humidity in tenths of a per cent.

-- One reading. The second is the key, so that the log is read in its order without an index beside
-- it, and no two readings share one. Names are short: every row is written once more as the image
-- of undo, and a logger brings rows by the ten thousand. src: typed by hand, or from a logger.
CREATE TABLE air (
    at INTEGER NOT NULL PRIMARY KEY,
    mc INTEGER NOT NULL,
    rh INTEGER NOT NULL CHECK (rh BETWEEN 0 AND 1000),
    src TEXT NOT NULL CHECK (src IN ('typed', 'logger'))
) STRICT;

-- The typed forecast: from a second up to another.
CREATE TABLE forecast (
    at INTEGER NOT NULL PRIMARY KEY,
    until INTEGER NOT NULL CHECK (until > at),
    mc INTEGER NOT NULL,
    rh INTEGER NOT NULL CHECK (rh BETWEEN 0 AND 1000)
) STRICT;

-- What the shop has set about drying: one row, or none. assumed: the air before the first reading.
CREATE TABLE drying (
    one INTEGER NOT NULL PRIMARY KEY CHECK (one = 1),
    care TEXT NOT NULL CHECK (care IN ('safe', 'strict')),
    cap INTEGER NOT NULL CHECK (cap BETWEEN 1000 AND 1500),
    oil_humidity INTEGER NOT NULL CHECK (oil_humidity IN (0, 1)),
    assumed_mc INTEGER,
    assumed_rh INTEGER CHECK (assumed_rh BETWEEN 0 AND 1000),
    CHECK ((assumed_mc IS NULL) = (assumed_rh IS NULL))
) STRICT;

-- From when touch tests of a product count anew.
CREATE TABLE afresh (
    product TEXT NOT NULL PRIMARY KEY REFERENCES product (id) ON DELETE CASCADE,
    at_ms INTEGER NOT NULL
) STRICT;

-- Which coats a touch test was made on, with their product: the way from a product to its tests.
CREATE TABLE touched (
    touch TEXT NOT NULL REFERENCES event (id) ON DELETE CASCADE,
    coat TEXT NOT NULL REFERENCES event (id) ON DELETE CASCADE,
    product TEXT NOT NULL REFERENCES product (id),
    PRIMARY KEY (touch, coat)
) STRICT, WITHOUT ROWID;
CREATE INDEX touched_by_product ON touched (product, touch);
CREATE INDEX touched_of_coat ON touched (coat);

INSERT INTO touched (touch, coat, product)
SELECT DISTINCT test.id, coat.id, coat.product
FROM event AS test
JOIN event_face AS felt ON felt.event = test.id
JOIN event AS coat ON coat.id = (
    SELECT max(laid.id) FROM event AS laid
    JOIN event_face AS wet ON wet.event = laid.id AND wet.face = felt.face
    WHERE laid.piece = test.piece AND laid.kind = 'coat' AND laid.id < test.id
)
WHERE test.kind = 'touch';
