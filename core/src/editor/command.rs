//! Buttons, menu entries and key strokes: one name each, the same in the page and in its hooks.

mod nodes;
mod stretch;

use super::{Editor, SweepIntent, Target, bring, cut, shop, sweeps};
use crate::{
    curve::family::Family,
    demo,
    design::Design,
    edit::Edit,
    export::Kind,
    history::History,
    language::{Own, looked_up},
    outline::{Joint, Span},
    say,
    units::{Denominator, System},
};
use core::f64::consts::FRAC_PI_2;
use kurbo::{Point, Vec2};

/// A command of the page. Those that leave the page (files, links, the clipboard) are carried out by the browser.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Command {
    /// Takes back the last step.
    Undo,
    /// Brings back what was undone.
    Redo,
    /// Adds a node on the selected span, where it was touched.
    AddNode,
    /// Deletes the selected node.
    DeleteNode,
    /// Makes the selected node a corner, or smooth again.
    ToggleCorner,
    /// Makes the selected span straight, or a curve again.
    ToggleStraight,
    /// Makes the tail the nose reversed, or lets the two differ.
    ToggleTwin,
    /// Makes the selected span a batten, or cubics with handles.
    ToggleBatten,
    /// Draws stretches anew with the pen, or drags nodes.
    ToggleRedraw,
    /// Marks the selected node as one end of a stretch.
    MarkStretch,
    /// Fairs the stretch between the marked node and the selected one.
    Fair,
    /// Stops drags at lines, or not.
    ToggleSnap,
    /// Selects the next node toward the nose.
    NextNode,
    /// Selects the next node toward the tail.
    PreviousNode,
    /// Shows millimetres.
    Millimetres,
    /// Shows inches.
    Inches,
    /// Shows or hides the curvature comb.
    ToggleComb,
    /// Moves by fine steps, or by normal ones.
    ToggleFine,
    /// Locks the drawing against stray sleeves, or unlocks it.
    ToggleLock,
    /// Shows the whole deck.
    Fit,
    /// Comes nearer.
    ZoomIn,
    /// Goes farther away.
    ZoomOut,
    /// Pushes the window left, right, up or down on the screen.
    PanLeft,
    /// See [`Command::PanLeft`].
    PanRight,
    /// See [`Command::PanLeft`].
    PanUp,
    /// See [`Command::PanLeft`].
    PanDown,
    /// Opens a fresh copy of the first demo deck.
    OpenTurnstone,
    /// Opens a fresh copy of the second demo deck.
    OpenWhimbrel,
    /// Opens a fresh copy of the third demo deck.
    OpenDunlin,
    /// Keeps the present shape as a version, with today's date.
    KeepVersion,
    /// Keeps the marked stretch as a sweep.
    KeepSweep,
    /// Adds a sweep that is a circular arc.
    AddArc,
    /// Adds a sweep that is a quarter of an ellipse.
    AddEllipse,
    /// Adds a sweep that is a quarter of a superellipse.
    AddSuperellipse,
    /// Adds a sweep that is a clothoid.
    AddClothoid,
    /// Turns the selected laid sweep end for end.
    ReverseSweep,
    /// Turns the selected laid sweep over, so that it bends the other way.
    TurnSweepOver,
    /// Makes the selected laid sweep a stretch of its own.
    FreeSweep,
    /// Locks the mould card, or unlocks it.
    ToggleMouldLock,
    /// Puts one more ply into the stack.
    AddPly,
    /// Lays up five plies.
    LayUpFive,
    /// Lays up seven plies.
    LayUpSeven,
    /// Lays up nine plies.
    LayUpNine,
    /// Begins the record of a deck, with today's date.
    BeginRecord,
    /// Copies a link that carries the shape.
    CopyLink,
    /// Saves the design as a file.
    SaveFile,
    /// Opens a file.
    OpenFile,
    /// Exports the chosen part as SVG at true scale.
    ExportSvg,
    /// Exports the chosen part as DXF at true scale.
    ExportDxf,
    /// Exports the chosen part as PDF at true scale.
    ExportPdf,
    /// Exports the table of the chosen part.
    ExportCsv,
    /// Exports the build sheet as PDF.
    ExportSheet,
    /// Prints the build sheet from the browser.
    PrintSheet,
    /// Shows the deck at full size on the screen.
    TrueSize,
    /// Makes the bar that is held against a card longer, or shorter, by one pixel.
    CardLonger,
    /// See [`Command::CardLonger`].
    CardShorter,
    /// Chooses a file of measurements or a drawing to bring in.
    ChooseShape,
    /// Takes the shape that is brought in.
    TakeShape,
    /// Leaves it.
    LeaveShape,
    /// Keeps a design that came with a link.
    KeepCopy,
    /// Goes back from a design that came with a link to the one before.
    GoBack,
    /// Opens the link that was pasted into the page.
    OpenLink,
    /// Shows everything black on white and large, or as the system has it.
    ToggleWorkshop,
    /// Puts the first steps away for ever.
    EndGuide,
    /// Changes to the new release of the page that the browser has ready.
    TakeRelease,
}

