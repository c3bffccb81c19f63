//! Every change that can be made to a design.

mod sweep;

pub use self::sweep::SweepEdit;

use crate::{
    datum::Datum,
    design::{Design, Refusal, Shape},
    dimension::{self, Lock, Slopes, Unmet},
    layup::{Layup, Ply},
    measure::Measured,
    outline::{self, Outline, Span, SpanEnd, twin_of},
    quantities,
    workshop::{Inputs, card::Card, glue::Basis, inputs::table, record::Record},
};
use kurbo::Point;

/// One change. Places are in mm on the left half.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Edit {
    /// Puts a node somewhere else.
    MoveNode {
        /// Index of the node.
        node: usize,
        /// Where to.
        to: Point,
    },
    /// Puts an off-curve point somewhere else.
    MoveHandle {
        /// Index of the span.
        span: usize,
        /// Which of its two.
        end: SpanEnd,
        /// Where to.
        to: Point,
    },
    /// Adds a node on the curve nearest to a point, without changing the curve.
    AddNode {
        /// The span it goes on.
        span: usize,
        /// The point.
        near: Point,
    },
    /// Takes a node away.
    DeleteNode {
        /// Index of the node.
        node: usize,
    },
    /// Makes a node smooth or a corner.
    SetSmooth {
        /// Index of the node.
        node: usize,
        /// Smooth, or a corner.
        smooth: bool,
    },
    /// Makes a span straight, or a straight one a curve.
    SetStraight {
        /// Index of the span.
        span: usize,
        /// Straight, or a curve.
        straight: bool,
    },
    /// Makes a cubic span a batten, or a batten cubics with handles.
    SetBatten {
        /// Index of the span.
        span: usize,
        /// A batten, or cubics.
        batten: bool,
    },
    /// Draws a stretch anew by hand.
    Redraw {
        /// The places of the pen, on any half, in either direction.
        stroke: Vec<Point>,
        /// How near the curve must follow them, mm.
        accuracy: f64,
        /// How far off the edge the stroke may begin and end, mm.
        reach: f64,
    },
    /// Fairs the stretch between two nodes.
    Fair {
        /// One end of the stretch.
        from: usize,
        /// The other end.
        to: usize,
        /// The farthest the edge may move, mm.
        bound: f64,
    },
    /// Keeps, lays, moves or frees a sweep.
    Sweep(SweepEdit),
    /// Takes a shape that was brought in. Sweeps that were kept stay; dimensions that were held are let go.
    TakeShape {
        /// The half outline.
        outline: Outline,
        /// The bolt holes, where they came with it.
        datum: Option<Datum>,
    },
    /// Makes the tail the nose reversed, or lets the two differ from now on.
    SetTwin(bool),
    /// Sets a quantity of the settings table, in its unit inside the core.
    Set {
        /// Its key.
        key: &'static str,
        /// Its new value.
        value: f64,
    },
    /// Changes the shape so that a dimension measures a value, by the smallest natural change.
    Dimension {
        /// Its key.
        key: &'static str,
        /// The value, in the quantity's unit inside the core.
        value: f64,
    },
    /// Keeps a dimension as it measures now under all later edits, or lets it go again.
    SetLock {
        /// Its key.
        key: &'static str,
        /// Keep it, or let it go.
        locked: bool,
    },
    /// Tells the workshop a number of its table, in its unit inside the core.
    Tell {
        /// Its key.
        key: &'static str,
        /// Its new value; `None` leaves it empty, where it may be.
        value: Option<f64>,
    },
    /// Tells the workshop what is no number of its table: a choice, a name.
    Choose(Box<Inputs>),
    /// Lays up other plies, top face first.
    LayUp(Vec<Ply>),
    /// Sets the glue by the rate of its data sheet.
    Spread {
        /// The rate, g/mm².
        rate: f64,
        /// What it means.
        basis: Basis,
    },
    /// Takes another mould: its size, kicks, concave and drill guides.
    TakeCard(Box<Card>),
    /// Writes the press-day records.
    Note(Vec<Record>),
    /// Keeps the present shape as a version.
    KeepVersion {
        /// What to call it.
        name: String,
        /// The day, as YYYY-MM-DD.
        date: String,
    },
    /// Gives a version another name.
    NameVersion {
        /// Its index, oldest first.
        version: usize,
        /// The name.
        name: String,
    },
    /// Writes a version's note.
    NoteVersion {
        /// Its index, oldest first.
        version: usize,
        /// The note.
        note: String,
    },
    /// Makes a version's shape the present one; all versions stay.
    GoBackTo {
        /// Its index, oldest first.
        version: usize,
    },
    /// Gives the deck another name.
    Rename(String),
    /// Writes the notes.
    Annotate(String),
}

