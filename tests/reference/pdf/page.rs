//! A PDF as `lopdf` reads it: what is stroked and written on each page, in mm of the paper with y upward.

use kurbo::{Affine, BezPath, Point, Rect, Shape as _};
use lopdf::{Dictionary, Document, Object, ObjectId, content::Content};

/// A millimetre in points of 1/72 in.
pub(crate) const POINTS: f64 = 72.0 / 25.4;

/// One page.
pub(crate) struct Page {
    pub(crate) width: f64,
    pub(crate) height: f64,
    pub(crate) strokes: Vec<Stroke>,
    /// Insides of paths.
    pub(crate) fills: Vec<BezPath>,
    pub(crate) words: Vec<Words>,
}

/// A line drawn.
pub(crate) struct Stroke {
    pub(crate) path: BezPath,
    /// All that shows of it; the whole page where nothing clips it.
    pub(crate) clip: Rect,
    /// The name of the form it is in; empty for the page itself.
    pub(crate) form: String,
    /// Red, green and blue from 0 to 1, or one grey: `1 0 0`.
    pub(crate) colour: String,
    pub(crate) width: f64,
    /// From the coordinates that the file has it in to those of the page.
    pub(crate) place: Affine,
}

/// A line of words.
pub(crate) struct Words {
    pub(crate) text: String,
    pub(crate) at: Point,
    pub(crate) size: f64,
    pub(crate) clip: Rect,
    /// The name of the form they are in; empty for the page itself.
    pub(crate) form: String,
}

/// The file and its pages.
pub(crate) fn read(bytes: &[u8]) -> (Document, Vec<Page>) {
    let document = Document::load_mem(bytes).expect("lopdf reads it");
    let pages = document.get_pages().values().map(|id| page(&document, *id)).collect();
    (document, pages)
}

/// A text of the file's properties.
pub(crate) fn property(document: &Document, key: &[u8]) -> String {
    let info = document.trailer.get_deref(b"Info", document).and_then(Object::as_dict).expect("properties");
    let bytes = info.get(key).and_then(Object::as_str).expect("a text");
    let units: Vec<u16> = bytes.chunks_exact(2).map(|pair| u16::from_be_bytes([pair[0], pair[1]])).collect();
    assert_eq!((units[0], bytes.len() % 2), (0xFEFF, 0), "UTF-16 with its mark");
    String::from_utf16(&units[1..]).expect("whole letters")
}

fn page(document: &Document, id: ObjectId) -> Page {
    let dictionary = document.get_dictionary(id).unwrap();
    let media_box = numbers(dictionary.get(b"MediaBox").and_then(Object::as_array).unwrap());
    assert_eq!(media_box[..2], [0.0, 0.0]);
    let (width, height) = (media_box[2] / POINTS, media_box[3] / POINTS);
    let sheet = Rect::new(0.0, 0.0, width, height);
    let state = State {
        place: Affine::scale(1.0 / POINTS),
        clip: sheet,
        colour: "0".to_owned(),
        width: 1.0,
        form: String::new(),
    };
    let resources = dictionary.get_deref(b"Resources", document).and_then(Object::as_dict).unwrap();
    let mut page = Page { width, height, strokes: Vec::new(), fills: Vec::new(), words: Vec::new() };
    page.run(document, resources, &document.get_page_content(id), state);
    page
}

#[derive(Clone)]
struct State {
    place: Affine,
    clip: Rect,
    colour: String,
    width: f64,
    form: String,
}

fn numbers(operands: &[Object]) -> Vec<f64> {
    operands.iter().filter_map(|operand| operand.as_float().ok()).map(f64::from).collect()
}