/// Every command with its name in the page's hooks and the words on its button.
const COMMANDS: &[(Command, &str, &str)] = &[
    (Command::Undo, "undo", "Undo"),
    (Command::Redo, "redo", "Redo"),
    (Command::AddNode, "add-node", "Add a node here"),
    (Command::DeleteNode, "delete-node", "Delete node"),
    (Command::ToggleCorner, "toggle-corner", "Corner"),
    (Command::ToggleStraight, "toggle-straight", "Straight"),
    (Command::ToggleBatten, "toggle-batten", "Batten"),
    (Command::ToggleRedraw, "redraw", "Redraw by hand"),
    (Command::MarkStretch, "mark-stretch", "Stretch from here"),
    (Command::Fair, "fair", "Fair the stretch"),
    (Command::ToggleSnap, "toggle-snap", "Stop at lines"),
    (Command::ToggleTwin, "toggle-twin", "Twin"),
    (Command::NextNode, "next-node", "Next node"),
    (Command::PreviousNode, "previous-node", "Previous node"),
    (Command::Millimetres, "units-mm", "mm"),
    (Command::Inches, "units-inch", "inch"),
    (Command::ToggleComb, "toggle-comb", "Curvature comb"),
    (Command::ToggleFine, "toggle-fine", "Fine steps"),
    (Command::ToggleLock, "toggle-lock", "Lock"),
    (Command::Fit, "fit", "Whole deck"),
    (Command::ZoomIn, "zoom-in", "Nearer"),
    (Command::ZoomOut, "zoom-out", "Farther"),
    (Command::PanLeft, "pan-left", "Look left"),
    (Command::PanRight, "pan-right", "Look right"),
    (Command::PanUp, "pan-up", "Look up"),
    (Command::PanDown, "pan-down", "Look down"),
    (Command::OpenTurnstone, "open-turnstone", "Turnstone"),
    (Command::OpenWhimbrel, "open-whimbrel", "Whimbrel"),
    (Command::OpenDunlin, "open-dunlin", "Dunlin"),
    (Command::KeepVersion, "keep-version", "Keep as a version"),
    (Command::KeepSweep, "keep-sweep", "Keep the stretch"),
    (Command::AddArc, "add-arc", "Circular arc"),
    (Command::AddEllipse, "add-ellipse", "Ellipse"),
    (Command::AddSuperellipse, "add-superellipse", "Superellipse"),
    (Command::AddClothoid, "add-clothoid", "Clothoid"),
    (Command::ReverseSweep, "reverse-sweep", "End for end"),
    (Command::TurnSweepOver, "turn-sweep-over", "Turn over"),
    (Command::FreeSweep, "free-sweep", "Set free"),
    (Command::ToggleMouldLock, "lock-mould", "Lock the mould card"),
    (Command::AddPly, "add-ply", "One more ply"),
    (Command::LayUpFive, "lay-up-five", "Five plies"),
    (Command::LayUpSeven, "lay-up-seven", "Seven plies"),
    (Command::LayUpNine, "lay-up-nine", "Nine plies"),
    (Command::BeginRecord, "begin-record", "A deck goes in"),
    (Command::CopyLink, "copy-link", "Copy link"),
    (Command::SaveFile, "save-file", "Save file"),
    (Command::OpenFile, "open-file", "Open file"),
    (Command::ExportSvg, "export-svg", "Picture (SVG)"),
    (Command::ExportDxf, "export-dxf", "Contours (DXF)"),
    (Command::ExportPdf, "export-pdf", "Paper (PDF)"),
    (Command::ExportCsv, "export-csv", "Table (CSV)"),
    (Command::ExportSheet, "export-sheet", "Build sheet (PDF)"),
    (Command::PrintSheet, "print-sheet", "Print"),
    (Command::TrueSize, "true-size", "Full size"),
    (Command::CardLonger, "card-longer", "Longer"),
    (Command::CardShorter, "card-shorter", "Shorter"),
    (Command::ChooseShape, "choose-shape", "Choose a table or a drawing"),
    (Command::TakeShape, "take-shape", "Take this shape"),
    (Command::LeaveShape, "leave-shape", "Leave it"),
    (Command::KeepCopy, "keep-copy", "Keep it"),
    (Command::GoBack, "go-back", "Back to mine"),
    (Command::OpenLink, "open-link", "Open link"),
    (Command::ToggleWorkshop, "toggle-workshop", "Workshop theme"),
    (Command::EndGuide, "end-guide", "Begin"),
    (Command::TakeRelease, "take-release", "Use it"),
];

