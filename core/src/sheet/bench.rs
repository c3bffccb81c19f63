//! The second page: all that is done at the bench, in the order of the work.

use super::{
    Desk, GAP, MARGIN,
    column::{Column, FINE, LEADING, SMALL, TEXT},
    laying::laying,
    put_in::put_in,
    record,
    shape::GUTTER,
    sources::Sources,
    stacked,
    work::columns,
};
use crate::{
    cautions::CAUTIONS,
    language::{Own, said},
    leaf::{Leaf, Style, Tone, wrapped},
    say,
};
use kurbo::{Point, Size};

/// The page, and what its figures are worked out from beyond its rows; `None` where it does not hold all in letters of
/// that scale.
pub(super) fn page(desk: &Desk<'_>, size: Size, scale: f64) -> Option<(Leaf, [String; 4])> {
    let width = size.width - 2.0 * MARGIN;
    let mut sources = Sources::default();
    let above =
        [head(desk, width, scale), laying(desk, width, scale), columns(desk, &mut sources, width, scale)];
    let below = small_print(desk, &sources, width, scale);
    let taken: f64 = above.iter().chain([&below]).map(|part| part.size.height + GAP).sum();
    let rest = size.height - 2.0 * MARGIN - taken;
    let record = record::record(desk, width, scale, rest);
    if record.size.height > rest {
        return None;
    }
    let mut page = Leaf::new(size);
    let mut y = MARGIN;
    for part in above {
        stacked(&mut page, &mut y, part);
    }
    stacked(&mut page, &mut y, record);
    page.place(below.clone(), Point::new(MARGIN, size.height - MARGIN - below.size.height));
    Some((page, put_in(desk, &mut sources)))
}

fn head(desk: &Desk<'_>, width: f64, scale: f64) -> Leaf {
    let mut column = Column::new(width, scale);
    let version = desk.version();
    let words = [said("Build sheet, page 2 of 2: the bench"), &version].join(if version.is_empty() {
        ""
    } else {
        ". "
    });
    let plain = Style::plain(TEXT * scale);
    let plain = plain.within(0.6 * width, &words);
    let name = Style::serif(6.0 * scale).within(width - plain.length(&words) - GUTTER, desk.name());
    column.y += 4.6 * scale;
    column.leaf.words(Point::new(0.0, column.y), name, desk.name());
    column.leaf.words_to(Point::new(width, column.y), plain, &words);
    column.gap(1.6);
    column.leaf.line((0.0, column.y), (width, column.y), 0.5, Tone::Ink);
    column.finish()
}

/// Cautions, sources, and the link in letters.
fn small_print(desk: &Desk<'_>, sources: &Sources, width: f64, scale: f64) -> Leaf {
    let mut column = Column::new(width, scale);
    let style = Style::plain(SMALL * scale);
    column.heading(said("Cautions"));
    let strong = Style::bold(SMALL * scale);
    let tab =
        CAUTIONS.iter().map(|caution| strong.length(said(caution.work))).fold(0.0, f64::max) + 3.0 * scale;
    for caution in &CAUTIONS {
        let first = column.y + strong.size * (LEADING - 0.3);
        column.leaf.words(Point::new(0.0, first), strong, said(caution.work));
        for line in wrapped(&caution.words(), style, width - tab) {
            column.y += style.size * LEADING;
            column.leaf.words(Point::new(tab, column.y - 0.3 * style.size), style, &line);
        }
    }
    column.gap(1.2);
    let fine = Style::plain(FINE * scale);
    column.paragraph(fine, &sources.text());
    column.paragraph(fine, &link(desk.input.link));
    column.finish()
}

/// Most letters of a link that anyone types from paper.
const LONGEST_LINK: usize = 400;

fn link(link: &str) -> String {
    let count = link.chars().count();
    if count > LONGEST_LINK {
        return say!(
            "The link to this deck has {count} characters: take it from the code on page 1, or the page.",
            count
        );
    }
    say!("Opens at {link}", link = Own(link))
}