/// How dimensions are held.
type Hold<'a> = &'a dyn Fn(&Design, &[Lock]) -> Result<Design, Unmet>;

impl Design {
    /// The design with `edit` made.
    ///
    /// # Errors
    ///
    /// The [`Refusal`] of what the edit would make, or of an edit that names something the design does not have. The
    /// design itself never changes.
    pub fn apply(&self, edit: &Edit) -> Result<Self, Refusal> {
        self.edited(edit, &dimension::hold)?.on_the_card_of(self)
    }

    /// The same in a frame of a drag, which looks for the nearest place by itself: of dimensions that cannot be held no
    /// nearest values are looked for, over and over. `slopes` are those of this design.
    ///
    /// # Errors
    ///
    /// As [`Self::apply`].
    pub(crate) fn apply_on_the_way(&self, edit: &Edit, slopes: Option<&Slopes>) -> Result<Self, Refusal> {
        self.edited(edit, &|design, locks| dimension::keep(design, locks, slopes))?.on_the_card_of(self)
    }

    /// The design with `edit` made, its locked dimensions brought back to their values by `hold`.
    fn edited(&self, edit: &Edit, hold: Hold<'_>) -> Result<Self, Refusal> {
        match edit {
            Edit::Rename(name) => self.renamed(name),
            Edit::Annotate(notes) => self.annotated(notes),
            Edit::KeepVersion { name, date } => self.with_version(name, date),
            Edit::NameVersion { version, name } => {
                self.with_version_changed(*version, &|kept| kept.name.clone_from(name))
            }
            Edit::NoteVersion { version, note } => {
                self.with_version_changed(*version, &|kept| kept.note.clone_from(note))
            }
            Edit::GoBackTo { version } => self.gone_back_to(*version),
            Edit::Tell { key, value } => {
                let input = table::find(key).ok_or(Refusal::NoSuch("input"))?;
                let mut inputs = self.workshop().clone();
                (input.set)(&mut inputs, *value);
                self.with_workshop(inputs)
            }
            Edit::Choose(inputs) => self.with_workshop(Inputs::clone(inputs)),
            Edit::LayUp(plies) => {
                let layup = Layup { plies: plies.clone(), ..self.shape().layup.clone() };
                self.with_shape(Shape { layup, ..self.shape().clone() })
            }
            Edit::Spread { rate, basis } => {
                let mut inputs = self.workshop().clone();
                inputs.glue.basis = *basis;
                let layup = Layup { spread: basis.per_line(*rate), ..self.shape().layup.clone() };
                self.with_shape(Shape { layup, ..self.shape().clone() })?.with_workshop(inputs)
            }
            Edit::TakeCard(card) => self.with_card(card),
            Edit::Note(records) => self.with_records(records.clone()),
            Edit::Dimension { key, value } => {
                let unmet = |unmet| Refusal::Unmet(Box::new(unmet));
                if let Some(dimension) = dimension::find(key) {
                    dimension.check(*value)?;
                }
                let mut locks = self.locks_but(key);
                let set = dimension::set(self, key, *value).map_err(unmet)?;
                let is_alone = locks.is_empty();
                locks.push(Lock { key, value: *value });
                let held = if is_alone { set } else { dimension::hold(&set, &locks).map_err(unmet)? };
                // A locked dimension that is typed is locked at its new value.
                let relocked = self.locks().iter().any(|lock| lock.key == *key);
                if relocked { held.with_locks(locks) } else { Ok(held) }
            }
            Edit::SetLock { key, locked } => self.with_lock(key, *locked),
            Edit::Set { key, value } => {
                let setting = quantities::find_setting(key).ok_or(Refusal::NoSuch("setting"))?;
                setting.check(*value)?;
                let mut shape = self.shape().clone();
                (setting.set)(&mut shape, *value);
                self.with_shape(shape)?.held(hold)
            }
            Edit::TakeShape { outline, datum } => {
                let mut shape = self.shape().clone();
                let mut outline = Outline { sweeps: shape.outline.sweeps.clone(), ..outline.clone() };
                outline::check_form(&outline).and_then(|()| outline.relax()).map_err(Refusal::Outline)?;
                shape.outline = outline;
                if let Some(datum) = datum {
                    shape.datum.clone_from(datum);
                }
                self.with_locks(Vec::new())?.with_shape(shape)
            }
            _ => {
                let mut outline = reshape(&self.shape().outline, edit)?;
                outline::check_form(&outline).and_then(|()| outline.relax()).map_err(Refusal::Outline)?;
                self.with_shape(Shape { outline, ..self.shape().clone() })?.held(hold)
            }
        }
    }