/// One press of a zoom button.
const ZOOM_STEP: f64 = 1.5;
/// One press of a pan button, px.
const PAN_STEP: f64 = 120.0;

impl Command {
    /// The command of that name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        COMMANDS.iter().find(|row| row.1 == name).map(|row| row.0)
    }

    /// All names with the words on their buttons.
    pub fn all() -> impl Iterator<Item = (Self, &'static str, &'static str)> {
        COMMANDS.iter().copied()
    }
}

impl Editor {
    /// Whether a command can do anything now.
    #[must_use]
    pub fn can(&self, command: Command) -> bool {
        let outline = &self.history.design().shape().outline;
        let node = match self.selection {
            Some(Target::Node(i)) => Some(i),
            _ => None,
        };
        match command {
            Command::Undo => self.history.undo_name().is_some(),
            Command::Redo => self.history.redo_name().is_some(),
            Command::AddNode => matches!(self.selection, Some(Target::Span(..))) && !self.settings.locked,
            Command::MarkStretch => node.is_some(),
            Command::Fair => self.stretch().is_some() && !self.settings.locked,
            Command::KeepSweep => self.stretch().is_some() && !self.settings.locked,
            Command::ToggleRedraw
            | Command::AddArc
            | Command::AddEllipse
            | Command::AddSuperellipse
            | Command::AddClothoid => !self.settings.locked,
            Command::ReverseSweep | Command::TurnSweepOver | Command::FreeSweep => {
                self.laid_words().is_some() && !self.settings.locked
            }
            Command::TakeShape => self.can_take(),
            Command::LeaveShape => self.can_leave(),
            Command::ExportSvg => self.can_save(Kind::Svg),
            Command::ExportDxf => self.can_save(Kind::Dxf),
            Command::ExportPdf => self.can_save(Kind::Pdf),
            Command::ExportCsv => self.can_save(Kind::Csv),
            Command::ExportSheet | Command::PrintSheet => !matches!(self.sheet(), Some(Err(_))),
            Command::DeleteNode => {
                node.is_some_and(|i| i > 0 && i + 1 < outline.nodes.len()) && !self.settings.locked
            }
            Command::ToggleCorner => node.is_some() && !self.settings.locked,
            Command::ToggleStraight | Command::ToggleBatten => {
                matches!(self.selection, Some(Target::Span(..))) && !self.settings.locked
            }
            _ => true,
        }
    }

