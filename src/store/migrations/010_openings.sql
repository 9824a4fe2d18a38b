-- Openings: what is run along their edges, as `piece` has it for the outside.
--
-- Both columns may be left out, so that row images in the journal from before still go back in: an
-- opening of which nothing is said is square.
ALTER TABLE opening ADD COLUMN profile TEXT NOT NULL DEFAULT 'square' CHECK (profile IN (
    'square', 'eased', 'round_over', 'chamfer', 'ogee', 'cove', 'bullnose'
));
ALTER TABLE opening ADD COLUMN profile_nm INTEGER
    CHECK ((profile_nm IS NULL) = (profile = 'square'));
