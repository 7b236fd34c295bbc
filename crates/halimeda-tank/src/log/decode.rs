//! From the bytes of a file to its text.

use std::borrow::Cow;

use super::problem::{LogError, LogProblemKind};

/// Text in UTF-8, or in UTF-16 with its byte order mark, as spreadsheets write it.
pub(super) fn decode(bytes: &[u8]) -> Result<Cow<'_, str>, LogError> {
    let text = match bytes {
        [0xff, 0xfe, rest @ ..] => Cow::Owned(utf16(rest, u16::from_le_bytes)?),
        [0xfe, 0xff, rest @ ..] => Cow::Owned(utf16(rest, u16::from_be_bytes)?),
        _ => {
            let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
            Cow::Borrowed(
                core::str::from_utf8(bytes).map_err(|e| not_utf8(bytes, e.valid_up_to()))?,
            )
        }
    };
    if let Some(at) = text.find('\0') {
        let found = "a byte of zero";
        let expected = "expected text, in UTF-8 or in UTF-16 with a byte order mark";
        let line = line_at(text.as_bytes(), at);
        return Err(LogError::new(
            LogProblemKind::NotText,
            line,
            found,
            expected,
            save_as_utf8(),
        ));
    }
    // Lines that end in a carriage return alone.
    if text.contains('\r') && !text.contains('\n') {
        return Ok(Cow::Owned(text.replace('\r', "\n")));
    }
    Ok(text)
}

fn utf16(bytes: &[u8], unit: fn([u8; 2]) -> u16) -> Result<String, LogError> {
    let mut pairs = bytes.chunks_exact(2);
    let units = pairs.by_ref().map(|pair| match pair {
        [a, b] => unit([*a, *b]),
        _ => 0,
    });
    let text: Result<String, _> = char::decode_utf16(units).collect();
    match text {
        Ok(text) if pairs.remainder().is_empty() => Ok(text),
        _ => {
            let found = "a byte order mark of UTF-16 before what is none";
            let kind = LogProblemKind::NotText;
            Err(LogError::new(
                kind,
                1,
                found,
                "expected whole characters in UTF-16",
                save_as_utf8(),
            ))
        }
    }
}

fn not_utf8(bytes: &[u8], at: usize) -> LogError {
    let byte = bytes.get(at).copied().unwrap_or_default();
    LogError::new(
        LogProblemKind::NotText,
        line_at(bytes, at),
        format!("the byte 0x{byte:02X}"),
        "expected text, in UTF-8 or in UTF-16 with a byte order mark",
        save_as_utf8(),
    )
}

fn line_at(bytes: &[u8], at: usize) -> usize {
    let before = bytes.get(..at).unwrap_or_default();
    1 + before.iter().filter(|&&b| b == b'\n').count()
}

fn save_as_utf8() -> Option<String> {
    Some("save the file again as text (CSV) with the encoding UTF-8".to_owned())
}
