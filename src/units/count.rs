//! Counted things in words.

/// `1 client`, `2 clients`.
pub fn counted(count: usize, one: &str, many: &str) -> String {
    let what = if count == 1 { one } else { many };
    format!("{count} {what}")
}

#[cfg(test)]
mod tests {
    use super::counted;

    #[test]
    fn one_is_not_many() {
        assert_eq!(counted(0, "client", "clients"), "0 clients");
        assert_eq!(counted(1, "pass", "passes"), "1 pass");
        assert_eq!(counted(18, "pass", "passes"), "18 passes");
    }
}
