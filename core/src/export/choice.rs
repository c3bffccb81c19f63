//! What can be chosen about an export: words and lengths under their keys, for fields, scripts and what a browser keeps.

use super::{Export, ExportError, PaperFrom, Part, SheetRecord};
use crate::{
    arcs::markout,
    format::dxf::{self, Curves, DxfError, Release},
    paper::{self, Paper},
    projection::Projection,
    quantities::Quantity,
    sheet::SheetPaper,
    template::{Cut, Guide, HoleKind, OPTIONS},
    units::{System, Unit, decimal_trimmed, parse, whole_nm},
};

/// One of several words.
#[derive(Debug)]
pub struct Choice {
    /// Its key.
    pub key: &'static str,
    /// Its name.
    pub label: &'static str,
    /// What it decides.
    pub help: &'static str,
    /// The words as scripts and as people have them.
    pub options: &'static [(&'static str, &'static str)],
    get: fn(&Export) -> usize,
    set: fn(&mut Export, usize),
}

/// A length with its limits, mm.
#[derive(Clone, Copy, Debug)]
pub struct Length {
    /// What it is.
    pub quantity: &'static Quantity,
    /// Smallest value accepted.
    pub least: f64,
    /// Largest value accepted.
    pub most: f64,
}

/// Every choice, in the order they are asked for.
pub static CHOICES: [Choice; 10] = [
    Choice {
        key: "part",
        label: "Part",
        help: "What the files hold and the drawing shows.",
        options: &[
            (Part::Deck.key(), "Deck"),
            (Part::Template.key(), "Template"),
            (Part::HalfTemplate.key(), "Half template"),
            (Part::SawLine.key(), "Saw line"),
            (Part::Offsets.key(), "Table of offsets"),
            (Part::MarkOut.key(), "Mark-out by compass"),
            (Part::Sheet.key(), "Build sheet"),
        ],
        get: |e| e.part as usize,
        set: |e, i| pick(&mut e.part, &Part::ALL, i),
    },
    Choice {
        key: "projection",
        label: "Outline",
        help: "The flat sheet, for a pattern that lies on the top face; or the plan, for cutting a pressed blank from above.",
        options: &[(Projection::Developed.key(), "Developed"), (Projection::Plan.key(), "Plan, from above")],
        get: |e| e.template.projection as usize,
        set: |e, i| pick(&mut e.template.projection, &[Projection::Developed, Projection::Plan], i),
    },
    Choice {
        key: "cut",
        label: "Cut",
        help: "Which side of the template the router runs on, and what is kept.",
        options: &[
            (Cut::Outside.key(), Cut::Outside.label()),
            (Cut::WindowDeck.key(), Cut::WindowDeck.label()),
            (Cut::WindowOpening.key(), Cut::WindowOpening.label()),
        ],
        get: |e| e.template.cut as usize,
        set: |e, i| pick(&mut e.template.cut, &[Cut::Outside, Cut::WindowDeck, Cut::WindowOpening], i),
    },
    Choice {
        key: "guide",
        label: "Guided by",
        help: "What rides along the template: a bushing in the router’s base, or a bearing on the bit.",
        options: &[(Guide::Bushing.key(), "Guide bushing"), (Guide::Bearing.key(), "Bearing")],
        get: |e| e.template.guide as usize,
        set: |e, i| pick(&mut e.template.guide, &[Guide::Bushing, Guide::Bearing], i),
    },
    Choice {
        key: "holes",
        label: "Bolt holes",
        help: "Holes of the drill’s size, or crosses to centre-punch through.",
        options: &[("holes", "Holes"), ("marks", "Centre marks")],
        get: |e| e.template.holes as usize,
        set: |e, i| pick(&mut e.template.holes, &[HoleKind::Holes, HoleKind::Marks], i),
    },
    Choice {
        key: "dxf-version",
        label: "DXF release",
        help: "Release 2000 says its unit; release 12 is for old machines.",
        options: &[(Release::R2000.key(), "2000"), (Release::R12.key(), "12")],
        get: |e| e.dxf.release as usize,
        set: |e, i| pick(&mut e.dxf.release, &[Release::R2000, Release::R12], i),
    },
    Choice {
        key: "curves",
        label: "DXF curves",
        help: "Lines and arcs suit most machines. Splines are the outline itself; lines alone, what every reader knows.",
        options: &[
            (Curves::Arcs.key(), "Lines and arcs"),
            (Curves::Splines.key(), "Splines"),
            (Curves::Lines.key(), "Lines alone"),
        ],
        get: |e| e.dxf.curves as usize,
        set: |e, i| pick(&mut e.dxf.curves, &[Curves::Arcs, Curves::Splines, Curves::Lines], i),
    },
    Choice {
        key: "paper",
        label: "Paper",
        help: "What is in the printer. A drawing that is larger is spread over sheets; one page, as large as it takes, is for a plotter.",
        options: &[
            paper(0),
            paper(1),
            paper(2),
            paper(3),
            paper(4),
            paper(5),
            paper(6),
            paper(7),
            ("custom", "Sheet of your own size"),
            ("roll", "Roll of your own width"),
            ("one-page", "One page, full size"),
        ],
        get: |e| {
            let named = || Paper::NAMED.iter().position(|row| row.2 == e.paper.paper).unwrap_or(0);
            SHEETS
                .iter()
                .position(|sheet| *sheet == e.paper_from)
                .map_or_else(named, |i| Paper::NAMED.len() + i)
        },
        set: |e, i| {
            e.paper.paper = Paper::NAMED.get(i).map_or(Paper::A4, |row| row.2);
            e.paper_from = PaperFrom::Named;
            pick(&mut e.paper_from, &SHEETS, i.wrapping_sub(Paper::NAMED.len()));
            e.take_own();
        },
    },
    Choice {
        key: "sheet-paper",
        label: "Paper",
        help: "What the build sheet is printed on.",
        options: &[sheet_paper(0), sheet_paper(1)],
        get: |e| e.sheet.paper as usize,
        set: |e, i| pick(&mut e.sheet.paper, &[SheetPaper::A4, SheetPaper::Letter], i),
    },
    Choice {
        key: "sheet-record",
        label: "Record",
        help: "What stands in the press-day record of the sheet: the record marked under Press, else the last one, or lines to write on.",
        options: &[("last", "The one marked, else the last"), ("blank", "Lines to write on")],
        get: |e| usize::from(e.sheet.record == SheetRecord::Blank),
        set: |e, i| e.sheet.record = if i > 0 { SheetRecord::Blank } else { SheetRecord::Last },
    },
];

