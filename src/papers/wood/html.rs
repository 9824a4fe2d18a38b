//! HTML of a paper, with everything foreign escaped.

use std::fmt::Write as _;

/// Text fit to stand in HTML, in attributes too.
pub(super) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for sign in text.chars() {
        match sign {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            other => out.push(other),
        }
    }
    out
}

/// A page: its title, lines under it, then headed paragraphs.
pub(super) fn page(title: &str, under: &[String], parts: &[(String, Vec<String>)]) -> String {
    // Writing to a String cannot fail.
    let mut out = String::from(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width\">\n",
    );
    let _ = writeln!(out, "<title>{}</title>", escaped(title));
    out.push_str(
        "<style>body{font:1.1rem/1.5 serif;max-width:40rem;margin:2rem auto;padding:0 1rem}\
         h1{font-size:1.5rem}h2{font-size:1.1rem;margin-bottom:0}p{margin:.3rem 0}</style>\n\
         </head>\n<body>\n",
    );
    let _ = writeln!(out, "<h1>{}</h1>", escaped(title));
    for line in under {
        let _ = writeln!(out, "<p>{}</p>", escaped(line));
    }
    for (heading, sentences) in parts {
        let _ = writeln!(out, "<h2>{}</h2>", escaped(heading));
        for sentence in sentences {
            let _ = writeln!(out, "<p>{}</p>", escaped(sentence));
        }
    }
    out.push_str("</body>\n</html>\n");
    out
}
