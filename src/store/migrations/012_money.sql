-- Money: the shop's figures for pricing, terms, estimates as given, agreements, change orders,
-- sample boards, invoices, payments, the hours log.
--
-- Amounts are whole cents; shares and rates exact decimals as text; a day is a date of the shop's
-- calendar, YYYY-MM-DD.

-- One row. rate, markups, woods, places, caps as JSON, amounts in it in cents.
CREATE TABLE price_book (
    one INTEGER NOT NULL PRIMARY KEY CHECK (one = 1),
    rate TEXT NOT NULL CHECK (json_valid(rate)),
    confidence TEXT NOT NULL,
    markups TEXT NOT NULL CHECK (json_valid(markups)),
    allowance TEXT NOT NULL,
    minimum_cents INTEGER NOT NULL CHECK (minimum_cents >= 0),
    board_foot_cents INTEGER NOT NULL CHECK (board_foot_cents >= 0),
    woods TEXT NOT NULL CHECK (json_valid(woods)),
    terms_days INTEGER NOT NULL CHECK (terms_days >= 0),
    valid_days INTEGER NOT NULL CHECK (valid_days >= 0),
    places TEXT NOT NULL CHECK (json_valid(places)),
    caps TEXT NOT NULL CHECK (json_valid(caps))
) STRICT;

-- A job of which nothing was said has no row.
CREATE TABLE job_terms (
    job TEXT NOT NULL PRIMARY KEY REFERENCES job (id),
    place TEXT NOT NULL,
    cap TEXT NOT NULL,
    asks_sample INTEGER NOT NULL CHECK (asks_sample IN (0, 1)),
    confidence TEXT
) STRICT;

-- Lines the person added to a job's estimate, in the order of pos. tax: as-place, free, or a rate.
CREATE TABLE job_item (
    job TEXT NOT NULL REFERENCES job_terms (job),
    pos INTEGER NOT NULL CHECK (pos >= 1),
    kind TEXT NOT NULL CHECK (kind IN (
        'shop-work', 'site-work', 'finish', 'lumber', 'bought-in', 'other'
    )),
    what TEXT NOT NULL CHECK (what <> ''),
    count TEXT NOT NULL,
    each_cents INTEGER NOT NULL,
    markup TEXT,
    tax TEXT NOT NULL,
    PRIMARY KEY (job, pos)
) STRICT, WITHOUT ROWID;

-- lines: as JSON, net amounts in cents, each with its tax rate; steps: likely minutes by step.
CREATE TABLE estimate (
    id TEXT NOT NULL PRIMARY KEY,
    job TEXT NOT NULL REFERENCES job (id),
    no INTEGER NOT NULL CHECK (no >= 1),
    given TEXT NOT NULL,
    valid_until TEXT NOT NULL,
    confidence TEXT NOT NULL,
    hour_cents INTEGER NOT NULL CHECK (hour_cents >= 0),
    priced_minutes INTEGER NOT NULL CHECK (priced_minutes >= 0),
    lines TEXT NOT NULL CHECK (json_valid(lines)),
    steps TEXT NOT NULL CHECK (json_valid(steps)),
    UNIQUE (job, no)
) STRICT;

-- parts: the payments as JSON, adding up to net and tax.
CREATE TABLE agreement (
    job TEXT NOT NULL PRIMARY KEY REFERENCES job (id),
    signed_on TEXT NOT NULL,
    signed_by TEXT NOT NULL CHECK (signed_by <> ''),
    signed_at TEXT NOT NULL CHECK (signed_at IN ('home', 'away', 'shop', 'remote')),
    net_cents INTEGER NOT NULL,
    tax_cents INTEGER NOT NULL,
    estimate TEXT REFERENCES estimate (id),
    starts TEXT,
    promised TEXT NOT NULL,
    parts TEXT NOT NULL CHECK (json_valid(parts))
) STRICT;

