//! Dates as they are written in a notebook: RFC 3339, or a civil date with or without a time, in the notebook's zone.

use std::ops::Range;

use jiff::civil::{Date, DateTime};
use jiff::tz::{AmbiguousOffset, TimeZone};
use jiff::{Timestamp, ZonedDateTime};

use crate::finding::{Grade, Slug, slug};

/// A date, and a time where one was given.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct When {
    /// The moment; for a bare date the start of its day.
    pub at: ZonedDateTime,
    /// Whether a time of day was given.
    pub timed: bool,
    /// As it was written.
    pub written: String,
}

impl When {
    /// The instant.
    pub fn instant(&self) -> Timestamp {
        self.at.timestamp()
    }

    /// The instant as RFC 3339 text with its offset.
    pub fn rfc3339(&self) -> String {
        self.at.strftime("%Y-%m-%dT%H:%M:%S%:z").to_string()
    }
}

/// What is wrong with a written date.
pub(super) struct Mistake {
    pub(super) at: Range<usize>,
    pub(super) rule: Slug,
    pub(super) grade: Grade,
    pub(super) message: String,
    pub(super) help: Option<String>,
}

/// What came of reading a date.
pub(super) struct Reading {
    pub(super) when: Option<When>,
    pub(super) mistake: Option<Mistake>,
    /// Whether a zone was needed and none was given.
    pub(super) needs_zone: bool,
}

/// Reads a date. Without a zone, a civil date is taken in UTC and `needs_zone` says so.
pub(super) fn read(text: &str, zone: Option<&TimeZone>) -> Reading {
    let words = text.trim();
    let at = text.find(words).unwrap_or(0);
    let all = at..at + words.len();
    if let Some(when) = with_offset(words) {
        return Reading {
            when: Some(when),
            mistake: None,
            needs_zone: false,
        };
    }
    let Some((civil, timed)) = civil(words) else {
        let mistake = Mistake {
            at: all,
            rule: slug::DATE_MALFORMED,
            grade: Grade::Fault,
            message: format!("`{words}` is no date"),
            help: Some("write a date such as `2031-05-02`, or with its time `2031-05-02 19:30`".to_owned()),
        };
        return Reading {
            when: None,
            mistake: Some(mistake),
            needs_zone: false,
        };
    };
    let fallback = TimeZone::UTC;
    let in_zone = zone.unwrap_or(&fallback);
    let ambiguous = in_zone.to_ambiguous_zoned_datetime(civil);
    let mistake = timed
        .then(|| match ambiguous.offset() {
            AmbiguousOffset::Unambiguous { .. } => None,
            AmbiguousOffset::Gap { .. } => Some(Mistake {
                at: all.clone(),
                rule: slug::TIME_SKIPPED,
                grade: Grade::Fault,
                message: format!("the clocks went forward: there was no `{words}` in this zone"),
                help: Some(
                    "write the time that the clock showed, or give the offset: `2031-03-30T02:30:00+01:00`"
                        .to_owned(),
                ),
            }),
            AmbiguousOffset::Fold { before, after } => Some(Mistake {
                at: all.clone(),
                rule: slug::TIME_DOUBLED,
                grade: Grade::Doubt,
                message: format!("the clocks went back: `{words}` came twice, the first is taken"),
                help: Some(format!(
                    "give the offset: `{before}` for the first, `{after}` for the second"
                )),
            }),
        })
        .flatten();
    let skipped = mistake
        .as_ref()
        .is_some_and(|mistake| mistake.rule == slug::TIME_SKIPPED);
    let when = (!skipped)
        .then(|| ambiguous.compatible().ok())
        .flatten()
        .map(|at| When {
            at,
            timed,
            written: words.to_owned(),
        });
    Reading {
        when,
        mistake,
        needs_zone: zone.is_none(),
    }
}

/// RFC 3339 with an offset or `Z`; the offset is kept.
fn with_offset(words: &str) -> Option<When> {
    let pieces = jiff::fmt::temporal::Pieces::parse(words).ok()?;
    let offset = pieces.to_numeric_offset()?;
    let at = pieces
        .date()
        .to_datetime(pieces.time()?)
        .to_zoned_datetime(TimeZone::fixed(offset))
        .ok()?;
    Some(When {
        at,
        timed: true,
        written: words.to_owned(),
    })
}

/// A civil date, and whether it had a time of day.
fn civil(words: &str) -> Option<(DateTime, bool)> {
    let day = words.get(..10)?;
    let shaped = day.bytes().enumerate().all(|(at, byte)| match at {
        4 | 7 => byte == b'-',
        _ => byte.is_ascii_digit(),
    });
    if !shaped {
        return None;
    }
    let date: Date = day.parse().ok()?;
    let rest = words.get(10..)?;
    if rest.is_empty() {
        return Some((date.at(0, 0, 0, 0), false));
    }
    let clock = rest.strip_prefix([' ', 'T'])?.trim();
    let time = clock_time(clock)?;
    Some((date.to_datetime(time), true))
}

/// A time of day such as `19:30` or `19:30:05`.
pub(super) fn clock_time(words: &str) -> Option<jiff::civil::Time> {
    let mut parts = words.split(':');
    let hour = two_digits(parts.next()?)?;
    let minute = two_digits(parts.next()?)?;
    let second = parts.next().map_or(Some(0), two_digits)?;
    if parts.next().is_some() {
        return None;
    }
    jiff::civil::Time::new(hour, minute, second, 0).ok()
}

fn two_digits(words: &str) -> Option<i8> {
    let plain = matches!(words.len(), 1 | 2) && words.bytes().all(|byte| byte.is_ascii_digit());
    plain.then(|| words.parse().ok()).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn berlin() -> TimeZone {
        TimeZone::get("Europe/Berlin").unwrap()
    }

    fn instant(text: &str) -> String {
        read(text, Some(&berlin())).when.unwrap().rfc3339()
    }

    #[test]
    fn dates_are_in_the_zone_of_the_notebook() {
        assert_eq!(instant("2031-05-02 19:30"), "2031-05-02T19:30:00+02:00");
        assert_eq!(instant("2031-01-02"), "2031-01-02T00:00:00+01:00");
        assert_eq!(instant("2031-05-02T19:30:00Z"), "2031-05-02T19:30:00+00:00");
        assert_eq!(instant("2031-05-02T19:30:00-03:30"), "2031-05-02T19:30:00-03:30");
    }

    // The European Union's summer time begins and ends at 01:00 UTC on the last Sundays of March and October:
    // Directive 2000/84/EC, articles 2 and 3.
    #[test]
    fn the_clock_change_is_seen() {
        let skipped = read("2025-03-30 02:30", Some(&berlin()));
        assert_eq!(skipped.mistake.unwrap().rule, slug::TIME_SKIPPED);
        assert!(skipped.when.is_none());
        let doubled = read("2025-10-26 02:30", Some(&berlin()));
        assert_eq!(doubled.mistake.unwrap().rule, slug::TIME_DOUBLED);
        assert_eq!(doubled.when.unwrap().rfc3339(), "2025-10-26T02:30:00+02:00");
    }

    #[test]
    fn what_is_no_date_is_refused() {
        for text in [
            "2031-02-30",
            "2031-13-01",
            "02.05.2031",
            "2031-05-02 25:00",
            "2031-05-02 7",
            "soon",
            "",
            "2031-5-2",
        ] {
            assert!(read(text, Some(&berlin())).when.is_none(), "{text}");
        }
    }
}