    /// Whether a command that switches something on and off has it on; `None` for the others.
    #[must_use]
    pub fn is_on(&self, command: Command) -> Option<bool> {
        let outline = &self.history.design().shape().outline;
        match command {
            Command::ToggleTwin => Some(outline.twin),
            Command::ToggleRedraw => Some(self.redrawing),
            Command::MarkStretch => Some(self.stretch_from.is_some()),
            Command::ToggleSnap => Some(self.settings.snap),
            Command::ToggleBatten => Some(match self.selection {
                Some(Target::Span(s, _)) => matches!(outline.spans.get(s), Some(Span::Batten { .. })),
                _ => false,
            }),
            Command::ToggleComb => Some(self.settings.comb),
            Command::ToggleFine => Some(self.settings.fine),
            Command::ToggleLock => Some(self.settings.locked),
            Command::ToggleWorkshop => Some(self.settings.workshop),
            Command::ToggleMouldLock => Some(self.mould_is_locked()),
            Command::Millimetres => Some(self.settings.system == System::Millimetres),
            Command::Inches => Some(self.settings.system != System::Millimetres),
            Command::ToggleCorner => Some(match self.selection {
                Some(Target::Node(i)) => outline.nodes.get(i).is_some_and(|n| n.joint == Joint::Corner),
                _ => false,
            }),
            Command::ToggleStraight => Some(match self.selection {
                Some(Target::Span(s, _)) => outline.spans.get(s) == Some(&Span::Straight),
                _ => false,
            }),
            _ => None,
        }
    }
}

pub(super) fn run(editor: &mut Editor, command: Command) {
    if !editor.can(command) {
        return;
    }
    match command {
        Command::Undo => step_back(editor),
        Command::TakeShape => bring::take(editor),
        Command::LeaveShape => bring::leave(editor),
        Command::Redo => step_forward(editor),
        Command::AddNode => nodes::add(editor),
        Command::DeleteNode => nodes::delete(editor),
        Command::ToggleCorner => nodes::toggle_corner(editor),
        Command::ToggleStraight => nodes::toggle_straight(editor),
        Command::ToggleTwin => {
            let twin = !editor.history.design().shape().outline.twin;
            let name = if twin { "made it a twin" } else { "let nose and tail differ" };
            if apply(editor, name, &Edit::SetTwin(twin)) {
                editor.selection = None;
            }
        }
        Command::ToggleBatten => nodes::toggle_batten(editor),
        Command::ToggleRedraw => {
            editor.redrawing = !editor.redrawing;
            editor.laying = None;
            editor.ink.clear();
            let words = "Draw over the edge; where the stroke begins and ends it joins in.";
            editor.say(if editor.redrawing { words } else { "" });
        }
        Command::KeepSweep => sweeps::handle(editor, SweepIntent::Keep { name: String::new() }),
        Command::AddArc => add_sweep(editor, Family::Arc { radius: 100.0, turn: FRAC_PI_2 }),
        Command::AddEllipse => add_sweep(editor, Family::Ellipse { along: 160.0, across: 100.0 }),
        Command::AddSuperellipse => {
            add_sweep(editor, Family::Superellipse { along: 160.0, across: 100.0, exponent: 2.5 });
        }
        Command::AddClothoid => add_sweep(editor, Family::Clothoid { radius: 80.0, length: 120.0 }),
        Command::ReverseSweep => sweeps::handle(editor, SweepIntent::Flip { over: false }),
        Command::TurnSweepOver => sweeps::handle(editor, SweepIntent::Flip { over: true }),
        Command::FreeSweep => sweeps::handle(editor, SweepIntent::Free),
        Command::MarkStretch => stretch::mark(editor),
        Command::Fair => stretch::fair(editor),
        Command::ToggleSnap => editor.settings.snap = !editor.settings.snap,
        Command::NextNode => nodes::walk(editor, 1),
        Command::PreviousNode => nodes::walk(editor, -1),
        Command::Millimetres => editor.settings.system = System::Millimetres,
        Command::Inches => {
            editor.settings.system = System::Inches { denominator: Denominator::default() };
        }
        Command::ToggleComb => editor.settings.comb = !editor.settings.comb,
        Command::ToggleWorkshop => editor.settings.workshop = !editor.settings.workshop,
        Command::EndGuide => editor.settings.guided = true,
        Command::ToggleFine => editor.settings.fine = !editor.settings.fine,
        Command::ToggleLock => {
            editor.settings.locked = !editor.settings.locked;
            editor.say(if editor.settings.locked { "Locked." } else { "Unlocked." });
        }
        Command::Fit => editor.fit(),
        Command::TrueSize => cut::true_size(editor),
        Command::CardLonger => cut::calibrate(editor, editor.card() + 1.0),
        Command::CardShorter => cut::calibrate(editor, editor.card() - 1.0),
        Command::ZoomIn => zoom(editor, ZOOM_STEP),
        Command::ZoomOut => zoom(editor, 1.0 / ZOOM_STEP),
        Command::PanLeft => pan(editor, Vec2::new(PAN_STEP, 0.0)),
        Command::PanRight => pan(editor, Vec2::new(-PAN_STEP, 0.0)),
        Command::PanUp => pan(editor, Vec2::new(0.0, PAN_STEP)),
        Command::PanDown => pan(editor, Vec2::new(0.0, -PAN_STEP)),
        Command::OpenTurnstone => editor.open_fresh(demo::turnstone()),
        Command::OpenWhimbrel => editor.open_fresh(demo::whimbrel()),
        Command::OpenDunlin => editor.open_fresh(demo::dunlin()),
        Command::ToggleMouldLock => editor.toggle_mould_lock(),
        Command::AddPly => shop::add_ply(editor),
        Command::LayUpFive => shop::lay_up(editor, 0),
        Command::LayUpSeven => shop::lay_up(editor, 1),
        Command::LayUpNine => shop::lay_up(editor, 2),
        Command::KeepVersion
        | Command::BeginRecord
        | Command::CopyLink
        | Command::SaveFile
        | Command::OpenFile
        | Command::ChooseShape
        | Command::ExportSvg
        | Command::ExportDxf
        | Command::ExportPdf
        | Command::ExportCsv
        | Command::ExportSheet
        | Command::PrintSheet
        | Command::KeepCopy
        | Command::GoBack
        | Command::OpenLink
        | Command::TakeRelease => {}
    }
}

