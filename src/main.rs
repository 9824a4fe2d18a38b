//! The program: reads its arguments, opens the store and runs.

fn main() {}
