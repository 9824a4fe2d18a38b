//! What the system says of files, in words that end in what would do.

use std::io::{Error, ErrorKind};

/// The system's own words without its number.
pub(crate) fn words(error: &Error) -> String {
    let said = error.to_string();
    let words = said.split(" (os error").next().unwrap_or_default();
    words.trim_end_matches('.').to_owned()
}

/// The same, and what would do.
pub(crate) fn said(error: &Error) -> String {
    let cure = match error.kind() {
        ErrorKind::PermissionDenied => "allow it, or name another place",
        ErrorKind::ReadOnlyFilesystem => "name a place on another disk",
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => "free some space and do it again",
        ErrorKind::NotFound => "check how it is written, and that its folder is there",
        ErrorKind::NotADirectory | ErrorKind::IsADirectory | ErrorKind::InvalidFilename => {
            "check how it is written"
        }
        _ => "name another place, or try again",
    };
    format!("{}; {cure}", words(error))
}

#[cfg(test)]
mod tests {
    use super::said;
    use std::io::{Error, ErrorKind};

    #[test]
    fn the_number_goes_and_a_cure_comes() {
        let error = Error::from(ErrorKind::PermissionDenied);
        assert!(said(&error).ends_with("; allow it, or name another place"));
        #[cfg(target_os = "linux")]
        assert_eq!(
            said(&Error::from_raw_os_error(28)),
            "No space left on device; free some space and do it again"
        );
    }
}