impl Page {
    fn run(&mut self, document: &Document, resources: &Dictionary, content: &[u8], mut state: State) {
        let operations = Content::decode(content).expect("operators").operations;
        let (mut saved, mut path) = (Vec::new(), BezPath::new());
        let (mut text_place, mut size) = (Affine::IDENTITY, 0.0);
        for operation in operations {
            let n = numbers(&operation.operands);
            let p = |i: usize| Point::new(n[2 * i], n[2 * i + 1]);
            match operation.operator.as_str() {
                "q" => saved.push(state.clone()),
                "Q" => state = saved.pop().expect("as many q as Q"),
                "cm" => state.place *= Affine::new([n[0], n[1], n[2], n[3], n[4], n[5]]),
                "m" => path.move_to(p(0)),
                "l" => path.line_to(p(0)),
                "c" => path.curve_to(p(0), p(1), p(2)),
                "h" => path.close_path(),
                "re" => path.extend(Rect::from_origin_size(p(0), (n[2], n[3])).path_elements(0.1)),
                "W" => state.clip = state.clip.intersect((state.place * path.clone()).bounding_box()),
                "n" => path = BezPath::new(),
                "S" => {
                    let drawn = state.place * core::mem::take(&mut path);
                    let State { place, clip, colour, width, form } = state.clone();
                    let width = width * place.determinant().abs().sqrt();
                    self.strokes.push(Stroke { path: drawn, clip, form, colour, width, place });
                }
                "f" => self.fills.push(state.place * core::mem::take(&mut path)),
                "RG" | "G" => {
                    state.colour = n.iter().map(f64::to_string).collect::<Vec<_>>().join(" ");
                }
                "w" => state.width = n[0],
                "Do" => {
                    let name = operation.operands[0].as_name().unwrap();
                    let forms = resources.get_deref(b"XObject", document).and_then(Object::as_dict).unwrap();
                    let form = forms.get_deref(name, document).and_then(Object::as_stream).unwrap();
                    let bounds = numbers(form.dict.get(b"BBox").and_then(Object::as_array).unwrap());
                    let bounds = Rect::new(bounds[0], bounds[1], bounds[2], bounds[3]);
                    let clip = state.clip.intersect(state.place.transform_rect_bbox(bounds));
                    let form_name = String::from_utf8_lossy(name).into_owned();
                    let inner = State { clip, form: form_name, ..state.clone() };
                    let resources =
                        form.dict.get_deref(b"Resources", document).and_then(Object::as_dict).unwrap();
                    self.run(document, resources, &form.content, inner);
                }
                "BT" => text_place = Affine::IDENTITY,
                "Tf" => size = n[0],
                "Tm" => text_place = Affine::new([n[0], n[1], n[2], n[3], n[4], n[5]]),
                "Tj" => {
                    // The pages have Latin letters, whose codes are those of Unicode but for a few.
                    let text =
                        operation.operands[0].as_str().unwrap().iter().map(|&b| char::from(b)).collect();
                    let place = state.place * text_place;
                    let size = size * place.determinant().abs().sqrt();
                    self.words.push(Words {
                        text,
                        at: place * Point::ORIGIN,
                        size,
                        clip: state.clip,
                        form: state.form.clone(),
                    });
                }
                "j" | "d" | "rg" | "g" | "ET" => {}
                other => panic!("the operator {other} is not read"),
            }
        }
        assert!(saved.is_empty(), "as many Q as q");
    }

    /// All its words, one line after the other.
    pub(crate) fn text(&self) -> String {
        self.words.iter().map(|words| words.text.as_str()).collect::<Vec<_>>().join("\n")
    }

    /// The strokes of a form: `D` the drawing, `J` the joins, empty for the page itself.
    pub(crate) fn of<'a>(&'a self, form: &'a str) -> impl Iterator<Item = &'a Stroke> {
        self.strokes.iter().filter(move |stroke| stroke.form == form)
    }

    /// The row and column that the page says it is, counted from 1.
    pub(crate) fn tile(&self) -> Option<(u32, u32)> {
        let text = self.text();
        let number = |before: &str| text.split(before).nth(1)?.split([' ', '\n', ',']).next()?.parse().ok();
        Some((number(": row ")?, number(", column ")?))
    }
}
