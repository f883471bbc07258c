//! The line that the preview adds at the foot of a page, with the script that asks for news. Both are put into the answer to
//! a browser, never into the file.

use crate::finding::Summary;

/// Where the preview keeps what is its own: the site has no hidden folders, since the notebook's are not read.
pub(super) const OWN: &str = "/.tend/";

/// What the line says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Line<'l> {
    /// The state that the page shows.
    pub(super) mark: &'l str,
    /// How many findings count.
    pub(super) summary: Summary,
    /// Why the page is stale.
    pub(super) stale: Option<&'l str>,
    /// The address of the page as it was saved, where it is not this one.
    pub(super) as_saved: Option<&'l str>,
    /// Why the last save was not pressed.
    pub(super) trouble: Option<&'l str>,
}

/// A page with its line, and the policy that it is to be sent with.
pub(super) fn dressed(page: &str, line: &Line<'_>) -> (String, Option<String>) {
    let (page, policy) = match policy_of(page) {
        // Of two policies the browser obeys both: ours takes the place of the page's.
        Some((from, to, policy)) => {
            let (before, after) = (page.get(..from).unwrap_or(page), page.get(to..).unwrap_or(""));
            (format!("{before}{after}"), Some(widened(&policy)))
        }
        None => (page.to_owned(), None),
    };
    let foot = foot(line);
    let at = page.rfind("</body>").unwrap_or(page.len());
    let (before, after) = page.split_at(at);
    (format!("{before}{foot}{after}"), policy)
}

fn foot(line: &Line<'_>) -> String {
    let (class, text) = if let Some(trouble) = line.trouble {
        (
            "stale",
            format!(
                "Not pressed: {}. What you see is older than your last save.",
                coded(trouble)
            ),
        )
    } else if let Some(why) = line.stale {
        let saved = line.as_saved.map_or_else(String::new, |address| {
            format!(" <a href=\"{}\">See it as it was saved</a>.", escaped(address))
        });
        (
            "stale",
            format!("Stale: this page is as it was before {}.{saved}", coded(why)),
        )
    } else {
        ("fresh", escaped(&said(line.summary)))
    };
    format!(
        "<link rel=\"stylesheet\" href=\"{OWN}tend.css\">\n\
         <div id=\".tend\" lang=\"en\" class=\"tend-{class}\" role=\"status\"><p>{text}</p>\
         <p class=\"tend-stopped\">trayside no longer tends this page.</p></div>\n\
         <script src=\"{OWN}tend.js\" data-mark=\"{}\"></script>\n",
        escaped(line.mark)
    )
}

/// `1 fault, 2 doubts`, or `nothing found`.
fn said(summary: Summary) -> String {
    let counts = [
        (summary.hazard, "hazard"),
        (summary.fault, "fault"),
        (summary.doubt, "doubt"),
        (summary.hint, "hint"),
    ];
    let said: Vec<String> = counts
        .into_iter()
        .filter(|(count, _)| *count > 0)
        .map(|(count, word)| format!("{count} {word}{}", if count == 1 { "" } else { "s" }))
        .collect();
    if said.is_empty() {
        "nothing found".to_owned()
    } else {
        said.join(", ")
    }
}

/// Text for HTML in which pairs of backticks set off what was written.
fn coded(text: &str) -> String {
    let parts: Vec<String> = text.split('`').map(escaped).collect();
    if parts.len().is_multiple_of(2) {
        return escaped(text);
    }
    let set = parts.iter().enumerate().map(|(at, part)| match at % 2 {
        0 => part.clone(),
        _ => format!("<code>{part}</code>"),
    });
    set.collect()
}

/// Text for HTML, within and without quotes.
pub(super) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
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

/// A page's own content security policy: where its element begins and ends, and what it says.
fn policy_of(page: &str) -> Option<(usize, usize, String)> {
    const NAME: &str = "http-equiv=\"Content-Security-Policy\"";
    let head = page.split("</head>").next()?;
    let named = head.find(NAME)?;
    let from = head.get(..named)?.rfind("<meta")?;
    let to = named + head.get(named..)?.find('>')? + 1;
    let rest = head.get(from..to)?.split("content=\"").nth(1)?;
    let policy = rest.split('"').next()?;
    // One that no header can carry stays where it is; the page is then as safe, and hears no news.
    policy.is_ascii().then(|| (from, to, policy.to_owned()))
}

/// The policy with leave for the preview's own script, style and news.
fn widened(policy: &str) -> String {
    let mut directives: Vec<Vec<&str>> = policy
        .split(';')
        .map(|directive| directive.split_whitespace().collect::<Vec<_>>())
        .filter(|words| !words.is_empty())
        .collect();
    for name in ["script-src", "style-src", "connect-src"] {
        match directives.iter_mut().find(|words| words.first() == Some(&name)) {
            Some(words) => {
                words.retain(|word| *word != "'none'");
                if !words.contains(&"'self'") {
                    words.push("'self'");
                }
            }
            None => directives.push(vec![name, "'self'"]),
        }
    }
    let joined: Vec<String> = directives.into_iter().map(|words| words.join(" ")).collect();
    joined.join("; ")
}

#[cfg(test)]
mod tests {
    use super::*;

    const LINE: Line<'_> = Line {
        mark: "00ff",
        summary: Summary {
            hazard: 0,
            fault: 0,
            doubt: 2,
            hint: 0,
        },
        stale: None,
        as_saved: None,
        trouble: None,
    };

    #[test]
    fn the_policy_moves_from_the_page_to_its_answer() {
        let page = "<head><meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'self'\">\
                    <title>a</title></head><body>b</body>";
        let (page, policy) = dressed(page, &LINE);
        assert!(
            page.starts_with("<head><title>a</title></head><body>b<link"),
            "{page}"
        );
        assert!(page.ends_with("</body>") && page.contains("2 doubts"), "{page}");
        assert_eq!(
            policy.unwrap(),
            "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'"
        );
    }

    #[test]
    fn a_policy_is_widened_no_further_than_needed() {
        assert_eq!(
            widened("script-src 'none'; connect-src 'self' data:; style-src"),
            "script-src 'self'; connect-src 'self' data:; style-src 'self'"
        );
    }

    #[test]
    fn what_is_said_is_text() {
        let line = Line {
            stale: Some("a.md:1:2: <script>`'\""),
            as_saved: Some("?as=saved"),
            ..LINE
        };
        let (page, policy) = dressed("<p>", &line);
        assert!(
            page.contains("before a.md:1:2: &lt;script&gt;`&#39;&quot;. <a"),
            "{page}"
        );
        assert_eq!(policy, None);
    }
}
