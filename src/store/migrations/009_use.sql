-- Use: passes struck out of learning, can sizes on offer, what the shop mixes itself, and what
-- planning allows for.

-- A pass that teaches nothing of the shop's spread rate. Taken back, its row is gone.
CREATE TABLE pass_struck (
    pass TEXT NOT NULL PRIMARY KEY REFERENCES pass (id),
    reason TEXT NOT NULL CHECK (reason <> '')
) STRICT;

-- A can size that can be bought, beside the one the product is priced by.
CREATE TABLE can_offer (
    product TEXT NOT NULL REFERENCES product (id),
    holds_ul INTEGER NOT NULL CHECK (holds_ul > 0),
    price_cents INTEGER NOT NULL CHECK (price_cents >= 0),
    PRIMARY KEY (product, holds_ul)
) STRICT, WITHOUT ROWID;

-- How the shop mixes a product. parts: as JSON, in the order they go in, amounts in thousandths of
-- a part, densities in g/mL as text.
CREATE TABLE mix (
    product TEXT NOT NULL PRIMARY KEY REFERENCES product (id),
    by TEXT NOT NULL CHECK (by IN ('weight', 'volume')),
    parts TEXT NOT NULL CHECK (json_valid(parts))
) STRICT;

-- One row: what planning allows for, where the shop changed it.
CREATE TABLE use_rules (
    one INTEGER NOT NULL PRIMARY KEY CHECK (one = 1),
    reserve_percent INTEGER NOT NULL CHECK (reserve_percent BETWEEN 0 AND 100),
    loss_percent INTEGER NOT NULL CHECK (loss_percent BETWEEN 0 AND 60),
    bare_percent INTEGER NOT NULL CHECK (bare_percent BETWEEN 30 AND 100),
    scale_mg INTEGER NOT NULL CHECK (scale_mg > 0),
    cup_ul INTEGER NOT NULL CHECK (cup_ul > 0)
) STRICT;
