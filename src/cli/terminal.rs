//! What a person sees: standard output, complaints, colours only on a terminal.

use std::io::{IsTerminal, Write, stderr, stdout};

use crate::finding::render::TextStyle;

/// Prints text. A reader that went away, as in `| head`, is no failure.
pub(crate) fn show(text: &str) {
    let mut out = anstream::stdout().lock();
    let _ = out.write_all(text.as_bytes());
    let _ = out.flush();
}

/// Says why something could not be done.
pub(crate) fn complain(why: &str) {
    anstream::eprintln!("trayside: {why}");
}

/// Whether a person reads what is said by the way.
pub(crate) fn is_watched() -> bool {
    stderr().is_terminal()
}

/// How findings are set: coloured and as wide as the terminal, or plain and 80 columns wide.
pub(crate) fn text_style() -> TextStyle {
    let colours = stdout().is_terminal();
    let width = if colours { terminal_width() } else { 80 };
    TextStyle { colours, width }
}

fn terminal_width() -> usize {
    terminal_size::terminal_size().map_or(80, |(width, _)| usize::from(width.0).clamp(40, 120))
}

/// Puts text in the place of the line that was last shown this way.
pub(crate) fn overwrite(text: &str) {
    anstream::eprint!("\r\x1b[K{text}");
}

/// Says something by the way, where it is not part of the output.
pub(crate) fn remark(text: &str) {
    anstream::eprintln!("{text}");
}
