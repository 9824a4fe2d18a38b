//! Every accepted way of writing a quantity, every refusal with its words, and every way of
//! showing it. (Lengths and moments have theirs beside them.)

mod air;
mod liquid;
mod money;

/// Asserts that the refusal reads exactly so.
fn says<T: std::fmt::Debug, E: std::fmt::Display>(result: Result<T, E>, expected: &str) {
    match result {
        Ok(value) => panic!("{value:?} was taken, but should be refused: {expected}"),
        Err(refusal) => assert_eq!(refusal.to_string(), expected),
    }
}
