//! A name as a picture of one bit a pixel, for letters that the base fonts do not have.

/// A line of letters drawn elsewhere, with fonts that this program does not carry.
///
/// Its left edge is where the line begins. It reaches from [`Picture::BELOW`] under the baseline to [`Picture::ABOVE`] over it,
/// in sizes of the font.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    width: usize,
    height: usize,
    bits: Vec<u8>,
}

impl Picture {
    /// What is under the baseline, in sizes of the font.
    pub const BELOW: f64 = 0.35;
    /// What is over the baseline, in sizes of the font.
    pub const ABOVE: f64 = 1.05;
    /// Most pixels along either side.
    pub const MOST: usize = 4096;

    /// A picture from its rows, the top one first, each of whole bytes with its leftmost pixel in the highest bit: 1 is ink.
    /// None where the bits are not those of such a picture, or where there is no ink.
    #[must_use]
    pub fn new(width: usize, height: usize, bits: Vec<u8>) -> Option<Self> {
        let sides = 1..=Self::MOST;
        let fits = sides.contains(&width) && sides.contains(&height);
        let is_whole = fits && bits.len() == width.div_ceil(8) * height;
        (is_whole && bits.iter().any(|byte| *byte != 0)).then_some(Self { width, height, bits })
    }

    /// Height, in sizes of the font.
    pub(super) const HEIGHT: f64 = Self::BELOW + Self::ABOVE;

    /// Width, in sizes of the font.
    pub(super) fn advance(&self) -> f64 {
        Self::HEIGHT * self.width as f64 / self.height as f64
    }

    /// The entries of its object, and its bytes.
    pub(super) fn object(&self) -> (String, &[u8]) {
        let (width, height) = (self.width, self.height);
        // A mask, through which the colour of the words around it is painted.
        let kind = format!(
            "/Type/XObject/Subtype/Image/Width {width}/Height {height}/ImageMask true/BitsPerComponent 1/Decode[1 0]"
        );
        (kind, &self.bits)
    }
}