    /// The design with its locked dimensions brought back to their values.
    fn held(self, hold: Hold<'_>) -> Result<Self, Refusal> {
        if self.locks().is_empty() {
            return Ok(self);
        }
        hold(&self, self.locks()).map_err(|unmet| Refusal::Unmet(Box::new(unmet)))
    }

    fn with_lock(&self, key: &'static str, locked: bool) -> Result<Self, Refusal> {
        let mut locks = self.locks_but(key);
        if locked {
            let none = |why| Refusal::Unmet(Box::new(why));
            let dimension = dimension::find(key).ok_or_else(|| none(Unmet::Unknown(key.to_owned())))?;
            let reading = dimension.read(self.shape(), &Measured::of(self.shape()));
            let absent = Unmet::Absent { quantity: dimension.quantity(), why: reading.remark };
            let value = reading.value.ok_or_else(|| none(absent))?;
            locks.push(Lock { key, value });
        }
        self.with_locks(locks)
    }

    /// All locks but that of one dimension.
    fn locks_but(&self, key: &str) -> Vec<Lock> {
        self.locks().iter().filter(|lock| lock.key != key).cloned().collect()
    }
}

fn reshape(outline: &Outline, edit: &Edit) -> Result<Outline, Refusal> {
    let node_exists = |node: usize| {
        if node < outline.nodes.len() { Ok(()) } else { Err(Refusal::NoSuch("node")) }
    };
    let span_exists = |span: usize| {
        if span < outline.spans.len() { Ok(()) } else { Err(Refusal::NoSuch("span")) }
    };
    match *edit {
        Edit::MoveNode { node, to } => {
            node_exists(node)?;
            finite(to)?;
            Ok(outline.with_node_at(node, to))
        }
        Edit::MoveHandle { span, end, to } => {
            span_exists(span)?;
            finite(to)?;
            if let Span::Laid { .. } = outline.spans[span] {
                return Err(Refusal::Impossible("a laid sweep has no handles: set it free first"));
            }
            if outline.spans[span] == Span::Straight {
                return Err(Refusal::Impossible("a straight span has no handles: make it a curve first"));
            }
            Ok(outline.with_handle_at(span, end, to))
        }
        Edit::AddNode { span, near } => {
            span_exists(span)?;
            finite(near)?;
            let (t, _) = outline.course(span).nearest(near);
            if t <= 0.0 || t >= 1.0 {
                return Err(Refusal::Impossible("a node is there already: add one between two nodes"));
            }
            Ok(outline.split(span, t))
        }
        Edit::DeleteNode { node } => {
            node_exists(node)?;
            outline.without_node(node).ok_or(Refusal::Impossible(
                "a tip, or the middle of a twin, holds the halves together: move it instead",
            ))
        }
        Edit::SetSmooth { node, smooth } => {
            node_exists(node)?;
            if smooth && !outline.can_be_smooth(node) {
                return Err(Refusal::Impossible(
                    "two rigid spans meet here, straight or laid, or one meets the centreline askew: make one a curve first",
                ));
            }
            Ok(outline.with_joint(node, smooth))
        }
        Edit::SetStraight { span, straight } => {
            span_exists(span)?;
            Ok(if straight { outline.straightened(span) } else { outline.curved(span) })
        }
        Edit::SetBatten { span, batten } => {
            span_exists(span)?;
            if !batten {
                return Ok(outline.unbattened(span));
            }
            outline.battened(span..span + 1).map_err(Refusal::Outline)
        }
        Edit::Redraw { ref stroke, accuracy, reach } => {
            outline.redrawn(stroke, accuracy, reach).map_err(Refusal::Stroke)
        }
        Edit::Fair { from, to, bound } => {
            node_exists(from.max(to))?;
            let (faired, _) = outline.faired(from.min(to), from.max(to), bound).map_err(Refusal::Outline)?;
            Ok(faired)
        }
        Edit::Sweep(ref edit) => edit.made_on(outline),
        Edit::SetTwin(true) => twin_of(outline).ok_or(Refusal::Impossible(
            "the edge crosses the middle of the deck more than once, so it has no nose half to mirror",
        )),
        Edit::SetTwin(false) => Ok(outline.untwinned()),
        _ => Ok(outline.clone()),
    }
}

fn finite(place: Point) -> Result<(), Refusal> {
    if place.is_finite() { Ok(()) } else { Err(Refusal::Impossible("a place must be a finite number of mm")) }
}
