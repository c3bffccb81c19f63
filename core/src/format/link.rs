//! The link: a whole shape as a few characters behind the `#` of the page's address, so that it never reaches a server.
//!
//! # Layout
//!
//! `#d=` and then, in the URL-safe base64 alphabet without padding (RFC 4648, section 5):
//!
//! | bytes | content |
//! |---|---|
//! | 1 | version |
//! | … | the payload of that version: `link/v1.rs`, and before it in version 2 what `link/v2.rs` says |
//! | 4 | CRC-32 (ISO-HDLC) of all bytes before it, low byte first |
//!
//! The first and the last row hold for every version there will ever be, so that damage and novelty can be told
//! apart. The payload of a released version never changes: what a design gains later goes into a new version beside
//! the old ones.
//!
//! A link carries [`Design::shared`]: the name, the shape and the workshop's numbers, without notes, records and versions,
//! and with only the sweeps that are laid. Its round trip is the identity.

mod bytes;
mod sweep;
mod v1;
mod v2;

use self::bytes::Source;
use crate::{
    design::{Design, Refusal},
    language::{Own, said},
    say,
};
use base64ct::{Base64UrlUnpadded, Encoding};
use core::fmt;

/// What stands in an address before the characters of [`encode`].
pub const FRAGMENT: &str = "#d=";

/// Longest text that is looked at, in bytes, with the address. The longest link there can be just fits.
pub const LONGEST: usize = 9216;

/// The newest version read. It is written where the workshop was told something; version 1 is the shorter one.
const VERSION: u8 = 2;

/// Why a text is no link to a design.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum LinkError {
    /// The text is longer than any link.
    TooLong {
        /// Its length in bytes.
        found: usize,
        /// The longest that is looked at.
        most: usize,
    },
    /// An address without a design in it.
    NoDesign,
    /// Characters are missing or changed.
    Damaged,
    /// A newer program made it, in a layout this one cannot know.
    Newer {
        /// Its version.
        found: u8,
        /// The newest version that is read.
        known: u8,
    },
    /// It arrived as it was made, but its content is no design's: a program made it that does not keep to the layout.
    Garbled,
    /// It can be read, but what it describes is no valid design.
    Refused(Refusal),
}

/// The characters that carry a design's name and shape, to be put behind [`FRAGMENT`].
#[must_use]
pub fn encode(design: &Design) -> String {
    let mut bytes = vec![1];
    let before = v2::write(design);
    if !before.is_empty() {
        bytes[0] = VERSION;
        bytes.extend(before);
    }
    v1::write(design, &mut bytes);
    let sum = crc32(&bytes);
    bytes.extend(sum.to_le_bytes());
    Base64UrlUnpadded::encode_string(&bytes)
}

/// The design in a link: a whole address, its fragment, or the bare characters. White space is dropped, wherever a mail
/// program has put it.
///
/// # Errors
///
/// [`LinkError`]; every change of a single character is noticed.
pub fn decode(text: &str) -> Result<Design, LinkError> {
    if text.len() > LONGEST {
        return Err(LinkError::TooLong { found: text.len(), most: LONGEST });
    }
    let text: String = text.split_whitespace().collect();
    let bytes = Base64UrlUnpadded::decode_vec(payload(&text)?).map_err(|_| LinkError::Damaged)?;
    let (content, sum) = bytes.split_last_chunk().ok_or(LinkError::Damaged)?;
    if crc32(content) != u32::from_le_bytes(*sum) {
        return Err(LinkError::Damaged);
    }
    match content.split_first() {
        Some((version @ 1..=VERSION, payload)) => {
            let mut source = Source(payload);
            let (inputs, woods) = match version {
                1 => Default::default(),
                _ => v2::read(&mut source).ok_or(LinkError::Garbled)?,
            };
            let (name, mut shape) = v1::read(&mut source).ok_or(LinkError::Garbled)?;
            if !source.0.is_empty() || ![0, shape.layup.plies.len()].contains(&woods.len()) {
                return Err(LinkError::Garbled);
            }
            for (ply, wood) in shape.layup.plies.iter_mut().zip(woods) {
                ply.species = wood;
            }
            let design = Design::new(&name, "", shape, Vec::new()).map_err(LinkError::Refused)?;
            design.with_workshop(inputs).map_err(LinkError::Refused)
        }
        Some((&found, _)) if found > VERSION => Err(LinkError::Newer { found, known: VERSION }),
        _ => Err(LinkError::Garbled),
    }
}

/// The characters of a link without the address and the mark before them.
fn payload(text: &str) -> Result<&str, LinkError> {
    let fragment = text.split_once('#').map_or(text, |(_, fragment)| fragment);
    let marked = fragment.strip_prefix("d=");
    let bare = marked.or_else(|| Some(fragment).filter(|f| !f.contains(['/', ':', '='])));
    bare.filter(|found| !found.is_empty()).ok_or(LinkError::NoDesign)
}

/// CRC-32 as in ISO 3309: all errors within 32 neighbouring bits are found, of others all but one in four thousand
/// million.
fn crc32(bytes: &[u8]) -> u32 {
    const POLYNOMIAL: u32 = 0xEDB8_8320; // bits reversed
    !bytes.iter().fold(u32::MAX, |sum, &byte| {
        (0..8).fold(sum ^ u32::from(byte), |sum, _| (sum >> 1) ^ if sum & 1 == 1 { POLYNOMIAL } else { 0 })
    })
}

impl fmt::Display for LinkError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLong { found, most } => {
                say!(in f, "this link has {found} characters: a deck's has at most {most}", found, most)
            }
            Self::NoDesign => {
                say!(in f, "this address carries no deck: a link to one has {fragment} and many characters at its end", fragment = Own(FRAGMENT))
            }
            Self::Damaged => f.write_str(said("this link is damaged: characters were lost or changed on the way; copy all of it, or ask for it again")),
            Self::Newer { found, known } => say!(in f, "this link was made by a newer version of the page (format {found}, this one reads up to {known}): \
                 reload the page to get the newer version", found, known),
            Self::Garbled => f.write_str(said("this link does not describe a deck: ask for a new one")),
            Self::Refused(refusal) => say!(in f, "the deck in this link cannot be opened: {refusal}", refusal),
        }
    }
}

crate::language::say_displayed!(LinkError);

impl core::error::Error for LinkError {
    fn source(&self) -> Option<&(dyn core::error::Error + 'static)> {
        match self {
            Self::Refused(refusal) => Some(refusal),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests;
