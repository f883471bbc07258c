//! File names that every system takes: what one of them refuses is written otherwise, always in the same way.
//!
//! Refused are, by one system or another, the characters `< > : " | ? * \` and control characters, a full stop or space
//! at the end, the names of devices, and more than 255 bytes. Source: Microsoft, "Naming Files, Paths, and Namespaces",
//! Windows application development documentation; IEEE Std 1003.1-2017 (POSIX), section 3.170 and `NAME_MAX`.

use unicode_normalization::UnicodeNormalization;

use crate::source::fnv_32;

/// The most bytes of a name: under what file systems take, with room for an ending and for encrypted folders.
const LONGEST: usize = 140;

/// Names of devices, with or without an ending.
const DEVICES: [&str; 4] = ["con", "prn", "aux", "nul"];

/// Endings of files that a site has. A folder of the notebook with such a name may stand where one of them belongs.
const OF_FILES: [&str; 14] = [
    "html",
    "css",
    "js",
    "json",
    "xml",
    "csv",
    "txt",
    "svg",
    "png",
    "jpg",
    "jpeg",
    "ttf",
    "woff2",
    "webmanifest",
];

/// A path whose every part is a name that every system takes. No folder of it has the name of a file.
pub(super) fn safe_path(path: &str) -> String {
    let mut out = String::with_capacity(path.len());
    let mut parts = path.split('/').peekable();
    while let Some(part) = parts.next() {
        if is_safe(part) {
            out.push_str(part);
        } else {
            out.push_str(&safe(part));
        }
        if parts.peek().is_some() {
            out.push_str(if is_like_a_file(part) { "-/" } else { "/" });
        }
    }
    out
}

fn is_like_a_file(name: &str) -> bool {
    name.rsplit_once('.')
        .is_some_and(|(_, ending)| OF_FILES.iter().any(|known| known.eq_ignore_ascii_case(ending)))
}

/// Whether a name is plainly one that every system takes: most are, and of a long log there are many.
fn is_safe(name: &str) -> bool {
    let plain = |byte: u8| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_' | b'.');
    let stem = name.split('.').next().unwrap_or("");
    // Names of devices have three letters, or three and a digit.
    name.bytes().all(plain) && !name.ends_with('.') && name.len() <= LONGEST && !(3..=4).contains(&stem.len())
}

/// A name that every system takes. Of one that is too long its ending stays, and a number tells it from others.
pub fn safe(name: &str) -> String {
    let mut out: String = name
        .chars()
        .map(|c| match c {
            '<' | '>' | ':' | '"' | '|' | '?' | '*' | '\\' | '/' => '-',
            c if c.is_control() => '-',
            c => c,
        })
        .collect();
    if out.ends_with(['.', ' ']) {
        out.push('-');
    }
    let stem = out.split('.').next().unwrap_or("").trim_end();
    if is_device(stem) {
        out.insert(stem.len(), '-');
    }
    if out.len() > LONGEST {
        let (stem, ending) = match out.rsplit_once('.') {
            Some((stem, ending)) if ending.len() < 8 => (stem, format!(".{ending}")),
            _ => (out.as_str(), String::new()),
        };
        let mut end = LONGEST - 16;
        while !stem.is_char_boundary(end) {
            end -= 1;
        }
        let kept = stem.get(..end).unwrap_or("");
        out = format!("{kept}-{:08x}{ending}", fnv_32(name.as_bytes()));
    }
    out
}

fn is_device(stem: &str) -> bool {
    let stem = stem.to_lowercase();
    let numbered = |device: &str| {
        stem.strip_prefix(device).is_some_and(|number| {
            let mut chars = number.chars();
            matches!(
                (chars.next(), chars.next()),
                (Some('0'..='9' | '¹' | '²' | '³'), None)
            )
        })
    };
    DEVICES.contains(&stem.as_str()) || numbered("com") || numbered("lpt")
}

/// What two names have in common that some system cannot tell apart: letters of any case, in any composition.
pub fn alike(path: &str) -> String {
    if path.is_ascii() {
        return path.to_ascii_lowercase();
    }
    let small: String = path.nfc().collect::<String>().to_lowercase();
    small.nfc().collect()
}

/// The path under which a file is written that others may be like: small letters, and where those are not what was
/// written, a number made from that.
pub(super) fn told_apart(path: &str) -> String {
    let safe = safe_path(&alike(path));
    if safe == path {
        return safe;
    }
    let (folder, name) = match safe.rsplit_once('/') {
        Some((folder, name)) => (format!("{folder}/"), name),
        None => (String::new(), safe.as_str()),
    };
    let (stem, ending) = name.rsplit_once('.').unwrap_or((name, ""));
    format!("{folder}{stem}-{:08x}.{ending}", fnv_32(path.as_bytes()))
}

#[cfg(test)]
#[expect(
    clippy::case_sensitive_file_extension_comparisons,
    reason = "what was written is compared with what comes out"
)]
mod tests {
    use super::{alike, safe, safe_path, told_apart};

    #[test]
    fn ordinary_names_stay() {
        for name in [
            "index.html",
            "Tea & soda 50 %.html",
            "写真.html",
            "console.html",
            "com10.html",
            ".hidden",
            "a..b",
        ] {
            assert_eq!(safe(name), name);
        }
        assert_eq!(safe_path("log/2031-05-02.html"), "log/2031-05-02.html");
    }

    #[test]
    fn what_a_system_refuses_is_written_otherwise() {
        for (name, written) in [
            ("con.html", "con-.html"),
            ("Con", "Con-"),
            ("aux .html", "aux- .html"),
            ("LPT9.tar.gz", "LPT9-.tar.gz"),
            ("com¹.html", "com¹-.html"),
            ("what? \"now\": a|b*.html", "what- -now-- a-b-.html"),
            ("end.", "end.-"),
            ("end ", "end -"),
            ("a\u{7}b\\c", "a-b-c"),
        ] {
            assert_eq!(safe(name), written);
            assert_eq!(safe(&safe(name)), written, "{name}");
        }
        assert_eq!(safe_path("nul/a. /b.html"), "nul-/a. -/b.html");
    }

    #[test]
    fn a_folder_does_not_take_the_name_of_a_file() {
        assert_eq!(safe_path("one.html/a.html"), "one.html-/a.html");
        assert_eq!(safe_path("Style.CSS/v1.2/a.html"), "Style.CSS-/v1.2/a.html");
    }

    #[test]
    fn long_names_are_cut_and_stay_apart() {
        let long = |end: &str| format!("{}{end}.html", "ä".repeat(200));
        let (one, other) = (safe(&long("1")), safe(&long("2")));
        assert!(one.len() <= super::LONGEST && one.ends_with(".html"), "{one}");
        assert_ne!(one, other);
    }

    #[test]
    fn pictures_that_differ_in_case_alone_are_told_apart() {
        assert_eq!(told_apart("scans/a.png"), "scans/a.png");
        let (one, other) = (told_apart("scans/A.png"), told_apart("Scans/a.png"));
        assert!(one.starts_with("scans/a-") && one.ends_with(".png"), "{one}");
        assert_ne!(one, other);
        assert_eq!(alike("CAFE\u{301}"), alike("café"));
    }
}