/// What can be chosen behind the named papers.
const SHEETS: [PaperFrom; 3] = [PaperFrom::Own, PaperFrom::OwnRoll, PaperFrom::OnePage];

/// A paper of the build sheet as a word to choose.
const fn sheet_paper(i: usize) -> (&'static str, &'static str) {
    let (key, label, _) = SheetPaper::NAMED[i];
    (key, label)
}

/// A named paper as a word to choose.
const fn paper(i: usize) -> (&'static str, &'static str) {
    let (key, label, _) = Paper::NAMED[i];
    (key, label)
}

fn pick<T: Copy>(slot: &mut T, all: &[T], i: usize) {
    if let Some(chosen) = all.get(i) {
        *slot = *chosen;
    }
}

/// Every length, in the order they are asked for.
pub fn lengths() -> impl Iterator<Item = Length> {
    let rows = OPTIONS.iter().map(|row| (&row.quantity, (row.least, row.most)));
    let others = [
        (&markout::TOLERANCE, (markout::LEAST, markout::MOST)),
        (&dxf::TOLERANCE, dxf::LIMITS),
        (&paper::MARGIN, (0.0, paper::WIDEST_BAND)),
        (&paper::OVERLAP, (0.0, paper::WIDEST_BAND)),
        (&paper::PAPER_WIDTH, paper::SIDES),
        (&paper::PAPER_HEIGHT, paper::SIDES),
    ];
    rows.chain(others).map(|(quantity, (least, most))| Length { quantity, least, most })
}

impl Choice {
    /// The choice of that key.
    #[must_use]
    pub fn named(key: &str) -> Option<&'static Self> {
        CHOICES.iter().find(|choice| choice.key == key)
    }

    /// The word that is chosen.
    #[must_use]
    pub fn get(&self, export: &Export) -> &'static str {
        self.options.get((self.get)(export)).map_or("", |option| option.0)
    }

    /// Chooses a word.
    ///
    /// # Errors
    ///
    /// [`ExportError::NoSuch`] where there is none like that.
    pub fn set(&'static self, export: &mut Export, word: &str) -> Result<(), ExportError> {
        let found = self.options.iter().position(|option| option.0.eq_ignore_ascii_case(word));
        let i = found.ok_or_else(|| ExportError::NoSuch { choice: self, found: word.to_owned() })?;
        (self.set)(export, i);
        Ok(())
    }
}

impl Length {
    /// The length of that key.
    #[must_use]
    pub fn named(key: &str) -> Option<Self> {
        lengths().find(|length| length.quantity.key == key)
    }