impl Editor {
    /// Opens a design that has no history yet.
    pub fn open_fresh(&mut self, design: Design) {
        let text = say!("Opened {name}.", name = Own(design.name()));
        self.open(History::new("opened", design));
        self.say(text);
    }
}

/// Makes an edit a step of the history; whether it was accepted.
pub(super) fn apply(editor: &mut Editor, name: &str, edit: &Edit) -> bool {
    match editor.history.design().apply(edit) {
        Ok(design) => {
            editor.say("");
            if &design != editor.history.design() {
                editor.commit(name, design);
            }
            true
        }
        Err(refusal) => {
            editor.refuse(&refusal);
            false
        }
    }
}

fn step_back(editor: &mut Editor) {
    let name = editor.history.undo_name().unwrap_or_default().to_owned();
    if editor.history.undo() {
        editor.say(say!("Undone: {name}.", name = Own(looked_up(&name))));
        editor.last_nudge = None;
        editor.committed();
    }
}

fn step_forward(editor: &mut Editor) {
    let name = editor.history.redo_name().unwrap_or_default().to_owned();
    if editor.history.redo() {
        editor.say(say!("Redone: {name}.", name = Own(looked_up(&name))));
        editor.committed();
    }
}

/// Adds a sweep of a family, of a size that suits a kick: its dimensions are typed then.
fn add_sweep(editor: &mut Editor, family: Family) {
    sweeps::handle(editor, SweepIntent::Add { name: String::new(), family });
}

fn zoom(editor: &mut Editor, factor: f64) {
    let size = editor.view.size;
    let middle = editor.view.to_mm(Point::new(size.width / 2.0, size.height / 2.0));
    editor.view = editor.view.zoomed(middle, factor);
    editor.follow_fit = false;
}

fn pan(editor: &mut Editor, px: Vec2) {
    editor.view = editor.view.panned(editor.view.vector_to_mm(px));
    editor.follow_fit = false;
}
