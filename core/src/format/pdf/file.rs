//! The frame of a PDF file: numbered objects, a table of where they stand, and what holds for all pages.

use super::{content::Content, media_box, picture::Picture};
use crate::language;
use kurbo::{Rect, Size};

/// A file in the making.
#[derive(Debug)]
pub(super) struct File {
    bytes: Vec<u8>,
    /// Where each object stands, by its number less one; 0 for one that is not written yet.
    offsets: Vec<usize>,
    pages: Vec<usize>,
}

// The objects that every file has.
const CATALOG: usize = 1;
const PAGES: usize = 2;
const INFO: usize = 3;
/// The base fonts by their names on a page.
const FONTS: [(&str, usize, &str); 3] =
    [("F", 4, "Helvetica"), ("B", 5, "Helvetica-Bold"), ("S", 6, "Times-Roman")];
const LAST: usize = 6;

impl File {
    pub(super) fn new() -> Self {
        // Bytes above 127 in the second line tell programs that carry the file that it is not text.
        let bytes = b"%PDF-1.7\n%\xE2\xE3\xCF\xD3\n".to_vec();
        Self { bytes, offsets: vec![0; LAST], pages: Vec::new() }
    }

    /// Adds a page of that size in mm; `forms` are the names and objects of the forms it shows.
    pub(super) fn page(&mut self, size: Size, content: &Content, forms: &str) {
        self.page_with(size, content, forms, "");
    }

    /// The same with further entries of the page.
    pub(super) fn page_with(&mut self, size: Size, content: &Content, forms: &str, entries: &str) {
        let content = self.stream("", content);
        let media_box = media_box(size);
        let page = self.next();
        self.object(
            page,
            &format!(
                "<</Type/Page/Parent {PAGES} 0 R/MediaBox{media_box}\
                 /Resources<</Font<<{}>>/XObject<<{forms}>>>>/Contents {content} 0 R{entries}>>",
                fonts()
            ),
        );
        self.pages.push(page);
    }

    pub(super) fn pages(&self) -> usize {
        self.pages.len()
    }

    /// Adds something that pages show; its object's number. `extent` in mm is all that shows of it, and `pictures` are the
    /// names and objects of what it shows itself.
    pub(super) fn form(&mut self, extent: Rect, content: &Content, pictures: &str) -> usize {
        let number = super::content::number;
        let Rect { x0, y0, x1, y1 } = extent;
        let bounds = [x0, y0, x1, y1].map(number).join(" ");
        let kind = format!(
            "/Type/XObject/Subtype/Form/BBox[{bounds}]/Resources<</Font<<{}>>/XObject<<{pictures}>>>>",
            fonts()
        );
        self.stream(&kind, content)
    }

    /// The file under the name of what it is about.
    pub(super) fn finish(mut self, name: &str, about: &str) -> Vec<u8> {
        self.object(
            CATALOG,
            &format!(
                "<</Type/Catalog/Pages {PAGES} 0 R/Lang({})/ViewerPreferences<</PrintScaling/None\
                 /Enforce[/PrintScaling]/PickTrayByPDFSize true/DisplayDocTitle true>>>>",
                language::code()
            ),
        );
        let pages: Vec<String> = self.pages.iter().map(|page| format!("{page} 0 R")).collect();
        self.object(PAGES, &format!("<</Type/Pages/Count {}/Kids[{}]>>", pages.len(), pages.join(" ")));
        for (_, number, face) in FONTS {
            let font = format!("<</Type/Font/Subtype/Type1/BaseFont/{face}/Encoding/WinAnsiEncoding>>");
            self.object(number, &font);
        }
        let title = if name.is_empty() { about } else { name };
        let (title, about) = (utf_16(title), utf_16(about));
        self.object(
            INFO,
            &format!("<</Title {title}/Subject {about}/Creator(Halfbreadth)/Producer(Halfbreadth)>>"),
        );
        self.end()
    }

    /// The table of objects. Every entry has twenty bytes.
    fn end(mut self) -> Vec<u8> {
        let start = self.bytes.len();
        let size = self.offsets.len() + 1;
        let mut table = format!("xref\n0 {size}\n0000000000 65535 f \n");
        for offset in &self.offsets {
            table.push_str(&format!("{offset:010} 00000 n \n"));
        }
        table.push_str(&format!(
            "trailer\n<</Size {size}/Root {CATALOG} 0 R/Info {INFO} 0 R>>\nstartxref\n{start}\n%%EOF\n"
        ));
        self.bytes.extend_from_slice(table.as_bytes());
        self.bytes
    }

    /// Adds a picture; its object's number.
    pub(super) fn picture(&mut self, picture: &Picture) -> usize {
        let (kind, bytes) = picture.object();
        self.stream_of(&kind, bytes)
    }

    fn stream(&mut self, kind: &str, content: &Content) -> usize {
        self.stream_of(kind, content.text().as_bytes())
    }

    fn stream_of(&mut self, kind: &str, bytes: &[u8]) -> usize {
        let number = self.next();
        let head = format!("<<{kind}/Length {}>>stream\n", bytes.len());
        self.object_of(number, &[head.as_bytes(), bytes, b"\nendstream"]);
        number
    }

    fn next(&mut self) -> usize {
        self.offsets.push(0);
        self.offsets.len()
    }

    fn object(&mut self, number: usize, body: &str) {
        self.object_of(number, &[body.as_bytes()]);
    }

    fn object_of(&mut self, number: usize, body: &[&[u8]]) {
        self.offsets[number - 1] = self.bytes.len();
        self.bytes.extend_from_slice(format!("{number} 0 obj\n").as_bytes());
        for part in body {
            self.bytes.extend_from_slice(part);
        }
        self.bytes.extend_from_slice(b"\nendobj\n");
    }
}

/// What a page says of its fonts.
fn fonts() -> String {
    FONTS.map(|(name, number, _)| format!("/{name} {number} 0 R")).concat()
}

/// A text of any letters: the mark of UTF-16 and its big-endian bytes, in hexadecimal digits, which need no escapes.
fn utf_16(text: &str) -> String {
    let units = core::iter::once(0xFEFF).chain(text.encode_utf16());
    hexadecimal(units.flat_map(u16::to_be_bytes))
}

/// A string of bytes as a file spells it.
pub(super) fn hexadecimal(bytes: impl Iterator<Item = u8>) -> String {
    const DIGITS: [char; 16] =
        ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9', 'A', 'B', 'C', 'D', 'E', 'F'];
    let mut text = String::from("<");
    for byte in bytes {
        text.push(DIGITS[usize::from(byte >> 4)]);
        text.push(DIGITS[usize::from(byte & 15)]);
    }
    text.push('>');
    text
}