CREATE TABLE change_order (
    id TEXT NOT NULL PRIMARY KEY,
    job TEXT NOT NULL REFERENCES agreement (job),
    no INTEGER NOT NULL CHECK (no >= 1),
    written TEXT NOT NULL,
    asked_by TEXT NOT NULL,
    what TEXT NOT NULL CHECK (what <> ''),
    net_cents INTEGER NOT NULL,
    tax_cents INTEGER NOT NULL,
    days INTEGER NOT NULL,
    signed_on TEXT,
    signed_by TEXT,
    UNIQUE (job, no),
    CHECK ((signed_on IS NULL) = (signed_by IS NULL))
) STRICT;

CREATE TABLE sample_board (
    id TEXT NOT NULL PRIMARY KEY,
    job TEXT NOT NULL REFERENCES job (id),
    no INTEGER NOT NULL CHECK (no >= 1),
    made TEXT NOT NULL,
    carries TEXT NOT NULL CHECK (carries <> ''),
    light TEXT NOT NULL,
    twin TEXT NOT NULL,
    approved_on TEXT,
    approved_by TEXT,
    UNIQUE (job, no),
    CHECK ((approved_on IS NULL) = (approved_by IS NULL))
) STRICT;

CREATE TABLE invoice (
    id TEXT NOT NULL PRIMARY KEY,
    job TEXT NOT NULL REFERENCES job (id),
    no INTEGER NOT NULL UNIQUE CHECK (no >= 1),
    dated TEXT NOT NULL,
    due TEXT NOT NULL,
    what TEXT NOT NULL,
    amount_cents INTEGER NOT NULL CHECK (amount_cents > 0),
    tax_cents INTEGER NOT NULL
) STRICT;

-- Money given back is below nothing.
CREATE TABLE payment (
    id TEXT NOT NULL PRIMARY KEY,
    job TEXT NOT NULL REFERENCES job (id),
    no INTEGER NOT NULL UNIQUE CHECK (no >= 1),
    paid TEXT NOT NULL,
    amount_cents INTEGER NOT NULL CHECK (amount_cents <> 0),
    invoice TEXT REFERENCES invoice (id),
    how TEXT NOT NULL
) STRICT;

-- running is 1 while the clock runs, else empty: being unique, it lets one clock run and no second.
-- breaks: interruptions as JSON.
CREATE TABLE hours (
    id TEXT NOT NULL PRIMARY KEY,
    job TEXT NOT NULL REFERENCES job (id),
    step TEXT NOT NULL CHECK (step IN (
        'measure', 'make', 'cutout', 'sand', 'sand-edges', 'wipe', 'seal', 'stain', 'topcoat',
        'scuff', 'set', 'travel', 'rework', 'other'
    )),
    started_ms INTEGER NOT NULL,
    ended_ms INTEGER,
    running INTEGER UNIQUE CHECK (running = 1),
    breaks TEXT NOT NULL CHECK (json_valid(breaks)),
    CHECK ((running IS NULL) = (ended_ms IS NOT NULL)),
    CHECK (ended_ms IS NULL OR ended_ms >= started_ms)
) STRICT;

CREATE TABLE hours_piece (
    hours TEXT NOT NULL REFERENCES hours (id),
    piece TEXT NOT NULL REFERENCES piece (id),
    PRIMARY KEY (hours, piece)
) STRICT, WITHOUT ROWID;

CREATE INDEX estimate_of_job ON estimate (job);
CREATE INDEX change_order_of_job ON change_order (job);
CREATE INDEX sample_board_of_job ON sample_board (job);
CREATE INDEX invoice_of_job ON invoice (job);
CREATE INDEX payment_of_job ON payment (job);
CREATE INDEX payment_of_invoice ON payment (invoice);
CREATE INDEX hours_of_job ON hours (job, started_ms);
CREATE INDEX hours_of_piece ON hours_piece (piece);
