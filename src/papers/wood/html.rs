//! HTML of a paper, with everything foreign escaped.

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
    let mut out = String::from(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width\">\n",
    );
    out.push_str(&format!("<title>{}</title>\n", escaped(title)));
    out.push_str(
        "<style>body{font:1.1rem/1.5 serif;max-width:40rem;margin:2rem auto;padding:0 1rem}\
         h1{font-size:1.5rem}h2{font-size:1.1rem;margin-bottom:0}p{margin:.3rem 0}</style>\n\
         </head>\n<body>\n",
    );
    out.push_str(&format!("<h1>{}</h1>\n", escaped(title)));
    for line in under {
        out.push_str(&format!("<p>{}</p>\n", escaped(line)));
    }
    for (heading, sentences) in parts {
        out.push_str(&format!("<h2>{}</h2>\n", escaped(heading)));
        for sentence in sentences {
            out.push_str(&format!("<p>{}</p>\n", escaped(sentence)));
        }
    }
    out.push_str("</body>\n</html>\n");
    out
}