    /// Its value, mm.
    #[must_use]
    pub fn get(&self, export: &Export) -> f64 {
        let key = self.quantity.key;
        match OPTIONS.iter().find(|row| row.quantity.key == key) {
            Some(row) => (row.get)(&export.template),
            None if key == dxf::TOLERANCE.key => export.dxf.tolerance,
            None if key == paper::MARGIN.key => export.paper.margin,
            None if key == paper::OVERLAP.key => export.paper.overlap,
            None if key == paper::PAPER_WIDTH.key => export.own[0],
            None if key == paper::PAPER_HEIGHT.key => export.own[1],
            None => export.mark_out,
        }
    }

    /// Sets it, in mm, to the nanometre.
    ///
    /// # Errors
    ///
    /// Outside its limits, or where it is no number.
    pub fn set(&self, export: &mut Export, mm: f64) -> Result<(), ExportError> {
        let key = self.quantity.key;
        if key == dxf::TOLERANCE.key {
            // Its least is finer than a refusal shows.
            let fine = mm >= self.least && mm <= self.most;
            export.dxf.tolerance = if fine { mm } else { return Err(DxfError::Tolerance(mm).into()) };
            return Ok(());
        }
        self.quantity.check(mm, self.least, self.most)?;
        match OPTIONS.iter().find(|row| row.quantity.key == key) {
            Some(row) => (row.set)(&mut export.template, whole_nm(mm)),
            None if key == paper::MARGIN.key => export.paper.margin = whole_nm(mm),
            None if key == paper::OVERLAP.key => export.paper.overlap = whole_nm(mm),
            None if key == paper::PAPER_WIDTH.key => export.own[0] = whole_nm(mm),
            None if key == paper::PAPER_HEIGHT.key => export.own[1] = whole_nm(mm),
            None => export.mark_out = mm,
        }
        export.take_own();
        Ok(())
    }
}

impl Export {
    /// Puts the maker's own size on the paper, where it counts.
    fn take_own(&mut self) {
        let [width, height] = self.own;
        match self.paper_from {
            PaperFrom::Own => self.paper.paper = Paper::Custom(width, height),
            PaperFrom::OwnRoll => self.paper.paper = Paper::Roll(width),
            PaperFrom::Named | PaperFrom::OnePage => {}
        }
    }

    /// Whether what has that key matters to the part.
    #[must_use]
    pub fn uses(&self, key: &str) -> bool {
        let is_template = matches!(self.part, Part::Template | Part::HalfTemplate);
        let template = &self.template;
        let has_holes = is_template && template.cut == Cut::Outside;
        match key {
            "cut" | "guide" | "bit" | "template-thickness" => is_template,
            "bushing" => is_template && template.guide == Guide::Bushing,
            "bearing" => is_template && template.guide == Guide::Bearing,
            "holes" => has_holes,
            "drill" => has_holes && template.holes == HoleKind::Holes || self.part == Part::SawLine,
            "saw-line" => is_template && template.cut != Cut::WindowOpening || self.part == Part::SawLine,
            "paper" | "margin" => self.part != Part::Sheet,
            "paper-width" => matches!(self.paper_from, PaperFrom::Own | PaperFrom::OwnRoll),
            "paper-height" => self.paper_from == PaperFrom::Own,
            "overlap" => {
                let on_one = matches!(self.part, Part::Offsets | Part::MarkOut | Part::Sheet);
                self.paper_from != PaperFrom::OnePage && !on_one
            }
            "mark-out-tolerance" => self.part == Part::MarkOut,
            _ => true,
        }
    }

    /// All that is not as usual, as `key=value` with spaces between, for a browser to keep.
    #[must_use]
    pub fn kept(&self) -> String {
        let usual = Self::default();
        let mut kept = Vec::new();
        for choice in &CHOICES {
            if choice.get(self) != choice.get(&usual) {
                kept.push([choice.key, "=", choice.get(self)].concat());
            }
        }
        for length in lengths() {
            let mm = length.get(self);
            if (mm - length.get(&usual)).abs() > 0.0 {
                kept.push([length.quantity.key, "=", &decimal_trimmed(mm, 6)].concat());
            }
        }
        kept.join(" ")
    }

    /// Takes what [`Export::kept`] gave; what it does not know or cannot take is passed over.
    #[must_use]
    pub fn resumed(text: &str) -> Self {
        let mut export = Self::default();
        for (key, value) in text.split(' ').filter_map(|word| word.split_once('=')) {
            if let Some(choice) = Choice::named(key) {
                let _ = choice.set(&mut export, value);
            } else if let (Some(length), Ok(mm)) =
                (Length::named(key), parse(value, Unit::Length, System::Millimetres))
            {
                let _ = length.set(&mut export, mm);
            }
        }
        export
    }
}
