//! What can be selected or taken hold of on the drawing.

use crate::outline::{Outline, Span, SpanEnd};
use core::{fmt, str::FromStr};
use kurbo::Point;

/// A part of the stored chain.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Target {
    /// A node, by its index.
    Node(usize),
    /// An off-curve point: the handle at one end of a span.
    Handle(usize, SpanEnd),
    /// A span, at a place on it.
    Span(usize, Point),
}

/// Which of the up to four copies of the stored chain.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Copy {
    /// On the right half.
    pub mirror: bool,
    /// On the tail half of a twin.
    pub tail: bool,
}

/// Something that can be dragged: a node or handle, on one of the copies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grip {
    /// What it moves.
    pub target: Target,
    /// Which copy of it is shown.
    pub copy: Copy,
}

impl Target {
    /// Where it is on the stored chain, mm; `None` for a handle of a straight span.
    #[must_use]
    pub fn place(self, outline: &Outline) -> Option<Point> {
        match self {
            Self::Node(i) => outline.nodes.get(i).map(|node| node.place),
            Self::Handle(s, end) => (s < outline.spans.len()).then(|| outline.handle_place(s, end)).flatten(),
            Self::Span(_, at) => Some(at),
        }
    }

    /// Whether an outline has it.
    #[must_use]
    pub fn exists(self, outline: &Outline) -> bool {
        match self {
            Self::Node(i) => i < outline.nodes.len(),
            Self::Handle(s, _) => matches!(outline.spans.get(s), Some(Span::Cubic { .. })),
            Self::Span(s, _) => s < outline.spans.len(),
        }
    }
}

impl Copy {
    /// All copies an outline shows, the drawn one first.
    #[must_use]
    pub fn of(outline: &Outline) -> &'static [Self] {
        const ALL: [Copy; 4] = [
            Copy { mirror: false, tail: false },
            Copy { mirror: true, tail: false },
            Copy { mirror: false, tail: true },
            Copy { mirror: true, tail: true },
        ];
        if outline.twin { &ALL } else { &ALL[..2] }
    }

    /// A place of the stored chain on this copy, or back again.
    #[must_use]
    pub fn map(self, p: Point) -> Point {
        Point::new(if self.tail { -p.x } else { p.x }, if self.mirror { -p.y } else { p.y })
    }

    /// Whether this is the drawn half itself.
    #[must_use]
    pub fn is_drawn(self) -> bool {
        self == Self::default()
    }
}

impl fmt::Display for Grip {
    /// The stable id of a handle: `n3` for a node, `h2-start` for an off-curve point, with `~tail` and `~mirror` for
    /// the copies.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.target {
            Target::Node(i) => write!(f, "n{i}")?,
            Target::Handle(s, SpanEnd::Start) => write!(f, "h{s}-start")?,
            Target::Handle(s, SpanEnd::End) => write!(f, "h{s}-end")?,
            Target::Span(s, _) => write!(f, "s{s}")?,
        }
        if self.copy.tail {
            f.write_str("~tail")?;
        }
        if self.copy.mirror {
            f.write_str("~mirror")?;
        }
        Ok(())
    }
}

impl FromStr for Grip {
    type Err = ();

    fn from_str(id: &str) -> Result<Self, ()> {
        let mut parts = id.split('~');
        let name = parts.next().ok_or(())?;
        let mut copy = Copy::default();
        for part in parts {
            match part {
                "tail" => copy.tail = true,
                "mirror" => copy.mirror = true,
                _ => return Err(()),
            }
        }
        let index = |digits: &str| digits.parse::<usize>().map_err(|_| ());
        let target = if let Some(node) = name.strip_prefix('n') {
            Target::Node(index(node)?)
        } else {
            let (span, end) = name.strip_prefix('h').and_then(|rest| rest.split_once('-')).ok_or(())?;
            let end = match end {
                "start" => SpanEnd::Start,
                "end" => SpanEnd::End,
                _ => return Err(()),
            };
            Target::Handle(index(span)?, end)
        };
        Ok(Self { target, copy })
    }
}
