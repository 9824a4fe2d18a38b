//! Identifiers of the shop's things.

use crate::coating::id::id_type;

id_type!(
    /// Names a client.
    ClientId
);
id_type!(
    /// Names a job.
    JobId
);
id_type!(
    /// Names a piece.
    PieceId
);
id_type!(
    /// Names a recipe.
    RecipeId
);
id_type!(
    /// Names a pass.
    PassId
);
id_type!(
    /// Names one line of a piece's log; later lines have greater identifiers.
    EventId
);
id_type!(
    /// Names one moisture reading.
    ReadingId
);
id_type!(
    /// Names a wood of the shop's own.
    WoodId
);
id_type!(
    /// Names one can on the shelf.
    CanId
);
id_type!(
    /// Names one line of a can's log.
    CanLineId
);
id_type!(
    /// Names a change of one day's bench hours.
    SlotId
);
id_type!(
    /// Names one promise on record.
    PromiseId
);
id_type!(
    /// Names one estimate as it was given.
    EstimateId
);
id_type!(
    /// Names a change order.
    ChangeId
);
id_type!(
    /// Names an invoice.
    InvoiceId
);
id_type!(
    /// Names a payment.
    PaymentId
);
id_type!(
    /// Names a sample board.
    SampleId
);
id_type!(
    /// Names one entry of the hours log.
    HoursId
);
