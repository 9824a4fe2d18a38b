//! tackfree
