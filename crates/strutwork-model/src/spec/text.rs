//! From bytes to text: UTF-8 with or without its mark, and nothing else.

use super::Spot;
use crate::codes;
use crate::diagnostic::Diagnostic;

const SAVE_AS_UTF8: &str = "save the file as UTF-8 (in a spreadsheet: save as, type \"CSV UTF-8\")";

/// The text of a file, without its byte order mark; `None` and a fault where it is not text.
pub(super) fn decode<'b>(file: &'static str, bytes: &'b [u8], faults: &mut Vec<Diagnostic>) -> Option<&'b str> {
    let (code, line, message) = match text(bytes) {
        Ok(text) => return Some(text),
        Err(fault) => fault,
    };
    let help =
        if code == codes::LINE_ENDS { "save the file with line ends of today (LF or CR LF)" } else { SAVE_AS_UTF8 };
    faults.push(Diagnostic::error(code, Some(Spot::line(file, line)), file, message, help));
    None
}

fn text(bytes: &[u8]) -> Result<&str, (crate::Code, u32, String)> {
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
        return Err((codes::NOT_UTF8, 0, "the file is UTF-16 text, not UTF-8".to_owned()));
    }
    let bytes = bytes.strip_prefix(&[0xef, 0xbb, 0xbf]).unwrap_or(bytes);
    let line = |at: usize| u32::try_from(bytes[..at].iter().filter(|&&b| b == b'\n').count() + 1).unwrap_or(u32::MAX);
    if let Some(at) = bytes.iter().position(|&b| b == 0) {
        let message = "the file holds NUL bytes: it is no text, or UTF-16 text".to_owned();
        return Err((codes::NUL_BYTE, line(at), message));
    }
    let text = std::str::from_utf8(bytes).map_err(|fault| {
        let at = fault.valid_up_to();
        let message = format!("the byte 0x{:02X} is not UTF-8: the file was saved in an older encoding", bytes[at]);
        (codes::NOT_UTF8, line(at), message)
    })?;
    let lone = |&(at, b): &(usize, &u8)| *b == b'\r' && bytes.get(at + 1) != Some(&b'\n');
    match bytes.iter().enumerate().find(lone) {
        // A file whose very last line ends so is harmless.
        Some((at, _)) if at + 1 < bytes.len() => {
            Err((codes::LINE_ENDS, line(at), "lines end with a carriage return alone".to_owned()))
        }
        _ => Ok(text),
    }
}
